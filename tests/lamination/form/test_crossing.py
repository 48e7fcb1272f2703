# SPDX-License-Identifier: LGPL-2.1-or-later

"""Meshes that pass through themselves, against solids whose overlap is known from their sizes and by manifold3d."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.form.crossing import crossings, refuse_crossing
from freecad_stacklam.lamination.form.mesh import gate
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
