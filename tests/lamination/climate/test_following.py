# SPDX-License-Identifier: LGPL-2.1-or-later

"""Means over parts and slopes through them, beside plain arithmetic."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from freecad_stacklam.lamination.climate.diffusion import Body, solver_of
from freecad_stacklam.lamination.climate.following import Runs
from freecad_stacklam.lamination.climate.periodic import Groups, Run


def runs(swing: float = 1.0) -> Runs:
    """Six cells in three parts, the last part without cells."""
    body = Body(np.ones((6, 1, 1)), 1.0, np.array([0.0, 1.0]), np.zeros((6, 1, 1), dtype=np.int16), np.ones((1, 3)))
    groups = Groups(np.array([0, 0, 0, 1, 1, 1]), np.array([1.0, 1.0, 2.0, 1.0, 1.0, 1.0]), 3)
    wave = np.cos(2 * np.pi * np.arange(12) / 12)
    snapshots = (8.0 + swing * wave[:, None] * np.arange(1, 7)).astype(np.float32)
    means = np.array([groups.means(month) for month in snapshots])
    run = Run(solver_of(body, 1.0, 1.0), means, means, snapshots, snapshots[-1], 2, True)
    return Runs(run, run, run, groups, tuple(float(v) for v in 8.0 + 9.0 * wave))


def test_groups_of_parts_are_means_by_volume() -> None:
    found = runs().gathered(np.array([0, 0, -1]), 1)[0]
    # (1·1 + 1·2 + 2·3 + 4 + 5 + 6) / 7 = 24 / 7 above 8 in January.
    assert found.mean[0] == pytest.approx(8 + 24 / 7, abs=1e-5)
    assert found.lag is not None
    assert found.lag.days == pytest.approx(0.0, abs=0.01)
    assert found.core[0] == pytest.approx(9.0)


def test_a_part_without_cells_follows_the_room_at_once() -> None:
    made = runs()
    thin = made.gathered(np.array([0, 1, 2]), 3)[2]
    assert thin.mean == pytest.approx(made.room)
    assert thin.core == pytest.approx(made.room)


def test_slopes_are_straight_lines_and_one_row_has_none() -> None:
    along = np.array([0.0, 10.0, 20.0, 5.0, 5.0, 5.0])
    found = replace(runs()).slopes(along)
    assert found[0, 0] == pytest.approx(0.1, abs=1e-6)  # 1 point in 10 mm
    assert found[0, 1] == 0.0
    assert runs().of_cells(np.array([0.0, 0.0, 0.0, 0.0, 0.0, 2.0]))[0] == pytest.approx(14.0)
    assert runs().of_cells(np.zeros(6)) == runs().room
