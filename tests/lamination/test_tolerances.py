# SPDX-License-Identifier: LGPL-2.1-or-later

"""The order of the tolerances, and what each must be larger than: IEEE 754, measured meshes, what a saw can do."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination import tolerances as t


def test_what_a_coarser_step_loses_the_guard_gives_back() -> None:
    assert 0 < t.ROUNDING < t.WELD < t.GRID < t.PLANE_SNAP < t.ARC_SAG < t.FIT_TOLERANCE < t.GUARD


def test_planes_that_are_told_apart_do_not_share_a_vertex() -> None:
    """Each plane catches what lies within PLANE_SNAP of it."""
    assert t.SAME_HEIGHT > 2 * t.PLANE_SNAP


def test_rounding_is_more_than_sums_of_lengths_lose() -> None:
    """64-bit floats (IEEE 754): a thousand lengths of up to ten metres, summed one by one."""
    assert 1000 * float(np.spacing(10_000.0)) < t.ROUNDING


def test_the_chords_of_a_rounded_corner_leave_no_more_than_is_reckoned() -> None:
    """A chord of a circle of radius r over an angle φ falls r · (1 − cos(φ / 2)) short of it (plane geometry)."""
    quarter = 24
    assert 10.0 * (1.0 - np.cos(np.pi / 2 / quarter / 2)) < t.CORNER_SAG


def test_what_the_proof_passes_over_in_a_layer_is_no_volume() -> None:
    """Slivers in every section of a layer 100 mm thick; thicker stock is rarely sold (from memory)."""
    assert t.PROOF_SLIVER * 100.0 <= t.UNCOVERED_VOLUME


def test_heights_snap_over_the_rounding_of_binary_stl_files() -> None:
    """A binary STL holds 32-bit floats (IEEE 754): at two metres they lie 0.00024 mm apart at worst, half of it off."""
    assert float(np.spacing(np.float32(2000.0))) / 2 < t.PLANE_SNAP
    assert float(np.spacing(np.float32(100.0))) / 2 < t.WELD  # and corners of a small form are welded at once


def test_the_guard_pays_for_the_mesh_and_the_drawing_of_arcs() -> None:
    """The tessellator's error was measured at up to 1.94 times the deflection that it is asked for."""
    assert 1.94 * t.MESH_DEFLECTION + t.ARC_SAG < t.GUARD


@pytest.mark.parametrize("radius", [10.0, 150.0, 600.0])
def test_the_least_volume_that_counts_is_more_than_the_arithmetic_loses(radius: float) -> None:
    """64-bit sums over a ball of the size of furniture, by the divergence theorem in two places, agree to less."""
    mesh = solids.ball(radius, 4)
    corner = mesh.vertices[mesh.triangles]
    far = corner + 1000.0
    here, there = (np.einsum("ti,ti->", c[:, 0], np.cross(c[:, 1], c[:, 2])) / 6 for c in (corner, far))
    assert abs(here - there) < t.UNCOVERED_VOLUME
