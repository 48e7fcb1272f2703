# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where layers meet: areas and middles beside the closed forms of rectangles, discs and rings."""

from __future__ import annotations

from math import pi

import pytest
from piles import boxes, discs, outline, pile, ring
from shapely import box

from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.pressing.interfaces import interfaces_of


def test_a_box_is_exact() -> None:
    (line,) = interfaces_of(boxes(2, 300, 200))
    assert (line.lower, line.height) == (1, 45.0)
    assert line.area == pytest.approx(60_000.0, rel=1e-12)
    assert line.middle == pytest.approx((0.0, 0.0), abs=1e-9)


def test_a_ring_of_200_and_80() -> None:
    (line,) = interfaces_of(pile([[ring(200, 80)]] * 2))
    assert line.area == pytest.approx(pi * (200**2 - 80**2) / 4, rel=2e-5)


def test_stacked_discs_meet_on_the_smaller() -> None:
    diameters = [306.0, 276.0, 222.0, 176.0, 222.0]
    for line, (a, b) in zip(interfaces_of(discs(diameters)), zip(diameters, diameters[1:])):
        assert line.area == pytest.approx(pi * min(a, b) ** 2 / 4, rel=1e-4)  # arcs sampled to 0.005 mm


def test_what_a_cut_takes_on_either_side_is_no_contact() -> None:
    above, below = Cut("hollow", circle(60.0), 45.0, 90.0), Cut("pin", circle(10.0, (80, 0)), 33.0, 45.0)
    hidden = Cut("hollow", circle(50.0, (-80, 0)), 5.0, 40.0)  # ends 5 mm under the line
    (line,) = interfaces_of(pile([[rectangle(300, 200)]] * 2, cuts={1: (below, hidden), 2: (above,)}))
    assert line.area == pytest.approx(60_000 - pi * (60**2 + 10**2) / 4, rel=1e-4)
    # Σ(A·x)/ΣA for the rectangle less two discs.
    assert line.middle[0] == pytest.approx(-80 * pi * 10**2 / 4 / line.area, rel=5e-3)


def test_two_islands_count_together() -> None:
    legs = [outline(box(x, 0, x + 20, 20)) for x in (0, 100)]
    (line,) = interfaces_of(pile([legs, legs]))
    assert (line.area, *line.middle) == pytest.approx((800.0, 60.0, 10.0))


def test_layers_that_do_not_meet_have_no_area() -> None:
    (line,) = interfaces_of(pile([[rectangle(20, 20)], [rectangle(20, 20, (100, 0))]]))
    assert (line.area, line.middle) == (0.0, (0.0, 0.0))
