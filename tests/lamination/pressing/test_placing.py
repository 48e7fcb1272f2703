# SPDX-License-Identifier: LGPL-2.1-or-later

"""Placing pads, beside every set of a few pads and beside a bound: the linear programme of pads in fractions without a
distance between them (scipy's solver HiGHS), which no placing can beat."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray
from plans import lobed, oval
from scipy.optimize import linprog
from shapely import MultiPolygon, Point, Polygon, box, intersects_xy

from freecad_stacklam.lamination.pressing.bell import LineCells, cells_of, pressures
from freecad_stacklam.lamination.pressing.clamping import candidates_on
from freecad_stacklam.lamination.pressing.placing import Choices, nudged, place

Floats = NDArray[np.float64]
PAD, GAP = 40.0, 5.0
SHAPES = {
    "board": box(0, 0, 300, 200),
    "strip": box(0, 0, 400, 60),
    "ring": Point(0, 0).buffer(150).difference(Point(0, 0).buffer(100)),
    "corner": box(0, 0, 300, 60).union(box(0, 0, 60, 300)),
    "lobed": lobed(150, 0.2),
    "oval": oval(560, 400),
}


def laid(shape: Polygon, count: int, wanted: int) -> tuple[Choices, LineCells, Polygon]:
    """Candidates on a shape, its cells, and its seats; pressures are shares of the mean."""
    seats = shape.buffer(-PAD / 2)
    at = candidates_on(MultiPolygon([seats]) if seats.geom_type == "Polygon" else seats, wanted)
    cells = cells_of(1, MultiPolygon([shape]), 150)
    return Choices(at, PAD, count, pressures(at, cells, 45.0, 45.0, PAD) * shape.area / count), cells, seats


def best_of_all(choices: Choices) -> float:
    """The best least share of every set of pads that keep their distance."""
    apart = np.linalg.norm(choices.places[:, None] - choices.places[None], axis=2) >= PAD + GAP
    every = np.array(list(combinations(range(len(choices.places)), choices.count)))
    for a, b in combinations(range(choices.count), 2):
        every = every[apart[every[:, a], every[:, b]]]
    parts = np.array_split(every, len(every) // 4000 + 1)
    return max(float(choices.adds[part].sum(axis=1).min(axis=1).max()) for part in parts)


def bound(choices: Choices) -> float:
    """No placing gets more: max t with Σ x·adds ≥ t everywhere, Σ x = count, 0 ≤ x ≤ 1."""
    many, places = choices.adds.shape
    answer = linprog(
        np.r_[np.zeros(many), -1.0],
        A_ub=np.hstack([-choices.adds.T, np.ones((places, 1))]),
        b_ub=np.zeros(places),
        A_eq=np.r_[np.ones(many), 0.0][None, :],
        b_eq=[choices.count],
        bounds=[(0, 1)] * many + [(None, None)],
        method="highs",
    )
    return -float(answer.fun)


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("count", [2, 3])
def test_few_pads_are_placed_as_well_as_by_trying_every_set(name: str, count: int) -> None:
    choices, cells, _ = laid(SHAPES[name], count, 16)
    found = place([choices], cells.areas, GAP)
    assert found.gets.min() >= 0.95 * best_of_all(choices)


@pytest.mark.slow
@pytest.mark.parametrize("name", SHAPES)
def test_four_pads_are_placed_as_well_as_by_trying_every_set(name: str) -> None:
    choices, cells, _ = laid(SHAPES[name], 4, 20)
    found = place([choices], cells.areas, GAP)
    assert found.gets.min() >= 0.9 * best_of_all(choices)


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("count", [6, 12])
def test_many_pads_against_the_bound(name: str, count: int) -> None:
    choices, cells, seats = laid(SHAPES[name], count, 80)
    found = place([choices], cells.areas, GAP)
    most = bound(choices)
    assert found.gets.min() <= most + 1e-9
    # Pads in fractions spread over the whole seat and may overlap: where there are few for the area, or hardly room
    # for all, no whole ones come near.
    dense = count * 2500 / SHAPES[name].area
    if found.fit == count and 0.6 < dense < 0.9:
        assert found.gets.min() >= 0.55 * most
    moved = nudged(
        found,
        [PAD],
        lambda _, places: pressures(places, cells, 45.0, 45.0, PAD) * SHAPES[name].area / count,
        lambda _, places: np.asarray(intersects_xy(seats, places[:, 0], places[:, 1])),
        cells.areas,
        GAP,
        10.0,
    )
    assert moved.gets.min() >= found.gets.min()
    for placing in (found, moved):
        (at,) = placing.places
        apart = np.linalg.norm(at[:, None] - at[None], axis=2) + np.eye(len(at)) * 1e3
        assert apart.min() >= PAD + GAP - 1e-5
        assert all(seats.distance(Point(p)) < 1e-6 for p in at)


def test_it_says_how_many_fit() -> None:
    # A line of 100 mm for the middles takes pads of 40 mm at 0, 45 and 90.
    choices, cells, _ = laid(box(0, 0, 140, 41), 8, 40)
    found = place([choices], cells.areas, GAP)
    assert found.fit == len(found.places[0]) == 3


def test_kinds_are_placed_together() -> None:
    cells = cells_of(1, MultiPolygon([SHAPES["strip"]]), 150)
    whole = candidates_on(MultiPolygon([box(20, 20, 380, 40)]), 60)
    left = whole[whole[:, 0] < 100]
    kinds = [Choices(at, PAD, n, pressures(at, cells, 45.0, 45.0, PAD)) for at, n in ((left, 1), (whole, 3))]
    found = place(kinds, cells.areas, GAP)
    assert [len(p) for p in found.places] == [1, 3]
    assert found.places[0][0, 0] < 100
    assert sorted(np.concatenate(found.places)[:, 0]) == pytest.approx([50, 150, 250, 350], abs=35)


def test_nowhere_to_sit() -> None:
    cells = cells_of(1, MultiPolygon([box(0, 0, 100, 10)]), 40)
    none = Choices(np.zeros((0, 2)), PAD, 4, np.zeros((0, len(cells.areas))))
    found = place([none], cells.areas, GAP)
    assert found.fit == 0 and found.gets.max() == 0.0


def test_places_that_gape_a_thousandfold_are_numbers_still() -> None:
    """Two pads of three pull a place open by 597 times the mean, which is (1,000 + 1,000 + 1.1) / 6; its 64th power is
    more than a number holds."""
    adds = np.array([[2e5, -1.99e5], [2e5, -1.99e5], [1.0, 0.1]])
    with np.errstate(over="raise", invalid="raise"):
        found = place([Choices(np.array([[0.0, 0.0], [50.0, 0.0], [100.0, 0.0]]), 10.0, 1, adds)], np.ones(2), 5.0)
    assert found.places[0].tolist() == [[100.0, 0.0]]
