# SPDX-License-Identifier: LGPL-2.1-or-later

"""The smallest change that mends a broken limit, arithmetic shown."""

from __future__ import annotations

from dataclasses import replace

from gluepiles import YELLOW, clamps, pile_with, shop_with

from freecad_stacklam.lamination.gluing.clampsets import press_set
from freecad_stacklam.lamination.gluing.limits import Shop
from freecad_stacklam.lamination.gluing.mends import (
    both_masses,
    for_clamps,
    for_clock,
    for_crushing,
    for_lift,
    for_open_time,
    for_opening,
    for_reach,
    joined,
    pressure_reached,
    seconds_of,
)
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom

PILE = pile_with([20_000.0] * 3)
NEEDS = [24_000.0] * 3
SIX = press_set([clamps(6)], [0])
SLOW = replace(YELLOW, name="slow", assembly_time=290.0)
SLOWER = replace(YELLOW, name="slower", assembly_time=400.0)


def shop(seconds: float, temperature: float = 20.0, helpers: int = 0) -> Shop:
    room = GluingRoom(caul_thickness=0.0, temperature=temperature, helpers=helpers)
    return shop_with(PILE, [clamps(6)], replace(YELLOW, assembly_time=seconds), room)


def test_a_set_up_takes() -> None:
    assert seconds_of(shop(250.0), SIX, PILE.lines, NEEDS) == 299.0  # 3 · 63 − 10 + 6 · 20
    assert seconds_of(shop(250.0, helpers=1), SIX, PILE.lines, NEEDS) == 227.0  # 3 · 59 − 10 + 3 · 20


def test_the_clock() -> None:
    table = {"slow": SLOW, "slower": SLOWER, "other sort": replace(YELLOW, name="other sort", thin=False)}
    mends = for_clock(shop(250.0), SIX, PILE.lines, NEEDS, table)
    # One line fewer: 2 · 63 − 10 + 120 = 236 s. 290 s are too few for 299. 20 − 10 · log2(299 / 250) = 17.4 °C.
    assert list(map(told, mends)) == [
        "one more helper", "no more than 2 lines at once", "slower, which has 6 min 40 s here", "a room at 17 °C",
    ]  # fmt: skip
    assert told(mends[-1], "in") == "a room at 63 °F"


def test_no_room_is_cooled_below_what_the_glue_takes() -> None:
    assert not any("room" in mend for mend in for_clock(shop(100.0), SIX, PILE.lines, NEEDS, {}))
    # 20 − 10 · log2(299 / 100) = 4 °C, and yellow glue wants 10 °C.


def test_open_time() -> None:
    slow = replace(shop(900.0), glue=replace(YELLOW, open_time=50.0))
    # 8 + 15 + 30 = 53 s; with a helper 4 + 15 + 30 = 49 s; 20 − 10 · log2(53 / 50) = 19.2 °C.
    assert list(map(told, for_open_time(slow, PILE.lines[0], {}))) == ["one more helper", "a room at 19 °C"]


def test_clamps() -> None:
    few = press_set([clamps(5)], [0])
    assert list(map(told, for_clamps(few, 24_000.0, 20_000.0))) == [
        "1 more clamp like “clamp”", "1.16 MPa with the 5 that are there",  # 5 · 4,670 / 20,000 = 1.1675
    ]  # fmt: skip
    assert for_clamps(press_set([], []), 24_000.0, 20_000.0) == []


def test_pressures_are_never_overstated() -> None:
    assert told(pressure_reached(0.9366)) == "0.93 MPa"
    assert told(pressure_reached(0.9366), "in") == "135 psi"  # 135.84
    assert told(pressure_reached(0.3)) == "0.30 MPa"


def test_crushing() -> None:
    pile = pile_with([20_000.0, 4_000.0])
    mends = for_crushing(SIX, pile.lines, 1, 28_020.0, 5.0, pile.layer(3))
    # 28,020 / 5 − 4,000 = 1,604 mm²; ⌊20,000 / 4,670⌋ = 4 clamps, 18,680 / 20,000 = 0.934 MPa.
    assert list(map(told, mends)) == [
        "line 2 in another set-up than line 1",
        'two waste tabs of 17 cm² together on that line (tabs = [{layers = "2-3", direction = "0deg", width = "60mm", '
        'out = "14mm"}, {layers = "2-3", direction = "180deg", width = "60mm", out = "14mm"}], for the stack\'s '
        "settings)",  # 1,604 / 2 / 60 = 13.4
        "no more than 4 of the 6 clamps, which leaves 0.93 MPa on the largest line",
    ]  # fmt: skip


def test_opening_lift_and_reach() -> None:
    cauled = replace(shop(900.0), room=GluingRoom(caul_thickness=20.0))
    assert list(map(told, for_opening(cauled, 220.0, 200.0, False))) == [
        "cauls no thicker than 10 mm", "a press that opens 220 mm, such as a rod through a bore",
        "fewer layers at once",
    ]  # fmt: skip
    # 23 · 25 / 30 = 19.2 kg at 200 mm; 38.3 for two, 57.5 for three.
    assert for_lift(shop(900.0), 40.0, 200.0, 2) == ["2 more helpers", "a thinner sub-stack", "a hoist or a lift table"]
    assert for_lift(shop(900.0), 400.0, 200.0, 1) == ["a hoist or a lift table"]
    assert told(for_reach(PILE.lines[1], 90.0)[0]) == "a chisel that reaches 90 mm"
    assert len(for_reach(PILE.lines[1], float("inf"))) == 1


def test_words() -> None:
    assert joined(["a", "b", "c"]) == "a, or b, or c"
    assert told(both_masses(20.0), "in") == "44.1 lb"
