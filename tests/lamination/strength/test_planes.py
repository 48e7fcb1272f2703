# SPDX-License-Identifier: LGPL-2.1-or-later

"""Planes through forms and prisms."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from solids import ball, cone, cylinder

from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.strength.planes import Plane, Prism, areas_at, level_plane, on_plane, upright_plane


def test_areas_at_any_heights_as_the_layers_find_them() -> None:
    mesh = ball(100.0, 4)
    heights = [150.0, 20.0, 100.0, 77.7]
    found = areas_at(mesh.vertices, mesh.triangles, heights)
    for height, area in zip(heights, found):
        # π·(r² − (z − r)²), a little less for the facets.
        assert area.area == pytest.approx(np.pi * (100**2 - (height - 100) ** 2), rel=0.01)
    layers = slice_surface(mesh.vertices, mesh.triangles, mesh.twins, sorted(heights)).just_above
    for height, area in zip(sorted(heights), layers):
        assert found[heights.index(height)].symmetric_difference(area).area < 0.01


def test_areas_on_a_vertex_and_beyond_the_form() -> None:
    mesh = cone(100.0, 200.0, 60)
    below, foot, tip, above = areas_at(mesh.vertices, mesh.triangles, [-1.0, 0.0, 200.0, 201.0])
    assert below.is_empty and tip.is_empty and above.is_empty
    assert foot.area == pytest.approx(30 * 100**2 * np.sin(2 * np.pi / 60), rel=1e-3)  # of its 60 sides


def test_an_upright_plane_sees_the_form_the_right_way_round() -> None:
    mesh = cylinder(50.0, 120.0)
    plane = upright_plane(np.array([0.0, 1.0]), 30.0)
    (area,) = areas_at(mesh.vertices @ plane.axes.T, mesh.triangles, [30.0])
    assert area.bounds == pytest.approx((-40.0, 0.0, 40.0, 120.0), abs=0.1)  # a chord of 2·√(50² − 30²)
    assert plane.local(plane.model(np.array([[7.0, 9.0]])))[0] == pytest.approx([7.0, 9.0, 0.0])
    assert np.cross(plane.axes[0], plane.axes[1]) == pytest.approx(plane.normal)


def test_prisms_across_along_and_askew() -> None:
    prism = Prism(np.eye(4), shapely.box(-10, -20, 10, 20), 5.0, 45.0)
    assert on_plane(prism, level_plane(20.0)).area == pytest.approx(800.0)
    assert on_plane(prism, level_plane(50.0)).is_empty
    along = on_plane(prism, upright_plane(np.array([1.0, 0.0]), 3.0))
    assert along.bounds == pytest.approx((-20.0, 5.0, 20.0, 45.0))
    assert on_plane(prism, upright_plane(np.array([1.0, 0.0]), 30.0)).is_empty
    # At 45° about y the plane of normal (1, 0, 1)/√2 through the middle: 20·√2 × 40.
    n = np.array([1.0, 0.0, 1.0]) / np.sqrt(2)
    side = np.array([0.0, 1.0, 0.0])
    askew = Plane(np.array([0.0, 0.0, 25.0]), np.stack([np.cross(side, n), side, n]))
    assert on_plane(prism, askew).area == pytest.approx(20 * np.sqrt(2) * 40)
