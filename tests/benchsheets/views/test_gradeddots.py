# SPDX-License-Identifier: LGPL-2.1-or-later

"""Dots that stand for values: their grades, their round limits, their places."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely

from freecad_stacklam.benchsheets.drawing.sheet import Circle, FilledRegion
from freecad_stacklam.benchsheets.views.gradeddots import RADII, dots, grade, on_grid, steps_to


def test_limits_are_round_and_reach_the_greatest() -> None:
    assert steps_to(5.0) == pytest.approx((1.0, 2.0, 3.0, 4.0))
    assert steps_to(0.83) == pytest.approx((0.2, 0.4, 0.6, 0.8))
    assert steps_to(0.0) == (1.0, 2.0, 3.0, 4.0)
    assert [grade(v, (1.0, 2.0, 3.0, 4.0)) for v in (-0.1, 0.0, 1.0, 3.9, 9.0)] == [-1, 0, 1, 3, 4]


def test_each_grade_is_plainly_larger_in_area() -> None:
    assert all((b / a) ** 2 > 1.5 for a, b in pairwise(RADII))


def test_dots_lie_inside_and_take_the_greatest_near_them() -> None:
    area = shapely.box(0, 0, 40, 40)
    points = np.array([(x, y) for x in np.arange(0.5, 40, 1.0) for y in np.arange(0.5, 40, 1.0)])
    places, most = on_grid(points, points[:, 0], area)
    assert len(places) == pytest.approx((40 / 2.6) ** 2, rel=0.1)
    assert np.all(most >= places[:, 0] - 0.5) and np.all(most <= places[:, 0] + 1.31)
    empty, none = on_grid(np.empty((0, 2)), np.empty(0), area)
    assert len(empty) == len(none) == 0


def test_a_value_below_nought_is_a_ring_and_nothing_covers_what_is_kept_clear() -> None:
    places = np.array([(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)])
    marks = dots(places, np.array([-1.0, 5.0, 5.0]), (1.0, 2.0, 3.0, 4.0), shapely.box(19, -1, 21, 1))
    ring, black = marks
    assert isinstance(ring, Circle) and isinstance(black, FilledRegion)
    assert len(black.loops) == 1 and np.ptp(np.array(black.loops[0])[:, 0]) == pytest.approx(2 * RADII[-1])
