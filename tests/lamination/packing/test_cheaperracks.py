# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sets of boards that cost less, by hand."""

from __future__ import annotations

from freecad_stacklam.lamination.packing.cheaperracks import cheaper_racks
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot


def test_every_set_that_is_large_enough_and_costs_less() -> None:
    """1000 mm² wanted. Boards of 600 for 5 (two), of 400 for 4 and of 1200 for 9 (as many as wanted): for less than 11
    there are two of 600 (10), 600 and 400 (9), and 1200 (9); three of 400 cost 12."""
    sheets = [ClearBoard(60.0, 10.0, 5.0, 2), ClearBoard(40.0, 10.0, 4.0, 0), ClearBoard(120.0, 10.0, 9.0, 0)]
    lot = Lot([(10.0, 10.0)] * 10, sheets, 0.0)
    assert sorted(tuple(sorted(s)) for s in cheaper_racks(lot, 11.0)) == [(0, 0), (0, 1), (2,)]
    assert cheaper_racks(lot, 9.0) == []


def test_a_board_that_is_all_knot_is_in_none() -> None:
    knot = ClearBoard(120.0, 10.0, 1.0, 0, ((0.0, 0.0, 120.0, 10.0),))
    assert cheaper_racks(Lot([(10.0, 10.0)] * 10, [knot], 0.0), 99.0) == []
