# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pieces that change places, judged by boxes and by hand."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from packed import judge

from freecad_stacklam.lamination.packing.lot import ClearBoard, Filled, Lot, Packing
from freecad_stacklam.lamination.packing.refill import Refill
from freecad_stacklam.lamination.packing.swaps import Swaps, bands_of, laid

KERF = 3.0
BOARD = ClearBoard(1200.0, 150.0, 9.0, 0)


def never() -> bool:
    return False


def lots_of(sizes: list[tuple[float, float]], board: ClearBoard = BOARD) -> dict[bool, Lot]:
    turned = ClearBoard(board.b, board.a, board.cost, board.count)
    return {True: Lot(sizes, [board], KERF), False: Lot([(b, a) for a, b in sizes], [turned], KERF)}


def judged(lots: dict[bool, Lot], boards: list[Filled]) -> None:
    """Each way by itself, and every piece once."""
    assert sorted(p[0] for f in boards for p in f.places) == list(range(len(lots[True].items)))
    for across, lot in lots.items():
        mine = tuple((f.kind, f.places) for f in boards if f.across == across)
        laid_here = {p[0] for _, places in mine for p in places}
        left = tuple(i for i in range(len(lot.items)) if i not in laid_here)
        judge(lot, Packing(mine, left, float(sum(lot.sheets[k].cost for k, _ in mine))))


many = st.lists(st.tuples(st.floats(60, 500), st.floats(30, 140)), min_size=4, max_size=24)


@given(many, st.integers(0, 99))
@settings(max_examples=30, deadline=None)
def test_boards_can_be_cut_after_swaps_and_waste_is_gathered(sizes, seed) -> None:
    lots = lots_of(sizes)
    refill = Refill(lots, np.random.default_rng(seed))
    boards = refill.built(never)
    assert boards is not None
    swaps = Swaps(lots, boards, refill.area, refill.rate)
    before = swaps.merit()
    swaps.shaken(refill.rng, 8, never)
    made = swaps.made()
    judged(lots, made)
    after = -refill.cost(made), sum(refill.wasted(f) ** 2 for f in made)
    assert after[0] >= before[0] - 1e-9
    assert after[0] > before[0] + 1e-9 or after[1] >= before[1] - 1e-6
    # A single band that is ripped first is as long as one of its pieces, else nothing would be ripped.
    for board in made:
        bands = bands_of(lots[board.across], board.places)
        if not board.across and len(bands) == 1:
            ends = [sum(lots[False].a[i] + KERF for i in strip) - KERF for strip in bands[0]]
            assert max(ends) <= max(lots[False].a[i] for strip in bands[0] for i in strip) + 1e-6


def test_a_larger_piece_takes_the_place_of_a_smaller_one() -> None:
    """Two boards of 1200 × 150: 590 × 150 and 600 × 150 leave 7 mm of length. The 595 × 150 of the other, which is
    alone there, fits in the place of the 590; the 700 does not."""
    lots = lots_of([(590.0, 150.0), (600.0, 150.0), (595.0, 150.0)])
    boards = [Filled(0, True, ((0, 0.0, 0.0), (1, 593.0, 0.0))), Filled(0, True, ((2, 0.0, 0.0),))]
    refill = Refill(lots, np.random.default_rng(0))
    swaps = Swaps(lots, boards, refill.area, refill.rate)
    swaps.gather()
    made = swaps.made()
    judged(lots, made)
    assert sorted(sorted(p[0] for p in f.places) for f in made) == [[0], [1, 2]]
    lots = lots_of([(590.0, 150.0), (600.0, 150.0), (700.0, 150.0)])
    swaps = Swaps(lots, boards, refill.area, refill.rate)
    swaps.gather()
    assert sorted(sorted(p[0] for p in f.places) for f in swaps.made()) == [[0, 1], [2]]


def test_what_is_free_takes_a_piece_and_the_emptied_board_is_gone() -> None:
    """590 × 150 leaves 1200 − 590 − 3 = 607 mm: 607 × 150 finds room behind it, 608 × 150 does not."""
    for long, count in ((607.0, 1), (608.0, 2)):
        lots = lots_of([(590.0, 150.0), (long, 150.0)])
        refill = Refill(lots, np.random.default_rng(0))
        boards = [Filled(0, True, ((0, 0.0, 0.0),)), Filled(0, True, ((1, 0.0, 0.0),))]
        swaps = Swaps(lots, boards, refill.area, refill.rate)
        swaps.gather()
        made = swaps.made()
        judged(lots, made)
        assert len(made) == count


def test_boards_with_knots_stay_as_they_are() -> None:
    knotty = ClearBoard(1200.0, 150.0, 9.0, 2, ((300.0, 40.0, 360.0, 90.0),))
    lot = Lot([(280.0, 150.0), (290.0, 150.0)], [knotty], KERF)
    refill = Refill({True: lot}, np.random.default_rng(0))
    boards = [Filled(0, True, ((0, 0.0, 0.0),)), Filled(0, True, ((1, 0.0, 0.0),))]
    swaps = Swaps({True: lot}, boards, refill.area, refill.rate)
    swaps.shaken(refill.rng, 4, never)
    assert swaps.made() == boards


def test_bands_and_strips_are_read_and_laid_alike() -> None:
    """A band of 90 × 50 beside 40 × 30 and 47 × 30 end to end, and a band of 60 × 83 behind it."""
    lot = Lot([(90.0, 50.0), (40.0, 30.0), (47.0, 30.0), (60.0, 83.0)], [ClearBoard(153.0, 83.0, 1.0, 0)], KERF)
    places = ((0, 0.0, 0.0), (1, 0.0, 53.0), (2, 43.0, 53.0), (3, 93.0, 0.0))
    bands = bands_of(lot, places)
    assert bands == (((0,), (1, 2)), ((3,),))
    assert sorted(laid(lot, bands)) == sorted(places)
