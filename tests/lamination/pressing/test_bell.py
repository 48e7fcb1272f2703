# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bell-shaped law beside closed forms: Boussinesq's half-space under a round pad and under a line (any handbook of
soils or of elasticity), and Hetényi's beam on an elastic bed (M. Hetényi, Beams on Elastic Foundation, 1946)."""

from __future__ import annotations

from math import atan, cos, exp, inf, pi, sin

import numpy as np
import pytest
from piles import legs, outline, pile, ring
from shapely import MultiPolygon, Point, Polygon, box

from freecad_stacklam.lamination.plan.outline import area_polygon, rectangle
from freecad_stacklam.lamination.pressing.bell import (
    Islands,
    bell,
    cells_of,
    depth_under,
    lowest_twentieth,
    pressures,
    squares_on,
)
from freecad_stacklam.lamination.pressing.faces import pile_of


@pytest.mark.parametrize("shape", [box(0, 0, 300, 200), Point(0, 0).buffer(150).difference(Point(0, 0).buffer(138))])
def test_cells_have_the_area_and_lie_on_the_line(shape: Polygon) -> None:
    cells = cells_of(3, MultiPolygon([shape]), 80)
    assert cells.areas.sum() == pytest.approx(shape.area, rel=1e-9)
    assert len(cells.areas) >= 60
    assert all(shape.buffer(1e-6).contains(Point(p)) for p in cells.middles)


def test_an_area_as_thin_as_a_hair_is_not_cut_into_millions() -> None:
    hair = Point(0, 0).buffer(120, 180).difference(Point(0, 0).buffer(119.99, 180))  # about 7.5 mm²
    pieces = squares_on(hair, 0.2)  # 1.4 million squares cover it
    assert 128 <= len(pieces) <= 64**2
    assert sum(p.area for p in pieces) == pytest.approx(hair.area, rel=1e-6)


def test_the_force_on_the_line_is_the_force_of_the_pads() -> None:
    shape = outline(Polygon([(0, 0), (300, 0), (300, 60), (60, 60), (60, 300), (0, 300)]))
    cells = cells_of(1, area_polygon([shape]), 300)
    places = np.array([[20.0, 20.0], [250.0, 30.0], [30.0, 280.0], [500.0, 500.0]])
    over = pressures(places, cells, 45.0, 90.0, 40.0)
    assert over @ cells.areas == pytest.approx([1.0] * 4, rel=1e-12)
    # The middle of pressure of one pad on a wide block is under the pad.
    wide = cells_of(1, MultiPolygon([box(-300, -300, 300, 300)]), 3000)
    row = pressures(np.array([[10.0, -20.0]]), wide, 45.0, 45.0, 40.0)[0]
    assert (row * wide.areas) @ wide.middles == pytest.approx([10.0, -20.0], abs=1.0)


def test_under_a_pad_as_under_a_round_pad_of_even_pressure() -> None:
    # σ = q·(1 − (1 + a²/z²)^−1.5); far below, a pad is a point; close under it, its pressure is the pad's own.
    for z in (5.0, 20.0, 45.0, 200.0):
        even = 1 / (pi * 20**2) * (1 - (1 + 20**2 / z**2) ** -1.5)
        assert bell(np.zeros(1), float(depth_under(z, 40.0)))[0] == pytest.approx(even, rel=1e-9)
    assert float(depth_under(1000.0, 40.0)) == pytest.approx(1000.0, rel=0.001)
    assert bell(np.zeros(1), float(depth_under(0.5, 40.0)))[0] == pytest.approx(1 / (pi * 400), rel=0.001)


def test_points_in_a_row_press_as_a_line_load() -> None:
    # Flamant: σ = 2·P/(π·z) / (1 + x²/z²)² under a line load P.
    steps = np.arange(-4000.0, 4000.0, 1.0)
    for x in (0.0, 30.0, 90.0):
        assert bell(steps**2 + x**2, 45.0).sum() == pytest.approx(2 / (pi * 45) / (1 + (x / 45) ** 2) ** 2, rel=1e-4)


def test_it_reaches_about_as_far_as_a_beam_on_an_elastic_bed() -> None:
    """Hetényi: p = P·λ/2·e^(−λx)·(cos λx + sin λx), 0 first at λx = 3π/4. For one layer of white oak on another, across
    the grain (E 0.072 · 12.3 GPa in bending and through the thickness alike): D = E·t³/12, k = E/t, 1/λ = (4·D/k)^¼ =
    t/3^¼, so it ends at 1.79·t."""
    thickness = 45.0
    scale = thickness / 3**0.25
    end = 3 * pi / 4 * scale
    assert end / thickness == pytest.approx(1.79, abs=0.01)
    x = np.linspace(0, end, 20_001)
    beam = np.exp(-x / scale) * (np.cos(x / scale) + np.sin(x / scale)) / (2 * scale)
    closed = (1 - exp(-end / scale) * cos(end / scale)) / 2
    assert (
        float(((beam[1:] + beam[:-1]) / 2 * np.diff(x)).sum()) == pytest.approx(closed, rel=1e-6)
        and sin(end / scale) > 0
    )
    # The bell law has its force within the same strip but for a twentieth (integral of Flamant's law).
    u = end / thickness
    assert 2 / pi * (atan(u) + u / (1 + u * u)) == pytest.approx(0.95, abs=0.01)


def test_the_nearer_pad_shapes_the_pressure() -> None:
    cells = cells_of(1, MultiPolygon([box(-200, -200, 200, 200)]), 1600)
    at = np.zeros((1, 2))
    near = pressures(at, cells, 27.0, 300.0, 40.0)[0].max()
    far = pressures(at, cells, 150.0, 150.0, 40.0)[0].max()
    alone = pressures(at, cells, 27.0, inf, 40.0)[0].max()
    assert near > 5 * far and near == pytest.approx(alone)


def test_a_clamp_on_one_leg_presses_nothing_in_the_other() -> None:
    stack = pile([legs(), legs()])
    run = pile_of(stack, 1, 2)
    contact = area_polygon(legs())
    cells = cells_of(1, contact, 60)
    places = np.array([[-150.0, 0.0], [150.0, 10.0]])
    over = pressures(places, cells, 45.0, 45.0, 40.0, Islands(run, [contact]).bears(places, 0, cells))
    left = cells.middles[:, 0] < 0
    assert over[0, ~left].max() == 0.0 and over[1, left].max() == 0.0
    assert over @ cells.areas == pytest.approx([1.0, 1.0])


def test_a_board_over_two_legs_does_not_press_the_one_that_has_no_pad_below() -> None:
    seat = [rectangle(400, 100)]
    run = pile_of(pile([legs(), legs(), seat]), 1, 3)
    contacts = [area_polygon(legs())] * 2
    cells = [cells_of(n, c, 60) for n, c in enumerate(contacts, 1)]
    islands = Islands(run, contacts)
    for number, line in enumerate(cells):
        bears = islands.bears(np.array([[-150.0, 0.0]]), number, line)
        assert bears is not None and (bears.flags[bears.which[0]] == (line.middles[:, 0] < 0)).all()


def test_in_one_piece_all_is_joined() -> None:
    stack = pile([[ring(200, 100)]] * 2)
    contact = area_polygon([ring(200, 100)])
    assert Islands(pile_of(stack, 1, 2), [contact]).bears(np.zeros((1, 2)), 0, cells_of(1, contact, 40)) is None


def test_the_lowest_twentieth_is_by_area() -> None:
    values, areas = np.array([5.0, 1.0, 2.0, 3.0]), np.array([90.0, 2.0, 2.0, 6.0])
    assert lowest_twentieth(values, areas) == 3.0
    assert lowest_twentieth(values, np.array([1.0, 50.0, 1.0, 1.0])) == 1.0
    assert lowest_twentieth(np.zeros(0), np.zeros(0)) == 0.0


def test_the_block_above_a_line_is_in_balance() -> None:
    # Statics: force and moment of the pressure are those of the pad, wherever it stands and whatever the line's shape.
    shape = Polygon([(0, 0), (300, 0), (300, 60), (60, 60), (60, 300), (0, 300)])
    cells = cells_of(1, MultiPolygon([shape]), 300)
    places = np.array([[20.0, 20.0], [280.0, 30.0], [150.0, 150.0]])
    over = pressures(places, cells, 45.0, 45.0, 40.0)
    assert (over * cells.areas) @ cells.middles == pytest.approx(places, abs=1e-9)


def test_a_clamp_beside_a_slender_line_lets_it_gape() -> None:
    # A strut of 60 × 60 mm pressed 40 mm beside its middle, outside its kern (60/6 = 10 mm): F/A·(1 − 12·40/60·x/60 …)
    # gives F/A·(1 − 6·40/60) = −3·F/A on the far face, where the bell is nearly even.
    cells = cells_of(1, MultiPolygon([box(-30, -30, 30, 30)]), 3600)
    over = pressures(np.array([[40.0, 0.0]]), cells, 400.0, 400.0, 40.0)[0] * 3600
    assert over.min() == pytest.approx(-3.0, abs=0.1) and over.max() == pytest.approx(5.0, abs=0.1)
