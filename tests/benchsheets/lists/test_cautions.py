# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cautions before the work: no page for a line or two."""

from __future__ import annotations

from dataclasses import replace

from plans import plant_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Text
from freecad_stacklam.benchsheets.lists.cautions import caution_sheets
from freecad_stacklam.lamination.plan.checks import Check


def test_a_page_for_a_line_or_two_is_saved_by_closer_lines() -> None:
    book = book_of(plant_stand(), paper_named("A4"))
    sentence = "Keep the hands behind the edge and the work clamped to the bench."
    pages = [len(caution_sheets(book, [("Work", [f"{i} {sentence}" for i in range(count)])])) for count in range(1, 80)]
    full = pages.index(2)  # the last that go on one page, and how many of them stand there at the usual pitch
    (sheet,) = caution_sheets(book, [("Work", [f"{i} {sentence}" for i in range(full)])])
    levels = [m.at[1] for m in sheet.marks if isinstance(m, Text) and m.text == "•"]
    (loose,) = caution_sheets(book, [("Work", [f"{i} {sentence}" for i in range(5)])])
    usual = [m.at[1] for m in loose.marks if isinstance(m, Text) and m.text == "•"]
    assert levels[0] - levels[1] < usual[0] - usual[1]
    said = " ".join(m.text for m in sheet.marks if isinstance(m, Text))
    assert all(f"{i} Keep" in said for i in range(full))
    assert pages == sorted(pages)


def test_no_heading_is_left_alone_at_the_foot_of_a_page() -> None:
    book = book_of(plant_stand(), paper_named("A4"))
    for count in range(1, 60):
        steps = [("First", [f"{i} Keep the hands behind the edge." for i in range(count)]), ("Second", ["Mind it."])]
        for sheet in caution_sheets(book, steps):
            texts = [m.text for m in sheet.marks if isinstance(m, Text)]
            assert ("Second" in texts) == ("Mind it." in texts)


def test_what_a_check_says_is_not_told_twice() -> None:
    check = Check("Stand: set-up 6, throat", "caution", 99.0, 65.0, "mm", "geometry", "Set-up 6 wants a deeper clamp.")
    (sheet,) = caution_sheets(book_of(replace(plant_stand(), checks=(check,)), paper_named("A4")), [])
    said = " ".join(m.text for m in sheet.marks if isinstance(m, Text))
    assert "CAUTION – Set-up 6 wants a deeper clamp." in said
    assert "set-up 6, throat" not in said
