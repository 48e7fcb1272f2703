# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cutting plans against textbook problems with known optima, boards cut apart at random, and the independent judge."""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from itertools import count as counting
from time import perf_counter

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from smallracks import ONE_BOARD_DOES, small_rack
from woodyard import BARE, CHVATAL, MILL, cut_apart, for_sale, rolls, stave

from freecad_stacklam.lamination.boards import cutcheck, cutting
from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()


@pytest.mark.parametrize("problem", [CHVATAL, MILL])
def test_textbook_rolls_within_one_and_a_half_percent(problem: tuple) -> None:
    staves, rack = rolls(problem)
    plan = plan_cutting(staves, rack, BARE, rounds=4)
    assert problem[2] <= len(plan.plan) <= 1.015 * problem[2]
    assert plan.bound_area is not None and plan.bound_area <= problem[3]


@pytest.mark.parametrize("seed", [1, 2])
def test_boards_cut_apart_are_planned_back_within_one(seed: int) -> None:
    shop = replace(BARE, kerf=3.0)
    staves = cut_apart(np.random.default_rng(seed), 6, 2400.0, 190.0, 3.0)
    plan = plan_cutting(staves, Rack((for_sale(190.0, 2400.0),)), shop, rounds=6)
    assert 6 <= len(plan.plan) <= 7


def test_better_is_never_worse_than_quick() -> None:
    staves = cut_apart(np.random.default_rng(5), 2, 2400.0, 190.0, 3.0)
    rack = Rack((for_sale(200.0, 2500.0, 40.0), for_sale(150.0, 2000.0, 21.0, "Small")))
    for first in ("crosscut", "rip", "better"):
        shop = replace(SHOP, first_cut=first)
        quick = plan_cutting(staves, rack, shop)
        better = plan_cutting(staves, rack, shop, rounds=2)
        assert better.objective <= quick.objective
        assert better.bound_area is not None and better.objective >= better.bound_area
        if first != "better":
            top = better.plan[0].cuts[0]
            assert top.across == (first == "crosscut")


def test_all_fit_one_bought_board_that_costs_less_than_two_on_hand() -> None:
    """Boards on hand at half their price, 27.2 and 36.6, against one bought for 56: also the quick answer sees it."""
    staves, rack = ONE_BOARD_DOES
    plan = plan_cutting(staves, rack, SHOP)
    assert [b.board for b in plan.plan] == ["Yard #1"] and plan.objective == 56.0


@pytest.mark.parametrize(
    ("seed", "least"), [(6, 119.6), (11, 65.55), (19, 44.8), (14, 85.55), (22, 125.2), (42, 159.7)]
)
def test_small_racks_cost_what_cp_sat_found_least(seed: int, least: float) -> None:
    """Costs that CP-SAT (OR-Tools 9.15.6755) proved to be least for these racks within the same cuts: bands, strips,
    ends; tests/benchmarks/bench_boards.py repeats it."""
    staves, rack, first = small_rack(seed)
    plan = plan_cutting(staves, rack, ShopSettings(first_cut=first, jointing=0.0), rounds=5)
    assert plan.objective == pytest.approx(least, abs=0.01)


def test_the_same_rack_gives_the_same_plan_however_busy_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that jumps an hour at every look changes nothing, for none is looked at."""
    staves, rack, first = small_rack(2)
    shop = ShopSettings(first_cut=first)
    plain = plan_cutting(staves, rack, shop, rounds=2, lp_bound=True)
    for clock in ("perf_counter", "monotonic", "time", "process_time"):
        monkeypatch.setattr(time, clock, counting(0.0, 3600.0).__next__)
    assert plan_cutting(staves, rack, shop, rounds=2, lp_bound=True) == plain


def test_short_staves_are_ganged_in_several_ways_and_the_cheapest_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """The greatest savings first bind 13 short staves into gangs that cost a board more than others do."""
    staves, rack, first = small_rack(2)
    lengths = np.random.default_rng([16, 2])
    staves = [replace(s, length=float(lengths.integers(80, 420))) for s in staves]
    shop = ShopSettings(first_cut=first)
    several = plan_cutting(staves, rack, shop, rounds=4)
    assert not cutcheck.faults_of(several, rack.boards, shop)
    assert several.objective <= 50.9 + 1e-6
    monkeypatch.setattr(cutting, "GANGINGS", 2)
    assert plan_cutting(staves, rack, shop, rounds=4).objective > several.objective + 1


def test_what_is_not_on_the_rack_is_bought_last() -> None:
    """Two dear boards on hand do; a third like the cheap one, which is not there, would cost less and must not be asked
    for."""
    boards = (Board("Cheap", 100.0, 1000.0, 45.0, "oak", 1.0), Board("Dear", 100.0, 1000.0, 45.0, "oak", 60.0, count=2))
    plan = plan_cutting([stave(f"s{i}", 800.0, 90.0) for i in range(3)], Rack(boards), SHOP)
    assert plan.short == () and len(plan.plan) == 3


def test_lp_bound_lies_between_area_bound_and_plan() -> None:
    pytest.importorskip("scipy", reason="the LP bound is only given where scipy is present")
    staves = cut_apart(np.random.default_rng(7), 3, 2400.0, 190.0, 3.0)
    plan = plan_cutting(staves, Rack((for_sale(190.0, 2450.0),)), SHOP, rounds=20, lp_bound=True)
    assert plan.bound_area is not None and plan.bound_lp is not None
    assert plan.bound_area - 1e-6 <= plan.bound_lp <= plan.objective + 1e-6


sizes = st.tuples(st.floats(80, 700), st.floats(30, 140))
knots = st.tuples(st.floats(0, 0.9), st.floats(0, 0.9), st.floats(0.01, 0.1), st.floats(0.05, 0.4))
planks = st.tuples(
    st.floats(145, 280), st.floats(900, 3000), st.integers(1, 3), st.lists(knots, max_size=3), st.booleans()
)


random_racks = given(
    st.lists(sizes, min_size=1, max_size=25), st.lists(planks, min_size=1, max_size=4), st.floats(0, 6),
    st.floats(0, 40), st.sampled_from(["crosscut", "rip", "better"]), st.sampled_from([0, 0, 0, 3]),
)  # fmt: skip
few = settings(max_examples=30, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
many = settings(few, max_examples=400)


def plans_pass_the_judge(pieces: list, racks: list, kerf: float, trim: float, first: str, rounds: int) -> None:
    boards = []
    for i, (width, length, count, marks, sale) in enumerate(racks):
        spots = tuple(
            Knot(x * length, y * width, dx * length * (1 - x), dy * width * (1 - y)) for x, y, dx, dy in marks
        )
        boards.append(Board(f"B{i}", width, length, 45.0, "oak", width * length * 1e-4, count=0 if sale else count,
                            knots=() if sale else spots, for_sale=sale))  # fmt: skip
    boards.append(for_sale(145.0, 800.0, 20.0))
    shop = ShopSettings(kerf=kerf, end_trim=trim, first_cut=first)
    staves = [stave(f"s{i}", n, w, copies=1 + i % 2, glued_edges=i % 3) for i, (n, w) in enumerate(pieces)]
    plan = plan_cutting(staves, Rack(tuple(boards)), shop, rounds=rounds)
    assert cutcheck.faults_of(plan, boards, shop) == []
    assert plan.objective >= plan.bound_area - 1e-9
    used = {b: sum(c.board.rsplit(" #", 1)[0] == b.name for c in plan.plan) for b in boards}
    assert all(b.for_sale or used[b] <= b.count for b in boards)
    for cut in plan.plan:
        # No offcut lies on a piece, and each is on the board.
        for x, y, dx, dy in cut.offcuts:
            assert min(x, y, cut.length - x - dx, cut.width - y - dy) >= -1e-6
            for p in cut.pieces:
                apart = max(p.x - (x + dx), x - (p.x + p.length), p.y - (y + dy), y - (p.y + p.width))
                assert apart >= -1e-6


test_plans_on_random_racks_pass_the_judge = few(random_racks(plans_pass_the_judge))
test_plans_on_very_many_random_racks_pass_the_judge = pytest.mark.slow(many(random_racks(plans_pass_the_judge)))


def test_knots_are_sawn_around() -> None:
    """A knot in the middle of a board 1000 × 200: of nine pieces 300 × 60, eight fit beside it, and no more."""
    knot = Knot(480.0, 0.0, 20.0, 200.0)
    board = Board("A", 200.0, 1000.0, 45.0, "oak", 1.0, knots=(knot,))
    rack = Rack((board, for_sale(60.0, 310.0, 5.0)))
    shop = replace(BARE, kerf=3.0)
    plan = plan_cutting([stave(f"s{i}", 300.0, 60.0) for i in range(6)], rack, shop)
    assert [(b.board, len(b.pieces)) for b in plan.plan] == [("A", 6)]
    plan = plan_cutting([stave(f"s{i}", 300.0, 60.0) for i in range(7)], rack, shop)
    assert sorted(len(b.pieces) for b in plan.plan) == [1, 6]


def test_boards_on_hand_go_first_and_copies_and_stacks_are_cut_together() -> None:
    hand = Board("Mine", 200.0, 2000.0, 45.0, "oak", 60.0, count=2)
    staves = [stave("Body 1 a", 600.0, 95.0, copies=3), stave("Top 1 a", 580.0, 90.0, stack="Top")]
    plan = plan_cutting(staves, Rack((for_sale(200.0, 2000.0, 60.0), hand)), replace(SHOP, jointing=0.0))
    assert [(b.on_hand, len(b.pieces)) for b in plan.plan] == [(True, 4)]
    assert {p.stave for p in plan.plan[0].pieces} == {"Body 1 a", "Top 1 a"}
    assert plan.cost == 60.0


def test_species_and_thicknesses_get_boards_of_their_own() -> None:
    staves = [stave("a", 500.0, 90.0), stave("b", 500.0, 90.0, thickness=27.0), stave("c", 500.0, 90.0, species="ash")]
    rack = Rack((for_sale(100.0, 1000.0), replace(for_sale(100.0, 1000.0, 1.0, "Thin"), thickness=30.0),
                 replace(for_sale(100.0, 1000.0, 1.0, "Ash"), species="ash", thickness=50.0)))  # fmt: skip
    plan = plan_cutting(staves, rack, SHOP)
    where = {p.stave: b.board for b in plan.plan for p in b.pieces}
    assert where == {"a": "Yard #1", "b": "Thin #1", "c": "Ash #1"}


def test_what_is_short_is_said_in_boards() -> None:
    hand = Board("Mine", 200.0, 2000.0, 45.0, "oak", 60.0)
    plan = plan_cutting([stave(f"s{i}", 900.0, 90.0) for i in range(10)], Rack((hand,)), SHOP)
    assert tuple(map(told, plan.short)) == (
        "The rack is short of 2 boards of 45 mm × 200 mm × 2000 mm oak, free of knots: buy as much, or add what you "
        "have.",
    )
    assert sum(b.on_hand for b in plan.plan) == 1


def test_a_missing_cost_plans_by_volume_and_says_so() -> None:
    plan = plan_cutting([stave("a", 500.0, 90.0)], Rack((for_sale(100.0, 1000.0, None),)), SHOP)
    assert plan.cost is None
    assert plan.objective_unit == "m3"
    assert plan.objective == pytest.approx(0.1 * 1.0 * 0.045)
    assert "least volume" in plan.notes[0]


def test_spare_staves_are_the_largest_again() -> None:
    staves = [stave("a", 500.0, 90.0), stave("b", 600.0, 95.0), stave("c", 300.0, 80.0)]
    plan = plan_cutting(staves, Rack((for_sale(100.0, 2500.0),)), replace(SHOP, spare_staves=1))
    assert [s.id for s in plan.staves if not s.stack] == ["Spare for b"]
    assert sum(p.stave == "Spare for b" for b in plan.plan for p in b.pieces) == 1


@pytest.mark.parametrize(
    ("piece", "says"),
    [
        (stave("Body 1 a", 500.0, 120.0), "Stave Body 1 a is 120 mm wide as ripped, but the widest board is 100 mm"),
        (stave("Body 1 a", 980.0, 90.0), "is 980 mm long, but the longest board wide enough has 950 mm"),
        (stave("Body 1 a", 500.0, 90.0, thickness=60.0), "needs 60 mm oak, but no board on the rack suits it"),
        (stave("Body 1 a", 500.0, 90.0, species="walnut"), "needs 45 mm walnut, but no board on the rack suits it"),
    ],
)
def test_a_stave_that_no_board_takes_is_refused_by_name(piece: Stave, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        plan_cutting([piece], Rack((for_sale(100.0, 1000.0),)), SHOP)
    assert says in str(refused.value)


def test_a_stave_that_only_knots_keep_off_is_refused() -> None:
    knotty = Board("A", 100.0, 1000.0, 45.0, "oak", 1.0, count=0, for_sale=True, knots=(Knot(450.0, 40.0, 60.0, 30.0),))
    with pytest.raises(Refusal, match="finds no room on any board clear of its knots"):
        plan_cutting([stave("a", 600.0, 90.0)], Rack((knotty,)), SHOP)


def test_a_board_that_is_all_knot_is_left_alone() -> None:
    """A knot as large as its board, by itself and of two that overlap; another rack has nothing else."""
    whole = Board("All knot", 200.0, 1000.0, 45.0, "oak", 1.0, knots=(Knot(0.0, 0.0, 1000.0, 200.0),))
    halves = (Knot(0.0, 0.0, 700.0, 200.0), Knot(300.0, 0.0, 700.0, 200.0), Knot(0.0, 0.0, 1000.0, 200.0))
    both = replace(whole, name="Two knots", knots=halves)
    for rounds in (0, 3):
        plan = plan_cutting([stave("a", 400.0, 90.0)], Rack((whole, both, for_sale(100.0, 1000.0))), SHOP,
                            rounds=rounds)  # fmt: skip
        assert [b.board for b in plan.plan] == ["Yard #1"]
    sale = replace(whole, for_sale=True, count=0)
    with pytest.raises(Refusal, match="finds no room on any board clear of its knots"):
        plan_cutting([stave("a", 400.0, 90.0)], Rack((sale,)), SHOP)


def test_knots_that_overlap_count_once() -> None:
    """Three times the same knot over half a board: 0.1 m² are clear, and the piece goes there."""
    knots = (Knot(500.0, 0.0, 500.0, 200.0),) * 3
    board = Board("A", 200.0, 1000.0, 45.0, "oak", 1.0, knots=knots)
    plan = plan_cutting([stave("a", 400.0, 90.0)], Rack((board, for_sale(100.0, 1000.0, 50.0))), SHOP)
    assert [b.board for b in plan.plan] == ["A"]


def test_quick_answer_and_five_thousand_staves_in_bounded_time_and_cancel_keeps_the_plan() -> None:
    rng = np.random.default_rng(3)
    rack = Rack((for_sale(190.0, 2400.0), for_sale(150.0, 3000.0, 1.05, "Long")))
    few = [stave(f"s{i}", float(rng.uniform(100, 500)), float(rng.uniform(45, 145))) for i in range(150)]
    start = perf_counter()
    plan_cutting(few, rack, SHOP)
    assert perf_counter() - start < 2.0  # 0.1 s on a quiet machine
    many = [stave(f"s{i}", float(rng.uniform(100, 500)), float(rng.uniform(45, 145))) for i in range(5000)]
    seen: list[float] = []
    start = perf_counter()
    plan = plan_cutting(many, rack, SHOP, rounds=5000, progress=seen.append, cancelled=lambda: True)
    assert perf_counter() - start < 30.0  # 2 to 3 s on a quiet machine
    assert sum(len(b.pieces) for b in plan.plan) == 5000


# The judge finds what a planner could get wrong.


def test_without_scipy_there_is_no_lp_bound_and_the_plan_is_made_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "scipy.optimize", None)
    plan = plan_cutting([stave("a", 500.0, 90.0)], Rack((for_sale(100.0, 1000.0),)), SHOP, lp_bound=True)
    assert plan.bound_lp is None
    assert plan.least_boards == 1
    assert plan.gap == 0.0
