# SPDX-License-Identifier: LGPL-2.1-or-later

"""The sheet of strength by sections."""

from __future__ import annotations

from functools import cache

import pytest
from weakforms import own, planned, strength, tenoned

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text
from freecad_stacklam.benchsheets.findings.strengthsheet import LIMIT, strength_sheets
from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.strength.necks import LIMIT as USED
from freecad_stacklam.lamination.strength.whole import plan_strength


@cache
def sheets(units: str = "mm", paper: str = "A4") -> tuple[Sheet, ...]:
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    return tuple(strength_sheets(book_of(plan, paper_named(paper), units), found))


def words(of) -> str:
    return " ".join(m.text for s in of for m in s.marks if isinstance(m, Text))


def test_it_says_what_was_found_and_never_that_it_holds() -> None:
    told = words(sheets())
    for part in ("The worst places", "Joints: alone", "tension across the grain", "never a compliance test", "own"):
        assert part in told
    assert LIMIT == USED


def test_inches_have_no_metric_figures() -> None:
    told = words(sheets("in", "Letter"))
    assert "psi" in told and "MPa" not in told and "kN" not in told


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter"), ("mm", "A3")])
def test_nothing_is_set_beyond_the_margins(units: str, paper: str) -> None:
    for sheet in sheets(units, paper):
        for mark in sheet.marks:
            if isinstance(mark, Text):
                x0, y0, x1, y1 = text_box(mark).bounds
                assert x0 > 5 and y0 > 5 and x1 < sheet.paper[0] - 5 and y1 < sheet.paper[1] - 5, mark.text


def test_wood_that_is_not_known_leaves_a_page_of_words() -> None:
    from weakforms import boxes

    forms = {"Post": boxes([(0, 0, 60, 60, 0, 180)])}
    found = strength(forms, own(push=1.0), species="sugar maple")
    plan, _ = planned(forms, species="sugar maple")
    assert "is not judged" in words(strength_sheets(book_of(plan, paper_named("A4")), found))
