# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much of a form lies in each slab, against manifold3d, the cap of a ball and the frustum of a cone."""

from __future__ import annotations

import judges
import numpy as np
import pytest
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.form.volumes import slab_volumes, volume_middle


def test_frustums_of_a_cone_of_many_sides() -> None:
    """π h (R² + R r + r²) / 3, and a regular polygon of n sides has n / (2π) · sin(2π / n) of its circle's area."""
    mesh, planes = solids.cone(200.0, 450.0, 180), [0.0, 45.0, 90.0, 300.0, 450.0]
    sides = 180 / (2 * np.pi) * np.sin(2 * np.pi / 180)
    for found, low, high in zip(slab_volumes(mesh.vertices, mesh.triangles, planes), planes, planes[1:]):
        big, small = 200 * (1 - low / 450), 200 * (1 - high / 450)
        assert found == pytest.approx(sides * np.pi * (high - low) / 3 * (big**2 + big * small + small**2), rel=1e-12)


def test_the_cap_of_a_ball() -> None:
    """π h² (3 R − h) / 3, Archimedes; the mesh lies inside the ball by no more than its facets' sag."""
    mesh = solids.ball(150.0, 5)
    cap, rest = slab_volumes(mesh.vertices, mesh.triangles, [0.0, 60.0, 300.0])
    assert cap == pytest.approx(np.pi * 60**2 * (450 - 60) / 3, rel=3e-3)
    assert cap + rest == pytest.approx(mesh.volume, rel=1e-12)


@given(st.lists(st.floats(1.0, 79.0), min_size=1, max_size=4, unique=True), st.floats(-0.8, 0.8))
@settings(max_examples=12, deadline=None)
def test_slabs_of_a_leaning_ring_are_the_judges(cuts: list[float], lean: float) -> None:
    """manifold3d, splitting the solid; planes outside the form leave empty slabs."""
    ring = trimesh.creation.torus(120.0, 40.0, major_sections=36, minor_sections=18)
    mesh = gate(ring.vertices @ np.array([[1, 0, 0], [0, 1, 0], [lean, 0, 1.0]]) + [0, 0, 40.0], ring.faces)
    planes = [-10.0, 0.0, *sorted(cuts), 80.0, 95.0]
    rest, wanted = judges.solid(mesh), []
    for top in planes[1:]:
        above, below = rest.split_by_plane((0, 0, 1), top)
        wanted.append(below.volume())
        rest = above
    assert slab_volumes(mesh.vertices, mesh.triangles, planes) == pytest.approx(wanted, abs=1e-3, rel=1e-9)


def test_a_cavity_is_no_wood() -> None:
    """A box of 100 mm with a room of 40 mm in its middle: 30 mm of solid above and below."""
    big, small = solids.box(100, 100, 100), solids.box(40, 40, 40, (30, 30, 30))
    points = np.vstack([big.vertices, small.vertices])
    faces = np.vstack([big.triangles, small.triangles[:, ::-1] + len(big.vertices)])
    found = slab_volumes(points, faces, [0.0, 30.0, 70.0, 100.0])
    assert found == pytest.approx((300_000.0, 40 * (10_000 - 1600), 300_000.0))


def test_the_middle_of_a_form_is_the_judges() -> None:
    """trimesh's centre of mass, far from the origin; a cone's lies at a quarter of its height (Archimedes)."""
    far = np.eye(4)
    far[:3, 3] = 900.0, -400.0, 70.0
    for mesh in (solids.moved(solids.cone(200.0, 450.0, 90), far), solids.torus()):
        judge = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False).center_mass
        assert volume_middle(mesh) == pytest.approx(judge, abs=1e-6)
    assert volume_middle(solids.cone(200.0, 450.0, 720))[2] == pytest.approx(450.0 / 4, abs=1e-6)
