# SPDX-License-Identifier: LGPL-2.1-or-later

"""The least wood under walls and step faces, against trigonometry and an independent judge."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
import solids
import trimesh
from shapely.geometry import MultiPolygon, Point, box

from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.leastwood import StepFace, least_wood, step_faces, thin_zones
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.layers import LeastWood
from freecad_stacklam.lamination.tolerances import WOOD_TOLERANCE

FAR = LeastWood(5.0, (0.0, 0.0, 0.0), "wall", 1)


def disc(radius, hole=0.0):
    area = Point(0, 0).buffer(radius, 720)
    return MultiPolygon([area.difference(Point(0, 0).buffer(hole, 720)) if hole else area])


def measured(mesh, steps, wall=FAR, exact=None):
    return least_wood(mesh.vertices, mesh.triangles, mesh.twins, steps, wall, exact)


@pytest.mark.parametrize("height", [50.0, 200.0, 450.0])
@pytest.mark.parametrize("level", [1.0, 3.0])
def test_a_step_on_a_cone_leaves_the_level_allowance_times_the_sine(height, level):
    # The face begins `level` beside the flank, which falls at angle s: its foot on the flank is level·sin s away.
    mesh = solids.cone(200.0, height)
    radius = 200.0 * (1 - 20.0 / height)
    step = StepFace(1, 20.0, 1, disc(300.0, radius + level))
    wanted = level * height / np.hypot(height, 200.0)
    found = measured(mesh, [step])
    assert found.kind == "step" and (found.layer, found.side) == (1, 1)
    assert wanted - 3 * WOOD_TOLERANCE <= found.distance <= wanted + 0.01  # the cone's own chords
    # The foot lies level·cos s·sin s below the face.
    slope = np.arctan2(height, 200.0)
    assert found.place[2] == pytest.approx(20.0 - level * np.cos(slope) * np.sin(slope), abs=0.4)


def test_a_lower_face_over_a_ball_leaves_what_the_circle_says():
    # Point (R, z) outside a ball of radius 100 about height 100: √(R² + (z − 100)²) − 100 away.
    mesh = solids.ball(100.0)
    found = measured(mesh, [StepFace(3, 40.0, -1, disc(200.0, 82.0))])
    wanted = np.hypot(82.0, 60.0) - 100.0
    assert wanted - 3 * WOOD_TOLERANCE <= found.distance <= wanted + 0.05  # the ball's own facets
    assert (found.kind, found.layer, found.side) == ("step", 3, -1)


def test_the_wall_stays_the_least_where_steps_leave_more():
    mesh = solids.cylinder(50.0, 100.0)
    assert measured(mesh, [StepFace(1, 40.0, 1, disc(80.0, 60.0))]) == FAR


def test_a_form_right_under_a_face_counts_by_its_depth():
    mesh = solids.box(100.0, 100.0, 38.0)
    found = measured(mesh, [StepFace(1, 40.0, 1, MultiPolygon([box(10, 10, 20, 20)]))])
    assert 2.0 - 3 * WOOD_TOLERANCE <= found.distance <= 2.0


def test_points_of_the_modelled_surface_count_too():
    mesh = solids.box(100.0, 100.0, 38.0)
    step = StepFace(1, 40.0, 1, MultiPolygon([box(10, 10, 20, 20)]))
    found = measured(mesh, [step], exact=np.array([[15.0, 15.0, 38.5], [90.0, 90.0, 39.9]]))
    assert found.distance == pytest.approx(1.5) and found.place == (15.0, 15.0, 38.5)


def steps_of(mesh, planes, blanks, around=3.5):
    found = slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes)
    return step_faces(planes, blanks, found.just_below, found.just_above, around)


def test_a_flat_face_on_a_glue_line_is_left_out_and_the_ends_are():
    # A foot plate 40 high under a post: its flat top lies on the glue line, meant to be flush.
    plate, post = solids.box(200.0, 200.0, 40.0), solids.box(60.0, 60.0, 100.0, at=(70.0, 70.0, 0.0))
    union = trimesh.boolean.union(
        [trimesh.Trimesh(m.vertices, m.triangles, process=False) for m in (plate, post)], engine="manifold"
    )
    mesh = gate(np.asarray(union.vertices), np.asarray(union.faces))
    blanks = [MultiPolygon([box(-3, -3, 203, 203)]), MultiPolygon([box(67, 67, 133, 133)])]
    # Only the four corners of the blank, further off than 3.5, are left of the face.
    left = steps_of(mesh, [0.0, 40.0, 100.0], blanks)
    assert sum(s.area.area for s in left) < 4 * (3.0**2 - np.pi * 3.5**2 / 6)
    assert measured(mesh, left, replace(FAR, distance=3.0)).kind == "wall"
    # A glue line 0.3 higher has no flat face on it, and the wood there is told as it is.
    low = steps_of(mesh, [0.0, 40.3, 100.0], blanks)
    assert [(s.layer, s.side) for s in low] == [(1, 1)]
    assert 0.3 - 3 * WOOD_TOLERANCE <= measured(mesh, low).distance <= 0.3


def test_zones_are_the_faces_nearer_than_the_limit():
    # Under the face at 20, the flank of slope s is nearer than L as far as L/sin s beside it.
    mesh = solids.cone(200.0, 50.0)
    radius = 200.0 * (1 - 20.0 / 50.0)
    step = StepFace(1, 20.0, 1, disc(300.0, radius + 3.0))
    ((face, zone),) = thin_zones(mesh.vertices, mesh.triangles, mesh.twins, [step], 1.5)
    assert face is step
    outer = radius + 1.5 * np.hypot(50.0, 200.0) / 50.0
    exact = disc(outer, radius + 3.0)
    assert shapely.difference(exact, zone).area < 0.002 * exact.area
    assert zone.area < 1.25 * exact.area  # slabs err to the safe side
    assert thin_zones(mesh.vertices, mesh.triangles, mesh.twins, [step], 0.5) == []
