# SPDX-License-Identifier: LGPL-2.1-or-later

"""Coarser bricks. A body that moves evenly has the same energy on every grid: the coarse brick is exact there."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.lamination.elastic.coarser import between, first_coarse, halved, next_coarse
from freecad_stacklam.lamination.elastic.multigrid import Operator, coarse_of


def test_heights_are_halved_where_they_are() -> None:
    kept, split = halved(np.array([0.0, 4.0, 10.0, 15.0]))
    assert np.allclose(kept, [0, 10, 20]) and np.allclose(split, [0.4, 0.5])


def test_an_even_strain_is_the_same_on_all_grids() -> None:
    heights = np.array([0.0, 7.0, 14.0, 23.0, 32.0])
    lattice = bricks.bar((4, 4, 4), 8.0, bricks.oak(np.linalg.qr(np.random.default_rng(1).normal(size=(3, 3)))[0]),
                         (0, 0, 1.0), heights)  # fmt: skip
    slope = np.random.default_rng(2).normal(size=(3, 3))
    moved = lattice.points @ slope.T
    fine = float((moved * Operator(lattice)(moved)).sum())
    coarse = first_coarse(lattice)
    own = np.column_stack([coarse.place[:, 0] * 16.0, coarse.place[:, 1] * 16.0, coarse.heights[coarse.place[:, 2]]])
    there = (own @ slope.T).astype(np.float32)
    assert float((there * coarse_of(coarse)(there)).sum()) == pytest.approx(fine, rel=1e-5)
    again = next_coarse(coarse)
    assert len(again.cell) == 1
    # And the coarse points move the fine ones as the strain does; what goes down comes up.
    way = between(lattice.place, lattice.heights, coarse)
    assert np.allclose(way.finer(there), moved, atol=1e-4)
    force = np.random.default_rng(3).normal(size=moved.shape).astype(np.float32)
    assert float((way.coarser(force) * there).sum()) == pytest.approx(float((force * way.finer(there)).sum()), rel=1e-4)
