# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms seen from the side: areas by arithmetic, and outlines beside the hull of what is seen."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
import shapely
import solids

from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.sides import in_the_model, side_views
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings


def test_a_box_shows_its_sides() -> None:
    mesh = solids.box(100, 60, 25)
    front, right = side_views(mesh.vertices, mesh)
    assert front.silhouette.area == pytest.approx(100 * 25)
    assert right.silhouette.area == pytest.approx(60 * 25)


def test_a_lying_ring_shows_its_height_and_its_section() -> None:
    """Arithmetic: a torus R 90, r 30 seen from the side is a stadium, 2·r·2·R + π·r²; its section two circles π·r²."""
    mesh = solids.torus(90.0, 30.0)
    for view in side_views(mesh.vertices, mesh):
        assert view.silhouette.area == pytest.approx(2 * 30 * 180 + pi * 900, rel=0.01)
        assert view.section.area == pytest.approx(2 * pi * 900, rel=0.02)
        assert len(view.section.geoms) == 2


def test_a_standing_ring_shows_its_hole() -> None:
    """Seen along its axis: π·(120² − 60²)."""
    lying = solids.torus(90.0, 30.0)
    mesh = gate(lying.vertices[:, [0, 2, 1]] * (1, -1, 1), lying.triangles)
    front, _ = side_views(mesh.vertices, mesh)
    assert front.silhouette.area == pytest.approx(pi * (120**2 - 60**2), rel=0.01)
    assert len(front.silhouette.geoms[0].interiors) == 1


def test_left_and_right_are_not_mixed() -> None:
    """A wedge that is high at its right end and at its back; the hull of its corners is what is seen of it."""
    corners = np.array(
        [(0, 0, 0), (80, 0, 0), (80, 50, 0), (0, 50, 0), (0, 0, 10), (80, 0, 30), (80, 50, 60), (0, 50, 40)]
    )
    sides = [(0, 2, 1), (0, 3, 2), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6), (3, 0, 4),
             (3, 4, 7), (4, 5, 6), (4, 6, 7)]  # fmt: skip
    mesh = gate(corners.astype(float), np.array(sides))
    for view, across in zip(side_views(mesh.vertices, mesh), (0, 1)):
        hull = shapely.MultiPoint(corners[:, [across, 2]]).convex_hull
        assert view.silhouette.symmetric_difference(hull).area < 0.01


@pytest.mark.parametrize("axis", [(0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.2, 0.1, 1.0)])
def test_a_plan_holds_its_form_from_the_sides(axis: tuple[float, float, float]) -> None:
    """In the model the silhouettes are those of the mesh as it stands, however the stack's axis leans."""
    mesh = solids.torus(90.0, 30.0)
    stack = plan_stack(mesh, StackSettings(stock=(25.0,), axis=axis), name="Ring")
    for view, wanted in zip(stack.in_model, side_views(mesh.vertices, mesh), strict=True):
        assert view.silhouette.symmetric_difference(wanted.silhouette).area < 1.0
    for view in stack.sides:
        assert view.silhouette.bounds[1] == pytest.approx(0.0, abs=0.1)
        assert view.silhouette.bounds[3] == pytest.approx(stack.form.height, abs=0.1)
    assert stack.in_model == in_the_model(mesh, stack.frame, stack.sides)
