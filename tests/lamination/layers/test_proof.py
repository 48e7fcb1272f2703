# SPDX-License-Identifier: LGPL-2.1-or-later

"""The proof must find what is wrong: blanks that are cut too small, by any way in which that can happen."""

from __future__ import annotations

from dataclasses import replace

import judges
import manifold3d
import numpy as np
import pytest
import shapely
import solids
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.proof import (
    SLICE_HEIGHTS,
    _to_wall,
    by_layer,
    contain,
    plain_section,
    surface_samples,
)
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import Loop, Outline, area_polygon, circle, polygon_of, straight
from freecad_stacklam.lamination.settings.stack import StackSettings


@pytest.fixture(scope="module")
def ball():
    mesh = solids.ball(150.0, 5)
    plan = plan_stack(mesh, StackSettings(stock=(25.0,), allowance=2.0), name="ball")
    points = to_stack(plan.frame, mesh.vertices)
    planes = [layer.bottom for layer in plan.layers] + [plan.height]
    return mesh, plan, points, planes


def prove(ball, blanks):
    mesh, _, points, planes = ball
    return contain(points, mesh.triangles, planes, blanks)


def test_good_blanks_are_proven_with_their_cover(ball):
    _, plan, *_ = ball
    proof = prove(ball, [layer.blank for layer in plan.layers])
    assert proof.proven
    # allowance and guard, and no more than the fit adds
    assert 2.2 <= proof.least_cover <= 2.2 + 0.3
    assert proof.uncovered_volume == 0.0
    assert proof.samples > 10_000


def test_midplane_blanks_are_found_out(ball):
    # The classic error: each blank is the section at the middle of its layer. Exact: the lowest layer of a ball of
    # 150 mm
    # is then 82.916 − 59.948 = 22.968 mm short (elementary geometry; the project's trade table §9.1).
    _, _, _, planes = ball
    middles = [abs((a + b) / 2 - 150.0) for a, b in zip(planes[:-1], planes[1:])]
    proof = prove(ball, [(circle(2 * np.sqrt(150.0**2 - m**2)),) for m in middles])
    assert not proof.proven
    assert proof.least_cover == pytest.approx(-22.968, abs=0.2)
    assert proof.uncovered_volume > 1000.0
    assert proof.place[2] == pytest.approx(25.0, abs=0.1) or proof.place[2] == pytest.approx(275.0, abs=0.1)


def test_one_blank_a_little_short_on_one_side_is_found_out(ball):
    _, plan, *_ = ball
    blanks = [layer.blank for layer in plan.layers]
    short = area_polygon(blanks[4]).difference(shapely.box(140.9, -400, 400, 400))
    blanks[4] = tuple(straight(p) for p in shapely.get_parts(short))
    proof = prove(ball, blanks)
    assert not proof.proven
    assert proof.least_cover < 0
    assert proof.place[0] > 140
    assert 100.0 <= proof.place[2] <= 125.0


def test_hole_inside_the_form_is_found_though_no_surface_touches_it(ball):
    _, plan, *_ = ball
    blanks = [layer.blank for layer in plan.layers]
    hole = Loop(tuple((x, y, -b) for x, y, b in circle(10.0).outer.points))
    blanks[5] = (Outline(blanks[5][0].outer, (hole,)),)
    proof = prove(ball, blanks)
    assert not proof.proven
    assert proof.uncovered_volume == pytest.approx(np.pi * 25 * 25.0, rel=0.01)


def test_missing_layer_is_found_out(ball):
    _, plan, *_ = ball
    blanks = [layer.blank for layer in plan.layers]
    blanks[3] = ()
    assert not prove(ball, blanks).proven


def test_stack_too_low_is_found_out(ball):
    mesh, plan, points, planes = ball
    proof = contain(points, mesh.triangles, planes[:-1], [layer.blank for layer in plan.layers[:-1]])
    assert not proof.proven
    assert proof.least_cover == pytest.approx(-25.0, abs=0.1)


def test_exact_points_outside_the_mesh_count(ball):
    mesh, plan, points, planes = ball
    blanks = [layer.blank for layer in plan.layers]
    outside = np.array([[155.0, 0.0, 150.0]])
    proof = contain(points, mesh.triangles, planes, blanks, outside)
    assert proof.least_cover == pytest.approx(150 + 2.2 + 0.11 - 155, abs=0.15)
    assert proof.place == pytest.approx((155, 0, 150))


def test_samples_are_as_dense_as_promised():
    mesh = solids.box(100, 80, 60)
    samples = surface_samples(mesh.vertices, mesh.triangles)
    tree = shapely.STRtree(shapely.points(samples[np.abs(samples[:, 2] - 60) < 1e-9, :2]))
    rng = np.random.default_rng(5)
    asked = shapely.points(rng.uniform((0, 0), (100, 80), (500, 2)))
    _, distance = tree.query_nearest(asked, return_distance=True, all_matches=False)
    assert distance.max() <= 2.0


@pytest.mark.parametrize("height", [10.0, 77.0, 149.99, 260.0])
def test_plain_section_is_the_judges_section(ball, height):
    mesh, plan, points, _ = ball
    # trimesh's slicer
    wanted = judges.section_area(mesh, plan, height)
    assert plain_section(points, mesh.triangles, height).area == pytest.approx(wanted, rel=1e-6)


def test_plain_section_of_overlapping_bodies_counts_wood_once():
    one, two = solids.box(100, 80, 60), solids.box(100, 80, 60, (50, 30, 10))
    points = np.vstack([one.vertices, two.vertices])
    faces = np.vstack([one.triangles, two.triangles + len(one.vertices)])
    assert plain_section(points, faces, 30.0).area == pytest.approx(2 * 8000 - 50 * 50, abs=1e-6)


def test_containment_says_how_it_was_found(ball):
    _, plan, *_ = ball
    assert "points of the surface" in plan.containment.method
    assert replace(plan.containment, uncovered_volume=0.02).proven is False


@given(st.lists(st.floats(-60.0, 60.0), min_size=2, max_size=9, unique=True), st.floats(-1.0, 1.0))
@settings(max_examples=20, deadline=None)
def test_no_layer_lacks_a_triangle_that_a_section_of_it_meets(planes: list[float], lean: float) -> None:
    """The sections of a layer's own triangles are those of all triangles."""
    ball = solids.ball(50.0, 2)
    points = ball.vertices @ np.array([[1, 0, lean], [0, 1, 0], [0, 0, 1.0]])
    heights = sorted(planes)
    for here, low, high in zip(by_layer(points, ball.triangles, heights), heights, heights[1:]):
        for part in SLICE_HEIGHTS:
            z = low + part * (high - low)
            some, whole = (plain_section(points, t, z) for t in (ball.triangles[here], ball.triangles))
            assert some.symmetric_difference(whole).area < 1e-9


def flaked(thick: float):
    """A block of 40 × 40 × 20 with a plate of 60 × 40 × `thick` through it, its middle on z = 10; by manifold3d."""
    cube = manifold3d.Manifold.cube
    mesh = (cube((40, 40, 20)) + cube((60, 40, thick)).translate((0, 0, 10 - thick / 2))).to_mesh64()
    return gate(np.array(mesh.vert_properties)[:, :3], np.array(mesh.tri_verts, dtype=np.int64))


def test_a_flake_that_a_glue_line_swallows_is_not_called_missing_wood():
    # Both its faces are within PLANE_SNAP (0.001 mm) of the glue line, so it belongs to neither layer.
    plan = plan_stack(flaked(0.0003), StackSettings(stock=(10.0,), allowance=0.0), name="flaked")
    assert plan.containment.proven
    assert judges.uncovered(flaked(0.0003), plan) == pytest.approx(20 * 40 * 0.0003, rel=0.05)
    # A plate twice as thick as what may be lacking is wood, and is covered.
    plan = plan_stack(flaked(0.004), StackSettings(stock=(10.0,), allowance=0.0), name="plate")
    assert plan.containment.proven
    assert judges.uncovered(flaked(0.004), plan) < 0.01


def test_a_plate_thicker_than_a_flake_is_missed():
    mesh = flaked(0.004)
    planes, narrow = (0.0, 10.0, 20.0), [(straight(shapely.box(-0.2, -0.2, 40.2, 40.2)),)] * 2
    proof = contain(mesh.vertices, mesh.triangles, planes, narrow)
    assert not proof.proven
    assert proof.least_cover == pytest.approx(-19.8)  # the plate ends at 60, the blank at 40.2


def test_an_upright_flake_finer_than_the_grid_is_not_called_missing_wood():
    # A wall of 20 mm that is 60 nanometres thick: outlines are drawn on a grid of 0.0001 mm.
    cube = manifold3d.Manifold.cube
    for thick, proven in ((0.00006, True), (0.02, False)):
        made = (cube((40, 40, 20)) + cube((60, thick, 13)).translate((0, 20.00002, 0))).to_mesh64()
        mesh = gate(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, dtype=np.int64))
        assert plan_stack(mesh, StackSettings(stock=(10.0,), allowance=0.0), name="fin").containment.proven
        narrow = [(straight(shapely.box(-0.2, -0.2, 40.2, 40.2)),)] * 2
        assert contain(mesh.vertices, mesh.triangles, (0.0, 10.0, 20.0), narrow).proven is proven


def test_a_flake_that_leans_and_so_has_many_heights_is_none_either():
    cube = manifold3d.Manifold.cube
    fin = cube((260, 0.00006, 6)).rotate((0, 4, 0)).translate((10, 20.00002, 12))
    made = (cube((40, 40, 20)) + fin.trim_by_plane((0, 0, 1), 0.5).trim_by_plane((0, 0, -1), -19.5)).to_mesh64()
    mesh = gate(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, dtype=np.int64))
    narrow = [(straight(shapely.box(-0.2, -0.2, 40.2, 40.2)),)] * 2
    assert contain(mesh.vertices, mesh.triangles, (0.0, 10.0, 20.0), narrow).proven


def test_distance_to_a_drawn_wall_is_shapelys():
    """A D of a straight and a half circle, a hole of two arcs, one of them of more than half a turn: against the same
    walls as polylines of chords that stand less than 0.001 mm off."""
    drawn = Outline(Loop(((-40.0, -40.0, 0.0), (40.0, -40.0, 1.0), (40.0, 40.0, 0.0), (-40.0, 40.0, 0.0))),
                    (Loop(((0.0, 5.0, -1.15), (10.0, 5.0, -0.2))),))  # fmt: skip
    where = np.random.default_rng(5).uniform(-90, 90, (3000, 2))
    wall = shapely.boundary(polygon_of(drawn, 0.001))
    found = _to_wall([drawn], where)
    assert np.abs(found - shapely.distance(wall, shapely.points(where))).max() < 0.0011


def test_plain_section_of_bodies_apart_and_inside_each_other():
    """A box with a pocket that holds a post, beside a box: 100·80 − 60·40 + 20·20 + 30·30 mm²."""
    parts = [solids.box(100, 80, 50), solids.box(60, 40, 40, (20, 20, 5)), solids.box(20, 20, 30, (40, 30, 10)),
             solids.box(30, 30, 50, (150, 0, 0))]  # fmt: skip
    vertices = np.vstack([p.vertices for p in parts])
    triangles = [p.triangles[:, ::-1] if i == 1 else p.triangles for i, p in enumerate(parts)]
    counts = np.cumsum([0, *(len(p.vertices) for p in parts)])
    section = plain_section(vertices, np.vstack([t + n for t, n in zip(triangles, counts)]), 25.0)
    assert section.area == pytest.approx(8000 - 2400 + 400 + 900)
    assert section.is_valid
