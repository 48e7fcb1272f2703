# SPDX-License-Identifier: LGPL-2.1-or-later

"""Nearest points of a surface, against trimesh and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
import solids
import trimesh

from freecad_stacklam.lamination.form.nearest import Surface


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
