# SPDX-License-Identifier: LGPL-2.1-or-later

"""Moisture that moves in wood: against the series solutions of slab, cylinder and block, and against its own balance.

The series are those of `slowseries.py`. Diffusivity 4.32 mm²/day and surface 2.6 mm/day are from memory; the series
hold for any.
"""

from __future__ import annotations

import numpy as np
import pytest
from slowseries import bessel, cylinder_mean, slab_mean

from freecad_stacklam.lamination.climate.diffusion import (
    Body,
    grain_diffusivity,
    solver_of,
    two_steps,
    two_steps_with_flow,
)

ACROSS, ALONG, SURFACE = 4.32, 43.2, 2.6
SEALED = 1e-12


def body_of(filled: np.ndarray, size: float, diffusivity: tuple[float, float, float], height: float = 0.0) -> Body:
    count = filled.shape[2]
    heights = np.linspace(0.0, count * (height or size), count + 1)
    return Body(filled, size, heights, np.zeros(filled.shape, dtype=np.int16), np.array([diffusivity]))


def means(body: Body, surface: float, step: float, days: list[float]) -> list[float]:
    """The mean after each of the days, from 0 in air that asks for 1."""
    solver = solver_of(body, surface, step)
    volume = solver.volume[solver.order]
    moisture, found = np.zeros(len(volume)), []
    for k in range(1, round(max(days) / step / 2) + 1):
        moisture = two_steps(solver, moisture, 1.0, 1.0)
        if any(abs(2 * k * step - d) < step / 2 for d in days):
            found.append(float(moisture @ volume / volume.sum()))
    return found


def disc(radius: float, size: float) -> np.ndarray:
    """The filled part of the cells of a long cylinder, one cell high, by 16 × 16 points in each."""
    fine, count = 16, int(np.ceil(2 * radius / size)) + 2
    at = (np.arange(count * fine) + 0.5) * size / fine - count * size / 2
    inside = (at[:, None] ** 2 + at**2 < radius**2).astype(float)
    return inside.reshape(count, fine, count, fine).mean((1, 3))[:, :, None]


def test_the_series_keep_their_own_limits() -> None:
    # Bessel functions: J0(2.404826) = 0 and J1(1) = 0.440051, any table (Abramowitz and Stegun, Table 9.1).
    assert bessel(0, 2.404825557695773) == pytest.approx(0.0, abs=1e-12)
    assert bessel(1, 1.0) == pytest.approx(0.4400505857449335, abs=1e-12)
    for mean in (slab_mean, cylinder_mean):
        assert mean(ACROSS, SURFACE, 54.0, 1e5) == pytest.approx(1.0, abs=1e-6)
    assert slab_mean(ACROSS, SURFACE, 54.0, 0.0) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("surface", [2.6, 30.0])
def test_a_slab_follows_its_series(surface: float) -> None:
    days = [10.0, 40.0, 120.0, 365.0]
    wanted = [slab_mean(ACROSS, surface, 54.0, d) for d in days]
    found = means(body_of(np.ones((108, 1, 1)), 1.0, (ACROSS, SEALED, SEALED)), surface, 0.25, days)
    assert found == pytest.approx(wanted, abs=1e-3)


@pytest.mark.parametrize("surface", [2.6, 1e4])
def test_a_cylinder_follows_its_series_within_what_its_steps_cost(surface: float) -> None:
    """Cells of 4 mm in 120 mm: 0.002 of the change, where steps alone are 4 / π of the true face."""
    days = [10.0, 40.0, 120.0]
    wanted = [cylinder_mean(ACROSS, surface, 60.0, d) for d in days]
    found = means(body_of(disc(60.0, 4.0), 4.0, (ACROSS, ACROSS, SEALED), 1e6), surface, 0.25, days)
    assert found == pytest.approx(wanted, abs=0.002)


def test_a_block_follows_the_product_of_three_slabs() -> None:
    # What is left to go is the product of what is left in three slabs (Newman's rule, any text on heat conduction).
    halves, days = (30.0, 20.0, 12.0), [12.0, 20.0, 40.0]
    rates = (ALONG, ACROSS, ACROSS)
    wanted = [1 - float(np.prod([1 - slab_mean(d, SURFACE, h, t) for d, h in zip(rates, halves)])) for t in days]
    found = means(body_of(np.ones((60, 40, 24)), 1.0, rates), SURFACE, 0.05, days)
    assert found == pytest.approx(wanted, abs=1e-3)


def test_steps_of_two_days_are_near_enough_for_a_year() -> None:
    """The block in the steps that a year is planned with: 0.03 of the change at the worst, in its first days."""
    halves, days = (60.0, 40.0, 24.0), [12.0, 24.0, 60.0, 120.0]
    rates = (ALONG, ACROSS, ACROSS)
    wanted = [1 - float(np.prod([1 - slab_mean(d, SURFACE, h, t) for d, h in zip(rates, halves)])) for t in days]
    assert means(body_of(np.ones((30, 20, 12)), 4.0, rates), SURFACE, 2.0, days) == pytest.approx(wanted, abs=0.03)


def ball(count: int = 20) -> np.ndarray:
    centre = np.arange(count) + 0.5 - count / 2
    away = np.sqrt(sum(c**2 for c in np.meshgrid(centre, centre, centre, indexing="ij")))
    return np.asarray(np.clip(count / 2 - 1.5 - away, 0.0, 1.0))


def test_what_comes_in_through_the_faces_is_what_the_wood_gains() -> None:
    body = body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS))
    solver = solver_of(body, SURFACE, 2.0)
    volume = solver.volume[solver.order]
    # The wood has its volume, whatever cells were left out as air.
    assert volume.sum() == pytest.approx(body.filled.sum() * 125.0, rel=1e-12)
    moisture = np.random.default_rng(1).uniform(6.0, 12.0, len(volume))
    before = float(moisture @ volume)
    after, flow = two_steps_with_flow(solver, moisture, 9.0, 7.0)
    assert (float(after @ volume) - before) / flow == pytest.approx(1.0, abs=1e-12)
    assert after == pytest.approx(two_steps(solver, moisture, 9.0, 7.0), abs=1e-12)


def test_a_sealed_ball_keeps_its_water() -> None:
    solver = solver_of(body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS)), SEALED, 2.0)
    volume = solver.volume[solver.order]
    moisture = np.random.default_rng(2).uniform(6.0, 12.0, len(volume))
    mean = float(moisture @ volume / volume.sum())
    for _ in range(25):
        moisture = two_steps(solver, moisture, 20.0, 20.0)
    assert float(moisture @ volume / volume.sum()) == pytest.approx(mean, abs=1e-8)
    assert np.ptp(moisture) < 1.0  # it evens out


@pytest.mark.parametrize("step", [0.1, 2.0, 100.0])
def test_no_step_leaves_the_range_between_wood_and_air(step: float) -> None:
    solver = solver_of(body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS)), 1e4, step)
    moisture = np.random.default_rng(3).uniform(6.0, 12.0, len(solver.cells))
    for equilibrium in (5.0, 14.0, 5.0):
        moisture = two_steps(solver, moisture, equilibrium, equilibrium)
        assert 5.0 - 1e-9 <= moisture.min() <= moisture.max() <= 14.0 + 1e-9


def test_doubled_diffusion_is_halved_time() -> None:
    """Of the equation: D and S doubled, and steps half as long, give the very same moistures."""
    one = solver_of(body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS)), SURFACE, 2.0)
    two = solver_of(body_of(ball(), 5.0, (2 * ALONG, 2 * ACROSS, 2 * ACROSS)), 2 * SURFACE, 1.0)
    a = b = np.full(len(one.cells), 8.0)
    for _ in range(10):
        a, b = two_steps(one, a, 11.0, 11.0), two_steps(two, b, 11.0, 11.0)
    assert a == pytest.approx(b, abs=1e-11)


def test_the_last_state_is_what_the_air_asks_for() -> None:
    solver = solver_of(body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS)), SURFACE, 50.0)
    moisture = np.full(len(solver.cells), 12.0)
    for _ in range(100):
        moisture = two_steps(solver, moisture, 9.243, 9.243)  # Eq. 4-5 at 21.1 °C and 50 %
    assert moisture == pytest.approx(9.243, abs=1e-6)


def test_the_box_about_the_wood_does_not_matter() -> None:
    small = body_of(ball(), 5.0, (ALONG, ACROSS, ACROSS))
    wide = body_of(np.pad(ball(), 7), 5.0, (ALONG, ACROSS, ACROSS))
    for a, b in zip(solver_of(small, SURFACE, 2.0).lines, solver_of(wide, SURFACE, 2.0).lines):
        assert a.own == pytest.approx(b.own, abs=1e-12)


def test_a_turned_grain_is_exact_along_the_axes_and_bounded_between() -> None:
    assert grain_diffusivity((0.0, 3.0, 0.0), 4.0, 40.0) == pytest.approx((4.0, 40.0, 4.0))
    assert grain_diffusivity((1.0, 1.0, 0.0), 4.0, 40.0) == pytest.approx((22.0, 22.0, 4.0))
    # A disc is the same however its grain is turned: what differs is the part of the tensor that is left out.
    days = [10.0, 30.0, 90.0]
    straight, turned = (
        means(body_of(disc(60.0, 4.0), 4.0, tuple(grain_diffusivity(way, ACROSS, ALONG)), 1e6), SURFACE, 1.0, days)
        for way in ((1.0, 0.0, 0.0), (1.0, 1.0, 0.0))
    )
    assert turned == pytest.approx(straight, abs=0.06)
