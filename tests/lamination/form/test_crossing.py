# SPDX-License-Identifier: LGPL-2.1-or-later

"""Meshes that pass through themselves, against solids whose overlap is known from their sizes and by manifold3d."""

from __future__ import annotations

import judges
import numpy as np
import pytest
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from models import load_mesh

from freecad_stacklam.lamination.form.crossing import Crossings, bodies_of, crossings, refuse_crossing
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.refusal import Refusal


def raw_box():
    mesh = solids.box(100, 80, 60)
    return mesh.vertices.copy(), mesh.triangles.copy()


def test_body_that_passes_through_itself_is_refused():
    # A box with one upper corner pushed out through its bottom.
    vertices, triangles = raw_box()
    corner = int(np.argmax(vertices.sum(axis=1)))
    vertices[corner] = [60, 40, -20]
    mesh = gate(vertices, triangles)
    with pytest.raises(Refusal, match="crosses itself in"):
        refuse_crossing(mesh)


def test_overlapping_bodies_are_one_piece_and_said_so():
    one, two = solids.box(100, 80, 60), solids.box(100, 80, 60, (50, 30, 10))
    both = gate(np.vstack([one.vertices, two.vertices]), np.vstack([one.triangles, two.triangles + 8]))
    assert crossings(both).within == 0
    assert crossings(both).between > 0
    assert "one piece" in refuse_crossing(both)[0]


def test_cavity_passes_and_a_body_turned_outside_in_is_refused():
    big, small = solids.box(100, 100, 100), solids.box(20, 20, 20, (40, 40, 40))
    hollow = gate(np.vstack([big.vertices, small.vertices]), np.vstack([big.triangles, small.triangles[:, ::-1] + 8]))
    assert hollow.volume == pytest.approx(1e6 - 8e3)
    assert refuse_crossing(hollow) == ()
    beside = solids.box(20, 20, 20, (140, 40, 40))
    turned = gate(np.vstack([big.vertices, beside.vertices]), np.vstack([big.triangles, beside.triangles[:, ::-1] + 8]))
    with pytest.raises(Refusal, match="One of the 2 bodies of the mesh is inside out"):
        refuse_crossing(turned)


def two_boxes(shift: tuple[float, float, float]) -> Mesh:
    one, two = solids.box(100, 80, 60), solids.box(100, 80, 60, shift)
    return gate(np.vstack([one.vertices, two.vertices]), np.vstack([one.triangles, two.triangles + 8]))


@given(st.tuples(st.floats(5, 140), st.floats(5, 110), st.floats(5, 90)))
@settings(max_examples=40, deadline=None)
def test_equal_boxes_cross_where_they_share_wood(shift):
    """manifold3d: two boxes of one size, shifted, pass through each other just where they have volume in common."""
    mesh = two_boxes(shift)
    common = judges.solid(solids.box(100, 80, 60)) ^ judges.solid(solids.box(100, 80, 60, shift))
    found = crossings(mesh)
    assert (found.between > 0) == (common.volume() > 1e-6)
    assert found.within == 0


def test_bodies_are_counted_as_another_library_counts_them():
    """trimesh's split into connected bodies, through networkx."""
    vertices, triangles, _ = load_mesh("ant")
    mesh = gate(vertices, triangles)
    body = bodies_of(mesh)
    theirs = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False).split(only_watertight=False)
    assert len(np.unique(body)) == len(theirs)
    assert sorted(np.bincount(body)) == sorted(len(t.faces) for t in theirs)


def test_faces_that_only_touch_do_not_cross():
    """Two boxes side by side share the plane x = 100 and pass through nothing."""
    mesh = two_boxes((100.0, 0.0, 0.0))
    assert crossings(mesh) == Crossings(0, 0, (0.0, 0.0, 0.0))
    assert refuse_crossing(mesh) == ()


def test_the_place_of_a_crossing_is_where_the_solid_is_torn():
    """A block 100 × 100 × 40 whose corner at (100, 100, 40) is pulled down through its bottom."""
    mesh = solids.box(100, 100, 40)
    points = mesh.vertices.copy()
    points[int(points.sum(axis=1).argmax())] = [70.0, 70.0, -15.0]
    found = crossings(gate(points, mesh.triangles))
    assert found.within > 0
    assert found.place[0] > 20 and found.place[1] > 20 and found.place[2] < 30
