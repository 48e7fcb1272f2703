# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said to the maker."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.opinion import SecondOpinion
from freecad_stacklam.lamination.opinion.checks import opinion_checks

FOUND = SecondOpinion(
    (30.0, 0.0, 200.0), "a guest", (100.0, 0.0, 450.0), "across the grain", "across the grain", 0.31, 0.3, 1.7, 1.65,
    0.033,
)  # fmt: skip


def test_two_figures_that_agree_are_both_said() -> None:
    (check,) = opinion_checks(DeepFindings(second_opinion=FOUND), "mm")
    assert check.verdict == "ok" and "31.0 %" in check.says and "30.0 %" in check.says and "(30, 0, 200)" in check.says


def test_two_that_differ_are_a_caution() -> None:
    for index in (0.4, 0.2):
        other = replace(FOUND, index=index, difference=index / 0.3 - 1)
        (check,) = opinion_checks(DeepFindings(second_opinion=other), "in")
        assert check.verdict == "caution" and "they differ by 33 %" in check.says and "30.0 %" in check.says


def test_none_asked_and_none_to_be_had() -> None:
    assert opinion_checks(DeepFindings(), "mm") == ()
    (check,) = opinion_checks(DeepFindings(second_opinion=SecondOpinion(refused="Not here.")), "mm")
    assert check.verdict == "caution" and check.says == "Not here."


@pytest.mark.parametrize("corner", [True, False])
def test_that_a_place_lies_in_an_inner_corner_is_said_where_the_two_differ(corner: bool) -> None:
    spot = WeakSpot(
        FOUND.place, "A", 3, "glue line", 0.3, 1.65, 5.5, False, FOUND.load, FOUND.load_place, (0.0, 0.0, -600.0),
        "R up", corner=corner,
    )  # fmt: skip
    other = replace(FOUND, index=0.2, difference=-1 / 3)
    (check,) = opinion_checks(DeepFindings(spots=(spot,), second_opinion=other), "mm")
    assert check.verdict == "caution" and ("inner corner" in check.says) == corner
    assert ("finer cells." in check.says) != corner
