# SPDX-License-Identifier: LGPL-2.1-or-later

"""Shadows of slabs and sections at glue lines, against manifold3d (split, project, slice) and geometry."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.tolerances import PLANE_SNAP


def sliced(mesh: Mesh, planes: list[float], **more: bool):
    return slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes, **more)


def knot() -> Mesh:
    """Two rings grown together, one lying and one standing: bridges, holes and undercuts."""
    rings = [trimesh.creation.torus(60.0, 18.0, major_sections=40, minor_sections=16) for _ in range(2)]
    rings[1].apply_transform(trimesh.transformations.rotation_matrix(np.pi / 2, (1, 0, 0)))
    rings[1].apply_translation((60.0, 0.0, 3.0))
    whole = manifold3d.Manifold()
    for ring in rings:
        whole += manifold3d.Manifold(manifold3d.Mesh(ring.vertices.astype("f4"), ring.faces.astype("u4")))
    found = whole.to_mesh64()
    return gate(found.vert_properties[:, :3], found.tri_verts)


KNOT = knot()


def as_solid(mesh: Mesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices.copy(), mesh.triangles.astype(np.uint64)))


@given(st.lists(st.floats(-70.0, 75.0), min_size=2, max_size=6, unique=True))
@settings(max_examples=12, deadline=None)
def test_shadows_of_a_knot_are_the_judges(heights: list[float]) -> None:
    planes = sorted(heights)
    if min(np.diff(planes)) < 0.5:
        return
    found, whole = sliced(KNOT, planes), as_solid(KNOT)
    for shadow, low, high in zip(found.shadows, planes, planes[1:]):
        slab = whole.trim_by_plane((0, 0, 1), low).trim_by_plane((0, 0, -1), -high)
        # heights are snapped by up to PLANE_SNAP, which moves a shallow surface sideways a little more
        assert shadow.area == pytest.approx(slab.project().area(), abs=PLANE_SNAP * 2000, rel=1e-6)
    assert sliced(KNOT, planes, sections=False).shadows == found.shadows


@pytest.mark.parametrize("height", [-71.3, -20.1, 0.7, 33.3, 60.2])
def test_sections_of_a_knot_are_the_judges(height: float) -> None:
    found = sliced(KNOT, [-100.0, height, 100.0])
    wanted = as_solid(KNOT).slice(height).area()
    assert found.just_above[1].area == pytest.approx(wanted, rel=1e-6, abs=1e-3)
    assert found.just_below[1].area == pytest.approx(wanted, rel=1e-6, abs=1e-3)


def test_a_step_on_a_glue_line_has_two_sections_and_widens_nobody() -> None:
    """A plate 300 × 200 × 25 under a post 80 × 60 × 50, worked by hand."""
    whole = manifold3d.Manifold.cube((300, 200, 25)) + manifold3d.Manifold.cube((80, 60, 75)).translate((40, 40, 0))
    found = whole.to_mesh64()
    slices = sliced(gate(found.vert_properties[:, :3], found.tri_verts), [0.0, 25.0, 50.0, 75.0])
    assert [s.area for s in slices.shadows] == pytest.approx([60_000, 4800, 4800])
    assert [s.area for s in slices.just_below] == pytest.approx([0, 60_000, 4800, 4800])
    assert [s.area for s in slices.just_above] == pytest.approx([60_000, 4800, 4800, 0])


@pytest.mark.parametrize("off", [0.0, 0.9 * PLANE_SNAP, -0.9 * PLANE_SNAP])
def test_a_step_within_rounding_of_a_glue_line_lies_on_it(off: float) -> None:
    profile = np.array([[0, 0], [150, 0], [150, 25 + off], [50, 25 + off], [50, 100], [0, 100]], dtype=float)
    found = sliced(solids.revolved(profile, 60), [0.0, 25.0, 50.0])
    sixty = 60 / 2 * np.sin(2 * np.pi / 60)  # area of the regular polygon of 60 sides in the unit circle
    assert found.shadows[1].area == pytest.approx(sixty * 50**2, rel=1e-6)


def test_a_bulge_inside_a_slab_counts_though_both_faces_are_smaller() -> None:
    """A double cone whose rim lies at half the slab: its shadow is the rim's circle, not the sections."""
    profile = np.array([[0, 0], [30, 0], [90, 20], [30, 40], [0, 40]], dtype=float)
    mesh = solids.revolved(profile, 90)
    found = sliced(mesh, [10.0, 30.0])
    ninety = 90 / 2 * np.sin(2 * np.pi / 90)
    assert found.shadows[0].area == pytest.approx(ninety * 90**2, rel=1e-6)
    assert found.just_above[0].area == pytest.approx(ninety * 60**2, rel=1e-6)  # half way out
    # and a neck inside a slab does not take wood away
    neck = solids.revolved(np.array([[0, 0], [90, 0], [30, 20], [90, 40], [0, 40]], dtype=float), 90)
    assert sliced(neck, [10.0, 30.0]).shadows[0].area == pytest.approx(ninety * 60**2, rel=1e-6)


def test_a_leaning_bar_casts_the_sweep_of_its_section() -> None:
    """A bar of section 40 × 30 that moves 50 mm to the side over a slab of 100 mm: 40 · 30 + 30 · 50 mm²."""
    mesh = solids.moved(solids.box(40, 30, 300), np.array([[1, 0, 0.5], [0, 1, 0], [0, 0, 1.0]]))
    found = sliced(mesh, [100.0, 200.0])
    assert found.shadows[0].area == pytest.approx(40 * 30 + 30 * 50, rel=1e-9)
    assert found.just_above[0].bounds == pytest.approx((50, 0, 90, 30), abs=1e-3)
    assert found.just_above[1].bounds == pytest.approx((100, 0, 140, 30), abs=1e-3)


def test_above_and_below_the_form_there_is_nothing() -> None:
    found = sliced(solids.box(40, 30, 20), [-30.0, -10.0, 0.0, 20.0, 25.0])
    assert [s.area for s in found.shadows] == pytest.approx([0, 0, 1200, 0])
    assert found.planes == (-30.0, -10.0, 0.0, 20.0, 25.0)
