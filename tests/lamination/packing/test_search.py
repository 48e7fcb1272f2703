# SPDX-License-Identifier: LGPL-2.1-or-later

"""The search over both ways of cutting, judged by boxes and by bounds."""

from __future__ import annotations

from hypothesis import given, settings
from packed import BOARDS, KERF, judge, lot_of, pieces

from freecad_stacklam.lamination.packing.bounds import area_bound
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot
from freecad_stacklam.lamination.packing.search import cheapest


@given(pieces)
@settings(max_examples=20, deadline=None)
def test_the_quick_answer_can_be_cut_and_costs_no_less_than_the_bound(sizes) -> None:
    lot = lot_of(sizes)
    found, across, method = cheapest({True: lot}, 0.0, 0.0, lambda part: None, None)
    judge(lot, found)
    assert (across, method) == (True, "first fit")
    assert found.cost >= area_bound([(float(a), float(b)) for a, b in sizes], BOARDS, KERF) - 1e-9


def test_the_way_that_costs_less_is_taken() -> None:
    """The same piece on a dear board one way and on a cheap one the other."""
    dear, cheap = ClearBoard(120.0, 120.0, 5.0, 0), ClearBoard(120.0, 120.0, 2.0, 0)
    lots = {True: Lot([(100.0, 25.0)], [dear], 3.0), False: Lot([(25.0, 100.0)], [cheap], 3.0)}
    found, across, _ = cheapest(lots, 0.0, 0.0, lambda part: None, None)
    assert (found.cost, across) == (2.0, False)


def test_it_ends_when_it_is_asked_to() -> None:
    asked = []

    def cancelled() -> bool:
        asked.append(1)
        return len(asked) > 3

    lot = lot_of([(300, 100)] * 9)
    found, _, _ = cheapest({True: lot}, 0.0, 60.0, lambda part: None, cancelled)
    judge(lot, found)
    assert len(asked) < 50
