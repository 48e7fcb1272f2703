# SPDX-License-Identifier: LGPL-2.1-or-later

"""One brick. The patch test (B. M. Irons): a body of any bricks in an even strain is in balance, to rounding."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.elastic.element import (
    CORNERS,
    brick_stiffness,
    middle_strain,
    turned_stiffness,
    turned_strain,
)
from freecad_stacklam.lamination.elastic.multigrid import Operator
from freecad_stacklam.lamination.stress.materials import elastic_for

SIDES = (7.0, 9.0, 4.5)
SKEW = np.linalg.qr(np.random.default_rng(3).normal(size=(3, 3)))[0]


def test_a_brick_that_moves_or_turns_as_a_whole_resists_nothing() -> None:
    wood = bricks.oak(SKEW)
    matrix = brick_stiffness(wood.stiffness, SIDES)
    places = CORNERS * np.array(SIDES) / 2
    for spin in np.eye(3):
        assert np.abs(matrix @ np.cross(spin, places).ravel()).max() < 1e-9 * np.abs(matrix).max()
        assert np.abs(matrix @ np.tile(spin, 8)).max() < 1e-9 * np.abs(matrix).max()
    assert (np.linalg.eigvalsh(matrix) > 1e-9 * np.abs(matrix).max()).sum() == 18  # 24 less six of a free body


def test_an_even_strain_costs_what_hookes_law_says() -> None:
    wood = bricks.oak(SKEW)
    slope = np.random.default_rng(4).normal(size=(3, 3))
    moved = (CORNERS * np.array(SIDES) / 2 @ slope.T).ravel()
    strain = middle_strain(SIDES) @ moved
    assert np.allclose(strain[:3], np.diag(slope)) and strain[5] == pytest.approx(slope[0, 1] + slope[1, 0])
    energy = moved @ brick_stiffness(wood.stiffness, SIDES) @ moved
    assert energy == pytest.approx(strain @ wood.stiffness @ strain * np.prod(SIDES), rel=1e-12)


def test_the_patch_test() -> None:
    """Skew wood in unequal bricks, a random even strain: no force on any inner point, to 1e-12."""
    lattice = bricks.bar((5, 4, 4), 7.0, bricks.oak(SKEW), (0, 0, 1.0), np.array([3.0, 8.0, 14.0, 22.0, 24.5]))
    moved = lattice.points @ np.random.default_rng(5).normal(size=(3, 3)).T
    force = Operator(lattice)(moved) - lattice.floor[:, None] * moved
    inner = ((lattice.place > 0) & (lattice.place < np.array([5, 4, 4]))).all(axis=1)
    assert inner.sum() == 36
    assert np.abs(force[inner]).max() < 1e-12 * np.abs(force).max()


def test_stiffness_turns_with_the_wood() -> None:
    own = elastic_for(species_table(), "white oak").stiffness()
    assert np.allclose(turned_stiffness(own, np.eye(3)), own)
    # A quarter turn about z: x and y change places, and so do yz and xz.
    quarter = turned_stiffness(own, np.array([[0, 1, 0], [-1, 0, 0], [0, 0, 1.0]]))
    order = [1, 0, 2, 4, 3, 5]
    assert np.allclose(quarter, own[np.ix_(order, order)])
    # Turned there and back.
    assert np.allclose(turned_stiffness(turned_stiffness(own, SKEW), SKEW.T), own)
    assert np.allclose(turned_strain(SKEW) @ turned_strain(SKEW.T), np.eye(6))
