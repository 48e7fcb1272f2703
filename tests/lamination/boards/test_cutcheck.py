# SPDX-License-Identifier: LGPL-2.1-or-later

"""The judge of a cutting plan finds what a planner could get wrong."""

from __future__ import annotations

from dataclasses import replace

import shapely
from shapely.geometry import MultiPolygon
from woodyard import for_sale, stave

from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.plan.boards import BoardPiece
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings(shortest_to_machine=0.0)
RACK = (Board("A", 200.0, 1000.0, 48.0, "oak", 9.0, knots=(Knot(500.0, 150.0, 100.0, 50.0),)),)


def good() -> tuple:
    staves = [stave("a", 400.0, 90.0, glued_edges=1), stave("b", 300.0, 60.0), stave("c", 200.0, 70.0)]
    plan = plan_cutting(staves, Rack(RACK), SHOP)
    assert cutcheck.faults_of(plan, RACK, SHOP) == []
    return plan, plan.plan[0]


def changed(plan, board, number: int, **more: float):
    pieces = list(board.pieces)
    pieces[number] = replace(pieces[number], **more)
    return replace(plan, plan=(replace(board, pieces=tuple(pieces)),))


def test_the_judge_rejects_every_kind_of_fault() -> None:
    plan, board = good()
    first = board.pieces[0]

    def says(wrong, words: str) -> bool:
        return any(words in f for f in cutcheck.faults_of(wrong, RACK, SHOP))

    assert says(changed(plan, board, 0, x=10.0), "does not lie on the board")
    assert says(changed(plan, board, 0, x=1000.0 - 25.0 - first.length + 0.5), "does not lie on the board")
    assert says(changed(plan, board, 0, y=-0.5), "does not lie on the board")
    assert says(changed(plan, board, 0, length=first.length - 0.5), "is smaller than its stave")
    assert says(changed(plan, board, 0, width=first.width - 0.5), "is smaller than its stave")
    assert says(changed(plan, board, 0, x=480.0, y=140.0), "on a knot")
    assert says(replace(plan, plan=(replace(board, thickness=40.0),)), "is no board of the rack")
    assert says(replace(plan, staves=tuple(replace(s, thickness=49.0) for s in plan.staves)), "thicker than the board")
    assert says(replace(plan, staves=tuple(replace(s, species="ash") for s in plan.staves)), "another species")
    assert says(replace(plan, plan=(replace(board, pieces=board.pieces[1:]),)), "is not cut")
    assert says(replace(plan, plan=(board, board)), "is cut 2 times")
    assert says(replace(plan, plan=(board, board)), "is not on the rack so often")
    near = changed(plan, board, 1, x=first.x + first.length + 2.0, y=first.y)
    assert says(near, "less than a kerf apart")
    assert says(replace(plan, staves=(*plan.staves, plan.staves[0])), "the same name")


def test_the_judge_rejects_a_pinwheel_that_no_saw_can_part() -> None:
    """Four rectangles around a square: apart, inside, and yet without one cut from edge to edge."""
    places = [(30.0, 0.0, 300.0, 90.0), (340.0, 0.0, 90.0, 300.0), (130.0, 310.0, 300.0, 90.0)]
    places.append((30.0, 100.0, 90.0, 300.0))
    staves = [stave(f"s{i}", dx, dy) for i, (_, _, dx, dy) in enumerate(places)]
    board = Board("A", 400.0, 500.0, 48.0, "oak", 9.0)
    rack = (board, for_sale(400.0, 500.0))
    plan = plan_cutting(staves, Rack(rack), SHOP)
    pieces = tuple(BoardPiece(f"s{i}", 1, *p) for i, p in enumerate(places))
    pinwheel = replace(plan, plan=(replace(plan.plan[0], width=400.0, length=500.0, pieces=pieces),))
    faults = cutcheck.faults_of(pinwheel, rack, SHOP)
    assert faults and all("the cuts run through" in f or "is not parted" in f for f in faults)


def test_what_a_board_is_like_is_asked_of_the_rack_and_not_of_the_planner() -> None:
    """The planner's own notes say too little trim, and that a rough board comes flat: the judge does not read them."""
    plan, board = good()
    flattering = replace(plan, kerf=0.0, jointing=0.0, plan=(replace(board, end_trim=0.0, flat=True, planed=48.0),))
    assert not any("does not lie" in f for f in cutcheck.faults_of(flattering, RACK, SHOP))
    air = (replace(RACK[0], dried="air"),)
    assert any("does not lie on the board" in f for f in cutcheck.faults_of(flattering, air, SHOP))
    first = min(board.pieces, key=lambda p: p.x)
    at_the_end = changed(flattering, flattering.plan[0], board.pieces.index(first), x=first.x - 1.0)
    assert any("does not lie on the board" in f for f in cutcheck.faults_of(at_the_end, RACK, SHOP))
    unworked = tuple(o for o in board.operations if o.what != "flatten a face, joint an edge")
    unworked = tuple(replace(o, number=i) for i, o in enumerate(unworked, 1))
    lazy = replace(flattering, plan=(replace(flattering.plan[0], operations=unworked),))
    assert any("lies on no flat face" in f for f in cutcheck.faults_of(lazy, RACK, SHOP))
    thin = (replace(RACK[0], surface="rough"),)
    assert any("leaves only 3.0 mm" in f for f in cutcheck.faults_of(plan, thin, replace(SHOP, least_planing=4.0)))


def test_two_staves_in_one_place_are_refused_also_outside_the_blank() -> None:
    """A blank of two squares 100 apart, and a stave of each that runs 60 mm towards the other; and two that only share
    an edge, but for its last digits."""
    blank = MultiPolygon([shapely.box(0, 0, 50, 50), shapely.box(150, 0, 200, 50)])
    one, other = stave("a", 110.0, 50.0), stave("b", 110.0, 50.0)
    one = replace(one, region=((0, 0), (110, 0), (110, 50), (0, 50)))
    other = replace(other, region=((90, 0), (200, 0), (200, 50), (90, 50)))
    assert cutcheck.blank_faults([one, other], blank, "layer") == ["a and b overlap"]
    at, over = 7.405111208168758, 7.4051112081687664
    one = replace(stave("a", 139.63549122875586, 66.64600087351893),
                  region=((74.05111208168769, -69.81774561437794), (74.05111208168769, 69.81774561437794),
                          (over, 69.81774561437794), (at, -69.81774561437794)))  # fmt: skip
    other = replace(
        stave("b", 139.63549122875586, 81.45622328985645),
        region=(
            (at, -69.81774561437794),
            (over, 69.81774561437796),
            (-74.05111208168769, 69.81774561437796),
            (-74.05111208168769, -69.81774561437794),
        ),
    )
    assert cutcheck.blank_faults([one, other], shapely.box(-70, -65, 70, 65), "layer") == []
