# SPDX-License-Identifier: LGPL-2.1-or-later

"""What one set-up must keep, each limit by arithmetic shown."""

from __future__ import annotations

from dataclasses import replace

import pytest
from gluepiles import PEDESTAL, YELLOW, clamps, pile_with, shop_with

from freecad_stacklam.lamination.gluing.limits import (
    clock_of,
    contact_seconds,
    judge,
    lift_limit,
    line_seconds,
    set_up_seconds,
    terms_of,
)
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, PileLine
from freecad_stacklam.lamination.joining.timeline import closing_seconds
from freecad_stacklam.lamination.settings.glue import times_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom

BARE = GluingRoom(caul_thickness=0.0)


def test_the_clock_of_a_set_up() -> None:
    pile = pile_with([20_000.0] * 3)  # 24 kN at 1.2 MPa: 6 clamps of 4.67 kN
    # Three lines of 10 + 8 + 15 + 30 = 63 s, less the first 10 s, and 6 · 20 s: 299 s.
    terms = terms_of(pile, shop_with(pile, [clamps(6)], replace(YELLOW, assembly_time=299.0)))
    judged = judge(terms, 0, 3, (0, 1, 2))
    assert judged is not None
    assert (judged.broken, judged.seconds, judged.way.count) == (0, 299.0, 6)
    late = terms_of(pile, shop_with(pile, [clamps(6)], replace(YELLOW, assembly_time=298.0)))
    assert judge(late, 0, 3, (0, 1, 2)) is None
    assert judge(late, 0, 3, (0, 1)) is not None


def test_the_largest_line_rules_the_clamps_not_their_sum() -> None:
    pile = pile_with(PEDESTAL)
    # 59,832 mm² · 1.2 MPa = 71.8 kN: 16 clamps of 4.67 kN for all nine lines, 15 are too few.
    terms = terms_of(pile, shop_with(pile, [clamps(16)]))
    judged = judge(terms, 0, 9, tuple(range(9)))
    assert judged is not None
    assert (judged.way.count, judged.broken) == (16, 0)
    few = terms_of(pile, shop_with(pile, [clamps(15)]))
    assert few.waived[0] == {"clamps"}
    assert few.waived[1] == frozenset()


def test_clamps_that_are_too_short_for_the_run_do_not_count() -> None:
    pile = pile_with([50_000.0] * 3)  # 60 kN: 13 clamps
    owned = [clamps(10, opening=200.0), clamps(5, opening=100.0)]
    terms = terms_of(pile, shop_with(pile, owned))
    low, high = judge(terms, 0, 1, (0,)), judge(terms, 0, 3, (2,))
    assert low is not None and high is not None
    assert (low.broken, low.way.count) == (0, 13)
    assert (high.broken, high.way.count) == (1, 10)  # 180 mm high: only ten open so wide, all of them are used


def test_the_smallest_line_gets_the_whole_force() -> None:
    # 16 · 4.67 kN = 74.7 kN on 12,510 mm² are 5.97 MPa. Strength across the grain as wood handbooks give it for
    # white oak (GTR-282, table 5-3): 7.4 MPa; less in softer woods.
    pile = pile_with(PEDESTAL, crush=5.9)
    terms = terms_of(pile, shop_with(pile, [clamps(24)]))
    assert judge(terms, 0, 9, (0, 8)).broken == 1  # type: ignore[union-attr]
    assert judge(terms, 0, 9, (8,)).broken == 0  # type: ignore[union-attr]
    hard = pile_with(PEDESTAL, crush=7.4)
    assert judge(terms_of(hard, shop_with(hard, [clamps(24)])), 0, 9, (0, 8)).broken == 0  # type: ignore[union-attr]


def test_cauls_stand_between_the_jaws() -> None:
    pile = pile_with([5_000.0] * 4)
    room = GluingRoom(caul_thickness=36.0)
    # Three layers of 45 mm and two cauls: 207 mm.
    held = terms_of(pile, shop_with(pile, [clamps(9, opening=207.0)], room=room))
    assert not held.over[0, 2]
    assert held.over[0, 3]
    short = terms_of(pile, shop_with(pile, [clamps(9, opening=206.0)], room=room))
    assert short.over[0, 2]
    assert not short.over[0, 1]
    assert judge(short, 0, 2, (0,)).broken == 1  # type: ignore[union-attr]
    # The last set-up of every order spans the whole pile: that is no reason to choose one.
    assert not short.over[0, 4]


def test_lift_by_the_lifting_equation() -> None:
    # NIOSH: 23 kg · 25 / H, H = 20 cm + half the width: 20 + 15 = 35 cm, 16.43 kg; never nearer than 25 cm.
    assert lift_limit(GluingRoom(), 300.0) == pytest.approx(23 * 25 / 35)
    assert lift_limit(GluingRoom(), 60.0) == 23.0
    assert lift_limit(GluingRoom(helpers=1), 300.0) == pytest.approx(2 * 23 * 25 / 35)
    assert lift_limit(GluingRoom(lift=30.0, helpers=1), 300.0) == 60.0


def test_parts_that_are_too_heavy_or_too_wide() -> None:
    pile = pile_with([5e3] * 3, masses=[4.0, 4.0, 4.0, 30.0], widths=[100.0, 300.0, 100.0, 100.0])
    terms = terms_of(pile, shop_with(pile, [clamps(9)], room=replace(BARE, lift=8.0, reface=200.0)))
    assert not terms.heavy[0, 1]
    assert terms.heavy[0, 2]
    assert not terms.heavy[3, 3]  # no order makes a single layer lighter
    assert terms.rough[0, 1]  # layer 2 is too wide
    assert terms.rough[2, 3]  # too heavy to be turned
    assert terms_of(pile, shop_with(pile, [clamps(9)])).rough[0, 1]  # nothing is re-faced where there is no planer


def test_a_line_in_a_mortise_is_within_reach_of_an_open_end() -> None:
    pile = pile_with([5e3] * 5, channels=(Channel(MORTISE, "", 1, 6, True, True),))
    terms = terms_of(pile, shop_with(pile, [clamps(9)], reach=90.0))
    assert judge(terms, 0, 5, (2,)) is None  # 135 mm from either end
    assert judge(terms, 0, 5, (0, 1, 3, 4)) is not None
    assert judge(terms, 1, 5, (2,)) is not None
    blind = pile_with([5e3] * 2, channels=(Channel(MORTISE, "", 2, 3, False, False),))
    assert terms_of(blind, shop_with(blind, [clamps(9)], reach=90.0)).waived[1] == {"chisel"}


def test_a_line_that_no_set_up_closes_in_time_is_alone() -> None:
    pile = pile_with([20_000.0, 5_000.0])
    # 8 + 15 + 30 s and 6 clamps: 173 s; the small line, 2 + 15 + 30 and 2 clamps: 87 s.
    terms = terms_of(pile, shop_with(pile, [clamps(6)], replace(YELLOW, assembly_time=100.0)))
    assert [sorted(names) for names in terms.waived] == [["clock"], []]
    assert judge(terms, 0, 1, (0,)).broken == 0  # type: ignore[union-attr]
    assert judge(terms, 0, 2, (0, 1)) is None


def test_no_clamps_break_what_no_order_mends() -> None:
    pile = pile_with([20_000.0])
    terms = terms_of(pile, shop_with(pile, []))
    assert terms.waived[0] == {"clamps"}
    assert judge(terms, 0, 1, (0,)) is not None


# --- the clock --------------------------------------------------------------------------------------------------------

BARE = GluingRoom(caul_thickness=0.0)


@pytest.mark.parametrize(
    ("temperature", "area", "clamps", "lines"),
    [
        # (900 − 6 · 20) / (10 + 400 · 0.0125 + 30 + 15) = 780 / 60 = 13
        (20.0, 0.0125, 6, 13), (20.0, 0.06, 12, 8), (20.0, 0.10, 20, 5),
        (10.0, 0.0125, 6, 28), (10.0, 0.06, 12, 19), (10.0, 0.10, 20, 14),
        # Twenty clamps take 400 of 450 s: not one line of 10 + 40 + 30 + 15 = 95 s is left.
        (30.0, 0.0125, 6, 5), (30.0, 0.06, 12, 2), (30.0, 0.10, 20, 0),
    ],
)  # fmt: skip
def test_lines_that_fit_a_clock(temperature: float, area: float, clamps: int, lines: int) -> None:
    line = line_seconds(BARE, PileLine(1, 45.0, area * 1e6, 1), 1)
    closing = closing_seconds(BARE, clamps, 0)
    assembly = times_of(YELLOW, temperature)[1]
    fit = [n for n in range(40) if set_up_seconds([line] * n, closing, BARE.start) <= assembly]
    assert max(fit) == lines
    # The clock begins with the first glue, so the first line's 10 s are before it; here that changes no count.
    assert int((assembly - closing) // line) == lines


def test_beginning_and_laying_are_not_shared() -> None:
    two = GluingRoom(caul_thickness=0.0, helpers=1)
    # 10 + 20 + 15 + 30, of 400 s/m² × 0.1 m² and two pins of 15 s half.
    assert line_seconds(two, PileLine(1, 45.0, 0.1e6, 2), 1) == 75.0


def test_a_timeline_runs_from_the_first_glue_to_the_last_clamp() -> None:
    room = GluingRoom(caul_thickness=36.0)
    lines = [PileLine(1, 45.0, 50_000.0, 2), PileLine(2, 90.0, 25_000.0)]
    clock = clock_of(YELLOW, room, lines, 4)
    # 20 + 30 + 30 = 80; 10 to begin; 10 + 30 = 40; one caul 20, four clamps 80: 230.
    assert [(m.what, m.line, m.start, m.takes) for m in clock.moves] == [
        ("spread", 1, 0.0, 20.0), ("pins", 1, 20.0, 30.0), ("lay", 1, 50.0, 30.0),
        ("spread", 2, 90.0, 10.0), ("lay", 2, 100.0, 30.0),
        ("cauls", None, 130.0, 20.0), ("clamps", None, 150.0, 80.0),
    ]  # fmt: skip
    assert (clock.to_contact, clock.to_pressure) == (80.0, 230.0)
    assert clock.to_contact == contact_seconds(room, lines[0], 1)
    assert clock.to_pressure == set_up_seconds([line_seconds(room, k, 1) for k in lines], 100.0, room.start)
    assert clock.held


def test_no_lines_want_no_time_but_the_closing() -> None:
    assert set_up_seconds([], 40.0, 10.0) == 40.0
