# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tipping against a worked example by statics: a 400 mm square seat, 450 mm high, 9 kg, 600 N down at 60 mm inside its
edge and 20 N outward, as in EN 1022:2018 (forces and place from a secondary guide); g 9.80665 m/s² (ISO 80000-3).

Base half width 150: the load's line stands 140 from the middle, so it holds with 10 mm: 9 · 9.80665 · 0.150 +
600 · 0.010 = 19.239 N·m against 20 · 0.450 = 9.000 N·m: 2.138. Half width 130: 9 · 9.80665 · 0.130 = 11.474 against
9.000 + 600 · 0.010 = 15.000: 0.765. The limit: b = (20 · 450 + 600 · 140) / (600 + 9 · 9.80665) = 135.12 mm.
"""

from __future__ import annotations

from dataclasses import replace
from math import atan, cos, degrees, pi

import numpy as np
import pytest
import shapely

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.standing import DIRECTIONS, TopFound
from freecad_stacklam.lamination.standing.tipping import (
    GRAVITY,
    Base,
    base_of,
    edge_directions,
    edge_towards,
    inward_for,
    moments,
    tip_angles,
    tipping_of,
    unloaded,
    wider_for,
)

SEAT = TopFound(((-200.0, -200.0), (200.0, -200.0), (200.0, 200.0), (-200.0, 200.0)), 450.0)
EDGE = LoadCase("sitting on the edge", 600.0, 20.0, "edge", "EN 1022:2018", inset=60.0)


def square(half: float, mass: float = 9.0, **more: float) -> Base:
    base = base_of(shapely.box(-half, -half, half, half), mass * GRAVITY, np.array([0.0, 0.0, 250.0]))
    return replace(base, **more)


@pytest.mark.parametrize(
    ("half", "holding", "tipping", "ratio"), [(150.0, 19.239, 9.0, 2.138), (130.0, 11.474, 15.0, 0.765)]
)
def test_the_worked_example(half: float, holding: float, tipping: float, ratio: float) -> None:
    found = tipping_of(square(half), EDGE, (SEAT,), 0.0, 1.0)
    assert (found.holding, found.tipping) == pytest.approx((holding, tipping), abs=0.001)
    assert found.ratio == pytest.approx(ratio, abs=0.001)
    assert (found.direction, found.place, found.height) == (0.0, (140.0, 0.0), 450.0)
    assert {found.start, found.end} == {(half, -half), (half, half)}


def test_what_to_change_comes_to_the_limit() -> None:
    found = tipping_of(square(130.0), EDGE, (SEAT,), 0.0, 1.0)
    assert 130.0 + found.wider == pytest.approx(135.123, abs=0.001)
    assert tipping_of(square(130.0 + found.wider), EDGE, (SEAT,), 0.0, 1.0).ratio == pytest.approx(1.0)
    # Drawn in instead: (15.000 − 11.474) N·m / 600 N = 5.877 mm.
    assert found.inward == pytest.approx(5.877, abs=0.001)


@pytest.mark.parametrize("wanted", [1.0, 1.3, 2.0, 5.0])
def test_what_to_change_reaches_any_ratio_asked_for(wanted: float) -> None:
    base = square(120.0)
    asked = (base, 0.0, (140.0, 0.0), 450.0, 600.0, 20.0, wanted)
    wider, inward = wider_for(*asked), inward_for(*asked)
    assert inward is not None
    for corners, place in ((base.corners * (120.0 + wider) / 120.0, 140.0), (base.corners, 140.0 - inward)):
        found = moments(replace(base, corners=corners), np.array([[place, 0.0]]), 450.0, 600.0, 20.0, np.array([0.0]))
        assert found.ratios[0] == pytest.approx(wanted)


def test_a_push_alone_is_not_mended_by_moving_it_in() -> None:
    knock = LoadCase("a knock", 0.0, 50.0, "edge", "invented")
    found = tipping_of(square(100.0, 5.0), knock, (SEAT,), 0.0, 1.0)
    assert found.ratio == pytest.approx(5 * GRAVITY * 0.1 / (50 * 0.45))
    assert found.inward is None


def test_what_stands_inside_does_not_tip() -> None:
    pot = LoadCase("a pot", 250.0, 0.0, "edge", "invented", inset=80.0)
    found = tipping_of(square(150.0), pot, (SEAT,), 0.0, 1.3)
    assert found.ratio is None
    assert found.wider == 0.0
    assert set(found.ratios) == {None}


def test_the_empty_piece_tips_at_the_angle_of_its_edge() -> None:
    angle, _, inside = unloaded(square(150.0))
    assert angle == pytest.approx(30.96, abs=0.005)  # atan(150 / 250), by hand
    assert inside == 150.0
    assert tip_angles(square(150.0), np.array([45.0]))[0] == pytest.approx(degrees(atan(150 * 2**0.5 / 250)))


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_feet_on_a_circle(count: int) -> None:
    turns = 2 * pi * np.arange(count) / count
    support = shapely.Polygon(150 * np.column_stack([np.cos(turns), np.sin(turns)]))
    _, _, inside = unloaded(base_of(support, 1.0, np.array([0.0, 0.0, 250.0])))
    assert inside == pytest.approx(150 * cos(pi / count))  # inner radius of a regular polygon, exact


def test_no_direction_between_two_edges_is_worse_than_both() -> None:
    rng = np.random.default_rng(12)
    for _ in range(30):
        support = shapely.convex_hull(shapely.MultiPoint(rng.normal(size=(7, 2)) * 150))
        outline = shapely.convex_hull(shapely.MultiPoint(rng.normal(size=(9, 2)) * 200))
        middle = support.centroid
        base = base_of(support, 90.0, np.array([middle.x, middle.y, 300.0]))
        top = TopFound(tuple(map(tuple, shapely.get_coordinates(outline.exterior)[:-1].tolist())), 450.0)
        found = tipping_of(base, replace(EDGE, inset=20.0), (top,), 0.0, 1.0)
        finest = moments(base, np.array(top.outline), 450.0, 600.0, 20.0, np.arange(0, 360, 0.25)).ratios.min()
        assert found.ratio is not None
        assert found.ratio >= finest - 1e-9  # drawn in by 20 mm, it holds better than at the rim
        known = [r for r in found.ratios if r is not None]
        assert found.ratio <= min(known) + 1e-9


def test_a_push_that_goes_one_way_counts_by_its_part() -> None:
    east = replace(EDGE, down=0.0, direction=0.0)
    found = tipping_of(square(150.0), east, (SEAT,), 0.0, 1.0)
    assert found.direction == 0.0
    ways = dict(zip(DIRECTIONS, found.ratios))
    assert ways[90.0] is None
    assert ways[180.0] is None
    assert ways[45.0] == pytest.approx(9 * GRAVITY * 150 * 2**0.5 / (20 * 450 * cos(pi / 4)))


def test_a_load_at_a_point_stands_there_and_at_its_height() -> None:
    child = LoadCase("a child", 300.0, 10.0, "point", "invented", at=(0.0, 180.0, 512.0))
    found = tipping_of(square(150.0), child, (SEAT,), 12.0, 1.0)
    assert (found.place, found.height, found.direction) == ((0.0, 180.0), 500.0, 90.0)
    assert found.tipping == pytest.approx(10 * 0.5 + 300 * 0.03)
    middle = LoadCase("in the middle", 300.0, 10.0, "middle", "invented")
    assert tipping_of(square(150.0), middle, (SEAT,), 0.0, 1.0).place == (0.0, 0.0)


def test_a_floor_that_is_out_leans_it_and_a_soft_one_moves_the_line_in() -> None:
    # 3 mm over 300 mm lean it by 1 in 100: 2.5 mm at 250, 4.5 mm at 450.
    short = moments(square(150.0, short=3.0), np.array([[140.0, 0.0]]), 450.0, 600.0, 20.0, np.array([0.0]))
    assert short.holding[0] == pytest.approx(9 * GRAVITY * 0.1475 + 600 * 0.0055)
    # A soft floor by 3 mm leans it so too, and takes 3 mm off besides.
    soft = moments(square(150.0, soft=3.0), np.array([[140.0, 0.0]]), 450.0, 600.0, 20.0, np.array([0.0]))
    assert soft.holding[0] == pytest.approx(9 * GRAVITY * 0.1445 + 600 * 0.0025)


def test_an_outline_narrower_than_the_inset_is_loaded_in_its_middle() -> None:
    thin = TopFound(((-200.0, -40.0), (200.0, -40.0), (200.0, 40.0), (-200.0, 40.0)), 450.0)
    assert abs(tipping_of(square(150.0), EDGE, (thin,), 0.0, 1.0).place[1]) < 1.0


def test_the_worst_of_several_tops_counts() -> None:
    low = TopFound(((-100.0, -100.0), (100.0, -100.0), (100.0, 100.0), (-100.0, 100.0)), 200.0)
    assert tipping_of(square(150.0), EDGE, (low, SEAT), 0.0, 1.0).top == 2


def test_edges_and_corners() -> None:
    corners = square(150.0).corners
    assert sorted(edge_directions(corners).tolist()) == [0.0, 90.0, 180.0, 270.0]
    assert set(edge_towards(corners, 0.0)) == {(150.0, -150.0), (150.0, 150.0)}
    assert edge_towards(corners, 30.0) == ((150.0, 150.0), (150.0, 150.0))


def test_a_narrow_bench_is_sat_on_at_its_end() -> None:
    """80 wide and 1000 long: 0.8 · 40 = 32 mm inside its end, 468 from the middle, beyond feet at 200: it tips by
    600 · 0.268 + 20 · 0.450 = 169.8 N·m; 9 · 9.80665 · 0.200 = 17.65 N·m hold."""
    bench = TopFound(((-500.0, -40.0), (500.0, -40.0), (500.0, 40.0), (-500.0, 40.0)), 450.0)
    base = base_of(shapely.box(-200, -40, 200, 40), 9.0 * GRAVITY, np.array([0.0, 0.0, 250.0]))
    found = tipping_of(base, replace(EDGE, direction=0.0), (bench,), 0.0, 1.0)
    assert (found.holding, found.tipping) == pytest.approx((17.652, 169.8), abs=0.4)
