# SPDX-License-Identifier: LGPL-2.1-or-later

"""Parts of cells by lines. Checked against exact volumes of solids (Euclid, Archimedes, Pappus) and by manifold3d."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.voxels.grid import Grid, grid_over
from freecad_stacklam.lamination.voxels.lines import plan_parts, solid_parts


def filled(mesh: Mesh, size: float, faces: tuple[float, ...] = ()) -> tuple[Grid, NDArray[np.float64]]:
    grid = grid_over(mesh.vertices.min(axis=0), mesh.vertices.max(axis=0), faces, size)
    return grid, solid_parts(mesh.vertices, mesh.triangles, grid)


def volume(grid: Grid, parts: NDArray[np.float64]) -> float:
    return float(parts.sum(axis=(0, 1)) @ np.diff(grid.heights)) * grid.size**2


def test_a_box_fills_its_cells_exactly() -> None:
    grid, parts = filled(solids.box(100, 80, 45, (3.3, 1, 2)), 5.0)
    assert grid.shape == (20, 16, 9)
    assert np.allclose(parts, 1.0, atol=1e-12)


def test_a_box_that_ends_within_cells_fills_their_parts() -> None:
    # 95 × 75 in cells of 10 over both ends evenly: 2.5 mm short at each edge, so 3/4 of the cell: 4 or 5 of 6 lines.
    grid, parts = filled(solids.box(95, 75, 45), 10.0)
    assert grid.shape == (10, 8, 4)
    assert np.allclose(parts[1:-1, 1:-1], 1.0)
    assert np.all(np.isin(np.round(parts[0, 1:-1] * 6), [4, 5]))


@pytest.mark.parametrize("size", [20.0, 9.0, 5.0])
def test_volumes_are_those_of_the_surface(size: float) -> None:
    for mesh in (solids.ball(subdivisions=4), solids.torus(), solids.cone(sides=90), solids.cylinder(30, 360)):
        grid, parts = filled(mesh, size)
        # Of one outline, all the way up, the lines may miss more than of one that changes from cell to cell.
        assert volume(grid, parts) == pytest.approx(mesh.volume, rel=0.008)
        assert parts.min() >= -1e-9 and parts.max() <= 1 + 1e-9


def test_no_line_slips_between_triangles_that_meet_on_it() -> None:
    """Vertices and edges that lie on the lines themselves: a box whose corners are lines' places, cut into triangles
    whose shared edges run along rows of lines and across them."""
    grid = Grid(np.zeros(3), 6.0, np.array([0.0, 6.0, 12.0]), (3, 3))
    mesh = solids.box(10, 10, 6, (3.5, 3.5, 3))  # lines stand at 0.5, 1.5 …
    parts = solid_parts(mesh.vertices, mesh.triangles, grid)
    assert parts.min() >= 0 and parts.max() <= 1
    assert volume(grid, parts) == pytest.approx(600.0, abs=1e-9)  # 10 × 10 lines of 1 mm², 6 mm each


def test_a_surface_above_and_beside_the_grid_counts_as_far_as_it_reaches_in() -> None:
    grid = Grid(np.array([0.0, 0.0, 0.0]), 10.0, np.array([0.0, 10.0]), (2, 2))
    mesh = solids.box(15, 100, 100, (-5, -50, 5))
    assert np.allclose(solid_parts(mesh.vertices, mesh.triangles, grid)[:, :, 0], [[0.5, 0.5], [0.0, 0.0]])


def test_hollow_bodies_have_air_within() -> None:
    ring = solids.torus()
    grid, parts = filled(ring, 8.0)
    middle = parts[grid.count[0] // 2, grid.count[1] // 2]
    assert np.allclose(middle, 0.0)


def test_an_area_takes_its_parts_in_plan() -> None:
    grid = Grid(np.zeros(3), 10.0, np.array([0.0, 10.0]), (10, 10))
    (across, up), parts = plan_parts(shapely.box(15, 20, 42, 35), grid)
    assert (across, up) == (slice(1, 5), slice(2, 4))
    assert parts.sum() * 100 == pytest.approx(27 * 15, rel=0.06)
    assert np.allclose(parts[1:3, 0], 1.0)
    assert plan_parts(shapely.box(200, 0, 210, 10), grid)[1].size == 0
    disc = shapely.Point(50, 50).buffer(37, quad_segs=64)
    assert plan_parts(disc, grid)[1].sum() * 100 == pytest.approx(np.pi * 37**2, rel=0.01)
