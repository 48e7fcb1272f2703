# SPDX-License-Identifier: LGPL-2.1-or-later

"""Nearest points of a surface, against trimesh and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.nearest import Surface, nearest_in


def test_nearest_points_agree_with_another_library():
    # Outside judge: trimesh's nearest points.
    mesh = solids.torus()
    rng = np.random.default_rng(4)
    asked = rng.uniform([-180, -180, -20], [180, 180, 100], (60, 3))
    form = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)
    foot, distance, _ = trimesh.proximity.closest_point_naive(form, asked[:8])
    within = np.where(np.arange(60) % 2, np.inf, 400.0)
    found, near = Surface(mesh.vertices, mesh.triangles).nearest(asked, within)
    assert found[:8] == pytest.approx(distance, abs=1e-9)
    assert near[:8] == pytest.approx(foot, abs=1e-6)
    # Exact for the torus itself, within the sag of its facets.
    exact = np.abs(np.hypot(np.hypot(asked[:, 0], asked[:, 1]) - 120.0, asked[:, 2] - 40.0) - 40.0)
    assert found == pytest.approx(exact, abs=0.1)


@given(st.tuples(*[st.floats(-90, 190)] * 3))
@settings(max_examples=40, deadline=None)
def test_nearest_point_of_a_box_is_that_of_its_faces(asked):
    """Exact: outside, the point clamped to the box; inside, straight to the nearest of the six faces."""
    size = np.array([100.0, 80.0, 60.0])
    mesh, point = solids.box(*size), np.array(asked)
    out = point - np.clip(point, 0.0, size)
    wanted = np.linalg.norm(out) if out.any() else min(*point, *(size - point))
    (distance,), (foot,) = Surface(mesh.vertices, mesh.triangles).nearest(point[None])
    assert distance == pytest.approx(wanted, abs=1e-9)
    assert np.linalg.norm(foot - point) == pytest.approx(wanted, abs=1e-9)
    assert np.abs(foot - np.clip(foot, 0.0, size)).max() <= 1e-9


def test_nearest_point_of_a_triangle_in_a_plane_is_that_of_geos():
    rng = np.random.default_rng(2)
    corner, asked = rng.uniform(-50, 50, (60, 3, 2)), rng.uniform(-80, 80, (60, 2))
    lift = rng.uniform(-30, 30, 60)
    found = nearest_in(np.dstack([corner, np.zeros((60, 3))]), np.column_stack([asked, lift]))
    flat = shapely.distance(shapely.polygons(corner), shapely.points(asked))
    assert np.linalg.norm(found[:, :2] - asked, axis=1) == pytest.approx(flat, abs=1e-9)
    assert np.abs(found[:, 2]).max() <= 1e-9


def test_a_needle_without_area_is_still_a_line():
    """A triangle whose corners lie on a line, as meshes of CAD solids have them."""
    needle = np.array([[[0.0, 0, 0], [100, 0, 0], [40, 0, 0]]])
    assert nearest_in(needle, np.array([[30.0, 40.0, 0.0]]))[0] == pytest.approx((30, 0, 0))
    assert nearest_in(needle, np.array([[130.0, 40.0, 0.0]]))[0] == pytest.approx((100, 0, 0))
