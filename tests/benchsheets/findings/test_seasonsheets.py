# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pages of the year in the room: what they say is what was found, and all of it lies on the paper."""

from __future__ import annotations

from dataclasses import replace

import pytest
from seasons import post_and_top, seasons

from freecad_stacklam.benchsheets.drawing.book import Book, book_of
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text, number_sheets
from freecad_stacklam.benchsheets.findings.ownersheet import owner_sheets
from freecad_stacklam.benchsheets.findings.seasonsheet import season_sheets
from freecad_stacklam.benchsheets.findings.seasonwords import care
from freecad_stacklam.benchsheets.findings.yearplot import nice_step, year_plot
from freecad_stacklam.lamination.findings.seasons import MONTHS


def book(units: str = "mm", paper: str = "A4") -> Book:
    plan, _ = post_and_top()
    return book_of(plan, paper_named(paper), units)


def words(sheet: Sheet) -> str:
    return " ".join(" ".join(mark.text for mark in sheet.marks if isinstance(mark, Text)).split())


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_all_lies_on_the_paper_and_the_owner_has_one_page(units: str, paper: str) -> None:
    owner = owner_sheets(book(units, paper), seasons())
    maker = season_sheets(book(units, paper), seasons())
    assert len(owner) == 1
    for sheet in number_sheets([*owner, *maker]):
        for mark in sheet.marks:
            if isinstance(mark, Text):
                assert 0 <= mark.at[0] <= sheet.paper[0] and 0 <= mark.at[1] <= sheet.paper[1]
            elif isinstance(mark, Polyline):
                assert all(0 <= x <= sheet.paper[0] and 0 <= y <= sheet.paper[1] for x, y in mark.points)


def test_the_owner_is_told_the_air_the_movement_and_the_care() -> None:
    said = words(owner_sheets(book("in", "Letter"), seasons())[0])
    assert "tell the maker before it travels" in said
    assert "Post: height, in" in said
    said = words(owner_sheets(book(), seasons())[0])
    for expected in (
        "between 35 and 55 %",
        "Post: height, mm",
        "Top: width, mm",
        "less to",
        "visiting card",
        "radiators",
    ):
        assert expected in said
    assert "tell the maker before it travels" in said  # the last sentence has room


def test_in_an_even_room_the_owner_reads_no_month_twice() -> None:
    even = seasons(months=((20.0, 45.0),) * 12)
    said = words(owner_sheets(book(), even)[0])
    assert "keeps its size" in said and "Planned for a room of 20 °C." in said
    assert not any(m in said for m in MONTHS if m != "March" and m != "May")
    said = words(owner_sheets(book(), seasons())[0])
    months = [m for m in MONTHS if f"about {m}" in said]
    assert len(months) == 2


def test_the_maker_is_told_months_layers_joints_and_the_rule_beside() -> None:
    said = " ".join(words(sheet) for sheet in season_sheets(book(), seasons()))
    found = seasons()
    for layer in found.layers:
        assert f"{layer.stack} {layer.number}" in said
    for advice in found.advice:
        assert advice.says.split(":")[0] in said
    assert "Post to top in Post, along" in said
    assert "Post, dowels at line" in said
    assert "from memory" in said
    assert f"{found.quick[0].found:.1f} points" in said


def test_plots_have_round_steps_and_hold_their_lines() -> None:
    assert [nice_step(s) for s in (5.0, 0.7, 12.0, 3.0)] == pytest.approx([1.0, 0.2, 5.0, 1.0])
    year = tuple(float(v) for v in (3, 4, 5, 6, 7, 8, 7, 6, 5, 4, 3, 3))
    marks = year_plot(10.0, 20.0, 80.0, 40.0, "x", (("a", year),), lambda v: f"{v:g}", zero=(0.0,))
    line = next(m for m in marks if isinstance(m, Polyline) and m.pen == "mortise")
    heights = [y for _, y in line.points]
    assert heights.index(max(heights)) == 5
    assert min(heights) > 25.0 and max(heights) <= 60.0
    assert all(10.0 <= x <= 90.0 for x, _ in line.points)


def test_a_year_that_hardly_changes_looks_so() -> None:
    even = tuple(8.485 + (0.001 if i else 0.0) for i in range(12))
    marks = year_plot(10.0, 20.0, 80.0, 40.0, "x", (("a", even),), lambda v: f"{v:g}", least=2.0)
    steps = [float(m.text) for m in marks if isinstance(m, Text) and m.text.replace(".", "").isdigit()]
    assert all(step == pytest.approx(round(2 * step) / 2) for step in steps)


def test_how_fast_moisture_moves_is_told_in_the_units_of_the_page() -> None:
    told = " ".join(words(sheet) for sheet in season_sheets(book("in", "Letter"), seasons()))
    assert "Diffusion 0.0067 in² a day" in told  # 4.32 mm² / 645.16
    assert "surface 0.1 in a day" in told  # 2.6 mm / 25.4 = 0.10
    assert "mm² a day" not in told


@pytest.mark.parametrize(
    ("humidity", "says"),
    [
        ([45.0] * 12, "between 35 and 55 % of humidity"),
        ([30.0, 58.0] * 6, "between 35 and 55 % of humidity"),
        ([64.0, 76.0] * 6, "between 65 and 75 % of humidity, for which the piece was planned, where"),
        ([22.0] * 12, "between 20 and 25 % of humidity, for which the piece was planned, where"),
    ],
)
def test_the_owner_is_asked_for_the_air_that_the_piece_was_planned_for(humidity: list[float], says: str) -> None:
    found = seasons()
    months = tuple(replace(m, humidity=h) for m, h in zip(found.months, humidity))
    assert says in care(replace(found, months=months), Units("mm"))[0]
