# SPDX-License-Identifier: LGPL-2.1-or-later

"""The standing sheet: every mark on the page, every figure of the findings in a text."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from furniture import four_legs, legs_round, pedestal, plan_of, standing
from solids import ball

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import number, text_box, units_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text, number_sheets
from freecad_stacklam.benchsheets.findings.standsheet import standing_sheets
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.lengths import rounded_up
from freecad_stacklam.lamination.usage.use import UseSettings


def sheets(meshes: Mapping[str, Mesh], kind: str = "stool", paper: str = "A4", units: str = "mm") -> tuple[Sheet, ...]:
    found = standing(meshes, UseSettings(kind))
    return number_sheets(standing_sheets(book_of(plan_of(meshes), paper_named(paper), units), found))


def words(sheet: Sheet) -> list[str]:
    return [mark.text for mark in sheet.marks if isinstance(mark, Text)]


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in")])
@pytest.mark.parametrize("meshes", [four_legs(110.0), four_legs(short=2.0), legs_round(3), pedestal(), {"B": ball()}])
def test_everything_lies_on_the_page(meshes: dict[str, Mesh], paper: str, units: str) -> None:
    for sheet in sheets(meshes, "stand", paper, units):
        for mark in sheet.marks:
            if isinstance(mark, Text):
                x0, y0, x1, y1 = text_box(mark).bounds
                assert x0 > 0, mark
                assert y0 > 0, mark
                assert x1 < sheet.paper[0], mark
                assert y1 < sheet.paper[1], mark


def test_the_figures_are_those_of_the_findings() -> None:
    (sheet,) = sheets(four_legs(110.0))
    (load,) = standing(four_legs(110.0), UseSettings("stool")).pieces[0].loads
    assert load.ratio is not None
    text = words(sheet)
    assert f"{load.ratio:.2f}" in text
    assert "600 N" in text
    assert {"1", "2", "3", "4", "FRONT", "RIGHT"} <= set(text)
    assert "not a compliance test" in " ".join(" ".join(text).split())


def test_a_ball_has_no_loads_and_says_why() -> None:
    (sheet,) = sheets({"Ball": ball()})
    assert any("it rolls" in line for line in words(sheet))


def test_one_broad_foot_has_no_feet_to_level_and_a_hard_floor_is_called_so() -> None:
    told = " ".join(words(sheets(pedestal(), "stand")[0]))
    assert "all feet" not in told
    assert "on a hard floor" in told
    assert "gives by 0" not in told


def test_how_far_the_edge_comes_in_is_rounded_up_as_in_the_checks() -> None:
    pages = sheets(four_legs(110.0), "stool", units="in", paper="Letter")
    shown = [text for page in pages for text in words(page)]
    loads = standing(four_legs(110.0), UseSettings("stool")).pieces[0].loads
    inward = [load.inward for load in loads if load.inward]
    assert inward
    for mm in inward:
        assert number(rounded_up(mm, "in"), units_of("in")) in shown
