# SPDX-License-Identifier: LGPL-2.1-or-later

"""Band by band, judged by boxes and by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from packed import judge, lot_of, pieces

from freecad_stacklam.lamination.packing.byworth import by_worth, corrected
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot


@given(pieces)
@settings(max_examples=40, deadline=None)
def test_every_packing_can_be_cut(sizes) -> None:
    lot = lot_of(sizes)
    for ahead in (True, False):
        found = by_worth(lot, lot.kind_a * lot.kind_b, [0, 1], ahead=ahead)
        assert found is not None
        judge(lot, found)
        assert not found.left


def test_a_board_is_filled_without_waste_where_it_can_be() -> None:
    """Two pieces of 60 and one of 40 wide, 100 long, on 160 × 100: one board, nothing over (counted by hand)."""
    lot = Lot([(100.0, 60.0), (100.0, 60.0), (100.0, 40.0)], [ClearBoard(100.0, 160.0, 1.0, 0)], 0.0)
    found = by_worth(lot, lot.kind_a * lot.kind_b, [0])
    assert found is not None
    assert len(found.boards) == 1


def test_who_asks_to_stop_gets_nothing() -> None:
    assert by_worth(lot_of([(100, 50)]), np.array([1.0]), [0, 1], stop=lambda: True) is None


def test_a_kind_that_wasted_its_board_becomes_dearer() -> None:
    """50 × 50 alone on 100 × 100 cost four times its area: half way there from its area is 2.5 times."""
    lot = Lot([(50.0, 50.0)], [ClearBoard(100.0, 100.0, 1.0, 0)], 0.0)
    found = by_worth(lot, np.array([2500.0]), [0])
    assert found is not None
    assert corrected(lot, np.array([2500.0]), found) == pytest.approx([2.5 * 2500.0])
