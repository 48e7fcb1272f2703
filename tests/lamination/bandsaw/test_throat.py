# SPDX-License-Identifier: LGPL-2.1-or-later

"""Room at the band saw: discs and rings by arithmetic, and any outline by turning the wood before a fixed blade."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, degrees, sqrt

import numpy as np
import pytest
import shapely
import solids
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from freecad_stacklam.lamination.bandsaw.throat import room_checks, throat_known, throat_needed
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import Outline, circle, straight
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.settings.stack import StackSettings


def planned(mesh, **more):
    return plan_stack(mesh, StackSettings(stock=(25.0,), allowance=0.0, **more), name="Form")


PLATE = planned(solids.box(100, 100, 25))


def layer_with(*outlines, grain=0.0):
    return replace(PLATE.layers[0], blank=tuple(outlines), grain=grain)


def with_layers(*layers, units="mm"):
    return Plan("Try", units, (replace(PLATE, layers=tuple(layers)),))


def test_a_disc_from_its_square_needs_the_corner_beyond_the_line():
    # Arithmetic: the corner stands R·√2 from the middle, the line R: 200·(1.41421 − 1) = 82.84 mm.
    found = throat_needed(layer_with(circle(400.0)))
    assert found.room == pytest.approx(200.0 * (sqrt(2.0) - 1.0), abs=0.05)
    assert found.waste_to_column and not found.in_hole
    # A square blank is its own rectangle: nothing is wanted beside the blade.
    assert throat_needed(layer_with(straight(shapely.box(0, 0, 300, 200)))).room == pytest.approx(0.0, abs=1e-9)
    assert throat_needed(layer_with()).room == 0.0


def test_a_hole_has_the_wood_all_round():
    # Arithmetic: from the line of a round hole to the corner R·√2 less r with the blank towards the column, and R·√2
    # plus r with the plug towards it: 282.84 − 60 = 222.84 mm is the better of the two.
    hole = circle(120.0).outer
    turned = type(hole)(tuple((x, y, -b) for x, y, b in hole.points[::-1]))
    found = throat_needed(layer_with(Outline(circle(400.0).outer, (turned,))))
    assert found.room == pytest.approx(200.0 * sqrt(2.0) - 60.0, abs=0.05)
    assert found.in_hole and not found.waste_to_column


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-300, 300), st.floats(-200, 200)), min_size=3, max_size=9, unique=True),
    st.floats(0.0, 180.0),
)
def test_no_other_way_of_turning_the_wood_finds_more(points, grain):
    # Another route: the wood is laid with each edge in turn along the feed, and its bounds are read beside the blade.
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 100.0:
        return
    outline = straight(hull)
    laid = affinity.rotate(hull, -grain, origin=(0, 0))
    board = affinity.rotate(shapely.box(*laid.bounds), grain, origin=(0, 0))
    ring = np.array([p[:2] for p in outline.outer.points])
    waste = wood = 0.0
    for a, b in zip(ring, np.roll(ring, -1, axis=0)):
        if np.hypot(*(b - a)) < 1e-6:
            continue
        turned = affinity.rotate(board, -degrees(atan2(*(b - a)[::-1])), origin=tuple(a))
        waste, wood = max(waste, a[1] - turned.bounds[1]), max(wood, turned.bounds[3] - a[1])
    assert throat_needed(layer_with(outline, grain=grain)).room == pytest.approx(min(waste, wood), abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(0.15, 1.0), min_size=5, max_size=14),
    st.floats(40.0, 400.0),
    st.floats(0.0, 180.0),
    st.one_of(st.none(), st.lists(st.floats(0.2, 1.0), min_size=3, max_size=8)),
)
def test_concave_lines_and_their_holes_ask_for_the_wood_on_either_side(spikes, size, grain, hole):
    # Another route: the rectangle is cut in two along the feed at each edge in turn, and each part is measured square
    # to the cut. Outlines are stars about the axis, mostly concave, some with a hole that is a star too.
    def star(radii, scale):
        turns = 2 * np.pi * np.arange(len(radii)) / len(radii)
        return shapely.Polygon(np.column_stack([np.cos(turns), np.sin(turns)]) * np.array(radii)[:, None] * scale)

    shape = star(spikes, size)
    if hole is not None:  # the least circle that a star of n spikes surely holds: r·cos(π/n)
        shape = shape.difference(star(hole, 0.9 * size * min(spikes) * np.cos(np.pi / len(spikes))))
    if shape.geom_type != "Polygon" or shape.is_empty:
        return
    outline = straight(shape)
    laid = affinity.rotate(shape, -grain, origin=(0, 0))
    board = affinity.rotate(shapely.box(*laid.bounds), grain, origin=(0, 0))

    def asked(loop):
        points = np.array([p[:2] for p in loop.points])
        beside = {1: 0.0, -1: 0.0}
        for a, b in zip(points, np.roll(points, -1, axis=0)):
            way = (b - a) / np.hypot(*(b - a))
            feed = shapely.LineString([a - 1e4 * way, a + 1e4 * way])
            for side in beside:
                half = feed.buffer(side * 1e4, single_sided=True)  # positive: to the left
                part = shapely.get_coordinates(board.intersection(half))
                far = shapely.distance(feed, shapely.points(part)).max() if len(part) else 0.0
                beside[side] = max(beside[side], far)
        return min(beside.values())

    wanted = max(asked(loop) for loop in (outline.outer, *outline.holes))
    found = throat_needed(layer_with(outline, grain=grain))
    assert found.room == pytest.approx(wanted, abs=1e-4)


def test_verdicts_name_layer_figure_and_limit():
    disc, thick = layer_with(circle(400.0)), replace(PLATE.layers[0], number=2, top=75.0, bottom=25.0)
    plan = with_layers(disc, thick)
    height, throat = room_checks(plan, BandSaw(height=50.0, throat=83.0))
    assert (height.verdict, height.figure, height.limit) == ("ok", 50.0, 50.0)
    assert throat.verdict == "ok" and throat.figure == pytest.approx(82.84, abs=0.05) and "needs 83 mm" in throat.says
    height, throat = room_checks(plan, BandSaw(height=49.0, throat=80.0))
    assert (height.verdict, throat.verdict) == ("caution", "caution")
    assert "layer 2" in height.says and "larger saw" in height.says
    assert "waste towards the column" in throat.says and "corners off first" in throat.says


def test_the_throat_is_read_back_from_the_checks():
    plan = with_layers(layer_with(circle(400.0)))
    assert throat_known(plan, plan.stacks[0]) is None
    known = replace(plan, checks=room_checks(plan, BandSaw(throat=300.0)))
    assert throat_known(known, known.stacks[0]) == 300.0


def test_inches_round_the_room_up():
    throat = room_checks(with_layers(layer_with(circle(400.0)), units="in"), BandSaw(throat=400.0))[0]
    # 82.84 mm are 3.2615 in, 104.4 thirty-seconds: 105/32 is 3-9/32 in.
    assert "needs 3-9/32 in" in throat.says and "mm" not in throat.says


def test_what_is_not_known_of_the_saw_gets_no_verdict():
    plan = with_layers(layer_with(circle(400.0)))
    assert room_checks(plan, None) == () == room_checks(plan, BandSaw(12.7))
    assert len(room_checks(plan, BandSaw(height=200.0))) == 1
