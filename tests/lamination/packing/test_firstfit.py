# SPDX-License-Identifier: LGPL-2.1-or-later

"""First fit, judged by boxes, and by the guarantee known for it in one dimension."""

from __future__ import annotations

from math import ceil

from hypothesis import given, settings
from hypothesis import strategies as st
from packed import judge, lot_of, pieces

from freecad_stacklam.lamination.packing.firstfit import first_fit
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot


@given(pieces, st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_any_order_gives_a_packing_that_can_be_cut(sizes, rng) -> None:
    lot, order = lot_of(sizes), list(range(len(sizes)))
    rng.shuffle(order)
    found = first_fit(lot, order, [0, 1])
    judge(lot, found)
    assert not found.left  # the second board can be had as often as wanted, and holds every piece


@given(st.lists(st.integers(5, 100), min_size=1, max_size=30))
@settings(max_examples=40, deadline=None)
def test_in_one_dimension_it_keeps_its_guarantee(lengths: list[int]) -> None:
    """First fit decreasing uses at most 11/9 of the least number of bins and 6/9 (Dósa 2007); the sum of lengths over
    the bin's is no more than that number."""
    lot = Lot([(float(n), 10.0) for n in lengths], [ClearBoard(100.0, 10.0, 1.0, 0)], 0.0)
    order = sorted(range(len(lengths)), key=lambda i: -lengths[i])
    bins = len(first_fit(lot, order, [0]).boards)
    least = _least_bins(sorted(lengths, reverse=True)) if len(lengths) <= 8 else None
    assert bins >= ceil(sum(lengths) / 100)
    if least is not None:
        assert bins <= 11 / 9 * least + 6 / 9


def _least_bins(lengths: list[int], rooms: tuple[int, ...] = ()) -> int:
    if not lengths:
        return len(rooms)
    first, rest = lengths[0], lengths[1:]
    tried = [_least_bins(rest, (*rooms, 100 - first))]
    for i, room in enumerate(rooms):
        if room >= first and room not in rooms[:i]:
            tried.append(_least_bins(rest, (*rooms[:i], room - first, *rooms[i + 1 :])))
    return min(tried)
