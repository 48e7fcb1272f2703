# SPDX-License-Identifier: LGPL-2.1-or-later

"""The search over both ways of cutting, judged by boxes and by bounds."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from packed import BOARDS, KERF, judge, lot_of, pieces

from freecad_stacklam.lamination.packing.bounds import area_bound
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing
from freecad_stacklam.lamination.packing.search import Best, cheapest


def packing_of(found: Best) -> Packing:
    return Packing(tuple((f.kind, f.places) for f in found.boards), found.left, found.cost)


@given(pieces)
@settings(max_examples=20, deadline=None)
def test_the_quick_answer_can_be_cut_and_costs_no_less_than_the_bound(sizes) -> None:
    lot = lot_of(sizes)
    found = cheapest({True: lot}, 0.0, 0, lambda part: None, None)
    judge(lot, packing_of(found))
    assert all(board.across for board in found.boards)
    assert found.cost >= area_bound([(float(a), float(b)) for a, b in sizes], BOARDS, KERF) - 1e-9


def test_the_way_that_costs_less_is_taken() -> None:
    """100 × 30, 60 × 70 and two of 40 × 35 on 100 × 100: ripped first they fill one board, worked by hand (a strip of
    30 and one of 70, whose last 40 are ripped again); the first spans the board, so no crosscut comes first."""
    sizes = [(100.0, 30.0), (60.0, 70.0), (40.0, 35.0), (40.0, 35.0)]
    board = ClearBoard(100.0, 100.0, 2.0, 0)
    lots = {True: Lot(sizes, [board], 0.0), False: Lot([(b, a) for a, b in sizes], [board], 0.0)}
    found = cheapest(lots, 0.0, 0, lambda part: None, None)
    assert (found.cost, [filled.across for filled in found.boards]) == (2.0, [False])
    assert cheapest({True: lots[True]}, 0.0, 0, lambda part: None, None).cost == 4.0


def test_many_pieces_are_gathered_on_full_boards_and_the_same_each_time() -> None:
    """Judged by boxes; no dearer than at once, nor than the bound; the same when it is asked again."""
    rng = np.random.default_rng(5)
    sizes = [(float(a), float(b)) for a, b in zip(rng.integers(100, 500, 60), rng.integers(30, 140, 60))]
    turned = [ClearBoard(s.b, s.a, s.cost, s.count) for s in BOARDS[1:]]
    lots = {True: Lot(sizes, BOARDS[1:], KERF), False: Lot([(b, a) for a, b in sizes], turned, KERF)}
    quick = cheapest(lots, 0.0, 0, lambda part: None, None)
    parts: list[float] = []
    found = cheapest(lots, 0.0, 8, parts.append, None)
    assert found.cost <= quick.cost
    assert found.cost >= area_bound(sizes, BOARDS[1:], KERF) - 1e-9
    assert sorted(p[0] for f in found.boards for p in f.places) == list(range(60))
    for across, lot in lots.items():
        mine = tuple((f.kind, f.places) for f in found.boards if f.across == across)
        here = {p[0] for _, places in mine for p in places}
        left = tuple(i for i in range(60) if i not in here)
        judge(lot, Packing(mine, left, float(sum(lot.sheets[k].cost for k, _ in mine))))
    assert parts == sorted(parts)
    assert cheapest(lots, 0.0, 8, lambda part: None, None) == found


def test_it_ends_when_it_is_asked_to() -> None:
    asked = []

    def cancelled() -> bool:
        asked.append(1)
        return len(asked) > 3

    lot = lot_of([(300, 100)] * 9)
    found = cheapest({True: lot}, 0.0, 5000, lambda part: None, cancelled)
    judge(lot, packing_of(found))
    assert len(asked) < 50
