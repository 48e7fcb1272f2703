# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is clear across a board, and its clear rectangles, against shapely."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing, rooms_of

BLOCK = st.tuples(st.integers(0, 80), st.integers(0, 40), st.integers(5, 20), st.integers(5, 20))
KNOT = st.tuples(st.integers(0, 80), st.integers(0, 40), st.integers(1, 20), st.integers(1, 20))


@given(st.lists(BLOCK, max_size=3), st.integers(0, 90), st.integers(5, 30))
@settings(max_examples=60, deadline=None)
def test_gaps_are_what_no_block_reaches(blocks, low, width) -> None:
    """With no kerf: the strip less the blocks' own boxes, projected across the board."""
    board = ClearBoard(110.0, 60.0, 1.0, 1, tuple((float(a), float(b), a + da, b + db) for a, b, da, db in blocks))
    found = Lot([(5.0, 5.0)], [board], 0.0).gaps(board, float(low), float(low + width))
    strip = shapely.box(low, 0, low + width, 60)
    met = [k for k in board.blocks if shapely.intersection(strip, shapely.box(*k)).area > 0]
    taken = shapely.union_all([shapely.LineString([(0, k[1]), (0, k[3])]) for k in met])
    clear = shapely.difference(shapely.LineString([(0, 0), (0, 60)]), taken)
    assert sum(up - below for below, up in found) == pytest.approx(clear.length)


def test_clear_area_counts_blocks_that_overlap_once() -> None:
    """110 × 60 less the union of 50 × 60 and 50 × 30 that share 20 × 30, by hand: 6600 − 3000 − 1500 + 600."""
    board = ClearBoard(110.0, 60.0, 1.0, 1, ((0.0, 0.0, 50.0, 60.0), (30.0, 0.0, 80.0, 30.0)))
    assert board.clear == pytest.approx(2700.0)
    assert ClearBoard(110.0, 60.0, 1.0, 1, ((0.0, 0.0, 70.0, 60.0), (40.0, 0.0, 110.0, 60.0))).clear == 0.0
    assert ClearBoard(110.0, 60.0, 1.0).clear == 6600.0


def test_more_placed_is_better_then_cheaper() -> None:
    all_dear, one_left = Packing((), (), 9.0), Packing((), (3,), 1.0)
    assert all_dear.better_than(one_left)
    assert not one_left.better_than(all_dear)
    assert Packing((), (), 8.0).better_than(all_dear)
    assert all_dear.better_than(None)


@given(st.lists(KNOT, max_size=3), st.integers(0, 6))
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
