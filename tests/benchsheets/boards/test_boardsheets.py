# SPDX-License-Identifier: LGPL-2.1-or-later

"""Board pictures and stave maps: pieces, knots and cuts to scale, and a triangle that tells the staves apart."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from plans import plant_stand, worked_stand

from freecad_stacklam.benchsheets.boards.stavemaps import letter_of, triangle_of
from freecad_stacklam.benchsheets.book.whole import KINDS, drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Circle, Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, Operation
from freecad_stacklam.lamination.plan.whole import Plan


def sawn(units: str = "mm") -> Plan:
    """The staves of the worked stand's layer 2 cut from one board of 2000 × 220 with a knot in it."""
    plan = worked_stand(units)
    assert plan.boards is not None
    whole = (0.0, 0.0, 2000.0, 220.0)
    pieces, cuts, at = [], [Operation(1, "crosscut saw", "crosscut", whole, 22.0)], 25.0
    for i, stave in enumerate(plan.boards.staves):
        pieces.append(BoardPiece(stave.id, 1, at, 0.0, stave.length, stave.width))
        at += stave.length
        cuts.append(Operation(2 + i, "crosscut saw", "crosscut", whole, at, (stave.id,)))
        at += 3.0
    part = (25.0, 0.0, plan.boards.staves[0].length, 220.0)
    cuts.append(Operation(5, "table saw", "rip", part, 120.0, (plan.boards.staves[0].id,)))
    knots, offcuts = ((1500.0, 40.0, 90.0, 50.0),), ((at, 0.0, 2000.0 - at, 220.0),)
    board = BoardCut(
        "Oak 1", 220.0, 2000.0, 48.0, "white oak", 60.0, True, tuple(pieces), knots, tuple(cuts), offcuts, end_trim=25.0
    )
    bought = replace(board, board="Oak, yard", on_hand=False, cost=None, knots=(), length=3050.0)
    boards = replace(plan.boards, plan=(board, bought), kerf=3.0, jointing=1.5, yield_=0.61, shortest_to_machine=300.0,
                     short=("Buy one board of white oak, 3050 × 220 mm.",))  # fmt: skip
    return replace(plan, boards=boards)


def pages(plan: Plan, paper: str = "A4", units: str = "mm") -> list[Sheet]:
    others = [kind for kind in KINDS if kind != "boards"]
    return [s for s in drawing_book(plan, paper_named(paper), units, without=others) if s.kind == "boards"]


def said(sheets: list[Sheet]) -> list[str]:
    return [m.text for s in sheets for m in s.marks if isinstance(m, Text)]


def test_boards_to_scale_with_pieces_knots_and_cuts() -> None:
    sheet = next(s for s in pages(sawn()) if s.title == "Boards and saw cuts")
    assert sheet.scale is not None
    boxes = [np.ptp(np.asarray(m.points), axis=0) / sheet.scale for m in sheet.marks
             if isinstance(m, Polyline) and m.closed]  # fmt: skip
    plan = sawn()
    assert plan.boards is not None
    for wanted in ((2000.0, 220.0), (3050.0, 220.0), (90.0, 50.0), *((s.length, s.width) for s in plan.boards.staves)):
        assert any(box == pytest.approx(wanted, abs=0.01) for box in boxes), wanted
    words = said([sheet])
    for name in ("Pedestal 2 a", "Pedestal 2 b", "Pedestal 2 c", "Oak 1 – on hand", "Oak, yard – TO BUY", "22"):
        assert name in words
    assert {"1", "2", "3", "4", "5"} <= set(words)
    rings = [m for m in sheet.marks if isinstance(m, Circle)]
    assert len(rings) == 10  # four crosscuts and a rip on each board
    hatching = [m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "fine" and len(m.points) == 2]
    assert len(hatching) >= 5


def test_crosscuts_are_measured_from_the_left_end() -> None:
    plan = sawn()
    assert plan.boards is not None
    sheet = next(s for s in pages(plan) if s.title == "Boards and saw cuts")
    assert sheet.scale is not None
    board = next(m for m in sheet.marks if isinstance(m, Polyline) and m.closed and m.pen == "thin")
    left = np.asarray(board.points)[:, 0].min()
    drawn = sorted(
        round((m.points[0][0] - left) / sheet.scale, 3)
        for m in sheet.marks
        if isinstance(m, Polyline) and m.pen == "mortise hidden" and m.points[0][0] == m.points[1][0]
    )
    cuts = sorted(c.at for c in plan.boards.plan[0].cuts if c.across)
    assert drawn == pytest.approx(sorted(cuts * 2), abs=0.01)


def test_how_wide_the_machines_take_is_told_or_asked_for() -> None:
    plan = sawn()
    assert plan.boards is not None
    flat = Operation(6, "jointer", "flatten a face, joint an edge", (25.0, 0.0, 400.0, 220.0))
    boards = replace(plan.boards, plan=(replace(plan.boards.plan[0], operations=(flat,)),))
    every = " ".join(said(pages(replace(plan, boards=boards))))
    assert "it is not known how wide your jointer takes" in every and "220 mm" in every
    told = " ".join(said(pages(replace(plan, boards=replace(boards, jointer_width=150.0)))))
    assert "The jointer takes 150 mm" in told and "not known how wide" not in told


def test_boards_wider_than_a_stave_are_told() -> None:
    plan = sawn()
    assert plan.boards is not None
    told = " ".join(said(pages(replace(plan, boards=replace(plan.boards, max_stave=150.0)))))
    assert "Wider than the widest stave, 150 mm: Oak 1, Oak, yard." in " ".join(told.split())
    assert "Wider than" not in " ".join(said(pages(replace(plan, boards=replace(plan.boards, max_stave=220.0)))))


def test_the_lists_are_complete() -> None:
    words = said(pages(sawn()))
    for wanted in ("Boards and pieces", "Boards, step by step", "60.00", "to buy", "rip", "crosscut"):
        assert wanted in words
    every = " ".join(words)
    assert "SHORT: Buy one board of white oak, 3050 × 220 mm." in every
    assert "61 % of the boards used becomes pieces." in every


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in"), ("Letter", "in+mm")])
def test_lists_and_maps_can_be_read(paper: str, units: str) -> None:
    for sheet in pages(sawn(units[:2]), paper, units):
        words = [m for m in sheet.marks if isinstance(m, Text)]
        boxes = [text_box(m, room=-0.15) for m in words]
        page = shapely.box(9.9, 9.2, sheet.paper[0] - 9.9, sheet.paper[1] - 9.9)
        assert not [m.text for m, box in zip(words, boxes) if not page.contains(box)], sheet.title
        one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
        pairs = [(words[a].text, words[b].text) for a, b in zip(one, other) if a < b]
        assert not pairs, f"{pairs} lie on each other in {sheet.title}"


def test_the_triangle_crosses_every_seam_and_tells_the_staves_apart() -> None:
    plan = sawn()
    assert plan.boards is not None
    staves = plan.boards.staves
    triangle = triangle_of(staves)
    for first, second in zip(staves, staves[1:]):
        seam = shapely.intersection(shapely.Polygon(first.region), shapely.Polygon(second.region))
        assert shapely.intersection(triangle, seam).geom_type == "MultiPoint"  # base or side, twice
    # Turned end for end, or in another order, the parts no longer meet: each stave's part is its own.
    parts = [shapely.intersection(triangle, shapely.Polygon(s.region)) for s in staves]
    moved = [shapely.affinity.translate(p, -shapely.Polygon(s.region).centroid.x) for p, s in zip(parts, staves)]
    assert all(a.length > 5 for a in parts)
    for i, a in enumerate(moved):
        for j, b in enumerate(moved):
            turned = shapely.affinity.rotate(b, 180, origin=shapely.Polygon(staves[j].region).centroid)
            assert i == j or not a.equals_exact(b, 1.0)
            assert not a.equals_exact(turned, 1.0)


def test_a_stave_map_shows_each_glued_up_layer() -> None:
    (sheet,) = [s for s in pages(sawn()) if s.title == "Pedestal, stave maps"]
    words = said([sheet])
    assert "Pedestal 2, this face UP" in words and "R" in words
    assert not any("Pedestal 1," in word for word in words)  # of one piece
    assert {"a", "b", "c"} <= set(words)
    assert [letter_of(s) for s in (sawn().boards or worked_stand().boards).staves] == ["a", "b", "c"]  # type: ignore[union-attr]


def test_the_list_of_staves_has_their_places_from_the_reference_corner() -> None:
    """The numbers of the panel, which test_panel.py checks by hand, in the units of the book."""
    for units in ("mm", "in"):
        (sheet,) = [s for s in pages(sawn(units), units=units) if s.title == "Pedestal, places of the staves"]
        words = said([sheet])
        assert f"Pedestal 2, {units}" in words and {"left end", "lower edge", "axis", "heart up", "heart down"} <= set(
            words
        )


def test_without_boards_there_are_no_pages() -> None:
    assert pages(plant_stand()) == []


def test_the_lists_of_boards_say_what_to_mind() -> None:
    words = " ".join(" ".join(said(pages(sawn()))).split())
    assert "Table saw, jointer, planer: guards on" in words
    assert "the manual, your local rules and licensed practice come first" in words
