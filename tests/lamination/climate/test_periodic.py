# SPDX-License-Identifier: LGPL-2.1-or-later

"""Years that repeat themselves: a thin strip against the wave that a film resistance alone lets through, and lags of
waves of which the lag is known."""

from __future__ import annotations

from math import atan, cos, pi, sqrt

import numpy as np
import pytest

from freecad_stacklam.lamination.climate.diffusion import Body
from freecad_stacklam.lamination.climate.periodic import Groups, cores, groups_of, lag_days, lag_of, run_years
from freecad_stacklam.lamination.climate.piece import Piece
from freecad_stacklam.lamination.climate.surface import YEAR

WAVE = tuple(9.0 + 2.0 * cos(2 * pi * m / 12) for m in range(12))


def strip(cells: int = 4, size: float = 1.0, rate: float = 100.0) -> Piece:
    """A strip open on two faces, two parts side by side."""
    shape = (cells, 1, 1)
    part = (np.arange(cells).reshape(shape) >= cells // 2).astype(np.int16)
    body = Body(
        np.ones(shape), size, np.array([0.0, 1.0]), np.zeros(shape, dtype=np.int16), np.array([[rate, 1e-9, 1e-9]])
    )
    return Piece(body, part, part * 0 - 1, np.zeros(shape), 2, 1, 0)


def test_a_thin_strip_follows_as_a_film_lets_it() -> None:
    # dM/dt = S (E − M) / half: amplitude 1 / sqrt(1 + (ω half / S)²), lag atan(ω half / S) / ω. Any text on first order
    # systems. 40 mm thick, diffusion so fast that the surface alone holds moisture up.
    surface, half = 1.0, 20.0
    run = run_years(strip(4, 10.0, 1e6), WAVE, 9.0, 0, surface)
    assert run.repeats
    lagging = 2 * pi / YEAR * half / surface
    mean = run.settled.mean(axis=1)
    # Straight lines between months flatten a wave by sinc²(1/12) = 0.977.
    wave = abs(np.fft.rfft(mean)[1]) / 6
    assert wave / 2.0 == pytest.approx(np.sinc(1 / 12) ** 2 / sqrt(1 + lagging**2), abs=0.01)
    assert lag_days(mean, WAVE) == pytest.approx(atan(lagging) * YEAR / (2 * pi), abs=2.0)


def test_a_year_begins_with_the_month_of_gluing() -> None:
    seen: list[tuple[int, int]] = []
    run = run_years(strip(), [9.0] * 12, 6.0, 5, 0.01, lambda year, month: seen.append((year, month)))
    assert seen[0] == (1, 0)
    first = run.first.mean(axis=1)
    in_order = np.roll(first, -5)
    assert in_order[0] < in_order[1] < in_order[-1] < 9.0  # rises from June to May
    assert first[5] == first.min()


def test_lags_are_those_of_shifted_waves_and_still_ones_have_none() -> None:
    late = [9.0 + 0.7 * cos(2 * pi * (m - 1.5) / 12) for m in range(12)]
    assert lag_days(late, WAVE) == pytest.approx(1.5 / 12 * YEAR, abs=1e-9)
    assert lag_days([9.0] * 12, WAVE) is None
    assert lag_days(late, [9.0] * 12) is None
    fast = tuple(9.0 + cos(2 * pi * (m - 1) / 12) for m in range(12))
    lag = lag_of(tuple(late), fast, (9.0,) * 12, WAVE)
    assert lag is not None
    assert (lag.low, lag.days, lag.high) == pytest.approx((YEAR / 12, YEAR / 8, YEAR / 8))


def test_the_core_is_the_tenth_that_swings_least() -> None:
    part = np.array([0] * 10 + [1] * 10)
    groups = Groups(part, np.ones(20), 2)
    swing = np.concatenate([np.arange(1.0, 11.0), np.arange(20.0, 10.0, -1.0)])
    snapshots = np.array([np.zeros(20), swing], dtype=np.float32)
    found = cores(groups, snapshots)
    # Whole cells: the tenth and the cell in which it ends.
    assert found[1] == pytest.approx([1.5, 11.5])
    assert groups.means(snapshots[1]) == pytest.approx([5.5, 15.5])
    assert len(groups_of(strip(), run_years(strip(), WAVE, 9.0, 0, 1.0).solver).part) == 4
