# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bricks from cells. By counting and by arithmetic that is shown."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.lamination.elastic.lattice import joined_to, lattice_of
from freecad_stacklam.lamination.refusal import Refusal


def test_bricks_share_their_corners_and_stand_on_the_floor() -> None:
    lattice = bricks.bar((3, 2, 4), 10.0, bricks.oak(np.eye(3)), (0, 0, 1.0))
    assert len(lattice.share) == 24 and len(lattice.points) == 4 * 3 * 5
    assert (lattice.floor > 0).sum() == 12 and np.all(lattice.points[lattice.floor > 0, 2] == 0)
    assert np.allclose(np.ptp(lattice.points[lattice.corners[0]], axis=0), 10.0)
    assert np.allclose(lattice.points[lattice.corners[:, 7]] - lattice.points[lattice.corners[:, 0]], 10.0)


def test_what_floats_and_what_is_hardly_wood_is_left_out() -> None:
    share = np.ones((3, 1, 3))
    share[1] = 0.0  # two posts, of which one does not reach down
    share[2, 0, 0] = 0.05
    wood = bricks.oak(np.eye(3))
    lattice = lattice_of(np.zeros(3), 10.0, np.arange(4) * 10.0, [wood], [share], [np.zeros((3, 1, 3), int)],
                         np.array([0, 0, 1.0]))  # fmt: skip
    assert len(lattice.share) == 3
    assert lattice.points[:, 0].max() == 10.0
    with pytest.raises(Refusal, match="more cells"):
        lattice_of(np.zeros(3), 10.0, np.arange(4) * 10.0, [wood], [0 * share], [np.zeros((3, 1, 3), int)],
                   np.array([0, 0, 1.0]))  # fmt: skip


def test_cells_of_two_woods_are_two_bricks() -> None:
    one, two = np.full((2, 2, 2), 0.75), np.full((2, 2, 2), 0.25)
    woods = [bricks.oak(np.eye(3)), bricks.oak(np.eye(3)[[2, 0, 1]])]
    which = [np.zeros((2, 2, 2), int), np.ones((2, 2, 2), int)]
    lattice = lattice_of(np.zeros(3), 5.0, np.arange(3) * 5.0, woods, [one, two], which, np.array([0, 0, 1.0]))
    assert [(lot.wood, lot.last - lot.first) for lot in lattice.lots] == [(0, 8), (1, 8)]
    assert lattice.share.sum() == pytest.approx(8.0)
    assert len(lattice.points) == 27


def test_cells_are_joined_by_their_faces() -> None:
    wood = np.zeros((3, 3, 3), dtype=bool)
    wood[0, 0], wood[1, 1] = True, True  # two posts that touch along an edge
    seeds = np.zeros_like(wood)
    seeds[0, 0, 0] = True
    assert joined_to(wood, seeds).sum() == 3
