# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is inside 45°. The arithmetic of the workshop rule: a pad of 25 mm through 38 mm of wood covers
25 + 2 · 38 = 101 mm (common practice, no source)."""

from __future__ import annotations

from math import ceil, pi, sqrt

import pytest
from piles import boxes, discs, pile
from shapely import Point

from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.pressing.cones import cones_down, cones_up, pad_discs, reached
from freecad_stacklam.lamination.pressing.faces import Slab, pile_of


def run_of(stack: StackPlan) -> tuple[Slab, ...]:
    return pile_of(stack, 1, len(stack.layers))


def test_one_pad_covers_its_diameter_and_twice_the_depth() -> None:
    (cone,) = reached(run_of(boxes(2, 400, 400, 38.0)), *[pad_discs([(0, 0)], 25.0)] * 2)
    assert 2 * sqrt(cone.area / pi) == pytest.approx(101.0, rel=0.01)


def test_spacing_on_a_long_face() -> None:
    # 360 mm, the first and the last pad 40 mm from the ends: 280 / 101 = 2.8, so 3 spaces and 4 clamps.
    covers = 25 + 2 * 38
    spaces = ceil((360 - 80) / covers)
    assert (covers, spaces) == (101, 3)
    pads = pad_discs([(-140 + i * 280 / spaces, 0) for i in range(spaces + 1)], 25.0)
    (cone,) = reached(run_of(boxes(2, 360, 25, 38.0)), pads, pads)
    assert cone.area == pytest.approx(360 * 25, rel=0.002)
    fewer = pad_discs([(-140 + i * 140, 0) for i in range(3)], 25.0)
    assert reached(run_of(boxes(2, 360, 25, 38.0)), fewer, fewer)[0].area < 0.95 * 360 * 25


def test_the_nearer_side_does_not_help_the_farther() -> None:
    run = run_of(boxes(4, 400, 400))
    pads = pad_discs([(0, 0)], 40.0)
    downs, ups = cones_down(run, pads), cones_up(run, pads)
    assert [2 * sqrt(c.area / pi) for c in downs] == pytest.approx([40 + 6 * 45, 40 + 4 * 45, 40 + 2 * 45], rel=0.01)
    assert [c.area for c in ups] == pytest.approx([c.area for c in downs][::-1], rel=1e-6)
    assert reached(run, pads, pads)[0].area == pytest.approx(ups[0].area, rel=1e-6)


def test_a_cone_goes_round_a_mortise_and_not_across() -> None:
    slot = {n: (Cut("mortise", rectangle(60, 400), (n - 1) * 27.0, n * 27.0),) for n in (1, 2)}
    run = run_of(pile([[rectangle(400, 400)]] * 2, 27.0, slot))
    pads = pad_discs([(-60, 0)], 40.0)
    (cone,) = reached(run, pads, pads)
    assert cone.bounds[2] <= -30.0 + 1e-6


def test_wood_under_a_stopped_mortise_carries() -> None:
    # 13 mm of wood stay under it, and carry 13 mm inwards from its walls at 20 mm.
    run = run_of(pile([[rectangle(200, 200)]] * 2, cuts={2: (Cut("mortise", rectangle(40, 40), 58.0, 90.0),)}))
    ringed = pad_discs([(x, y) for x in (-60, 0, 60) for y in (-60, 0, 60) if (x, y) != (0, 0)], 40.0)
    (cone,) = reached(run, ringed, ringed)
    assert cone.contains(Point(8, 0)) and not cone.contains(Point(6, 0))


def test_a_flare_in_pairs_is_reached_and_in_a_long_run_is_not() -> None:
    # Each step is 20 mm, less than the layer and half the pad; four steps are more than the pads on top reach.
    flared = discs([320, 280, 240, 200, 160])
    pads = Point(0, 0).buffer(80)
    all_at_once = reached(run_of(flared), pads, pads)[0]
    assert all_at_once.area == pytest.approx(pi * 125**2, rel=0.01)  # from below: the pads' 80 and one layer
    pair = pile_of(flared, 1, 2)
    wide = Point(0, 0).buffer(140)
    assert reached(pair, wide, wide)[0].area == pytest.approx(pi * 140**2, rel=0.001)
