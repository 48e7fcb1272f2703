# SPDX-License-Identifier: LGPL-2.1-or-later

"""The check report: every check with figure, limit, unit and source, on as many pages as they take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pytest
from plans import plant_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text
from freecad_stacklam.benchsheets.lists.checkreport import figure_text, report_sheets
from freecad_stacklam.lamination.plan.checks import Check

CHECKS = (
    Check("cover", "ok", 12.7, 10.0, "mm", "geometry of the plan", "There is wood over the joint."),
    Check("neck", "stop", 6.0, 5.0, "MPa", "handbook", "The neck breaks: make it thicker."),
    Check("level", "caution", 1.0, 0.5, "mm", "geometry of the plan", "It rocks: scribe the feet."),
    Check("year in the room", "caution", 0.0, 0.0, "", "what was asked for", "Not made yet: ask for it."),
)


def sheets(checks: Sequence[Check] = CHECKS, units: str = "mm", paper: str = "A4") -> list[Sheet]:
    return report_sheets(book_of(replace(plant_stand(), checks=tuple(checks)), paper_named(paper), units))


def lines(of: Sequence[Sheet]) -> list[list[str]]:
    """The texts of each line, from the top, left to right."""
    found: list[list[str]] = []
    for sheet in of:
        rows: dict[float, list[Text]] = {}
        for mark in sheet.marks:
            if isinstance(mark, Text):
                rows.setdefault(round(mark.at[1], 3), []).append(mark)
        found += [[m.text for m in sorted(rows[y], key=lambda m: m.at[0])] for y in sorted(rows, reverse=True)]
    return found


def test_stops_come_first_each_with_figure_limit_unit_and_its_source() -> None:
    said = lines(sheets())
    rows = [line for line in said if len(line) == 5]
    assert rows == [
        ["verdict", "what was looked at", "figure", "limit", "source"],
        ["STOP", "Neck", "6.00 MPa", "5.00 MPa", "[1]"],
        ["CAUTION", "Level", "1 mm", "0.5 mm", "[2]"],
        ["CAUTION", "Year in the room", "–", "–", "[3]"],
        ["OK", "Cover", "12.7 mm", "10 mm", "[2]"],
    ]
    words = [line[0] for line in said]
    assert all(check.says in words for check in CHECKS)
    assert {"[1] handbook", "[2] geometry of the plan", "[3] what was asked for"} <= set(words)


def test_figures_are_read_in_the_units_of_the_job() -> None:
    """NIST SP 811, B.8: 1 psi = 6.894757e-3 MPa, 1 lbf = 4.448222 N; 12.7 mm are half an inch; 10 °C are 50 °F."""
    assert figure_text(12.7, "mm", "in") == "0.5 in"
    assert figure_text(5.0, "MPa", "in") == "725 psi"
    assert figure_text(100.0, "N", "in") == "22 lbf"
    assert figure_text(10.0, "°C", "in") == "50 °F"
    assert figure_text(21_600.0, "s", "mm") == "6 h"
    assert figure_text(0.36, "", "mm") == "0.36"


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_a_long_list_breaks_to_further_pages_and_nothing_covers_anything(units: str, paper: str) -> None:
    many = [replace(CHECKS[i % 4], name=f"check {i}", says=f"{CHECKS[i % 4].says} " * (1 + i % 5)) for i in range(90)]
    of = sheets(many, units, paper)
    assert len(of) > 2 and of[1].title == "Check report, continued"
    names = [line[1] for line in lines(of) if len(line) == 5 and line[0] != "verdict"]
    assert sorted(names) == sorted(f"Check {i}" for i in range(90))
    for sheet in of:
        texts = [m for m in sheet.marks if isinstance(m, Text)]
        for text in texts:
            x0, y0, x1, y1 = text_box(text).bounds
            assert x0 > 5 and y0 > 5 and x1 < sheet.paper[0] - 5 and y1 < sheet.paper[1] - 5, text.text
        boxes = [text_box(text, -0.2) for text in texts]
        assert not any(a.intersects(b) for a, b in combinations(boxes, 2))


def test_without_checks_there_is_no_page() -> None:
    assert sheets(()) == []
