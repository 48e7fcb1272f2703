# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places for pins: in their region, apart, and no worse than any other pair tried one by one."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
import shapely
from laidwrong import SHAPES, lobed, tried_one_by_one
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.inside.pinplaces import Held, best_places
from freecad_stacklam.lamination.inside.wrongways import wrong_ways

NONE = np.empty((0, 2))
SHARE, DIAMETER, WANTED = 0.1, 10.0, 15.0


def held(piece: Polygon, pins: np.ndarray = NONE, others: np.ndarray = NONE) -> Held:
    return Held(wrong_ways(piece, SHARE), others, pins)


def room(piece: Polygon, margin: float = 13.0) -> MultiPolygon:
    return MultiPolygon([p for p in shapely.get_parts(piece.buffer(-margin)) if not p.is_empty])


@pytest.mark.parametrize("count", [2, 3, 4])
def test_pins_lie_in_their_region_and_apart(count: int) -> None:
    piece = lobed(120, 0.25, 3, 0.3)
    places = best_places(room(piece), count, DIAMETER, WANTED, [held(piece)])
    assert places is not None
    assert len(places) >= count
    assert all(room(piece).buffer(1e-9).contains(shapely.Point(p)) for p in places)
    assert min(np.hypot(*(a - b)) for a, b in combinations(places, 2)) >= 2 * DIAMETER
    assert np.array_equal(places, np.round(places))  # whole millimetres, for there is room


@pytest.mark.parametrize("name", ["oblong", "oval", "square"])
def test_the_places_miss_in_every_wrong_way_tried_by_shapely(name: str) -> None:
    piece = SHAPES[name]
    places = best_places(room(piece), 2, DIAMETER, WANTED, [held(piece)])
    assert places is not None
    assert tried_one_by_one(piece, places, SHARE, 2.0) >= WANTED - 1.0


def test_no_pair_on_a_grid_of_an_oblong_misses_by_much_more() -> None:
    """An oblong 300 × 160 can lie turned by 180° or over either middle line. By hand: pins at (a, b) and (c, d) miss by
    the least over the three ways of the larger of what each pin is from the nearest hole."""
    piece = shapely.box(-150, -80, 150, 80)
    ways = [np.diag(s) for s in ((-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0))]

    def missed(pins: np.ndarray) -> float:
        return float(min(np.hypot(*(pins[:, None] - (pins @ w)[None]).transpose(2, 0, 1)).min(axis=1).max()
                         for w in ways))  # fmt: skip

    grid = [
        np.array(p)
        for p in np.stack(np.meshgrid(np.linspace(-137, 137, 9), np.linspace(-67, 67, 5)), -1).reshape(-1, 2)
    ]
    best = max(missed(np.array(pair)) for pair in combinations(grid, 2))
    assert best >= WANTED
    places = best_places(room(piece), 2, DIAMETER, WANTED, [held(piece)])
    assert places is not None
    assert missed(places) >= WANTED  # what was wanted; more of it counts less than pins far apart


def test_a_third_pin_helps_where_two_always_fit() -> None:
    """Two pins on one circle fit a layer turned over about the line midway between them, wherever they are."""
    ring = shapely.Point(0, 0).buffer(100, 64).difference(shapely.Point(0, 0).buffer(84, 64))
    places = best_places(room(ring, 7.5), 2, DIAMETER, WANTED, [held(ring)])
    assert places is not None
    assert len(places) == 3


def test_pins_that_are_there_already_count() -> None:
    piece = shapely.box(-150, -80, 150, 80)
    there = np.array([(-100.0, -40.0), (120.0, 60.0)])
    judge = held(piece, there)
    least, way = judge.worst()
    assert least == pytest.approx(tried_one_by_one(piece, there, SHARE, 2.0), abs=1e-6)
    assert way
    assert held(piece).worst() == (np.inf, "")


def test_no_room_is_none() -> None:
    small = MultiPolygon([shapely.box(0, 0, 12, 12)])  # two pins 10 thick need 20 from centre to centre
    assert best_places(small, 2, DIAMETER, WANTED, [held(shapely.box(-20, -20, 32, 32))]) is None
    wide = MultiPolygon([shapely.box(0, 0, 23, 2)])
    assert best_places(wide, 3, DIAMETER, WANTED, [held(shapely.box(-20, -20, 43, 22))]) is None
