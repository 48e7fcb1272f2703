# SPDX-License-Identifier: LGPL-2.1-or-later

"""The sheet of strength by sections."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest
from weakforms import own, planned, strength, tenoned

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box, text_width
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text
from freecad_stacklam.benchsheets.findings.strengthsheet import LIMIT, strength_sheets
from freecad_stacklam.benchsheets.findings.strengthtables import places_of
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
    for part in (
        "The worst places",
        "Joints: the tenon alone",
        "tension across the grain",
        "never a compliance test",
        "own",
    ):
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


def test_each_place_has_its_size_and_its_load() -> None:
    """A Ø60 post: 28.3 cm² (π·30²/100), 60 deep, pushed by 300 N."""
    told = words(sheets())
    assert "28.3" in told and "area cm²" in told and "300 N" in told
    assert "all sizes in mm" in told
    told = words(sheets("in", "Letter"))
    # 2827 mm² / 25.4² = 4.38 in²; 300 N / 4.44822 = 67 lbf (NIST SP 811, B.8)
    assert "4.38" in told and "67 lbf" in told and "all sizes in inches" in told and "sizes in in;" not in told


def test_necks_of_one_layer_are_one_row_that_says_how_many() -> None:
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    first = found.sections[0]
    near = replace(first, place=(*first.place[:2], first.place[2] + 5.0), use=first.use * 0.9)
    other = replace(near, layer=first.layer + 1)
    span, far = replace(near, kind="span"), replace(near, kind="span", place=(200.0, 0.0, 0.0))
    groups = places_of(replace(found, sections=(first, near, other, span, far)))
    assert [(g.worst, g.count) for g in groups] == [(first, 2), (other, 1), (span, 1), (far, 1)]


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_no_text_covers_another_and_the_sources_are_whole(units: str, paper: str) -> None:
    (sheet,) = sheets(units, paper)
    texts = [m for m in sheet.marks if isinstance(m, Text)]
    for a, b in combinations(texts, 2):
        assert not text_box(a, -0.15).intersects(text_box(b, -0.15)), (a.text, b.text)
    sources = [m for m in texts if "FPL-GTR-190" in m.text]
    assert sources and all(m.fit is None or text_width(m.text, m.height) <= m.fit for m in sources)
