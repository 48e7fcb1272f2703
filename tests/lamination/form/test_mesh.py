# SPDX-License-Identifier: LGPL-2.1-or-later

"""The gate: what passes, what is mended and said so, what is refused with a place."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.form.mesh import deflection_for, gate, guard_for
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
    assert any("were joined" in note for note in mesh.notes)


def test_missing_triangle_is_refused_with_number_and_place():
    vertices, triangles = raw_box()
    with pytest.raises(Refusal, match=r"not closed: 3 edges .* near x [\d.]+ mm, y [\d.]+ mm, z [\d.]+ mm"):
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


def test_far_off_form_loses_no_digits():
    vertices, triangles = raw_box()
    assert gate(vertices + 1e6, triangles).volume == pytest.approx(480_000, rel=1e-9)


@pytest.mark.parametrize(("figure", "says"), [(1e200, "large"), (-1e308, "large"), (3e5, "large"), (3.4e38, "large")])
def test_a_stray_vertex_far_away_is_refused_before_any_arithmetic_meets_it(figure, says):
    """One flipped byte of a file makes any figure of another; 1e200 cubed is beyond a float."""
    vertices, triangles = raw_box()
    vertices[3, 1] = figure
    with pytest.raises(Refusal, match=f"m {says}, which is too far"), np.errstate(over="ignore"):
        gate(vertices, triangles)
    with pytest.raises(Refusal, match="from the origin"):
        gate(raw_box()[0] + 1e7, triangles)


@pytest.mark.parametrize(("size", "deflection", "guard"), [
    (5.0, 0.1, 0.2), (1000.0, 0.1, 0.2), (2000.0, 0.2, 0.4), (2547.3, 0.2547, 0.5094), (1e4, 1.0, 2.0),
])  # fmt: skip
def test_large_forms_are_meshed_and_guarded_in_proportion(size, deflection, guard):
    """A tenth of a millimetre up to a metre, a ten-thousandth of the size above; the guard is twice the deflection,
    because the error was measured at up to 1.94 times it."""
    assert deflection_for(size) == deflection
    assert guard_for(deflection) == pytest.approx(guard)
    assert guard_for(deflection) > 1.94 * deflection
    assert deflection_for(size * (1 + 1e-15)) == deflection, "the last bits of a size make no other mesh"
    assert gate(*raw_box()).guard == 0.2
