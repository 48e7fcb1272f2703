# SPDX-License-Identifier: LGPL-2.1-or-later

"""What helps where a line is missed, on piles where a sketch tells what does."""

from __future__ import annotations

from math import pi

import pytest
from piles import boxes, clamps, discs, legs, pile, ring

from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.pressing.clamping import put_on, stands_for
from freecad_stacklam.lamination.pressing.faces import pile_of
from freecad_stacklam.lamination.pressing.interfaces import interfaces_of
from freecad_stacklam.lamination.pressing.landings import Landings, landings_for, reach, shares_in_reach
from freecad_stacklam.lamination.pressing.work import wood_of, work_of
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.presses import PressSettings


def helps_of(stack: StackPlan, presses: list[PressSettings], caul: float = 0.0, want: float = 0.3) -> Landings:
    count = len(stack.layers)
    work = work_of(wood_of(stack), 1, count, range(1, count), dict.fromkeys(range(1, count), (want, 2.0)), {})
    way = put_on(work, work.run, (), stands_for(work.run, presses))
    found = landings_for(work, presses, caul, way)
    return Landings(tuple(map(told, found.helps)), found.tabs)


def reach_of(stack: StackPlan, presses: list[PressSettings], line: int = 1) -> float:
    run = pile_of(stack, 1, len(stack.layers))
    return reach(run, presses, interfaces_of(stack)[line - 1].contact, line - 1)


def shares_of(stack: StackPlan, presses: list[PressSettings], caul: float = 0.0) -> tuple[float, ...]:
    run = pile_of(stack, 1, len(stack.layers))
    return shares_in_reach(run, [face.contact for face in interfaces_of(stack)], presses, caul)


def test_the_shares_of_all_lines_at_once() -> None:
    assert shares_of(boxes(4, 300, 200), [clamps()]) == pytest.approx((1.0, 1.0, 1.0))
    # From feet of 90 by 90 mm the cone of 45° grows by 64 mm at the line 32 mm over them: on planks as deep as the feet
    # twice 90 + 2 · 64 mm of 500, for on the way up to the line between the planks it grows by both layers' heights.
    bench = pile([legs(260.0, 90.0)] * 2 + [[rectangle(500.0, 90.0)]] * 2, 32.0)
    assert shares_of(bench, [clamps()])[:2] == pytest.approx((1.0, 1.0))
    assert shares_of(bench, [clamps()])[2] == pytest.approx(2 * (90 + 2 * 32) / 500, abs=0.02)
    # Boards over the faces reach farther down than pads on narrow flats, and a bag reaches all.
    dumbbell = discs([300, 60, 300])
    assert max(shares_of(dumbbell, [clamps()], 36.0)) == pytest.approx(1.0)
    assert shares_of(bench, [PressSettings("bag", kind="vacuum")]) == (1.0, 1.0, 1.0)


def test_pads_that_do_not_open_so_wide_reach_nothing() -> None:
    assert shares_of(boxes(4, 300, 200), [clamps(opening=100.0)]) == (0.0, 0.0, 0.0)


def test_reach_of_all_seats_together() -> None:
    assert reach_of(boxes(2, 300, 200), [clamps()]) == pytest.approx(1.0)
    # Seats of a throat of 60 mm on a disc Ø400: pads cover the rim to 80 mm, and the cone 45 mm more.
    assert reach_of(discs([400, 400]), [clamps(throat=60.0)]) == pytest.approx(
        1 - (200 - 60 - 20 - 45) ** 2 / 200**2, abs=0.01
    )
    shell = pile([[ring(300, 270)], [ring(296, 266)]], 27.0)
    assert reach_of(shell, [clamps()]) == 0.0


def test_a_flare_is_best_glued_in_fewer_layers() -> None:
    stack = discs([320, 280, 240, 160, 120])
    found = helps_of(stack, [clamps(40)])
    assert found.helps[0].startswith("Glue fewer layers at once: with layers 1 to ")
    assert "the line between layers 1 and 2" in found.helps[0]
    assert reach_of(stack, [clamps()]) == pytest.approx((60 + 45) ** 2 / 140**2, abs=0.01)
    # So much is missed that tabs are told of as well, last.
    assert found.tabs and "tabs = [{layers = " in found.helps[-1]


def test_the_order_of_what_helps() -> None:
    # A board too wide for the throat: bars, then boards over the whole face.
    found = helps_of(boxes(2, 600, 400, 27.0), [clamps(40, throat=60.0)])
    kinds = [next(word for word in ("bars as cauls", "whole face", "More clamps") if word in s) for s in found.helps]
    assert kinds == ["bars as cauls", "whole face", "whole face"]
    bars = next(s for s in found.helps if "bars" in s)
    assert "480 mm long" in bars and "crown of" in bars


def test_a_shell_is_helped_by_boards() -> None:
    shell = pile([[ring(300, 270)], [ring(296, 266)]], 27.0)
    found = helps_of(shell, [clamps(12)])
    assert any(s.startswith("Cauls over the whole face, 36 mm thick, 296 mm × 296 mm above") for s in found.helps)


def test_a_jaw_on_a_step() -> None:
    # A thin post on a wide foot: clamps on the post reach little of the foot's line, its rim stands bare.
    stack = pile([[circle(300)], [circle(300)], [circle(80)], [circle(80)], [circle(80)]])
    found = helps_of(stack, [clamps(12, opening=300.0)])
    step = [s for s in found.helps if s.startswith("A jaw on a step")]
    assert len(step) == 1 and "layers 1 and 2, 90 mm apart" in step[0]


def test_a_rod_through_the_bore() -> None:
    bored = {n: (Cut("mortise", rectangle(30, 30), (n - 1) * 45.0, n * 45.0),) for n in (1, 2)}
    stack = pile([[rectangle(400, 400)]] * 2, cuts=bored)
    found = helps_of(stack, [clamps(40, throat=60.0)])
    assert any("A rod through the bore with washers of 62.4 mm and nuts 90 mm apart" in s for s in found.helps)


def test_more_clamps_where_only_their_number_lacks() -> None:
    found = helps_of(boxes(2, 600, 100, 27.0), [clamps(2)])
    assert found.helps[0].startswith("More clamps on the same flats would reach 100 %")


def test_tabs_come_with_their_outlines_where_nothing_before_does() -> None:
    # Between two layers there are no fewer; the upper is small, and cauls are as wide as it is.
    stack = discs([300, 300, 60], 20.0)
    count = 3
    work = work_of(wood_of(stack), 1, count, [1], {1: (0.3, 2.0)}, {})
    presses = [clamps(12)]
    way = put_on(work, work.run, (), stands_for(work.run, presses))
    found = landings_for(work, presses, 0.0, way)
    area = pi * 30**2
    assert all(t.layer == 3 and t.share == pytest.approx(t.area / area, rel=0.05) for t in found.tabs)
    assert bool(found.tabs) == any("of waste on the blank of layer 3" in s for s in found.helps)


def test_nothing_is_said_where_nothing_is_missed() -> None:
    assert helps_of(boxes(3, 120, 120), [clamps(12)]) == Landings()
    assert helps_of(boxes(3, 120, 120), [PressSettings("bag", kind="vacuum")]) == Landings()
