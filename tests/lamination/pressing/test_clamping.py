# SPDX-License-Identifier: LGPL-2.1-or-later

"""Presses put on a pile. Forces by hand: Σ force = Σ pressure × area."""

from __future__ import annotations

from math import hypot, pi

import numpy as np
import pytest
from piles import boxes, clamps, discs, legs, pile, ring
from shapely import Point

from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.pressing.cauls import board_cauls
from freecad_stacklam.lamination.pressing.clamping import Clamping, bagged, candidates_on, put_on, stands_for
from freecad_stacklam.lamination.pressing.faces import with_cauls
from freecad_stacklam.lamination.pressing.work import wood_of, work_of
from freecad_stacklam.lamination.settings.presses import PressSettings


def on(stack: StackPlan, presses: list[PressSettings], want: tuple[float, float] = (1.2, 1.8)) -> Clamping | None:
    count = len(stack.layers)
    work = work_of(wood_of(stack), 1, count, range(1, count), dict.fromkeys(range(1, count), want), {})
    return put_on(work, work.run, (), stands_for(work.run, presses))


def test_as_many_as_the_force_wants_and_all_of_it_arrives() -> None:
    # 200 × 150 mm at 1.2 MPa: 36 kN, 8 clamps of 4.67 kN.
    found = on(boxes(3, 200, 150), [clamps(24)])
    assert found is not None and len(found.places) == 8 and found.tightened == 1.0
    for line in found.pressures:
        assert line.mean == pytest.approx(8 * 4670 / 30_000)
        assert 0 < line.least <= line.fifth <= line.mean
    assert found.opening == 135.0 and {(p.foot, p.head) for p in found.places} == {(0.0, 135.0)}
    apart = [hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) for a in found.places for b in found.places if a is not b]
    assert min(apart) >= 45.0 - 1e-5
    assert all(abs(p.at[0]) <= 80 + 1e-6 and abs(p.at[1]) <= 55 + 1e-6 for p in found.places)


def test_no_more_than_are_owned() -> None:
    found = on(boxes(2, 400, 300), [clamps(6)])
    assert found is not None and len(found.places) == found.asked == 6
    assert found.short == pytest.approx(6 * 4670 / 120_000 / 1.2)


def test_no_more_than_have_room() -> None:
    found = on(discs([140, 140]), [clamps(12, force=1000.0)])
    assert found is not None and len(found.places) < found.asked == 12


def test_the_strongest_first_and_others_for_the_rest() -> None:
    # 20 000 mm² at 1.2 MPa: 24 kN; 4 · 4.67 = 18.68, and 4 of 1.65 kN for the other 5.32.
    weak = PressSettings("trigger clamp", count=8, force=1650.0)
    found = on(boxes(2, 200, 100), [weak, clamps(4)])
    assert found is not None
    assert [sum(p.press == n for p in found.places) for n in ("pipe clamp", "trigger clamp")] == [4, 4]


def test_a_thick_glue_is_tightened_less_and_still_reached_everywhere() -> None:
    found = on(boxes(2, 400, 100, 27.0), [clamps(12)], (0.01, 0.2))
    assert found is not None and len(found.places) > 1
    assert found.pressures[0].mean == pytest.approx(min(0.2, len(found.places) * 4670 / 40_000))
    assert found.pressures[0].reached > 0.9 and found.tightened < 1.0


def test_the_smallest_line_is_spared_where_the_largest_allows() -> None:
    found = on(discs([200, 200, 120, 120]), [clamps(24)], (0.5, 0.7))
    assert found is not None
    big, _, small = found.pressures
    assert big.mean >= 0.5 * 0.999 and small.mean == pytest.approx(big.mean * (200 / 120) ** 2, rel=0.01)
    assert found.tightened * len(found.places) * 4670 == pytest.approx(big.mean * pi * 100**2, rel=0.01)


def test_what_does_not_open_or_reach_stands_nowhere() -> None:
    run = work_of(wood_of(boxes(4, 400, 400)), 1, 4, [1], {1: (1.2, 1.8)}, {}).run
    assert stands_for(run, [clamps(4, opening=150.0)]) == ()
    assert stands_for(run, [clamps(4, throat=15.0)]) == ()
    assert [s.press.name for s in stands_for(run, [clamps(4), PressSettings("long rod", kind="rod")])] == ["pipe clamp"]


def test_a_rod_stands_in_the_bore_and_comes_first() -> None:
    bored = {n: (Cut("mortise", rectangle(40, 40), (n - 1) * 45.0, n * 45.0),) for n in (1, 2)}
    found = on(pile([[rectangle(200, 200)]] * 2, cuts=bored), [clamps(4), PressSettings("rod", kind="rod", pad=80.0)])
    assert found is not None
    rod = found.places[0]
    assert (rod.press, rod.pad) == ("rod", 80.0) and rod.at == pytest.approx((0.0, 0.0), abs=1e-6)
    assert all(hypot(*p.at) >= 65 - 1e-5 for p in found.places[1:])


def test_weights_press_from_above_while_the_bench_bears() -> None:
    # Overhanging above: a clamp finds its fellow only over the foot, a weight sits on all of the top.
    stack = pile([[rectangle(100, 100)], [rectangle(200, 100)]])
    weight = PressSettings("weight", kind="weight", force=200.0, count=2, pad=90.0)
    found = on(stack, [weight], (0.01, 0.2))
    assert found is not None
    assert found.pressures[0].mean == pytest.approx(len(found.places) * 200 / 10_000)
    assert found.pressures[0].reached > 0.9


def test_a_vacuum_bag_presses_alike_everywhere() -> None:
    work = work_of(wood_of(boxes(2, 400, 300)), 1, 2, [1], {1: (0.05, 0.2)}, {})
    found = bagged(work, PressSettings("bag", kind="vacuum", air=0.085))
    (line,) = found.pressures
    assert (line.mean, line.least, line.reached) == (pytest.approx(0.085), pytest.approx(0.085), 1.0)
    assert found.places[0].force == pytest.approx(0.085 * 120_000)  # 10.2 kN on 0.12 m²


def test_each_leg_gets_its_own_clamps() -> None:
    found = on(pile([legs(), legs()]), [clamps(4)])
    assert found is not None
    assert sum(p.at[0] < 0 for p in found.places) == len(found.places) / 2
    assert found.pressures[0].reached > 0.9


def test_a_shell_has_no_seat_but_between_boards() -> None:
    # Walls of 15 mm bear no pad of 40 mm.
    stack = pile([[ring(300, 270)], [ring(296, 266)]], 27.0)
    assert on(stack, [clamps(12)]) is None
    work = work_of(wood_of(stack), 1, 2, [1], {1: (1.2, 1.8)}, {})
    boards = board_cauls(work.run, 36.0)
    between = with_cauls(work.run, boards[0].outline, boards[1].outline, 36.0)
    found = put_on(work, between, boards, stands_for(between, [clamps(12)]))
    assert found is not None
    (line,) = found.pressures
    assert line.reached > 0.98 and found.opening == 54 + 72
    assert line.mean >= 1.2 and found.cauls == boards


def test_candidates_lie_on_the_area_and_on_its_rim() -> None:
    area = work_of(wood_of(boxes(2, 300, 200)), 1, 2, [1], {1: (1.2, 1.8)}, {}).run[0].upper
    at = candidates_on(area, 80)
    assert 100 < len(at) < 160
    assert all(area.distance(Point(p)) < 1e-9 for p in at)
    rim = [p for p in at if area.boundary.distance(Point(p)) < 1e-6]
    assert len(rim) > 30 and np.abs(at).max() == pytest.approx(150)


def test_smaller_pads_take_what_room_the_strongest_leave() -> None:
    small = PressSettings("small clamp", count=20, force=1000.0, pad=20.0)
    strong = clamps(12, pad=60.0)
    alone, both = on(boxes(2, 200, 80), [strong], (3.0, 5.0)), on(boxes(2, 200, 80), [strong, small], (3.0, 5.0))
    assert alone is not None and both is not None
    assert len(alone.places) == 3 and sum(p.press == "small clamp" for p in both.places) > 0
    assert both.short > alone.short
