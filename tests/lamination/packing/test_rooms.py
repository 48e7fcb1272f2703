# SPDX-License-Identifier: LGPL-2.1-or-later

"""Clear rectangles of boards, against shapely."""

from __future__ import annotations

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.packing.lot import ClearBoard
from freecad_stacklam.lamination.packing.rooms import rooms_of

BLOCK = st.tuples(st.integers(0, 80), st.integers(0, 40), st.integers(1, 20), st.integers(1, 20))


@given(st.lists(BLOCK, max_size=3), st.integers(0, 6))
@settings(max_examples=60, deadline=None)
def test_rooms_are_clear_and_a_kerf_apart(blocks, kerf) -> None:
    board = ClearBoard(100.0, 60.0, 1.0, 1, tuple((float(a), float(b), a + da, b + db) for a, b, da, db in blocks))
    for rooms in rooms_of(board, float(kerf)):
        boxes = [shapely.box(*r) for r in rooms]
        for n, box in enumerate(boxes):
            assert shapely.covers(shapely.box(0, 0, 100, 60), box)
            assert all(box.intersection(shapely.box(*k)).area == 0 for k in board.blocks)
            assert all(box.distance(other) >= kerf - 1e-9 for other in boxes[:n])


def test_a_board_without_knots_is_one_room_and_one_all_knot_is_none() -> None:
    assert rooms_of(ClearBoard(100.0, 60.0, 1.0), 3.0) == [[(0.0, 0.0, 100.0, 60.0)]]
    assert rooms_of(ClearBoard(100.0, 60.0, 1.0, 1, ((0.0, 0.0, 100.0, 60.0),)), 3.0) == []
