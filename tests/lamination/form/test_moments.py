# SPDX-License-Identifier: LGPL-2.1-or-later

"""Moments of bodies against closed forms (any table of moments of inertia), and against trimesh and manifold3d."""

from __future__ import annotations

import judges
import numpy as np
import pytest
import shapely
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.moments import Moments, nothing, prism_moments, slab_moments

FORMS = {
    "ball": solids.ball(150.0, 4), "cone": solids.cone(200.0, 450.0, 180), "torus": solids.torus(),
    "box": solids.box(120, 80, 200, (-30, 10, 0)),
}  # fmt: skip


def whole(mesh: Mesh) -> Moments:
    (found,) = slab_moments(mesh.vertices, mesh.triangles, (-1e4, 1e4))
    return found


def test_a_box() -> None:
    """a·b·c at (−30…90, 10…90, 0…200): I_x = m(b² + c²)/12, m its volume."""
    found = whole(FORMS["box"])
    volume = 120 * 80 * 200
    assert found.volume == pytest.approx(volume)
    assert found.middle == pytest.approx([30, 50, 100])
    assert np.diag(found.inertia) == pytest.approx(
        [volume * (80**2 + 200**2) / 12, volume * (120**2 + 200**2) / 12, volume * (120**2 + 80**2) / 12]
    )
    assert found.inertia - np.diag(np.diag(found.inertia)) == pytest.approx(np.zeros((3, 3)), abs=1e-3)


def test_a_ball_and_a_cone() -> None:
    """Ball: 4/3·π·R³ and 2/5·m·R². Cone on its base: middle at h/4, 3/10·m·R² about its axis, 3/20·m·R² + 3/80·m·h²
    across it. The meshes lie inside, by some ten-thousandths."""
    ball = whole(solids.ball(150.0, 6))
    volume = 4 / 3 * np.pi * 150**3
    assert ball.volume == pytest.approx(volume, rel=5e-4)
    assert ball.middle == pytest.approx([0, 0, 150], abs=1e-6)
    assert np.diag(ball.inertia) == pytest.approx([0.4 * volume * 150**2] * 3, rel=1e-3)
    cone = whole(solids.cone(200.0, 450.0, 720))
    mass = np.pi * 200**2 * 450 / 3
    assert cone.middle == pytest.approx([0, 0, 112.5], abs=1e-6)
    across = mass * (3 / 20 * 200**2 + 3 / 80 * 450**2)
    assert np.diag(cone.inertia) == pytest.approx([across, across, 0.3 * mass * 200**2], rel=1e-4)


@pytest.mark.parametrize("name", sorted(FORMS))
def test_as_trimesh_finds_them(name: str) -> None:
    """trimesh.Trimesh.mass_properties: volume, center_mass, inertia about it."""
    mesh = solids.moved(FORMS[name], turned(25, 40))
    judge = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)
    found = whole(mesh)
    assert found.volume == pytest.approx(judge.volume, rel=1e-10)
    assert found.middle == pytest.approx(judge.center_mass, abs=1e-7)
    # Beside a ball's 1e11 the products of inertia are noise.
    least = max(1e-2, 1e-11 * float(np.abs(judge.moment_inertia).max()))
    assert found.inertia == pytest.approx(judge.moment_inertia, rel=1e-8, abs=least)


def turned(about_z: float, about_x: float) -> np.ndarray:
    c, s = np.cos(np.radians(about_x)), np.sin(np.radians(about_x))
    return solids.turn_z(about_z) @ np.array([[1, 0, 0], [0, c, -s], [0, s, c]])


@pytest.mark.parametrize("name", sorted(FORMS))
def test_slabs_as_manifold_cuts_them(name: str) -> None:
    """manifold3d splits the solid at each plane; trimesh weighs the piece."""
    mesh = FORMS[name]
    planes = [-50.0, 0.0, 31.5, 45.0, 80.0, 133.3, 460.0]
    rest = judges.solid(mesh)
    for found, top in zip(slab_moments(mesh.vertices, mesh.triangles, planes), planes[1:]):
        rest, below = rest.split_by_plane((0, 0, 1), top)
        piece = below.to_mesh64()
        if not len(piece.tri_verts):
            assert found.volume == pytest.approx(0, abs=1e-3)
            continue
        judge = trimesh.Trimesh(np.asarray(piece.vert_properties)[:, :3], np.asarray(piece.tri_verts), process=False)
        assert found.volume == pytest.approx(judge.volume, rel=1e-6)
        assert found.middle == pytest.approx(judge.center_mass, abs=1e-4)
        assert found.inertia == pytest.approx(judge.moment_inertia, rel=1e-5, abs=1.0)


@given(planes=st.lists(st.floats(-10, 460), min_size=2, max_size=6, unique=True))
@settings(max_examples=30, deadline=None)
def test_slabs_add_up(planes: list[float]) -> None:
    mesh = FORMS["cone"]
    total = nothing()
    for part in slab_moments(mesh.vertices, mesh.triangles, sorted([-20.0, *planes, 470.0])):
        total += part
    one = whole(mesh)
    assert total.volume == pytest.approx(one.volume)
    assert total.first == pytest.approx(one.first, abs=1.0)
    assert total.second == pytest.approx(one.second, rel=1e-9, abs=100.0)


def test_a_plane_on_a_face_belongs_to_one_side() -> None:
    mesh = solids.box(100, 100, 100)
    below, inside, above = slab_moments(mesh.vertices, mesh.triangles, (-20, 0, 100, 120))
    assert (below.volume, above.volume) == (pytest.approx(0, abs=1e-6), pytest.approx(0, abs=1e-6))
    assert inside.volume == pytest.approx(1e6)


def test_a_prism_with_a_hole_as_the_mesh_of_it() -> None:
    """By trimesh, from manifold3d's extrusion."""
    area = shapely.Point(20, 10).buffer(60).difference(shapely.box(0, 0, 25, 40))
    oriented = shapely.geometry.polygon.orient(area)
    rings = [shapely.get_coordinates(r)[:-1] for r in (oriented.exterior, *oriented.interiors)]
    found = prism_moments(rings, 12.0, 57.0)
    solid = judges.extruded(area, 12.0, 57.0).to_mesh64()
    judge = trimesh.Trimesh(np.asarray(solid.vert_properties)[:, :3], np.asarray(solid.tri_verts), process=False)
    assert found.volume == pytest.approx(judge.volume, rel=1e-9)
    assert found.middle == pytest.approx(judge.center_mass, abs=1e-6)
    assert found.inertia == pytest.approx(judge.moment_inertia, rel=1e-7, abs=1.0)


def test_a_turned_and_shifted_body_is_the_body_of_the_turned_mesh() -> None:
    mesh = FORMS["box"]
    matrix = np.eye(4)
    matrix[:3, :3], matrix[:3, 3] = turned(31, 62), (500.0, -20.0, 900.0)
    there = whole(solids.moved(mesh, matrix))
    mapped = whole(mesh).mapped(matrix.ravel())
    assert mapped.first == pytest.approx(there.first)
    assert mapped.second == pytest.approx(there.second)
    assert mapped.inertia == pytest.approx(there.inertia, rel=1e-6, abs=1e-2)


def test_parts_and_voids() -> None:
    """A ball less a ball is a shell: mass and inertia subtract."""
    one, hole = whole(solids.ball(150.0, 4)), whole(solids.ball(150.0, 4)).times(-0.5)
    assert (one + hole).volume == pytest.approx(one.volume / 2)
    assert (one + hole).inertia == pytest.approx(one.inertia / 2)
    assert np.isnan(nothing().middle).all()
    assert nothing().inertia == pytest.approx(np.zeros((3, 3)))
