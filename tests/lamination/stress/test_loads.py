# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where loads stand. A round top of known radius: places and directions by arithmetic."""

from __future__ import annotations

from functools import cache

import bricks
import numpy as np
import pytest
import solids

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.stress.loads import (
    MOST_PLACES,
    WAYS,
    Load,
    Pads,
    far_apart,
    loads_of,
)
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, body_of
from freecad_stacklam.lamination.tops.seat import Seat, seat_of
from freecad_stacklam.lamination.voxels.fill import voxels_of

STEP = 340 / 120


@cache
def mushroom() -> Seat:
    return seat_of(list(bricks.turned(bricks.MUSHROOM)[1].values()))


def test_the_seat_of_a_mushroom_is_its_top_and_not_its_foot() -> None:
    seat = mushroom()
    assert np.allclose(seat.points[:, 2], 450.0)
    assert len(seat.points) * STEP**2 == pytest.approx(np.pi * 170**2, rel=0.02)
    assert np.linalg.norm(seat.points[seat.middle, :2]) < 3 * STEP
    radius = np.linalg.norm(seat.points[:, :2], axis=1)
    assert np.abs(seat.inside - (170 - radius)).max() < 3 * STEP


def test_loads_at_the_edge_stand_so_far_inside_and_push_outward() -> None:
    case = LoadCase("edge", 600.0, 20.0, "edge", "invented", inset=60.0)
    loads = loads_of([case], mushroom())
    assert len(loads) == MOST_PLACES
    for load in loads:
        place, force = np.array(load.place), np.array(load.force)
        assert np.linalg.norm(place[:2]) == pytest.approx(110.0, abs=2 * STEP)
        assert force[2] == -600.0 and np.linalg.norm(force[:2]) == pytest.approx(20.0)
        assert force[:2] @ place[:2] > 0.9 * 20 * np.linalg.norm(place[:2])


def test_loads_anywhere_in_the_middle_and_at_a_point() -> None:
    anywhere = loads_of([LoadCase("a", 1300.0, 0.0, "anywhere", "", inset=100.0)], mushroom())
    assert all(np.hypot(*load.place[:2]) < 70 + 2 * STEP for load in anywhere)
    (middle,) = loads_of([LoadCase("m", 1300.0, 0.0, "middle", "")], mushroom())
    assert np.hypot(*middle.place[:2]) < 3 * STEP
    point = LoadCase("p", 0.0, 300.0, "point", "", at=(170.0, 0.0, 440.0))
    ways = loads_of([point], mushroom())
    assert len(ways) == WAYS and {load.place for load in ways} == {(170.0, 0.0, 440.0)}
    assert np.allclose(np.sum([load.force for load in ways], axis=0), 0.0, atol=1e-9)
    (one,) = loads_of([LoadCase("p", 0.0, 300.0, "point", "", at=(0.0, 0.0, 450.0), direction=90.0)], mushroom())
    assert np.allclose(one.force, [0, 300, 0], atol=1e-9)
    assert loads_of([LoadCase("t", 600.0, 20.0, "edge", "", bends=False)], mushroom()) == ()


def test_a_narrow_top_is_loaded_along_its_middle() -> None:
    seat = seat_of([solids.box(600, 80, 400)])
    loads = loads_of([LoadCase("e", 600.0, 0.0, "edge", "", inset=100.0)], seat)
    assert loads and all(abs(load.place[1] - 40) < 15 for load in loads)


def test_far_apart_places_are_far_apart() -> None:
    points = np.array([[x, y, 0.0] for x in range(10) for y in range(10)], dtype=float)
    corners = points[far_apart(points, 4)]
    assert {tuple(p[:2]) for p in corners} == {(0, 0), (0, 9), (9, 0), (9, 9)}


def test_a_pad_carries_its_load_with_its_middle_at_the_place() -> None:
    plan, meshes = bricks.turned(bricks.MUSHROOM)
    cells = voxels_of(plan, meshes, 15.0)
    body = body_of(cells, species_table(), FLAT_SAWN)
    pads = Pads(body, cells.frame)
    load = Load(0, (100.0, 20.0, 450.0), (30.0, 0.0, -600.0))
    force = pads.forces(load)
    assert np.allclose(force.sum(axis=0), [30, 0, -600])
    moment = np.cross(body.lattice.points, force).sum(axis=0)
    wanted = np.cross(load.place, load.force)
    assert np.abs(moment - wanted).max() < 0.05 * np.abs(wanted).max()
    moved = np.tile([0.0, 0.0, 1.0], (len(force), 1))
    assert pads.work(moved, load) == pytest.approx(-600.0)
