# SPDX-License-Identifier: LGPL-2.1-or-later

"""A judge of packings that shares nothing with the packer: shapely boxes."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import strategies as st

from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing

KERF = 3.0
BLOCK = (300.0, 40.0, 360.0, 90.0)
BOARDS = (ClearBoard(1000.0, 200.0, 10.0, 2, (BLOCK,), first=True), ClearBoard(1200.0, 150.0, 9.0, 0))

#: Sizes of pieces, mm, that fit on both boards.
pieces = st.lists(st.tuples(st.integers(60, 500), st.integers(30, 140)), min_size=1, max_size=14)


def lot_of(sizes: list[tuple[int, int]]) -> Lot:
    return Lot([(float(a), float(b)) for a, b in sizes], BOARDS, KERF)


def judge(lot: Lot, packing: Packing) -> None:
    """Every item once, on its board, a kerf from its neighbours and off the blocks; no more boards than there are."""
    placed = [item for _, places in packing.boards for item, _, _ in places]
    assert sorted((*placed, *packing.left)) == list(range(len(lot.items)))
    for kind, places in packing.boards:
        board = lot.sheets[kind]
        boxes = np.array([shapely.box(a, b, a + lot.a[i], b + lot.b[i]) for i, a, b in places])
        assert shapely.covers(shapely.box(-1e-6, -1e-6, board.a + 1e-6, board.b + 1e-6), boxes).all()
        for n, one in enumerate(boxes):
            assert (shapely.distance(one, boxes[n + 1 :]) >= lot.kerf - 1e-6).all()
        for block in board.blocks:
            assert (shapely.area(shapely.intersection(boxes, shapely.box(*block))) < 1e-6).all()
    for kind, board in enumerate(lot.sheets):
        assert not board.count or sum(k == kind for k, _ in packing.boards) <= board.count
    assert abs(packing.cost - sum(lot.sheets[k].cost for k, _ in packing.boards)) < 1e-9
