# SPDX-License-Identifier: LGPL-2.1-or-later

"""The gate: what passes, what is mended and said so, what is refused with a place."""

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


def test_closed_mesh_passes_as_it_is():
    vertices, triangles = raw_box()
    mesh = gate(vertices, triangles)
    assert mesh.volume == pytest.approx(100 * 80 * 60)
    assert mesh.notes == ()
    start, end = mesh.triangles.ravel(), mesh.triangles[:, (1, 2, 0)].ravel()
    assert np.array_equal(start[mesh.twins], end)
    assert np.array_equal(mesh.twins[mesh.twins], np.arange(len(mesh.twins)))


def test_triangle_soup_is_welded():
    vertices, triangles = raw_box()
    soup = vertices[triangles].reshape(-1, 3)
    mesh = gate(soup, np.arange(36).reshape(-1, 3))
    assert len(mesh.vertices) == 8
    assert mesh.volume == pytest.approx(480_000)


@pytest.mark.parametrize("noise", [2e-6, 4e-4, 4e-3])
def test_rounded_corners_are_welded_and_said_so(noise):
    vertices, triangles = raw_box()
    soup = vertices[triangles].reshape(-1, 3)
    soup += np.random.default_rng(1).uniform(-noise, noise, soup.shape)
    mesh = gate(soup, np.arange(36).reshape(-1, 3))
    assert len(mesh.vertices) == 8
    assert any("welded" in note for note in mesh.notes)


def test_missing_triangle_is_refused_with_number_and_place():
    vertices, triangles = raw_box()
    with pytest.raises(Refusal, match=r"not closed: 3 edges .* near x \d+\.\d, y \d+\.\d, z \d+\.\d mm"):
        gate(vertices, triangles[1:])


def test_inside_out_is_refused():
    vertices, triangles = raw_box()
    with pytest.raises(Refusal, match="inside out"):
        gate(vertices, triangles[:, ::-1])


@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_vertex_without_position_is_refused(value):
    vertices, triangles = raw_box()
    vertices[3, 1] = value
    with pytest.raises(Refusal, match="1 vertices without a finite position"):
        gate(vertices, triangles)


def test_unused_vertices_do_not_count():
    vertices, triangles = raw_box()
    mesh = gate(np.vstack([[[np.nan] * 3], vertices]), triangles + 1)
    assert len(mesh.vertices) == 8


def test_doubled_triangles_are_dropped_and_said_so():
    vertices, triangles = raw_box()
    mesh = gate(vertices, np.vstack([triangles, np.roll(triangles[:2], 1, axis=1)]))
    assert len(mesh.triangles) == 12
    assert any("twice" in note for note in mesh.notes)


@pytest.mark.parametrize(
    ("vertices", "triangles"),
    [([], []), ([[0, 0, 0]], [[0, 0, 0]]), ([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2], [0, 2, 1]])],
)
def test_nothing_to_slice_is_refused(vertices, triangles):
    with pytest.raises(Refusal):
        gate(np.array(vertices).reshape(-1, 3), np.array(triangles).reshape(-1, 3))


def test_index_out_of_range_is_refused():
    vertices, triangles = raw_box()
    with pytest.raises(Refusal, match="vertices that it does not have"):
        gate(vertices, triangles + 1)


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


def test_far_off_form_loses_no_digits():
    vertices, triangles = raw_box()
    assert gate(vertices + 1e6, triangles).volume == pytest.approx(480_000, rel=1e-9)
