# SPDX-License-Identifier: LGPL-2.1-or-later

"""The scan beside every load solved by itself, on a small model."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.stress.loads import loads_of
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN
from freecad_stacklam.lamination.stress.model import SAME_SPOT, model_of
from freecad_stacklam.lamination.stress.scan import Seen, drawn_influence, scan
from freecad_stacklam.lamination.tops.seat import seat_of
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases
from freecad_stacklam.lamination.voxels.fill import voxels_of


@pytest.mark.parametrize("every_so_many", [6, pytest.param(2, marks=pytest.mark.slow)])
def test_it_finds_the_load_that_is_worst_of_all(every_so_many: int) -> None:
    plan, meshes = bricks.turned(bricks.MUSHROOM)
    model = model_of(plan, meshes, voxels_of(plan, meshes, 20.0), species_table(), FLAT_SAWN)
    cases = load_cases(UseSettings(kind="stool"))
    loads = loads_of(cases, seat_of(list(meshes.values())))
    shares: list[float] = []
    found = scan(plan, model, loads, cases, shares.append)
    every = Seen(model, cases)
    for load in loads[::every_so_many]:
        every.solve(load)
    worst = max(float(f[0].max()) for f in every.found)
    assert found.spots[0].index >= 0.99 * worst
    assert found.spots[0].load == "all weight on the edge"
    assert found.solved < 0.4 * len(loads)
    assert shares == sorted(shares) and found.balance < 1e-3
    places = np.array([s.place for s in found.spots])
    apart = np.linalg.norm(places[:, None] - places[None], axis=2) + 1e9 * np.eye(len(places))
    assert apart.min() >= SAME_SPOT
    assert [s.index for s in found.spots] == sorted((s.index for s in found.spots), reverse=True)

    moved, _ = model.solve(found.worst[0])
    drawn = drawn_influence(model, found.places[0], moved)
    points, values = np.array(drawn.points), np.array(drawn.values)
    top = points[:, 2] > 440
    # One must sit on the far side to break it: there 100 N add, on the near side they take away.
    toward = points[top, :2] @ np.array(found.worst[0].place[:2])
    assert np.corrcoef(toward, values[top])[0, 1] > 0.95
    assert values[top].max() == pytest.approx(found.spots[0].index * 100 / 1300 * 170 / 110, rel=0.25)
