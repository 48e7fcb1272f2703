# SPDX-License-Identifier: LGPL-2.1-or-later

"""A run of layers and its new lines; figures by hand."""

from __future__ import annotations

import numpy as np
import pytest
from piles import boxes, discs, pile
from shapely import MultiPolygon, box

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.pressing.work import wood_of, work_of

WANT = dict.fromkeys(range(1, 9), (1.2, 1.8))


def test_only_new_lines_are_pressed_for() -> None:
    work = work_of(wood_of(boxes(6, 300, 200)), 2, 5, [3], WANT, {})
    assert [s.number for s in work.run] == [2, 3, 4, 5]
    assert [(line.lower, line.place) for line in work.lines] == [(3, 1)]
    assert len(work.contacts) == 3 and work.height == 180.0


def test_the_largest_line_wants_the_force() -> None:
    work = work_of(wood_of(discs([350, 300, 100, 100])), 1, 4, [1, 2, 3], WANT, {})
    assert work.force == pytest.approx(1.2 * np.pi * 150**2, rel=1e-3)
    assert work.largest.lower == 1


def test_a_line_where_no_wood_meets_is_left_out() -> None:
    work = work_of(wood_of(pile([[rectangle(20, 20)], [rectangle(20, 20, (100, 0))]])), 1, 2, [1], WANT, {})
    assert work.lines == ()


def test_figures_of_a_line() -> None:
    work = work_of(wood_of(boxes(2, 300, 200)), 1, 2, [1], WANT, species_table())
    (line,), (cells,) = work.lines, work.told
    over = np.where(cells.middles[:, 0] < 0, 1.0, 3.0)
    told = line.pressed(120_000.0, over, MultiPolygon([box(-150, -100, 120, 100)]), cells, work.table)
    assert (told.mean, told.least, told.fifth) == (2.0, 1.0, 1.0)
    assert told.reached == pytest.approx(0.9) and told.missed.area == pytest.approx(30 * 200)
    assert told.crush == pytest.approx(2.0 / 7.4)
    # A hollow 100 mm wide: δ = p·b⁴/(6.4·E·t³) = 2 · 10⁸ / (6.4 · 885.6 · 91 125)
    assert told.closes == pytest.approx(2e8 / (6.4 * 885.6 * 91_125), rel=1e-6)
    assert work.weights.sum() == pytest.approx(1.0)


def test_without_a_table_nothing_is_said_of_the_wood() -> None:
    work = work_of(wood_of(boxes(2, 300, 200)), 1, 2, [1], WANT, {})
    told = work.lines[0].pressed(60_000.0, np.ones(3), MultiPolygon(), work.told[0], {})
    assert told.closes is None and told.crush is None and told.reached == 0.0
