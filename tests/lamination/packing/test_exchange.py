# SPDX-License-Identifier: LGPL-2.1-or-later

"""Boards changed for cheaper ones, judged by boxes and by hand."""

from __future__ import annotations

from hypothesis import given, settings
from packed import judge, lot_of, pieces

from freecad_stacklam.lamination.packing.exchange import cheaper
from freecad_stacklam.lamination.packing.firstfit import first_fit
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot


@given(pieces)
@settings(max_examples=40, deadline=None)
def test_it_never_costs_more_and_can_still_be_cut(sizes) -> None:
    lot = lot_of(sizes)
    before = first_fit(lot, range(len(sizes)), [0, 1])
    after = cheaper(lot, before, [lot.kind_a * lot.kind_b])
    judge(lot, after)
    assert after.cost <= before.cost + 1e-9
    assert after.left == before.left


def test_the_smallest_board_that_takes_the_pieces_is_taken() -> None:
    lot = Lot([(90.0, 50.0)], [ClearBoard(300.0, 60.0, 9.0, 0), ClearBoard(100.0, 60.0, 2.0, 1)], 3.0)
    found = cheaper(lot, first_fit(lot, [0], [0]))
    assert (found.boards[0][0], found.cost) == (1, 2.0)
