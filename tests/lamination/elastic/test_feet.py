# SPDX-License-Identifier: LGPL-2.1-or-later

"""Feet that may lift and slide: a block pressed beside its middle, a portal whose legs spread. By statics."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.lamination.elastic.feet import standing, stands
from freecad_stacklam.lamination.elastic.lattice import Lattice, lattice_of
from freecad_stacklam.lamination.elastic.solve import Solver

UP = np.array([0.0, 0.0, 1.0])


def pressed(lattice: Lattice, x: float, size: float = 100.0) -> np.ndarray:
    """A load down on the top, spread evenly across, at x."""
    top = (lattice.points[:, 2] == lattice.points[:, 2].max()) & (np.abs(lattice.points[:, 0] - x) < 1e-6)
    force = np.zeros(lattice.points.shape)
    force[top, 2] = -size / top.sum()
    return force


def portal() -> Lattice:
    """A beam 440 mm long on two legs 40 × 40 × 360, the grain along the beam; cells of 20 mm."""
    there = np.ones((22, 2, 20))
    there[2:20, :, :18] = 0.0
    wood = bricks.oak([[1, 0, 0], [0, 0, 1], [0, 1, 0]])
    return lattice_of(np.zeros(3), 20.0, np.arange(21) * 20.0, [wood], [there], [np.zeros(there.shape, dtype=int)], UP)


def test_a_block_lifts_where_the_load_is_beyond_its_kern() -> None:
    """Of a wide base the kern is the middle third (any handbook): a load within presses all of it, one beyond lifts the
    far side."""
    block = bricks.bar((12, 2, 10), 10.0, bricks.oak(np.eye(3)), UP)
    middle = standing(block, pressed(block, 60.0), UP)
    beyond = standing(block, pressed(block, 100.0), UP)
    assert middle is not None and beyond is not None
    feet = block.floor > 0
    assert middle.on[feet].all() and middle.rounds == 1
    lifted = feet & ~beyond.on
    assert lifted.any() and block.points[lifted, 0].max() <= 60.0
    press = -block.floor * (beyond.moved @ UP) * beyond.on
    assert press.min() >= 0.0 and press.sum() == pytest.approx(100.0, rel=1e-3)
    assert (press * block.points[:, 0]).sum() / press.sum() == pytest.approx(100.0, rel=1e-3)
    assert middle.balance < 1e-3 and beyond.balance < 1e-3


def test_legs_that_may_slide_spread_as_a_beam_on_two_props() -> None:
    """A portal whose feet slide has no thrust: its beam bends as one on two props, its legs stay free of bending."""
    lattice = portal()
    force = pressed(lattice, 220.0, 1000.0)
    held, free = Solver(lattice)(force).moved, standing(lattice, force, UP)
    assert free is not None
    feet = lattice.floor > 0
    left, right = feet & (lattice.points[:, 0] < 200), feet & (lattice.points[:, 0] > 200)
    assert free.moved[right, 0].mean() - free.moved[left, 0].mean() > 0.1
    thrust = (lattice.floor[:, None] * held)[right, 0].sum()
    soft = -free.moved[right, 0].mean() * 1e-4 * lattice.floor.max() / 1e3 / 2
    assert abs(soft) < 0.1 * abs(thrust)
    middle = (lattice.points[:, 0] == 220) & (lattice.points[:, 2] == 400)
    assert free.moved[middle, 2].mean() < 1.1 * held[middle, 2].mean() < 0


def test_what_tips_finds_no_rest() -> None:
    block = bricks.bar((12, 2, 10), 10.0, bricks.oak(np.eye(3)), UP)
    push = bricks.end_load(block, 2, (100.0, 0.0, 0.0))
    assert not stands(block, push, UP) and standing(block, push, UP) is None
    assert stands(block, pressed(block, 60.0), UP)
    both = pressed(block, 60.0, 300.0) + push  # 100 N at 100 mm moves 300 N by 33 mm
    assert stands(block, both, UP)
    assert not stands(block, pressed(block, 60.0, 150.0) + push, UP)  # by 67 mm, past the edge at 60 mm
