# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cheapest boards for a few pieces, against every division of the pieces onto boards."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from packed import judge

from freecad_stacklam.lamination.packing.exact import Few, cheapest_boards, fuller
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing

SIZES = st.lists(st.tuples(st.integers(100, 500), st.integers(30, 120)), min_size=1, max_size=6)
BOARDS = (ClearBoard(600.0, 130.0, 4.0, 2), ClearBoard(900.0, 200.0, 11.0, 0), ClearBoard(520.0, 125.0, 5.0, 0))


def divided(lot: Lot, few: Few, pieces: int, spare: dict[int, int]) -> float:
    """The least cost of all divisions of a set of pieces."""
    if not pieces:
        return 0.0
    top = 1 << pieces.bit_length() - 1
    best, held = float("inf"), pieces
    while held:
        if held & top:
            for k, fits in few.fits.items():
                if spare[k] and fits[held]:
                    rest = divided(lot, few, pieces ^ held, {**spare, k: spare[k] - 1})
                    best = min(best, lot.sheets[k].cost + rest)
        held = (held - 1) & pieces
    return best


@given(SIZES)
@settings(max_examples=25, deadline=None)
def test_no_division_costs_less(sizes) -> None:
    items = [(float(a), float(b)) for a, b in sizes]
    lot = Lot(items, BOARDS, 3.0)
    few = Few({True: lot}, range(len(items)), [0, 1, 2])
    spare = {0: 2, 1: -1, 2: -1}
    found = cheapest_boards(few, spare, 1e9, 10_000)
    assert found.boards is not None and found.proven
    made = lot.packing([(f.kind, f.places) for f in found.boards], ())
    judge(lot, made)
    assert abs(made.cost - divided(lot, few, (1 << len(items)) - 1, spare)) < 1e-6
    # Nothing is cheaper than the cheapest.
    assert cheapest_boards(few, spare, made.cost, 10_000).boards is None


def test_two_boards_one_as_full_as_can_be() -> None:
    """Three pieces 200 × 60 on two boards 420 × 60: two on one of them, and nothing on neither."""
    lot = Lot([(200.0, 60.0)] * 3, [ClearBoard(420.0, 60.0, 1.0, 0)], 3.0)
    pair = fuller(Few({True: lot}, range(3), [0]), 0, 0)
    assert pair is not None
    assert [len(f.places) for f in pair] == [2, 1]
    judge(lot, Packing(tuple((f.kind, f.places) for f in pair), (), 2.0))
    assert fuller(Few({True: Lot([(200.0, 60.0)] * 5, lot.sheets, 3.0)}, range(5), [0]), 0, 0) is None
