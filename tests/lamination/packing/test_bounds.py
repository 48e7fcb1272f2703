# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lower bounds of a cutting plan, against textbook problems, brute force and arithmetic."""

from __future__ import annotations

import pytest
from woodyard import CHVATAL, MILL

from freecad_stacklam.lamination.packing.bounds import area_bound, lp_bound
from freecad_stacklam.lamination.packing.lot import ClearBoard


@pytest.mark.parametrize("problem", [CHVATAL, MILL])
def test_lp_bound_of_the_textbook_rolls(problem: tuple) -> None:
    pytest.importorskip("scipy", reason="the LP bound is only given where scipy is present")
    roll, kinds, _, bound = problem
    sizes = [(w, 50.0) for w, n in kinds for _ in range(n)]
    assert lp_bound(sizes, [ClearBoard(roll, 50.0, 1.0, 0)], 0.0) == pytest.approx(bound, abs=1e-3)
    # The same rolls, sawn the other way: the bound does not care how the board is turned.
    turned = [(50.0, w) for w, _ in sizes]
    assert lp_bound(turned, [ClearBoard(50.0, roll, 1.0, 0)], 0.0, ("rip",)) == pytest.approx(bound, abs=1e-3)


def test_area_bound_takes_the_cheapest_area_first() -> None:
    """Worked by hand: 1.0 m² of pieces; 0.4 m² on hand at 2 a board, the rest from boards of 0.5 m² at 10."""
    sheets = [ClearBoard(1000.0, 500.0, 10.0, 0), ClearBoard(1000.0, 400.0, 2.0, 1)]
    assert area_bound([(1000.0, 100.0)] * 10, sheets) == pytest.approx(2.0 + 0.6 / 0.5 * 10.0)
