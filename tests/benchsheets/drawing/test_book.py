# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a book's pages share: papers, units and the plan's revision."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
from plans import plant_stand

from freecad_stacklam.benchsheets.book.contents import LINE_KINDS
from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.benchsheets.drawing.sheet import PENS
from freecad_stacklam.lamination.refusal import Refusal


def test_one_paper_serves_for_all_pages() -> None:
    book = book_of(plant_stand(), paper_named("A3"), "in/16+mm")
    assert book.desk == book.full == paper_named("A3")
    assert book.units == Units("in", 16, both=True)
    assert book.sizes_note == "sizes in inches [mm]"
    assert book.revision == plan_revision(plant_stand())


@pytest.mark.parametrize(("units", "name"), [("mm", "A4"), ("in", "Letter"), ("mm+in", "A4")])
def test_what_is_read_does_not_go_on_a_roll(units: str, name: str) -> None:
    book = book_of(plant_stand(), paper_named("roll 610mm"), units)
    assert (book.desk.name, book.full.name) == (name, "roll 610 mm")


def test_templates_on_a_paper_of_their_own() -> None:
    book = book_of(plant_stand(), paper_named("A4"), full=paper_named("roll 24in"))
    assert (book.desk.name, book.full.roll) == ("A4", True)


def test_units_that_are_not_known_are_refused() -> None:
    with pytest.raises(Refusal, match="cubit"):
        book_of(plant_stand(), paper_named("A4"), "cubit")


def test_the_day_stands_where_the_job_gives_no_date() -> None:
    plan = replace(plant_stand(), date="")
    bare, dated = (book_of(plan, paper_named("A4"), day=day) for day in ("", "2026-01-31"))
    assert (bare.plan.date, dated.plan.date) == ("", "2026-01-31")
    assert dated.revision == bare.revision  # no revision of the plan
    assert book_of(plant_stand(), paper_named("A4"), day="2026-01-31").plan.date == plant_stand().date


def test_line_kinds_are_told_apart_in_black_and_white() -> None:
    """Two kinds on a template differ in being broken at all, in width 2:1, in the strokes of a period, or 2:1 in their
    longest stroke or gap; strokes and gaps are as long as the eye resolves at arm's length.

    Arithmetic: 5 minutes of arc at 650 mm are 650 · tan(5/60°) = 0.95 mm.
    """
    kinds = [PENS[name] for name, _ in LINE_KINDS if "little wood" not in name]  # hatchings fill areas
    for a, b in combinations(kinds, 2):
        if not a.dashes or not b.dashes:
            assert bool(a.dashes) != bool(b.dashes) or max(a.width, b.width) >= 2 * min(a.width, b.width)
            continue
        strokes = [sorted(round(v) for v in pen.dashes[::2]) for pen in (a, b)]
        ratios = [max(p) / min(p) for p in ([max(a.dashes[i::2]), max(b.dashes[i::2])] for i in (0, 1))]
        assert len(strokes[0]) != len(strokes[1]) or max(ratios) >= 2 or min(strokes[0]) >= 2 * min(strokes[1]) or (
            min(strokes[1]) >= 2 * min(strokes[0])
        ), (a, b)  # fmt: skip
    for name, _ in LINE_KINDS:
        assert name in ("trim", "little wood below") or min(PENS[name].dashes, default=1.0) >= 0.95
