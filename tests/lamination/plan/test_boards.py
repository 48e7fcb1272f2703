# SPDX-License-Identifier: LGPL-2.1-or-later

"""How far a cutting plan may be from the best, on problems with a known optimum."""

from __future__ import annotations

import pytest
from woodyard import CHVATAL

from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan


def plan_of(boards: int, **more: object) -> BoardsPlan:
    one = BoardCut("Roll", 50.0, 100.0, 45.0, "oak", 1.0, False, ())
    return BoardsPlan((), (one,) * boards, objective=float(boards), **more)  # type: ignore[arg-type]


def test_gap_to_whole_boards_goes_before_the_bounds() -> None:
    """Chvátal (1983), chapter 13: 453 rolls are best, though the relaxation says 452.25: no gap is left at 453, and
    453 / 452.25 − 1 would claim one."""
    _, _, best, relaxed = CHVATAL
    assert plan_of(best, least_boards=best, bound_lp=relaxed).gap == 0.0
    assert plan_of(460, least_boards=best, bound_lp=relaxed).gap == pytest.approx(7 / 453)
    assert plan_of(best, bound_lp=relaxed).gap == pytest.approx(0.001658, abs=1e-6)


def test_the_better_bound_counts_and_no_bound_says_nothing() -> None:
    assert plan_of(10, bound_area=8.0, bound_lp=9.0).gap == pytest.approx(1 / 9)
    assert plan_of(10, bound_area=8.0).gap == pytest.approx(0.25)
    assert plan_of(10).gap is None
    assert plan_of(0, bound_area=0.0).gap is None
    # rounding of a bound is no gap below nothing
    assert plan_of(10, bound_lp=10.0 + 1e-9).gap == 0.0
