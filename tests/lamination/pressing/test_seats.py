# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where pads may sit. Areas by hand."""

from __future__ import annotations

from math import pi

import pytest
from piles import boxes, discs, pile, ring
from shapely import Point

from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.pressing.faces import Slab, pile_of
from freecad_stacklam.lamination.pressing.seats import bore_seats, clamp_seats, least_throat, step_seats, top_seats


def run_of(stack: StackPlan) -> tuple[Slab, ...]:
    return pile_of(stack, 1, len(stack.layers))


def test_a_pad_stays_on_the_flat() -> None:
    seats = clamp_seats(run_of(boxes(2, 300, 200)), 40.0, None)
    assert seats.area.area == pytest.approx(260 * 160)
    assert (seats.foot, seats.head, seats.opening) == (0.0, 90.0, 90.0)


def test_both_faces_are_asked_for() -> None:
    # Pads that are not opposite each other would tip the pile.
    stack = pile([[rectangle(100, 100)], [rectangle(100, 100, (40, 0))]])
    assert clamp_seats(run_of(stack), 40.0, None).area.bounds == pytest.approx((10, -30, 30, 30))
    assert top_seats(run_of(stack), 40.0).area.area == pytest.approx(60 * 60)


def test_the_throat_counts_from_the_outline_of_the_whole_run() -> None:
    # Ø300 under Ø200: from the bar outside the lower disc, a throat of 70 mm reaches radii from 80 mm on.
    area = clamp_seats(run_of(discs([300, 200])), 20.0, 70.0).area
    assert area.area == pytest.approx(pi * (90**2 - 80**2), rel=0.01)
    assert clamp_seats(run_of(discs([300, 200])), 20.0, 50.0).area.is_empty
    assert least_throat(run_of(discs([300, 200])), 20.0) == pytest.approx(60.0, abs=0.2)


def test_a_bar_may_stand_in_a_hole_through_the_run() -> None:
    wide = run_of(pile([[ring(600, 120)]] * 2))
    found = clamp_seats(wide, 40.0, 60.0).area
    # Inside: from the hole's radius and half a pad to the throat; outside likewise.
    assert found.area == pytest.approx(pi * (120**2 - 80**2 + 280**2 - 240**2), rel=0.01)
    narrow = run_of(pile([[ring(600, 28)]] * 2))  # too narrow for a bar
    assert clamp_seats(narrow, 40.0, 60.0).area.area == pytest.approx(pi * (280**2 - 240**2), rel=0.01)


def test_a_mortise_that_takes_a_bar_but_no_jaw_lets_no_clamp_in() -> None:
    # 36 mm are wider than a bar, and a jaw of 50 mm with its bar wants 80.
    blank, bore = [rectangle(400, 400)], rectangle(36, 36)
    cuts = {n: (Cut("mortise", bore, (n - 1) * 45.0, n * 45.0),) for n in (1, 2)}
    found = clamp_seats(run_of(pile([blank] * 2, cuts=cuts)), 40.0, 50.0).area
    assert found.area == pytest.approx(360**2 - 300**2, rel=0.01)
    assert least_throat(run_of(pile([blank] * 2, cuts=cuts)), 40.0) == pytest.approx(20.0, abs=0.2)


def test_a_stopped_mortise_lets_no_bar_and_no_rod_through() -> None:
    blank = [rectangle(400, 400)]
    through = {n: (Cut("mortise", rectangle(60, 60), (n - 1) * 45.0, n * 45.0),) for n in (1, 2)}
    stopped = {2: (Cut("mortise", rectangle(60, 60), 60.0, 90.0),)}
    assert bore_seats(run_of(pile([blank] * 2, cuts=through)), 100.0) == ((0.0, 0.0),)
    assert bore_seats(run_of(pile([blank] * 2, cuts=through)), 60.0) == ()  # the washer falls in
    assert bore_seats(run_of(pile([blank] * 2, cuts=stopped)), 100.0) == ()


def test_a_jaw_on_a_step_needs_a_step_as_wide_as_its_pad() -> None:
    # Ø300 carries Ø150: a step of 75 mm around, bare for a pad Ø40 with 3 mm to the wall: radii 98 to 130.
    run = run_of(discs([300, 300, 150]))
    (seats,) = step_seats(run, 40.0, None, 0)
    assert (seats.low, seats.high, seats.opening) == (0, 1, 90.0)
    assert seats.area.area == pytest.approx(pi * (130**2 - 98**2), rel=0.01)
    assert step_seats(run_of(discs([300, 300, 260])), 40.0, None, 0) == ()
    # The bar stands beside the layers between the jaws alone: 20 mm reach the whole step from outside Ø300 only.
    (near,) = step_seats(run, 40.0, 30.0, 0)
    assert near.area.area == pytest.approx(pi * (130**2 - 120**2), rel=0.01)


def test_a_step_under_an_overhang() -> None:
    seats = step_seats(run_of(discs([100, 300, 300])), 40.0, None, 1)
    assert [(s.low, s.high) for s in seats] == [(1, 2)]
    assert not seats[0].area.contains(Point(0, 0))


def test_no_flats_opposite_each_other_is_no_matter_of_throat() -> None:
    shell = pile([[ring(300, 270)], [ring(310, 280)]])  # walls of 15 mm
    assert clamp_seats(run_of(shell), 40.0, None).area.is_empty
    assert least_throat(run_of(shell), 40.0) is None
    assert clamp_seats(run_of(pile([[circle(300)]] * 2)), 40.0, None).area.area > 0
