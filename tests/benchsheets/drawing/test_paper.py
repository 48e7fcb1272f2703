# SPDX-License-Identifier: LGPL-2.1-or-later

"""Paper sizes against ISO 216 and ANSI/ASME Y14.1, as their tables are printed."""

from __future__ import annotations

import pytest

from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.lamination.refusal import Refusal

# ISO 216:2007, trimmed sizes of the A series, mm.
ISO_216 = {"A4": (210, 297), "A3": (297, 420), "A2": (420, 594), "A1": (594, 841), "A0": (841, 1189)}
# ANSI/ASME Y14.1 flat sheet sizes, in (from memory; size A is US Letter, B is tabloid).
Y14_1 = {"Letter": (8.5, 11), "ANSI B": (11, 17), "C": (17, 22), "D": (22, 34), "E": (34, 44)}


@pytest.mark.parametrize("name", ISO_216)
def test_iso_216(name: str) -> None:
    paper = paper_named(name.lower())
    assert (paper.width, paper.height) == ISO_216[name]
    assert paper.turnable


@pytest.mark.parametrize("name", Y14_1)
def test_ansi_sizes(name: str) -> None:
    paper = paper_named(name)
    assert (paper.width / 25.4, paper.height / 25.4) == pytest.approx(Y14_1[name])


def test_tabloid_is_size_b() -> None:
    assert paper_named("Tabloid") == paper_named("B")


def test_landscape_is_kept() -> None:
    paper = paper_named("A3 landscape")
    assert (paper.width, paper.height, paper.turnable) == (420, 297, False)
    assert (paper_named("US Letter portrait").landscape, paper_named("us letter portrait").turnable) == (False, False)


def test_roll_widths() -> None:
    assert paper_named("roll 610mm").width == 610
    assert paper_named("roll 24 in").width == pytest.approx(609.6)
    assert paper_named('Roll 36"').width == pytest.approx(914.4)
    assert paper_named("roll 61 cm").roll
    assert [paper_named(text).name for text in ("roll 610mm", 'Roll 36"')] == ["roll 610 mm", "roll 36 in"]
    assert paper_named(paper_named("roll 24in").name).width == pytest.approx(609.6)


def test_refusals_are_told_in_the_maker_s_units() -> None:
    """A roll of 610 mm is one of 24 in (24.016 in)."""
    with pytest.raises(Refusal) as wide:
        paper_named("roll 99999mm")
    with pytest.raises(Refusal) as thin:
        paper_named("A4", 0.0)
    assert "such as 24 in." in wide.value.told("in") and "such as 610 mm." in str(wide.value)
    assert "3/8 in suits" in thin.value.told("in") and "10 mm suits" in str(thin.value)
    with pytest.raises(Refusal) as narrow:
        paper_named("A4", 40.0)
    assert not any(" mm" in one.value.told("in") for one in (wide, thin, narrow))


@pytest.mark.parametrize("name", ["A5", "foolscap", "", "A4 sideways"])
def test_unknown_paper_lists_what_is_known(name: str) -> None:
    with pytest.raises(Refusal, match=r"A4, A3, A2, A1, A0, Letter, B .tabloid., C, D, E, or a roll"):
        paper_named(name)


@pytest.mark.parametrize("text", ["roll", "roll wide", "roll -3mm", "roll 99999mm", "roll 100mm"])
def test_impossible_rolls_are_refused(text: str) -> None:
    with pytest.raises(Refusal):
        paper_named(text)


@pytest.mark.parametrize("margin", [0.0, -1.0, float("nan"), 40.0])
def test_margins_that_leave_nothing_are_refused(margin: float) -> None:
    with pytest.raises(Refusal):
        paper_named("A4", margin)
