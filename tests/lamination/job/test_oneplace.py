# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sections and deep check in one report. Which line is kept is the house's own rule: no source outside."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.strength import SectionFinding, StrengthFindings
from freecad_stacklam.lamination.job.oneplace import in_one, same_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.strength.checks import section_checks
from freecad_stacklam.lamination.stress.checks import spot_checks

#: 92 % of 5.5 MPa in a neck of 60 mm.
SECTION = SectionFinding(
    "neck", "Foot", 5, "white oak", (30.0, 0.0, 200.0), "leaning on it", (150.0, 0.0, 400.0), False, 2827.0, 6.4e5,
    6.4e5, 2.1e4, 5.06, 0.0, 0.1, 5.5, None, 90.0, 0.92, 0.0, 0.92, False, "R up", 60.0, 93.0, 0.25,
)  # fmt: skip
SPOT = WeakSpot((25.0, 0.0, 190.0), "Foot", 5, "across the grain", 0.8, 4.4, 5.5, False, "leaning on it",
                (150.0, 0.0, 400.0), (300.0, 0.0, 0.0), "R up")  # fmt: skip
ALONG = replace(SPOT, kind="along the grain", scatter_known=True, index=0.1)


def told(section: SectionFinding, *spots: WeakSpot) -> tuple[Check, ...]:
    strength = StrengthFindings("glued", "stand", (section,))
    return in_one(section_checks(strength), spot_checks(DeepFindings(spots=spots), "mm"))


def test_both_weak_in_one_place_are_one_line_of_the_worse() -> None:
    (one,) = told(SECTION, SPOT)
    assert one.figure == 0.92 and one.says.endswith("The deep check finds 80 %.")
    (other,) = told(replace(SECTION, use=0.6), SPOT)
    assert other.figure == 0.8 and other.says.endswith("By sections it is 60 %.")


def test_two_places_are_two_lines() -> None:
    assert len(told(SECTION, replace(SPOT, layer=2, place=(0.0, 0.0, 60.0)))) == 2
    assert len(told(SECTION, replace(SPOT, stack="Top"))) == 2


@pytest.mark.parametrize(
    ("use", "index", "figure", "end"),
    [
        (0.1, 0.2, 0.2, "By sections it is 10 %."),
        (0.2, 0.1, 0.2, "The deep check finds no more than 10 %."),
        (0.1, 0.6, 0.6, "By sections nothing is above 10 %."),
        (0.6, 0.1, 0.6, "The deep check finds no more than 10 %."),
    ],
)
def test_nothing_weak_has_no_line_beside_a_weakness(use: float, index: float, figure: float, end: str) -> None:
    far = replace(SPOT, index=index, layer=5 if index == 0.2 else 1, place=(0.0, 0.0, 20.0))
    (one,) = told(replace(SECTION, use=use), far)
    assert one.figure == figure and one.says.endswith(end)
    assert one.says.count("as with sandbags") == (1 if max(use, index) < 0.25 else 0)


def test_along_the_grain_stays_beside_it() -> None:
    both = told(SECTION, SPOT, ALONG)
    assert [c.verdict for c in both] == ["caution", "ok"]
    assert len(told(SECTION, replace(ALONG, index=0.95))) == 2  # two strengths, each with its own limit
    assert not same_place(SECTION, replace(SPOT, stack="Top"))
