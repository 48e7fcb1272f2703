# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whole bars. A cantilever of white oak, 400 × 40 × 40 mm along the grain, 1000 N at its end: PL³/3EI + 6PL/5GA
(any handbook of strength of materials)."""

from __future__ import annotations

import bricks
import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.elastic import solve
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.elastic.solve import Known, Solver
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.materials import elastic_for


def cantilever(size: float) -> tuple[float, float]:
    """How far its end sinks over what the formula says, and the balance."""
    n = round(40 / size)
    lattice = bricks.bar((round(400 / size), n, n), size, bricks.oak([[1, 0, 0], [0, 0, 1], [0, 1, 0]]), (1.0, 0, 0))
    force = bricks.end_load(lattice, 0, (0.0, 0.0, -1000.0))
    found = Solver(lattice)(force)
    assert found.steps < 15
    end = lattice.points[:, 0] > 399
    elastic = elastic_for(species_table(), "white oak")
    formula = 1000 * 400**3 / (3 * elastic.along * 40**4 / 12) + 6 * 1000 * 400 / (5 * elastic.shear_lr * 1600)
    assert formula == pytest.approx(7.666, rel=0.003)  # E 13 500, as it is rounded there
    return -float(found.moved[end, 2].mean()) / formula, found.balance


def test_a_cantilever_sinks_as_the_formula_says() -> None:
    assert cantilever(20.0)[0] == pytest.approx(1.0, abs=0.012)
    ratio, balance = cantilever(10.0)
    assert ratio == pytest.approx(1.0, abs=0.01)
    assert balance < 1e-5


def test_a_stretched_bar_grows_by_hookes_law_and_narrows_by_poissons() -> None:
    wood = bricks.oak(np.eye(3))
    lattice = bricks.bar((20, 4, 4), 10.0, wood, (1.0, 0, 0))
    moved = Solver(lattice)(bricks.end_load(lattice, 0, (1600.0, 0.0, 0.0))).moved  # 1 MPa
    x = lattice.points[:, 0]
    middle = float(moved[x == 150, 0].mean() - moved[x == 50, 0].mean())
    elastic = elastic_for(species_table(), "white oak")
    assert middle == pytest.approx(100 / elastic.along, rel=0.01)
    ring = moved[(x == 100) & (lattice.points[:, 1] == 40), 1].mean() - moved[
        (x == 100) & (lattice.points[:, 1] == 0), 1].mean()  # fmt: skip
    assert ring == pytest.approx(-40 * elastic.poisson_lr / elastic.along, rel=0.03)


def test_a_load_that_mixes_known_ones_takes_no_step_and_others_few() -> None:
    lattice = bricks.bar((20, 4, 4), 10.0, bricks.oak(np.eye(3)), (1.0, 0, 0))
    solver, known = Solver(lattice), Known()
    assert known.start(bricks.end_load(lattice, 0, (1.0, 0.0, 0.0))) is None
    for way in ((0.0, 10.0, 0.0), (0.0, 0.0, -7.0)):
        force = bricks.end_load(lattice, 0, way)
        known.add(force, solver(force).moved)
    mixed = bricks.end_load(lattice, 0, (0.0, -3.0, 20.0))
    found = solver(mixed, 1e-4, start=known.start(mixed))
    assert found.steps == 0
    assert np.allclose(found.moved, solver(mixed).moved, atol=1e-4 * np.abs(found.moved).max())
    other = bricks.end_load(lattice, 0, (50.0, 30.0, 0.0))
    begun = solver(other, start=known.start(other))
    assert 0 < begun.steps <= solver(other).steps
    assert np.allclose(begun.moved, solver(other).moved, atol=1e-4 * np.abs(begun.moved).max())


def test_it_asks_often_enough_to_stop_within_a_step() -> None:
    lattice = bricks.bar((20, 4, 4), 10.0, bricks.oak(np.eye(3)), (1.0, 0, 0))
    asked: list[int] = []
    found = Solver(lattice)(bricks.end_load(lattice, 0, (0.0, 0.0, -1.0)), going=lambda: asked.append(1) is None)
    assert len(asked) >= 3 * found.steps


def test_it_stops_when_it_is_told_to_and_gives_up_with_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    lattice = bricks.bar((4, 2, 2), 10.0, bricks.oak(np.eye(3)), (1.0, 0, 0))
    force = bricks.end_load(lattice, 0, (0.0, 0.0, -10.0))
    with pytest.raises(Stopped):
        Solver(lattice)(force, going=lambda: False)
    monkeypatch.setattr(solve, "MOST_STEPS", 1)
    with pytest.raises(Refusal, match="thicken it there"):
        Solver(lattice)(force, 1e-12)
