# SPDX-License-Identifier: LGPL-2.1-or-later

"""The judge of a cutting plan finds what a planner could get wrong."""

from __future__ import annotations

from dataclasses import replace

from woodyard import for_sale, stave

from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.plan.boards import BoardPiece
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings(shortest_to_machine=0.0)


def good() -> tuple:
    staves = [stave("a", 400.0, 90.0, glued_edges=1), stave("b", 300.0, 60.0), stave("c", 200.0, 70.0)]
    board = Board("A", 200.0, 1000.0, 48.0, "oak", 9.0, knots=(Knot(500.0, 150.0, 100.0, 50.0),))
    plan = plan_cutting(staves, Rack((board,)), SHOP)
    assert cutcheck.faults_of(plan) == []
    return plan, plan.plan[0]


def changed(plan, board, number: int, **more: float):
    pieces = list(board.pieces)
    pieces[number] = replace(pieces[number], **more)
    return replace(plan, plan=(replace(board, pieces=tuple(pieces)),))


def test_the_judge_rejects_every_kind_of_fault() -> None:
    plan, board = good()
    first = board.pieces[0]

    def says(wrong, words: str) -> bool:
        return any(words in f for f in cutcheck.faults_of(wrong))

    assert says(changed(plan, board, 0, x=10.0), "does not lie on the board")
    assert says(changed(plan, board, 0, x=1000.0 - 25.0 - first.length + 0.5), "does not lie on the board")
    assert says(changed(plan, board, 0, y=-0.5), "does not lie on the board")
    assert says(changed(plan, board, 0, length=first.length - 0.5), "is smaller than its stave")
    assert says(changed(plan, board, 0, width=first.width - 0.5), "is smaller than its stave")
    assert says(replace(plan, plan=(replace(board, knots=((first.x + 10, first.y + 10, 20.0, 20.0),)),)), "on a knot")
    assert says(replace(plan, plan=(replace(board, thickness=40.0),)), "thicker than the board")
    assert says(replace(plan, plan=(replace(board, species="ash"),)), "another species")
    assert says(replace(plan, plan=(replace(board, pieces=board.pieces[1:]),)), "is not cut")
    assert says(replace(plan, plan=(board, board)), "is cut 2 times")
    near = changed(plan, board, 1, x=first.x + first.length + 2.0, y=first.y)
    assert says(near, "less than a kerf apart")
    assert says(replace(plan, staves=(*plan.staves, plan.staves[0])), "the same name")


def test_the_judge_rejects_a_pinwheel_that_no_saw_can_part() -> None:
    """Four rectangles around a square: apart, inside, and yet without one cut from edge to edge."""
    places = [(30.0, 0.0, 300.0, 90.0), (340.0, 0.0, 90.0, 300.0), (130.0, 310.0, 300.0, 90.0)]
    places.append((30.0, 100.0, 90.0, 300.0))
    staves = [stave(f"s{i}", dx, dy) for i, (_, _, dx, dy) in enumerate(places)]
    board = Board("A", 400.0, 500.0, 48.0, "oak", 9.0)
    plan = plan_cutting(staves, Rack((board, for_sale(400.0, 500.0))), SHOP)
    pieces = tuple(BoardPiece(f"s{i}", 1, *p) for i, p in enumerate(places))
    pinwheel = replace(plan, plan=(replace(plan.plan[0], width=400.0, length=500.0, pieces=pieces),))
    faults = cutcheck.faults_of(pinwheel)
    assert faults and all("the cuts run through" in f or "is not parted" in f for f in faults)
