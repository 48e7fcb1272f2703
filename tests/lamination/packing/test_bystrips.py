# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strip by strip, judged by boxes and by hand."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from packed import judge, lot_of, pieces

from freecad_stacklam.lamination.packing.bystrips import by_strips, onto
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot


@given(pieces, st.integers(0, 99), st.booleans())
@settings(max_examples=40, deadline=None)
def test_every_packing_can_be_cut(sizes, seed, whole) -> None:
    lot = lot_of(sizes)
    worth, rng = lot.kind_a * lot.kind_b, np.random.default_rng(seed)
    found = by_strips(lot, worth, [0, 1], rng, whole=whole)
    judge(lot, found)
    assert not found.left
    judge(lot, onto(lot, worth, [0, 1], rng, whole=whole))


def test_pieces_end_to_end_lie_beside_a_longer_one() -> None:
    """90 × 50, and 40 × 30 and 47 × 30 end to end beside it, on 90 × 83: with a kerf of 3 the strips fill it to the
    last millimetre, by hand."""
    lot = Lot([(90.0, 50.0), (40.0, 30.0), (47.0, 30.0)], [ClearBoard(90.0, 83.0, 1.0, 0)], 3.0)
    found = by_strips(lot, lot.kind_a * lot.kind_b, [0], np.random.default_rng(0))
    assert len(found.boards) == 1
    judge(lot, found)
