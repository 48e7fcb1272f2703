# SPDX-License-Identifier: LGPL-2.1-or-later

"""Readings by straight-line fit, against closed forms: σ = M r / I of a round neck (any handbook), 135 N·m."""

from __future__ import annotations

from functools import cache

import bricks
import numpy as np
import pytest
import solids
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.elastic.lattice import Lattice
from freecad_stacklam.lamination.elastic.solve import Solver
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, body_of
from freecad_stacklam.lamination.stress.readings import Readings, readings_on
from freecad_stacklam.lamination.stress.samples import places_on
from freecad_stacklam.lamination.voxels.fill import voxels_of

MOMENT = 135_000.0


def bending(lattice: Lattice) -> np.ndarray:
    """135 N·m on the uppermost points, as upright forces that grow evenly along x."""
    wood = np.bincount(lattice.corners.ravel(), np.repeat(lattice.share, 8), len(lattice.points))
    wood *= lattice.points[:, 2] > lattice.points[:, 2].max() - 0.1
    x = lattice.points[:, 0]
    force = np.zeros(lattice.points.shape)
    force[:, 2] = wood * (x - (wood * x).sum() / wood.sum())
    return np.asarray(force * MOMENT / (force[:, 2] * x).sum())


@cache
def bent(diameter: float, size: float) -> tuple[Readings, np.ndarray, np.ndarray]:
    """A neck 360 mm high under an even moment: its readings, the movements, and the load."""
    radius = diameter / 2
    plan, meshes = bricks.turned([[0, 0], [radius, 0], [radius, 360], [0, 360]])
    cells = voxels_of(plan, meshes, size)
    body = body_of(cells, species_table(), FLAT_SAWN)
    readings = readings_on(body, places_on(plan, meshes, cells, body))
    force = bending(body.lattice)
    return readings, Solver(body.lattice)(force, 1e-7).moved, force


def pull(readings: Readings, moved: np.ndarray) -> float:
    """The greatest upright pull at half height."""
    half = np.abs(readings.places.points[:, 2] - 180) < 90
    return float(readings.stresses(moved)[half, 2].max())


@pytest.mark.parametrize(("diameter", "size", "wanted"), [(60, 8, 6.366), (80, 9, 2.686), (100, 11, 1.375)])
def test_a_round_neck_is_stressed_as_the_formula_says(diameter: float, size: float, wanted: float) -> None:
    assert wanted == pytest.approx(MOMENT * 32 / (np.pi * diameter**3), abs=1e-3)
    readings, moved, _ = bent(diameter, size)
    assert pull(readings, moved) == pytest.approx(wanted, rel=0.035)


@pytest.mark.slow
def test_halving_the_cells_moves_a_reading_by_less_than_three_per_cent() -> None:
    coarse, fine = (pull(*bent(60, size)[:2]) for size in (8.0, 4.0))
    assert coarse == pytest.approx(fine, rel=0.03)


def test_readings_follow_the_place_and_not_the_steps() -> None:
    readings, moved, _ = bent(60, 8)
    points = readings.places.points
    half = np.abs(points[:, 2] - 180) < 90
    wanted = MOMENT * points[half, 0] / (np.pi * 30**4 / 4)
    assert np.abs(readings.stresses(moved)[half, 2] - wanted).max() < 0.06 * wanted.max()


def test_forces_of_the_points_above_a_cut_give_the_load_again() -> None:
    """What the bricks above a cut hold is the moment itself, whatever the cells: here to 1e-5."""
    readings, moved, _ = bent(60, 8)
    lattice = readings.lattice
    above = lattice.middles[:, 2] > 180
    force = np.zeros(lattice.points.shape)
    for lot in lattice.lots:
        own = np.flatnonzero(above[lot.first : lot.last]) + lot.first
        parts = (moved[lattice.corners[own]].reshape(-1, 24) * lattice.share[own, None]) @ lot.matrix
        np.add.at(force, lattice.corners[own].ravel(), parts.reshape(-1, 3))
    cut = np.abs(lattice.points[:, 2] - 180) < 1e-6
    assert -(force[cut, 2] * lattice.points[cut, 0]).sum() == pytest.approx(MOMENT, rel=1e-5)
    assert np.abs(force[cut].sum(axis=0)).max() < 1e-5 * MOMENT / 30


def test_the_influence_map_of_a_reading_is_what_loads_do_to_it() -> None:
    """Maxwell and Betti: the map times a load is what the load adds to the reading, within 1e-4."""
    readings, moved, force = bent(60, 8)
    stresses = readings.stresses(moved)
    half = np.flatnonzero(np.abs(readings.places.points[:, 2] - 180) < 90)
    place = int(half[stresses[half, 2].argmax()])
    parts = np.array([0.1, -0.2, 1.0, 0.3, 0.4, -0.5])
    map_of = Solver(readings.lattice)(readings.load_of(place, parts), 1e-7).moved
    assert float((map_of * force).sum()) == pytest.approx(float(stresses[place] @ parts), rel=1e-4)


def test_a_tenon_and_the_layers_round_it_share_a_moment_by_their_stiffness() -> None:
    """Transformed section, I = π (60⁴ + (n − 1) 36⁴) / 64 with n = E_L / E_R = 6.13: layers 3.82 and tenon 14.1 MPa
    under 135 N·m (the arithmetic stands in any handbook of strength of materials)."""
    lift = np.eye(4)
    lift[2, 3] = 360.0
    meshes = {"A": solids.cylinder(30, 360, 90), "B": solids.moved(solids.cylinder(30, 90, 90), lift)}
    joint = JointSettings(
        name="j", through=(0.0, 0.0, 360.0), section="round", size=(36.0,), embed=(("A", 250.0), ("B", 60.0))
    )
    settings = Settings(stacks=(StackSettings(form="A"), StackSettings(form="B")), joints=(joint,))
    plan = plan_job([Form(name, mesh) for name, mesh in meshes.items()], settings, species_table())
    cells = voxels_of(plan, meshes, 6.0)
    body = body_of(cells, species_table(), FLAT_SAWN)
    readings = readings_on(body, places_on(plan, meshes, cells, body))
    n = 13530 / 2205.39
    whole = np.pi * (60**4 + (n - 1) * 36**4) / 64
    upright = readings.stresses(Solver(body.lattice)(bending(body.lattice)).moved)[:, 2]
    places = readings.places
    middle = np.abs(places.points[:, 2] - 245) < 55
    assert upright[middle & ~places.in_tenon].max() == pytest.approx(MOMENT * 30 / whole, rel=0.06)
    assert upright[middle & places.in_tenon].max() == pytest.approx(n * MOMENT * 18 / whole, rel=0.06)
    assert MOMENT * 30 / whole == pytest.approx(3.82, abs=0.02)
