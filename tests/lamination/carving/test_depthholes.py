# SPDX-License-Identifier: LGPL-2.1-or-later

"""Depth holes against closed forms on a ball, a cone and a dish, and against another library's distances."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import judges
import models
import numpy as np
import pytest
import shapely
import solids
import trimesh

from freecad_stacklam.lamination.carving.bitends import least_tips
from freecad_stacklam.lamination.carving.depthholes import (
    NEAR,
    NO_LANDING,
    SHALLOW,
    TOO_DEEP,
    bit_of,
    depth_map,
    point_length,
)
from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import area_polygon, circle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD, TIP_TOLERANCE

TOP = (("", "top"),)


@cache
def dish(radius=200.0, height=90.0, depth=30.0, rim=180.0):
    """A round seat with a spherical dish: its mesh, the sphere's radius and the height of its centre."""
    sphere = (rim**2 + depth**2) / (2 * depth)
    centre = height - depth + sphere
    r = np.linspace(rim, 0.0, 60)
    hollow = np.column_stack([r, centre - np.sqrt(sphere**2 - r**2)])
    profile = np.vstack([[0, 0], [radius, 0], [radius, height], hollow])
    return solids.revolved(profile, 240), sphere, centre


@cache
def planned(mesh, stock=45.0, name="Top"):
    return plan_stack(mesh, StackSettings(stock=(stock,)), name=name)


def bodies(hole, bit, count=48):
    """Points of a hole's bottom: its tip, its shoulder, its cone and its wall."""
    angle = 2 * np.pi * np.arange(count) / count
    ring = np.column_stack([np.cos(angle), np.sin(angle)])
    sign = 1.0 if hole.face == "top" else -1.0
    made = [np.array([[hole.x, hole.y, hole.tip]])]
    for share in (0.25, 0.5, 0.75, 1.0):
        flat = np.array([hole.x, hole.y]) + ring * bit.diameter / 2 * share
        made.append(np.column_stack([flat, np.full(count, hole.tip + sign * share * bit.point)]))
    for height in np.linspace(hole.tip + sign * bit.point, hole.surface, 4)[1:]:
        flat = np.array([hole.x, hole.y]) + ring * bit.diameter / 2
        made.append(np.column_stack([flat, np.full(count, height)]))
    return np.vstack(made)


def test_point_lengths():
    # Drill point geometry, L = (D / 2) / tan(angle / 2), as drill charts print it: 0.3004 · D at 118°, 0.2071 · D at
    # 135°; 12.7 mm at 118° is 3.82 mm.
    assert point_length("twist", 1.0) == pytest.approx(0.3004, abs=5e-5)
    assert point_length("twist", 1.0, 135.0) == pytest.approx(0.2071, abs=5e-5)
    assert point_length("twist", 12.7) == pytest.approx(3.82, abs=5e-3)
    assert point_length("rim", 25.0, measured=3.2) == 3.2
    with pytest.raises(Refusal, match="measured"):
        point_length("brad point", 8.0)


def test_tips_in_a_dish():
    # Exact: inside a hollow sphere the outer shoulder or the tip comes nearest:
    # z = centre − √((S − leave)² − d²) with d = q (tip) or q + r (shoulder, less L).
    mesh, sphere, centre = dish()
    bit, leave = 6.0, 3.0
    q = np.array([0.5, 30.0, 90.0, 140.0])
    places = np.column_stack([q, 0 * q])
    for point in (point_length("twist", 2 * bit), 0.0):
        found = least_tips(mesh.vertices, mesh.triangles, places, bit, point, leave)
        tip = centre - np.sqrt((sphere - leave) ** 2 - q**2)
        shoulder = centre - np.sqrt((sphere - leave) ** 2 - (q + bit) ** 2) - point
        assert found == pytest.approx(np.maximum(tip, shoulder), abs=0.05)


def test_no_hole_of_a_dish_comes_too_near_by_another_measure():
    mesh, _, _ = dish()
    plan = planned(mesh)
    settings = CarvingSettings(depth_holes=TOP, leave=2.0, bit=8.0, stop_step=0.5)
    found = depth_map(plan, mesh, "top", settings)
    assert len(found.holes) > 60
    form = trimesh.Trimesh(to_stack(plan.frame, mesh.vertices), mesh.triangles, process=False)
    some = found.holes[:: max(1, len(found.holes) // 4)]
    # Outside judge: trimesh's nearest points on the mesh.
    where = np.vstack([bodies(h, found.bit, 8) for h in some])
    _, distance, _ = trimesh.proximity.closest_point_naive(form, where)
    assert distance.min() >= 2.0 + GUARD - 1e-6
    # The mesh's own error is allowed for by the guard; rounding down costs at most one step of the stop, and the search
    # TIP_TOLERANCE.
    per_hole = distance.reshape(len(some), -1).min(axis=1)
    assert per_hole.max() <= 2.0 + GUARD + 0.5 + 2 * TIP_TOLERANCE + 1e-6


@pytest.mark.parametrize("name", ["nut", "object", "t13_data"])
def test_holes_in_models_that_nobody_here_made(name):
    # Outside judges: trimesh for the wood left under the bit, manifold3d for the wood it is bored through.
    vertices, triangles, _ = models.load_mesh(name)
    mesh = gate(vertices, triangles)
    plan = plan_stack(mesh, StackSettings(stock=(40.0,)), name=name)
    asked = CarvingSettings(depth_holes=TOP, pitch=29.0, leave=1.5, bit=6.0, stop_step=0.5)
    found = depth_map(plan, mesh, "top", asked)
    assert len(found.holes) > 20
    some = found.holes[:: len(found.holes) // 20]
    form = trimesh.Trimesh(to_stack(plan.frame, mesh.vertices), mesh.triangles, process=False)
    where = np.vstack([bodies(h, found.bit, 8) for h in some])
    distance = trimesh.proximity.closest_point_naive(form, where)[1].reshape(len(some), -1).min(axis=1)
    assert distance.min() >= 1.5 - 1e-6
    assert np.median(distance) <= 1.5 + GUARD + 0.5 + 0.2  # the points of `bodies` miss the nearest by a little
    block = judges.blanks(plan)
    for hole in some:
        bore = judges.extruded(shapely.Point(hole.x, hole.y).buffer(3.0), hole.tip, hole.surface)
        assert (bore - block).volume() < 1e-3
        over = judges.extruded(shapely.Point(hole.x, hole.y).buffer(6.0), hole.surface + 0.01, plan.height + 1.0)
        assert (over ^ block).volume() < 1e-3


def test_holes_follow_the_dish_and_are_grouped_by_stop():
    mesh, _, _ = dish()
    found = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, stop_step=0.5))
    by_radius = sorted(found.holes, key=lambda h: np.hypot(h.x, h.y))
    depths = [h.depth for h in by_radius]
    assert depths == sorted(depths, reverse=True)
    assert depths[0] == 27.5  # 30 deep in the middle, 2 and the guard left, down to 0.5 mm
    for hole in found.holes:
        assert hole.surface == 90.0
        assert hole.depth == pytest.approx(round(hole.depth * 2) / 2)
        assert 0.0 <= hole.deepest - hole.depth < 0.5
        assert found.stops[hole.stop - 1].depth == hole.depth
        assert hole.x % 30.0 == 0.0 == hole.y % 30.0
    assert sum(s.count for s in found.stops) == len(found.holes)
    assert [s.depth for s in found.stops] == sorted({h.depth for h in found.holes})


@pytest.mark.parametrize("pattern", ["grid", "contours"])
def test_a_shallow_dish_is_bored_in_few_stops_that_leave_wood(pattern):
    # A dish 16 deep: 2 and the guard 0.2 left over it, 13.8 in the middle; steps of 2 from 6 (5 is the shallowest) to
    # 12 are four stops.
    mesh, sphere, centre = dish(depth=16.0, height=54.0)
    asked = CarvingSettings(depth_holes=TOP, hole_pattern=pattern)
    found = depth_map(planned(mesh, 27.0), mesh, "top", asked)
    assert [s.depth for s in found.stops] == [6.0, 8.0, 10.0, 12.0]
    for hole in found.holes:
        assert hole.depth <= hole.deepest + TIP_TOLERANCE
        # The dish's own sphere, square to it from the tip: a point inside the wood lies further from its centre.
        over = np.hypot(np.hypot(hole.x, hole.y), hole.tip - centre) - sphere
        assert -over >= 2.0


def test_a_deep_dish_needs_no_more_than_six_stops_unless_the_maker_asks_for_steps():
    """In 2 mm steps this dish, 30 mm deep, has more than six depths; the same holes then stop at six of them."""
    mesh, _, _ = dish()
    free = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, stop_step=2.0))
    found = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP))
    assert len(free.stops) > 6
    assert len(found.stops) == 6
    places = {(h.x, h.y): h.depth for h in free.holes}
    assert {(h.x, h.y) for h in found.holes} == set(places)
    assert all(h.depth <= places[h.x, h.y] for h in found.holes)


def test_holes_along_contours_stand_in_rings():
    # A dish is round about the axis: the holes of one stop that come from its contour have one distance from the axis,
    # and no place of the dish is further than the pitch from a hole.
    mesh, sphere, centre = dish()
    asked = CarvingSettings(depth_holes=TOP, hole_pattern="contours", stop_step=5.0)
    found = depth_map(planned(mesh), mesh, "top", asked)
    at = np.array([(h.x, h.y) for h in found.holes])
    for stop in found.stops:
        radius = np.hypot(*at[[h.stop == stop.stop for h in found.holes]].T)
        outer = radius[radius > radius.max() - 3.0]
        # Spread over a third of the pitch: the contour is straight between places 10 mm apart.
        assert len(outer) >= min(6, 2 * np.pi * radius.max() / 30.0 - 1)
        # r of the contour: the sphere's own section at that depth, less what the bit and the wood left want.
        level = 90.0 - stop.depth - 2.0 - GUARD
        assert radius.max() <= np.sqrt(sphere**2 - (centre - level) ** 2)
    apart = np.hypot(*(at[:, None] - at[None]).transpose(2, 0, 1)) + 1e9 * np.eye(len(at))
    assert apart.min() >= 15.0 - 1e-6
    inner = [(x, y) for x in range(-90, 91, 10) for y in range(-90, 91, 10) if np.hypot(x, y) < 90.0]
    assert all(np.hypot(*(at - p).T).min() <= 30.0 + 1e-6 for p in inner)


def test_inches_round_down_to_three_thirty_seconds():
    mesh, _, _ = dish()
    found = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP), units="in")
    for hole in found.holes:
        assert hole.depth / 25.4 * 32 / 3 == pytest.approx(round(hole.depth / 25.4 * 32 / 3), abs=1e-6)
        assert hole.depth <= hole.deepest + 1e-6


def test_a_rough_surface_of_steps_is_measured_from_each_step():
    # A cone's stack is a stair: every hole starts on the step it stands on, with its stop wholly on that step.
    mesh = solids.cone(200.0, 100.0, 360)
    plan = plan_stack(mesh, StackSettings(stock=(20.0,)), name="Cone")
    settings = CarvingSettings(depth_holes=TOP, pitch=17.0, bit=5.0, landing=2.0, least_depth=2.0)
    found = depth_map(plan, mesh, "top", settings)
    assert {h.surface for h in found.holes} >= {20.0, 40.0, 60.0, 80.0}
    for hole in found.holes:
        mouth = shapely.Point(hole.x, hole.y).buffer(4.5)
        for layer in plan.layers:
            blank = area_polygon(layer.blank)
            if layer.top <= hole.surface:
                assert blank.covers(mouth)
            else:
                assert not blank.intersects(mouth)
        # Above the flank by at least the leave square to it.
        q = np.hypot(hole.x, hole.y)
        assert (hole.tip - 100.0 * (1 - q / 200.0)) * np.cos(np.arctan2(100, 200)) >= 2.0 - 1e-6
    assert dict(found.dropped)[NO_LANDING] > 0


def test_the_underside_is_bored_from_below():
    # The dish turned over: the same holes, mirrored, from the bottom.
    mesh, _, _ = dish()
    over = solids.moved(mesh, np.diag([1.0, -1.0, -1.0]))
    settings = CarvingSettings(depth_holes=(("", "both"),), pitch=40.0)
    from_above = depth_map(planned(mesh), mesh, "top", settings)
    from_below = depth_map(planned(over), over, "bottom", settings)
    assert {(h.x, -h.y + 0.0, h.depth) for h in from_below.holes} == {(h.x, h.y, h.depth) for h in from_above.holes}
    assert all(h.surface == 0.0 and h.tip == h.depth for h in from_below.holes)
    assert not depth_map(planned(mesh), mesh, "bottom", settings).holes  # flat on the bench


def test_holes_keep_clear_of_what_lies_in_the_layers():
    mesh, _, _ = dish()
    plan = planned(mesh)
    settings = CarvingSettings(depth_holes=TOP, cover=10.0, bit=8.0)
    free = depth_map(plan, mesh, "top", settings)
    upper = plan.layers[1]
    cuts = (
        Cut("mortise", circle(40.0), 45.0, 90.0, "Leg"),
        Cut("pin", circle(10.0, (90.0, 0.0)), 45.0, 52.0),
        Cut("hollow", circle(30.0, (0.0, -90.0)), 45.0, 55.0),
    )
    cut = replace(plan, layers=(plan.layers[0], replace(upper, cuts=cuts)))
    seams = {2: [shapely.LineString([(-300, 60), (300, 60)])]}
    found = depth_map(cut, mesh, "top", settings, seams=seams)
    gone = {(h.x, h.y) for h in free.holes} - {(h.x, h.y) for h in found.holes}
    assert (0.0, 0.0) in gone
    assert (30.0, 0.0) in gone  # 30 − 20 − 4 = 6 mm from the mortise
    assert (0.0, 60.0) in gone  # on the seam
    assert (60.0, 0.0) not in gone
    # The pin ends at 52, the void at 55: a hole above stays if it stops more than 10 mm over them.
    hole = next(h for h in free.holes if (h.x, h.y) == (90.0, 0.0))
    assert ((90.0, 0.0) in gone) == (hole.tip - 52.0 < 10.0)
    hole = next(h for h in free.holes if (h.x, h.y) == (0.0, -90.0))
    assert ((0.0, -90.0) in gone) == (hole.tip - 55.0 < 10.0)
    assert dict(found.dropped)[NEAR] == len(gone)


def test_shallow_holes_are_dropped_and_counted():
    mesh, _, _ = dish()
    found = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, least_depth=12.0))
    assert min(h.depth for h in found.holes) >= 12.0
    assert dict(found.dropped)[SHALLOW] > 0


def test_holes_deeper_than_the_bit_reaches_are_dropped():
    mesh, _, _ = dish()
    free = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, stop_step=2.0))
    found = depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, stop_step=2.0, bit_length=20.0))
    assert dict(found.dropped)[TOO_DEEP] == sum(h.depth > 20.0 for h in free.holes) > 0
    assert max(h.depth for h in found.holes) <= 20.0


def test_a_measured_point_counts():
    mesh, _, _ = dish()
    flat = CarvingSettings(depth_holes=TOP, point="rim", point_length=0.0, bit=16.0)
    spur = replace(flat, point_length=4.0)
    assert bit_of(spur).point == 4.0
    one, other = (depth_map(planned(mesh), mesh, "top", s) for s in (flat, spur))
    pointed = {(h.x, h.y): h for h in other.holes}
    assert len(one.holes) > 30
    for hole in one.holes:
        # A slope meets the flat end's rim first; the tip of a pointed end goes deeper there, and never by more than it
        # is long.
        more = pointed[hole.x, hole.y].deepest - hole.deepest
        assert -2 * TIP_TOLERANCE <= more <= 4.0 + 2 * TIP_TOLERANCE


def test_slips_are_refused():
    mesh, _, _ = dish()
    with pytest.raises(Refusal, match="wider pitch"):
        depth_map(planned(mesh), mesh, "top", CarvingSettings(depth_holes=TOP, pitch=5.0, bit=4.0))
    with pytest.raises(Refusal, match="measured"):
        CarvingSettings(depth_holes=TOP, point="rim")
    with pytest.raises(Refusal, match="run into each other"):
        CarvingSettings(pitch=5.0, bit=8.0)
    with pytest.raises(Refusal, match="top, bottom, both"):
        CarvingSettings(depth_holes=(("Top", "left"),))
