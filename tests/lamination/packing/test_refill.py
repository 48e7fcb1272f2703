# SPDX-License-Identifier: LGPL-2.1-or-later

"""Boards built and filled anew, judged by boxes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packed import BOARDS, judge, lot_of, pieces

from freecad_stacklam.lamination.packing.lot import ClearBoard, Filled, Lot, Packing
from freecad_stacklam.lamination.packing.refill import Refill


def never() -> bool:
    return False


def packing_of(refill: Refill, boards: list[Filled]) -> Packing:
    return Packing(tuple((f.kind, f.places) for f in boards), (), refill.cost(boards))


@given(pieces, st.integers(0, 99))
@settings(max_examples=25, deadline=None)
def test_what_is_built_can_be_cut_and_filled_anew_it_is_no_worse(sizes, seed) -> None:
    lot = lot_of(sizes)
    refill = Refill({True: lot}, np.random.default_rng(seed))
    boards = refill.built(never)
    assert boards is not None  # the second board is for sale
    judge(lot, packing_of(refill, boards))
    for _ in range(4):
        made = refill.anew(boards, never)
        if made is None:
            continue
        judge(lot, packing_of(refill, made))
        gathered = sum(refill.wasted(f) ** 2 for f in made) >= sum(refill.wasted(f) ** 2 for f in boards) - 1e-9
        assert refill.cost(made) < refill.cost(boards) or (gathered and refill.cost(made) <= refill.cost(boards))
        boards = made


def test_what_a_board_wastes_by_hand() -> None:
    """A board of 1200 × 150 at 9.00 with a piece of 597 × 147, kerf 3: with kerfs it takes 600 × 150 of 1203 × 153,
    where the cheapest mm² is that of this board."""
    lot = Lot([(597.0, 147.0)], [BOARDS[1]], 3.0)
    refill = Refill({True: lot}, np.random.default_rng(0))
    assert refill.wasted(Filled(0, True, ((0, 0.0, 0.0),))) == pytest.approx(9.0 * (1 - 600 * 150 / (1203 * 153)))


def test_two_half_filled_boards_become_one() -> None:
    lot = Lot([(590.0, 150.0), (600.0, 150.0)], [ClearBoard(1200.0, 150.0, 9.0, 0)], 3.0)
    refill = Refill({True: lot}, np.random.default_rng(0))
    made = refill.anew([Filled(0, True, ((0, 0.0, 0.0),)), Filled(0, True, ((1, 0.0, 0.0),))], never)
    assert made is not None
    assert len(made) == 1
    judge(lot, packing_of(refill, made))


def test_no_more_boards_are_used_than_there_are() -> None:
    lot = Lot([(900.0, 150.0)] * 3, [ClearBoard(1200.0, 150.0, 9.0, 2)], 3.0)
    assert Refill({True: lot}, np.random.default_rng(0)).built(never) is None


def test_it_ends_when_it_is_asked_to() -> None:
    assert Refill({True: lot_of([(300, 100)] * 9)}, np.random.default_rng(0)).built(lambda: True) is None
