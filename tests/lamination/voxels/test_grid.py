# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where cells end. Checked by arithmetic that is shown."""

from __future__ import annotations

import numpy as np

from freecad_stacklam.lamination.voxels.grid import grid_over, heights_of


def test_cells_end_on_every_face_and_are_as_high_as_the_layers_allow() -> None:
    # 45 / 9 = 5 cells; 27 / 10 → 3 cells of 9; a layer of 7 is one cell.
    assert np.allclose(heights_of([0, 45], 9), [0, 9, 18, 27, 36, 45])
    assert np.allclose(np.diff(heights_of([0, 72, 45], 10)), [11.25] * 4 + [9] * 3)
    assert np.allclose(heights_of([0, 7], 20), [0, 7])


def test_of_two_faces_close_together_the_first_counts() -> None:
    assert np.allclose(heights_of([0, 90, 45.0, 46.0], 10)[[0, -1]], [0, 90])
    assert 45.0 in heights_of([0, 90, 45.0, 46.0], 10)
    assert 46.0 not in heights_of([0, 90, 45.0, 46.0], 10)
    assert {40.0, 46.0} <= set(heights_of([0, 90, 40.0, 46.0], 10))


def test_the_grid_stands_over_both_ends_evenly() -> None:
    grid = grid_over(np.array([10.0, 0.0, 5.0]), np.array([115.0, 100.0, 95.0]), [50.0], 10.0)
    assert grid.shape == (11, 10, 8)  # 105 / 10 → 11 cells, 110 mm; 45 / 10 → 4, twice
    assert np.allclose(grid.origin, [7.5, 0.0, 5.0])
    assert 50.0 in grid.heights
