# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wood between a joint and the finished surface, against closed forms, shapely and manifold3d."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest
import solids
from hypothesis import given, settings
from hypothesis import strategies as st
from joined import joint, planned

from freecad_stacklam.lamination.joints import cover
from freecad_stacklam.lamination.joints.cover import Cylinder, Prism, cover_of, depths_along, mouth_of


def test_tilted_cover_in_a_slab_is_in_closed_form():
    # A round hole of diameter d leaning by θ in a wide slab, stopped at depth t along its axis: the corner of its
    # end that
    # lies lowest is t·cos θ + d/2·sin θ under the face, so the slab of thickness h keeps h minus that.
    lean = np.radians(25.0)
    meshes = {"Low": solids.box(900, 600, 90, (-450, -300, -90)), "High": solids.box(900, 600, 90, (-450, -300, 0))}
    found = joint(
        (planned(meshes), meshes), section="round", size=(40.0,), axis=(np.sin(lean), 0, np.cos(lean)), end_room=0.0,
        embed=(("Low", 60.0), ("High", 40.0)),
    )  # fmt: skip
    assert found.least_cover == pytest.approx(90 - (60 * np.cos(lean) + 20 * np.sin(lean)), abs=0.05)


def test_cover_in_a_cone_is_in_closed_form():
    # A square of half diagonal c at height z in a cone of base radius R and height H stands (R·(1 − z/H) − c)·cos φ
    # from the
    # surface, φ the cone's wall to the axis: tan φ = R/H (elementary geometry).
    mesh = solids.cone(200, 450)
    side, top = 40.0, 250.0
    half = side / 2
    plan = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 10.0, top), mouths=[])
    exact = (200 * (1 - top / 450) - half * np.sqrt(2)) * np.cos(np.arctan2(200, 450))
    to_base = 10.0
    assert found.distance == pytest.approx(min(exact, to_base), abs=1e-6)
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 60.0, top), mouths=[])
    assert found.distance == pytest.approx(exact, abs=0.005)  # 720 flats: 200·(1 − cos(π/720)) = 0.002 mm
    assert found.place[2] == pytest.approx(top)


def test_cover_to_loose_triangles_is_the_judges():
    # GEOS, through shapely: triangles in planes of constant height above the prism's lid, beside it and across it.
    import shapely

    rng = np.random.default_rng(3)
    square = np.array([[-10, -10], [10, -10], [10, 10], [-10, 10]], dtype=float)
    lid = shapely.Polygon(square)
    for _ in range(40):
        flat = rng.uniform(-40, 40, (3, 2))
        height = rng.uniform(5, 30)
        corner = np.column_stack([flat, np.full(3, height)])
        found = cover_of(corner, np.array([[0, 1, 2]]), Prism(square, 0.0, 5.0), mouths=[])
        wanted = np.hypot(shapely.distance(shapely.Polygon(flat), lid), height - 5)
        assert found.distance == pytest.approx(wanted, abs=0.0011)


@given(st.tuples(*[st.floats(-60, 60)] * 9), st.floats(4, 20), st.floats(5, 40))
@settings(max_examples=25, deadline=None)
def test_a_triangle_anywhere_in_space_is_as_far_as_the_judge_says(corners, radius, height):
    """manifold3d's least gap to a thin plate on the triangle; a round body and a square one."""
    corner = np.array(corners).reshape(3, 3)
    normal = np.cross(corner[1] - corner[0], corner[2] - corner[0])
    if np.linalg.norm(normal) < 50.0:
        return
    thick = normal / np.linalg.norm(normal) * 1e-3
    plate = manifold3d.Manifold.hull_points(np.vstack([corner + thick, corner - thick]))
    square = radius * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1.0]])
    bodies = [
        (
            Prism(square, 0.0, height),
            manifold3d.Manifold.cube((2 * radius, 2 * radius, height)).translate((-radius, -radius, 0)),
        ),
        (
            Cylinder((0.0, 0.0), radius, 0.0, height),
            manifold3d.Manifold.cylinder(height, radius, circular_segments=512),
        ),
    ]
    for ours, theirs in bodies:
        found = cover_of(corner, np.array([[0, 1, 2]]), ours)
        assert found.distance == pytest.approx(theirs.min_gap(plate, 300.0), abs=4e-3)


def test_the_plane_of_a_mouth_is_not_counted_and_what_stands_beside_it_is():
    """A prism that comes out of the top of a box 45 mm high: 20 mm of wood to the sides, none at its mouth."""
    mesh = solids.box(80, 80, 45, (-40, -40, 0))
    square = np.array([[-20, -20], [20, -20], [20, 20], [-20, 20]], dtype=float)
    prism = Prism(square, 20.0, 45.0)
    assert cover_of(mesh.vertices, mesh.triangles, prism).distance == pytest.approx(0.0, abs=1e-9)
    mouth = mouth_of(np.column_stack([square, np.full(4, 45.0)]))
    assert (mouth.low, mouth.high, mouth.level) == pytest.approx((45, 45, 45))
    found = cover_of(mesh.vertices, mesh.triangles, prism, [mouth])
    assert found.distance == pytest.approx(20.0, abs=2e-3)


@pytest.mark.parametrize(("bend", "least"), [(1 / 300.0, 30.0), (0.0, 30.0), (-1 / 60.0, None)])
def test_a_dish_that_rises_round_a_mouth_is_no_lack_of_wood(bend, least):
    """z = 50 + bend·r²/2 about a mouth 20 mm square, and a wall 30 mm from it: in a dish the wood beside it grows
    thicker, so that the wall is the least; a dome falls away beside the mouth and is counted."""
    at = np.linspace(-40.0, 40.0, 41)
    x, y = (v.ravel() for v in np.meshgrid(at, at))
    points = np.column_stack([x, y, 50.0 + bend * (x**2 + y**2) / 2])
    i = np.arange(41 * 41).reshape(41, 41)
    a, b, c, d = (v.ravel() for v in (i[:-1, :-1], i[:-1, 1:], i[1:, 1:], i[1:, :-1]))
    wall = np.array([(40.0, -40.0, -10.0), (40.0, 40.0, -10.0), (40.0, 0.0, 90.0)])
    triangles = np.vstack([np.column_stack([a, b, c]), np.column_stack([a, c, d]), [np.arange(3) + len(points)]])
    square = np.array([(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)])
    felt = np.column_stack([square, np.full(4, 50.0 + bend * 100.0)])
    found = cover_of(np.vstack([points, wall]), triangles, Prism(square, 0.0, 50.0), [mouth_of(felt, outward=1.0)])
    if least is None:
        assert found.distance < 20.0
    else:
        assert found.distance == pytest.approx(least)


def test_a_slanting_mouth_is_fitted_as_numpy_fits_a_plane():
    flat = np.random.default_rng(3).uniform(-20, 20, (12, 2))
    mouth = mouth_of(np.column_stack([flat, 7.0 + flat @ (0.2, -0.1)]))
    assert mouth.slope == pytest.approx((0.2, -0.1))
    assert mouth.level == pytest.approx(7.0)
    bent = mouth_of(np.column_stack([flat, 7.0 + flat @ (0.2, -0.1) + np.where(np.arange(12) == 3, 0.5, 0.0)]))
    assert bent.slack > mouth.slack


def test_lines_through_a_form_meet_it_where_rays_of_another_library_do():
    mesh = solids.torus(120.0, 40.0)
    at = np.random.default_rng(5).uniform(-170, 170, (40, 2))
    found = depths_along(mesh.vertices, mesh.triangles, at)
    box = manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices.copy(), mesh.triangles.astype(np.uint64)))
    needle = manifold3d.Manifold.cube((2e-3, 2e-3, 400.0), True)
    for (x, y), depths in zip(at, found):
        inside = sum(depths[1::2] - depths[0::2])
        # the judge: how much of a needle of 0.002 mm lies in the ring
        wood = (needle.translate((x, y, 40.0)) ^ box).volume() / 4e-6
        assert inside == pytest.approx(wood, abs=0.05)


def test_a_turned_form_that_is_as_near_all_round_is_asked_of_few_places(monkeypatch):
    """A drill upright in a post of 720 sides: each side is as near, 80 · cos(180° / 720) − 3 mm. Cut in four, its slim
    triangles stay slim, and each pass keeps twice as many."""
    asked = []

    def counted(where, body, of=cover._to_body):
        asked.append(len(where))
        return of(where, body)

    monkeypatch.setattr(cover, "_to_body", counted)
    mesh = solids.cylinder(80.0, 300.0, 720)
    found = cover_of(mesh.vertices, mesh.triangles, Cylinder((0.0, 0.0), 3.0, 130.0, 200.0))
    assert found.distance == pytest.approx(80.0 * np.cos(np.pi / 720) - 3.0, abs=1.1e-3)
    assert sum(asked) < 400_000
