# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cauls: bars by the beam formulas of any handbook, 5·w·L⁴/(384·E·I) and w·L²/8, and boards by their hull."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from piles import boxes, clamps, pile, ring
from shapely import MultiPolygon, Point

from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.pressing.cauls import (
    BENDING,
    MOST_CROWN,
    STIFFNESS,
    bar_section,
    barred,
    bend,
    board_cauls,
    sides_of,
)
from freecad_stacklam.lamination.pressing.clamping import Clamping
from freecad_stacklam.lamination.pressing.faces import pile_of
from freecad_stacklam.lamination.pressing.work import Work, wood_of, work_of


def test_bend_worked_by_hand() -> None:
    # 20 N/mm on 400 mm, 40 × 50 mm, 11 GPa: I = 416 667, 5·20·400⁴/(384·11 000·416 667) = 1.4545.
    assert bend(20.0, 400.0, 40.0, 50.0, 11_000.0) == pytest.approx(1.4545, rel=1e-4)


def test_bend_beside_a_sum_over_the_beam() -> None:
    # The moment w·x·(L − x)/2 over E·I, integrated twice.
    load, length, stiff = 12.0, 600.0, STIFFNESS * 60 * 45**3 / 12
    x = np.linspace(0, length, 20_001)
    slope = np.cumsum(load * x * (length - x) / 2 / stiff) * (x[1] - x[0])
    sag = np.cumsum(slope - slope.mean()) * (x[1] - x[0])
    assert bend(load, length, 60.0, 45.0) == pytest.approx(abs(sag).max(), rel=1e-3)


@pytest.mark.parametrize(("length", "force"), [(200.0, 4670.0), (450.0, 4670.0), (800.0, 1650.0)])
def test_bars_are_thick_enough_and_no_thicker(length: float, force: float) -> None:
    bar = bar_section(length, force, 40.0)
    load = 2 * force / length

    def holds(thickness: float) -> bool:
        strain = load * length**2 / 8 / (40.0 * thickness**2 / 6)
        return bend(load, length, 40.0, thickness) <= MOST_CROWN * length * 1.0001 and strain <= BENDING * 1.0001

    assert holds(bar.thickness) and (bar.thickness == 30.0 or not holds(bar.thickness - 5.0))
    assert bar.crown == pytest.approx(bend(load, length, 40.0, bar.thickness))


def work(stack_width: float, depth: float) -> Work:
    return work_of(wood_of(boxes(2, stack_width, depth, 27.0)), 1, 2, [1], {1: (0.3, 2.0)}, {})


def test_bars_reach_the_middle_that_no_throat_does() -> None:
    found = barred(work(600, 400), clamps(24))
    assert found is not None
    (line,) = found.pressures
    assert line.reached > 0.99
    assert line.mean == pytest.approx(len(found.places) * 4670 / (600 * 400), rel=1e-9)
    # Two bars for each two clamps, across the longer side, and the pads beside the wood.
    assert len(found.cauls) == len(found.places)
    assert {round(abs(p.at[1])) for p in found.places} == {220}
    assert all(c.bar and c.length == pytest.approx(480) for c in found.cauls)
    # Cut to whole centimetres: 405 mm of wood, two pads of 40 mm beside it and half a pad on each of those are 485.
    odd = barred(work(600, 405), clamps(24))
    assert odd is not None and [c.length for c in odd.cauls] == pytest.approx([490] * len(odd.cauls))
    assert found.opening == pytest.approx(54 + 2 * found.cauls[0].thickness)


def test_bars_need_two_clamps_that_open_wide_enough() -> None:
    assert barred(work(600, 400), clamps(1)) is None
    assert barred(work(600, 400), clamps(24, opening=100.0)) is None
    assert barred(work(600, 400), clamps(3)) is not None  # one pair


def test_no_bar_lies_where_it_would_tip() -> None:
    # A back rail, 60 mm deep, at the rear of a seat 400 mm deep: two clamps at the ends of a bar press in its middle,
    # and there is no wood. 20 mm off the middle is within the middle third of 120 mm; 40 mm off, the far end is moved
    # out by 80 mm, until the middle of both clamps is over the wood's.
    def on(depth: float, at: float) -> Clamping | None:
        stack = pile([[rectangle(600, 400)], [rectangle(600, depth, (0, at))]])
        return barred(work_of(wood_of(stack), 1, 2, [1], {1: (0.3, 2.0)}, {}), clamps(24))

    assert on(60, 170) is None
    steady, moved = on(120, 19.9), on(120, 40.0)
    assert steady is not None and {round(p.at[1]) for p in steady.places} == {-220, 220}
    assert moved is not None and {round(p.at[1]) for p in moved.places} == {-220, 300}


def test_boards_lie_over_the_hull() -> None:
    run = pile_of(pile([[ring(300, 270)], [ring(280, 250)]]), 1, 2)
    below, above = board_cauls(run, 18.0)
    assert below.outline.area == pytest.approx(pi * 150**2, rel=1e-3)
    assert (below.side, above.side, below.bar, above.thickness) == ("bottom", "top", False, 18.0)
    assert above.length == pytest.approx(280, rel=1e-3)


def test_sides_of_the_smallest_rectangle() -> None:
    assert sides_of(MultiPolygon([Point(0, 0).buffer(50, 90)])) == pytest.approx((100, 100), rel=0.001)
    assert work(300, 120).largest.interface.area == pytest.approx(36_000)
