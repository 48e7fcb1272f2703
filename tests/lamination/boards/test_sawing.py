# SPDX-License-Identifier: LGPL-2.1-or-later

"""The work on a board in its order: done step by step on an uncut board it frees every piece, and nothing short meets a
machine that must not have it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from woodyard import cut_apart, for_sale, stave

from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.boards.gangs import single
from freecad_stacklam.lamination.boards.sawing import RoughBoard, Unsawable, work
from freecad_stacklam.lamination.plan.boards import BoardCut
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()


def replayed(board: BoardCut, kerf: float) -> list[tuple[float, float, float, float]]:
    """What lies on the bench when all cuts are made: x0, y0, x1, y1 of each part."""
    parts = [(0.0, 0.0, board.length, board.width)]
    for step in board.operations:
        x, y, length, width = step.part
        mine = [p for p in parts if p == pytest.approx((x, y, x + length, y + width), abs=1e-6)]
        assert len(mine) == 1, step
        if step.at is None:
            continue
        x0, y0, x1, y1 = mine[0]
        parts.remove(mine[0])
        low, high = (x0, x1) if step.across else (y0, y1)
        two = [(a, b) for a, b in ((low, step.at), (step.at + kerf, high)) if b - a > 1e-6]
        parts += [(a, y0, b, y1) if step.across else (x0, a, x1, b) for a, b in two]
    return parts


@pytest.mark.parametrize("first", ["crosscut", "rip"])
def test_every_piece_comes_free_and_short_parts_meet_no_machine(first: str) -> None:
    staves = cut_apart(np.random.default_rng(11), 3, 2400.0, 190.0, 3.0)
    staves += [stave(f"short {i}", 120.0 + 10 * i, 60.0 + 5 * (i // 3), glued_edges=i % 3) for i in range(9)]
    board = replace(for_sale(195.0, 2500.0), thickness=50.0)
    plan = plan_cutting(staves, Rack((board,)), replace(SHOP, first_cut=first))
    for cut in plan.plan:
        assert [o.number for o in cut.operations] == list(range(1, len(cut.operations) + 1))
        assert all(o.part[2] >= 300.0 - 1e-6 for o in cut.operations if o.machine in ("jointer", "planer", "table saw"))
        assert not any(o.machine == "hand plane" for o in cut.operations)
        parts = replayed(cut, plan.kerf)
        for p in cut.pieces:
            holding = [q for q in parts if q[0] <= p.x + 1e-6 and q[1] <= p.y + 1e-6
                       and q[2] >= p.x + p.length - 1e-6 and q[3] >= p.y + p.width - 1e-6]  # fmt: skip
            assert len(holding) == 1
    assert plan.plan[0].operations[0].machine == ("crosscut saw" if first == "crosscut" else "band saw")


def test_the_days_work_stands_in_its_order() -> None:
    """One board, two stave kinds by hand: ends trimmed, flattened, planed, ripped, jointed, and parted at the end."""
    staves = [stave("a", 180.0, 80.0, glued_edges=1), stave("b", 150.0, 80.0, glued_edges=1)]
    board = Board("A", 120.0, 1000.0, 50.0, "oak")
    (cut,) = plan_cutting(staves, Rack((board,)), SHOP).plan
    assert [(o.machine, o.what, o.at) for o in cut.operations] == [
        ("crosscut saw", "crosscut", 22.0),  # the end's trim of 25, less the kerf
        ("crosscut saw", "crosscut", 358.0),  # 25 + 180 + 3 + 150
        ("jointer", "flatten a face, joint an edge", None),
        ("planer", "plane to thickness", None),
        ("table saw", "rip", 81.5),  # 80 and the jointing of one edge
        ("jointer", "joint the glued edges", None),
        ("crosscut saw", "crosscut", 205.0),
    ]
    assert cut.operations[2].part == (25.0, 0.0, 333.0, 120.0)
    assert cut.operations[5].part == (25.0, 0.0, 333.0, 81.5)


def test_waste_round_blanks_of_one_piece_is_left_to_the_band_saw() -> None:
    """A blank 400 × 150 from a board 180 wide: nothing rips its 30 mm off, and nothing trims what is beside it."""
    (cut,) = plan_cutting([stave("a", 400.0, 150.0)], Rack((Board("A", 180.0, 1000.0, 50.0, "oak"),)), SHOP).plan
    assert [(o.machine, o.at) for o in cut.operations] == [
        ("crosscut saw", 22.0), ("crosscut saw", 425.0), ("jointer", None), ("planer", None)
    ]  # fmt: skip
    assert cut.offcuts == ((428.0, 0.0, 572.0, 180.0),)
    (wide,) = plan_cutting([stave("a", 400.0, 150.0)], Rack((Board("A", 200.0, 1000.0, 50.0, "oak"),)), SHOP).plan
    # 47 mm beside it are worth keeping.
    assert [o.at for o in wide.operations if o.what == "rip"] == [150.0]


def test_no_rip_is_made_where_no_glued_edge_ends() -> None:
    """Ripped first: a blank 400 × 150 beside a stave 400 × 80 with glued edges, on a board 160 wide. The 10 mm over the
    blank are left on; only the stave is ripped to its width, and not along the whole board."""
    staves = [stave("a", 400.0, 150.0), stave("b", 400.0, 80.0, glued_edges=1)]
    rack = Rack((Board("A", 160.0, 1000.0, 50.0, "oak"),))
    (cut,) = plan_cutting(staves, rack, replace(SHOP, first_cut="rip")).plan
    rips = [o for o in cut.operations if o.what == "rip"]
    assert [(o.machine, o.at, o.staves) for o in rips] == [("table saw", 81.5, ("b",))]


def test_a_surfaced_board_is_neither_flattened_nor_planed() -> None:
    board = Board("A", 120.0, 1000.0, 45.0, "oak", surface="surfaced")
    (cut,) = plan_cutting([stave("a", 400.0, 80.0, glued_edges=1)], Rack((board,)), SHOP).plan
    assert [o.what for o in cut.operations if o.at is None] == ["joint an edge", "joint the glued edges"]


def test_where_no_board_is_long_enough_short_staves_are_worked_by_hand() -> None:
    """Boards of 280 mm: the planer never sees the pieces."""
    board = Board("A", 100.0, 280.0, 50.0, "oak")
    (cut,) = plan_cutting([stave("a", 150.0, 60.0, glued_edges=1)], Rack((board,)), SHOP).plan
    assert {o.machine for o in cut.operations} == {"crosscut saw", "hand plane", "band saw"}


def test_a_board_wider_than_the_knives_is_ripped_first() -> None:
    """Two staves of 100 mm side by side on 210 mm; a jointer of 150 mm, a planer of 310."""
    board = Board("A", 210.0, 700.0, 50.0, "oak")
    staves = [stave(name, 600.0, 100.0, glued_edges=1) for name in "ab"]
    (wide,) = plan_cutting(staves, Rack((board,)), SHOP).plan
    assert any(o.machine == "jointer" and o.part[3] == 210.0 for o in wide.operations)
    (cut,) = plan_cutting(staves, Rack((board,)), replace(SHOP, jointer_width=150.0, planer_width=310.0)).plan
    assert all(o.part[3] <= 150.0 for o in cut.operations if o.machine == "jointer")
    assert not any(o.machine == "hand plane" for o in cut.operations)
    rip = next(o for o in cut.operations if o.what == "rip")
    flat = next(o for o in cut.operations if o.machine == "jointer")
    assert rip.machine == "band saw" and rip.number < flat.number


def test_a_blank_of_one_piece_wider_than_the_knives_is_flattened_by_hand() -> None:
    board = Board("A", 210.0, 700.0, 50.0, "oak")
    (cut,) = plan_cutting([stave("a", 600.0, 200.0)], Rack((board,)), replace(SHOP, jointer_width=150.0)).plan
    assert [(o.machine, o.what) for o in cut.operations if o.at is None] == [
        ("hand plane", "flatten a face, joint an edge"), ("planer", "plane to thickness"),
    ]  # fmt: skip


def test_a_pinwheel_cannot_be_sawn() -> None:
    sizes = [
        (300.0, 90.0, 30.0, 0.0),
        (90.0, 300.0, 340.0, 0.0),
        (300.0, 90.0, 130.0, 310.0),
        (90.0, 300.0, 30.0, 100.0),
    ]
    gangs = [(single((stave(f"s{i}", a, b), 1), 0.0, 3.0), x, y) for i, (a, b, x, y) in enumerate(sizes)]
    with pytest.raises(Unsawable):
        work(RoughBoard(500.0, 400.0, 3.0, True), gangs)
