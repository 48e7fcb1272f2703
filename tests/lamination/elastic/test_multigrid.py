# SPDX-License-Identifier: LGPL-2.1-or-later

"""The grids against the plain matrix: numpy's own solution of the same equations."""

from __future__ import annotations

import bricks
import numpy as np

from freecad_stacklam.lamination.elastic.coarser import first_coarse
from freecad_stacklam.lamination.elastic.lattice import Lattice
from freecad_stacklam.lamination.elastic.multigrid import Multigrid, Operator, coarse_of


def whole(lattice: Lattice) -> np.ndarray:
    """The matrix of a small lattice, summed up brick by brick."""
    found = np.zeros((3 * len(lattice.points),) * 2)
    for lot in lattice.lots:
        for brick in range(lot.first, lot.last):
            at = (3 * lattice.corners[brick][:, None] + np.arange(3)).ravel()
            found[np.ix_(at, at)] += lattice.share[brick] * lot.matrix
    return found + np.diag(np.repeat(lattice.floor, 3))


def small() -> Lattice:
    return bricks.bar((4, 3, 7), 10.0, bricks.oak(np.eye(3)[[0, 2, 1]]), (0, 0, 1.0))


def test_forces_brick_by_brick_are_those_of_the_matrix() -> None:
    lattice = small()
    moved = np.random.default_rng(1).normal(size=lattice.points.shape)
    wanted = (whole(lattice) @ moved.ravel()).reshape(-1, 3)
    assert np.allclose(Operator(lattice)(moved), wanted, rtol=1e-10, atol=1e-6)
    single = Operator(lattice, np.float32)(moved.astype(np.float32))
    assert np.abs(single - wanted).max() < 1e-5 * np.abs(wanted).max()
    blocks = Operator(lattice).blocks()
    assert np.allclose(blocks[5], whole(lattice)[15:18, 15:18])


def test_a_coarse_grid_is_its_matrix() -> None:
    level = coarse_of(first_coarse(small()))
    moved = np.random.default_rng(2).normal(size=(len(level.near), 3)).astype(np.float32)
    wanted = (level.dense() @ moved.ravel()).reshape(-1, 3)
    assert np.abs(level(moved) - wanted).max() < 1e-5 * np.abs(wanted).max()


def test_one_cycle_takes_most_of_the_error_away() -> None:
    lattice = small()
    force = bricks.end_load(lattice, 2, (100.0, 0.0, 0.0))
    true = np.linalg.solve(whole(lattice), force.ravel()).reshape(-1, 3)
    near = Multigrid(lattice)(force)
    assert np.linalg.norm(near - true) < 0.35 * np.linalg.norm(true)
