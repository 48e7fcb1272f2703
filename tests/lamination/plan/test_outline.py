# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines of lines and arcs, against ezdxf's bulges (the DXF convention), shapely's areas and plane geometry."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, radians, sin, sqrt, tan

import ezdxf.math
import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.plan.outline import (
    Loop,
    Outline,
    arc_of,
    area,
    area_polygon,
    circle,
    edges_of,
    extents,
    loop_area,
    polygon_of,
    rectangle,
    sample,
    straight,
)

bulges = st.floats(-1.5, 1.5).filter(lambda b: abs(b) > 0.01)
places = st.tuples(st.floats(-200, 200), st.floats(-200, 200))


@given(places, places, bulges)
@settings(max_examples=60, deadline=None)
def test_arcs_are_those_of_a_dxf_reader(a, b, bulge) -> None:
    if hypot(a[0] - b[0], a[1] - b[1]) < 1.0:
        return
    x, y, radius, first, sweep = arc_of((*a, bulge), (*b, 0.0))
    centre = ezdxf.math.bulge_center(a, b, bulge)
    assert (x, y) == pytest.approx((centre.x, centre.y), abs=1e-6)
    assert radius == pytest.approx(abs(ezdxf.math.bulge_radius(a, b, bulge)), rel=1e-9)
    # it begins at a, ends at b, and turns to the side that the bulge says
    assert (x + radius * cos(first), y + radius * sin(first)) == pytest.approx(a, abs=1e-6)
    assert (x + radius * cos(first + sweep), y + radius * sin(first + sweep)) == pytest.approx(b, abs=1e-6)
    assert tan(sweep / 4) == pytest.approx(bulge)


def test_areas_by_geometry() -> None:
    assert area(circle(100.0, (30.0, -20.0))) == pytest.approx(pi * 2500)
    assert area(rectangle(60.0, 40.0, (5.0, 5.0), 33.0)) == pytest.approx(2400.0)
    # a half round on a square of 20: 400 + π · 10² / 2
    hood = Loop(((0, 0, 0), (20, 0, 0), (20, 20, 1.0), (0, 20, 0)))
    assert loop_area(hood) == pytest.approx(400 + 50 * pi)
    # and cut out of it
    bay = Loop(((0, 0, 0), (20, 0, 0), (20, 20, -1.0), (0, 20, 0)))
    assert loop_area(bay) == pytest.approx(400 - 50 * pi)
    # a washer
    hole = Loop(tuple((x, y, -b) for x, y, b in reversed(circle(30.0).outer.points)))
    assert area(Outline(circle(50.0).outer, (hole,))) == pytest.approx(pi * (625 - 225))


@given(
    st.lists(
        st.tuples(st.floats(30, 100), st.one_of(st.just(0.0), st.floats(1e-4, 0.4), st.floats(-0.4, -1e-4))),
        min_size=3,
        max_size=9,
    ),
    st.floats(0.01, 0.5),
)
@example([(30.0, 0.0), (30.0, -0.375), (84.0, -0.375)], 0.5)
@settings(max_examples=25, deadline=None)
def test_a_loop_and_its_points_agree_within_the_sag(corners, sag) -> None:
    """The exact area and that of the sampled loop, by the shoelace formula, differ by no more than the sag along it.

    Both carry their sign: an arc that bulges over its neighbours turns such a loop over, and shapely's areas have none.
    """
    turns = 2 * pi * np.arange(len(corners)) / len(corners)
    loop = Loop(tuple((r * cos(t), r * sin(t), b) for (r, b), t in zip(corners, turns)))
    points = sample(loop, sag)
    ring = shapely.LinearRing(points)
    x, y = np.transpose(points)
    shoelace = 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
    assert abs(shoelace - loop_area(loop)) <= sag * ring.length * 1.01 + 1e-6
    assert points[0] == pytest.approx(loop.points[0][:2])
    assert not np.array_equal(points[0], points[-1])


def test_no_chord_of_a_circle_leaves_it_by_more_than_the_sag() -> None:
    for sag in (0.5, 0.05, 0.005):
        ring = shapely.LinearRing(sample(circle(240.0).outer, sag))
        off = 120.0 - shapely.distance(ring, shapely.Point(0, 0))
        assert 0.1 * sag < off <= sag


def test_a_small_circle_is_no_line() -> None:
    """A pin of 1 mm, coarser drawn than its radius allows, keeps an area."""
    assert polygon_of(circle(1.0), sag=2.0).area >= 0.25  # a square in a circle of radius r has 2 r² = 0.5


@given(st.floats(5, 200), st.floats(5, 200), places, st.floats(-400, 400))
@settings(max_examples=30, deadline=None)
def test_a_turned_rectangle_is_shapelys(width, depth, centre, turn) -> None:
    flat = shapely.box(centre[0] - width / 2, centre[1] - depth / 2, centre[0] + width / 2, centre[1] + depth / 2)
    wanted = shapely.affinity.rotate(flat, turn, origin=centre)
    found = polygon_of(rectangle(width, depth, centre, turn))
    # GEOS overlays two nearly equal squares wrongly: asked as distances of the outlines instead
    assert shapely.hausdorff_distance(found, wanted) <= 1e-6 * (width + depth)
    assert found.exterior.is_ccw
    # and it is as long and as wide as it was asked, along its own direction
    assert extents([rectangle(width, depth, centre, turn)], turn) == pytest.approx((width, depth), abs=1e-6)


def test_extents_of_islands_are_taken_together() -> None:
    """Two pins of 10 mm on the corners of a square of 30: 40 along its sides, 30 √2 + 10 along its diagonal."""
    pins = [circle(10.0, (0.0, 0.0)), circle(10.0, (30.0, 30.0))]
    assert extents(pins) == pytest.approx((40.0, 40.0), abs=0.02)
    assert extents(pins, 45.0) == pytest.approx((30 * sqrt(2) + 10, 10.0), abs=0.02)
    assert area_polygon(pins).area == pytest.approx(2 * pi * 25, rel=2e-3)
    assert len(area_polygon(pins).geoms) == 2


def test_wood_lies_on_the_left_of_every_loop_of_a_shapely_area() -> None:
    """However shapely ran the rings: RFC 7946's right-hand rule, outer rings counter-clockwise, holes clockwise."""
    plate, hole = [(0, 0), (90, 0), (90, 60), (0, 60)], [(30, 20), (60, 20), (60, 40), (30, 40)]
    for outer in (plate, plate[::-1]):
        for inner in (hole, hole[::-1]):
            made = straight(shapely.Polygon(outer, [inner]))
            assert shapely.LinearRing(sample(made.outer)).is_ccw
            assert not shapely.LinearRing(sample(made.holes[0])).is_ccw
            assert area(made) == pytest.approx(90 * 60 - 30 * 20)
            assert len(made.outer.points) == len(made.holes[0].points) == 4


def test_the_closing_edge_comes_last() -> None:
    loop = rectangle(4.0, 2.0).outer
    found = list(edges_of(loop))
    assert len(found) == 4
    assert found[-1] == (loop.points[3], loop.points[0])
    assert [round(atan2(b[1] - a[1], b[0] - a[0]) / radians(90)) % 4 for a, b in found] == [0, 1, 2, 3]
