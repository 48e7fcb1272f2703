# SPDX-License-Identifier: LGPL-2.1-or-later

"""The book: order, page numbers, contents, and the index that plan.json carries."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
import shapely
from plans import large_stack, plant_stand, worked_stand

from freecad_stacklam.benchsheets.book.index import sheet_index
from freecad_stacklam.benchsheets.book.whole import KINDS, drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import SCALES, paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.whole import Plan

SAID = ("Wear eye protection, hearing protection and a dust mask.", "Read your machine's manual. " * 12)
CAUTIONS = (("Before the work", SAID),)


def checked() -> Plan:
    checks = (
        Check("containment", "ok", 3.05, 0.0, "mm", "own proof", "The form lies inside its blanks."),
        Check("neck", "stop", 6.0, 5.0, "MPa", "handbook", "The neck breaks across the grain."),
    )
    return replace(plant_stand(), checks=checks)


@cache
def checked_book() -> tuple[Sheet, ...]:
    return drawing_book(checked(), paper_named("A4"), cautions=CAUTIONS)


def said(sheet: Sheet) -> list[str]:
    return [m.text for m in sheet.marks if isinstance(m, Text)]


def test_order_and_numbers() -> None:
    book = checked_book()
    kinds = list(dict.fromkeys(s.kind for s in book))
    assert kinds == ["contents", "cautions", "overview", "bill", "template", "layer", "joint", "checks"]
    assert [s.page for s in book] == list(range(1, len(book) + 1))
    assert {s.pages for s in book} == {len(book)}
    for sheet in book:
        assert any(f"sheet {sheet.page} of {len(book)}" in text for text in said(sheet))
    layers = [(s.stack, s.layer) for s in book if s.kind == "template"]
    assert list(dict.fromkeys(layers)) == [("Pedestal", i) for i in range(1, 11)] + [("Top", 1), ("Top", 2)]


def said_in(contents: Sheet) -> dict[str, str]:
    """What is on which pages, as the contents say."""
    words = [m for m in contents.marks if isinstance(m, Text)]
    pages = {m.at[1]: m.text for m in words if m.text.replace(" to ", "").isdigit()}
    return {m.text: pages[m.at[1]] for m in words if m.at[1] in pages and m.text != pages[m.at[1]]}


def test_contents_give_the_right_pages() -> None:
    book = checked_book()
    (contents,) = (s for s in book if s.kind == "contents")
    rows = said_in(contents)
    for stack, count in (("Pedestal", 10), ("Top", 2)):
        for number in range(1, count + 1):
            made = [s for s in book if (s.stack, s.layer) == (stack, number) and s.kind in ("template", "layer")]
            assert made[-1].kind == "layer" and {s.kind for s in made[:-1]} == {"template"}  # the maker's order
            pages = [s.page for s in made]
            wanted = f"{pages[0]}" if len(pages) == 1 else f"{pages[0]} to {pages[-1]}"
            assert rows[f"{stack}, layer {number}: template, then sheet with sizes"] == wanted


def test_contents_of_many_layers_stay_on_one_page() -> None:
    plan = replace(large_stack(60, 40, 150, 120), checks=checked().checks)
    book = drawing_book(plan, paper_named("A4"), cautions=CAUTIONS)
    (contents,) = (s for s in book if s.kind == "contents")
    pages = [s.page for s in book if s.kind in ("template", "layer")]
    assert said_in(contents)["Large, full-size templates and sheets with sizes"] == f"{pages[0]} to {pages[-1]}"
    assert book[1].kind == "cautions"


def test_index_is_what_plan_json_holds() -> None:
    book = drawing_book(checked(), paper_named("A4"), full=paper_named("roll 610mm"), cautions=CAUTIONS)
    index = sheet_index(book)
    assert json.loads(json.dumps(index)) == index
    for entry, sheet in zip(index, book, strict=True):
        assert {"page", "kind", "stack", "layer", "tile", "paper", "scale", "origin", "turn"} <= set(entry)
        assert entry["paper"] == pytest.approx(sheet.paper)
        if entry["kind"] == "template":
            assert (entry["scale"], entry["turn"] in (0.0, 90.0)) == (1.0, True)
            assert entry["paper"][0] == 610
            assert sheet.to_stack(0.0, 0.0) == pytest.approx(entry["origin"], abs=1e-5)
        elif entry["kind"] == "layer":
            assert (round(1 / entry["scale"]) in SCALES, entry["turn"]) == (True, 0.0)
            assert sheet.to_stack(0.0, 0.0) == pytest.approx(entry["origin"], abs=1e-5)
        else:
            assert entry["origin"] is None


@pytest.mark.parametrize(
    ("paper", "units"),
    [("A4", "mm"), ("Letter", "in"), ("A2", "mm"), ("E", "in/64"), ("Letter", "in/16+mm"), ("A4", "mm+in")],
)
def test_nothing_lies_on_anything_else(paper: str, units: str) -> None:
    worked = replace(worked_stand(), checks=checked().checks)
    bare = ("template",)
    for sheet in [*drawing_book(checked(), paper_named(paper), units, cautions=CAUTIONS, without=bare),
                  *drawing_book(worked, paper_named(paper), units, without=bare)]:  # fmt: skip
        page = shapely.box(9.9, 9.2, sheet.paper[0] - 9.9, sheet.paper[1] - 9.9)
        words = [m for m in sheet.marks if isinstance(m, Text)]
        boxes = [text_box(m, room=-0.15) for m in words]
        outside = [m.text for m, box in zip(words, boxes) if not page.contains(box)]
        assert not outside, f"{outside} leave the page of {sheet.title}"
        one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
        pairs = [(words[a].text, words[b].text) for a, b in zip(one, other) if a < b]
        assert not pairs, f"{pairs} lie on each other in {sheet.title}"


def test_overview_shows_every_layer_and_glue_line() -> None:
    # Scales of ISO 5455 for reduction: 1:2, 1:5, 1:10 and their tenfolds (from memory).
    assert set(SCALES) == {1, 2, 5, 10, 20, 50, 100, 200}
    book = drawing_book(plant_stand(), paper_named("A4"), without=("template", "layer"))
    sheet = next(s for s in book if s.kind == "overview" and s.stack == "Pedestal")
    words = said(sheet)
    assert {str(i) for i in range(1, 11)} <= set(words)
    assert {str(45 * i) for i in range(11)} <= set(words)
    assert sheet.scale == 1 / 5
    assert any("mortise from 375 to 450 mm, tenon 127 mm long" in w for w in words)
    blanks = [m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "cut"]
    assert len(blanks) == 20  # ten from the front, ten from the right
    front = blanks[:10]
    widths = [max(p[0] for p in m.points) - min(p[0] for p in m.points) for m in front]
    for width, layer in zip(widths, plant_stand().stacks[0].layers, strict=True):
        x0, _, x1, _ = shapely.union_all([layer.shadow]).bounds
        assert width * 5 == pytest.approx(x1 - x0 + 6.4, abs=0.1)  # allowance 3 and guard 0.2 on both sides
    assert len([m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise hidden"]) == 2


def test_many_thin_layers_stay_legible() -> None:
    book = drawing_book(large_stack(120, 40, 300, 200), paper_named("A4"), without=("template", "layer"))
    sheet = next(s for s in book if s.kind == "overview")
    boxes = [text_box(m, room=-0.15) for m in sheet.marks if isinstance(m, Text)]
    assert not any(a.intersects(b) for a, b in combinations(boxes, 2))


def test_bill_and_cautions_are_complete() -> None:
    plan, book = checked(), checked_book()
    bill = [w for s in book if s.kind == "bill" for w in said(s)]
    for row in plan.bill:
        assert any(row.name in w for w in bill)
        if row.board_feet is not None:
            assert f"{row.board_feet:.2f}" in bill
    cautions = " ".join(w for s in book if s.kind == "cautions" for w in said(s))
    assert "STOP – The neck breaks across the grain." in cautions
    assert book[1].kind == "cautions", "before the first cut"
    report = " ".join(" ".join(w for s in book if s.kind == "checks" for w in said(s)).split())
    fine = [c for c in plan.checks if c.verdict == "ok"]
    assert fine and all(c.name not in cautions for c in fine)
    assert all(f"{c.name[0].upper()}{c.name[1:]}" in report for c in plan.checks)
    assert "STOP Neck 6.00 MPa 5.00 MPa" in report and book[-1].kind == "checks"
    for caution in SAID:
        for word in caution.split():
            assert word in cautions
    assert "Wear eye protection, hearing protection and a dust mask." in cautions


def test_a_few_cautions_are_no_page_of_their_own() -> None:
    """With more and more of them there is never a page whose lettering would have stood on the one before, and a second
    page comes only when the smallest lettering fills the first."""
    usual, found = 2.5, []
    for count in range(4, 60, 2):
        cautions = tuple(f"Caution {i}: mind the hands, the eyes, the ears and the lungs." for i in range(count))
        book = drawing_book(
            replace(checked(), stacks=(), joints=()), paper_named("Letter"), cautions=(("Work", cautions),)
        )
        pages = [s for s in book if s.kind == "cautions"]
        words = " ".join(" ".join(w for s in pages for w in said(s)).split())
        assert all(f"Caution {i}: " in words for i in range(count))
        (height,) = {round(m.height, 3) for s in pages for m in s.marks if isinstance(m, Text) and m.text == "•"}
        found.append((len(pages), height))
    assert found[0] == (1, usual) and [pages for pages, _ in found] == sorted(pages for pages, _ in found)
    assert {h for pages, h in found if pages == 1} == {usual, 2.3, 2.1}
    assert next(height for pages, height in found if pages == 2) == usual


def test_long_lists_go_on_over_the_page() -> None:
    plan = large_stack(60, 40, 150, 120)
    from plans import bill_of

    book = drawing_book(replace(plan, bill=bill_of(plan.stacks)), paper_named("A4"), cautions=CAUTIONS * 12,
                        without=("template", "layer"))  # fmt: skip
    assert sum(s.kind == "bill" for s in book) == 3, "two of rows, one of how they are found"
    assert sum(s.kind == "cautions" for s in book) >= 2


def test_a_sheet_that_sends_someone_to_a_machine_says_what_to_mind() -> None:
    book = drawing_book(worked_stand(), paper_named("A4"), without=("template",))
    for kind, word in (("layer", "Band saw:"), ("joint", "Drill:")):
        words = " ".join(" ".join(w for s in book if s.kind == kind for w in said(s)).split())
        assert word in words and "the manual, your local rules and licensed practice come first" in words, kind


def test_kinds_that_are_left_out_take_their_sheets_and_no_others() -> None:
    plan = replace(worked_stand(), checks=checked().checks)
    whole = drawing_book(plan, paper_named("A3"))
    kinds = KINDS.keys() & {s.kind for s in whole}
    assert kinds >= {"overview", "bill", "boards", "template", "layer", "joint"}
    for some in (sorted(kinds)[::2], sorted(kinds)[1::2], sorted(kinds)[:3]):
        rest = drawing_book(plan, paper_named("A3"), without=some)
        told = [[(s.kind, s.title, s.tile) for s in book if s.kind != "contents"] for book in (whole, rest)]
        assert told[1] == [sheet for sheet in told[0] if sheet[0] not in some], some
