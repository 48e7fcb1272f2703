# SPDX-License-Identifier: LGPL-2.1-or-later

"""Presses used together. Counts beside published worked examples where there are any."""

from __future__ import annotations

import math

import pytest
import shapely
from gluepiles import clamps
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.gluing.clampsets import pads_that_fit, press_set, sets_for, widest_for
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.quantities import POUND_FORCE
from freecad_stacklam.lamination.settings.presses import PressSettings


@pytest.mark.parametrize(
    ("newtons", "force", "count"),
    [
        # Worked examples of a magazine's test of clamps: 27 in² at 450 psi by 1,350 lbf, 25 in² at 150 psi by 420 lbf.
        (27 * 450 * POUND_FORCE, 1350 * POUND_FORCE, 9),
        (25 * 150 * POUND_FORCE, 420 * POUND_FORCE, 9),
        # A disc of Ø 350 mm, 0.096211 m², at 0.7 and 1.2 MPa: 67.35 and 115.45 kN.
        (67_348.0, 4670.0, 15), (115_453.0, 4670.0, 25),
        (67_348.0, 370 * POUND_FORCE, 41), (115_453.0, 370 * POUND_FORCE, 71), (115_453.0, 1650.0, 70),
    ],
)  # fmt: skip
def test_a_line_wants_as_many_clamps_as_its_force_asks_for(newtons: float, force: float, count: int) -> None:
    many = press_set([clamps(100, force)], [0])
    assert many.count(newtons) == count
    few = press_set([clamps(3, force)], [0])
    assert (few.count(newtons), few.wanted(newtons)) == (3, count)
    assert not few.enough(newtons, 1.0)


def test_the_strongest_come_first() -> None:
    both = press_set([clamps(2, 1000.0, 300.0), clamps(2, 5000.0, 400.0)], [0, 1])
    assert both.forces == (0.0, 5000.0, 10_000.0, 11_000.0, 12_000.0)
    assert both.count(10_500.0) == 3
    assert both.by_name(3) == (("clamp 400", 2), ("clamp 300", 1))
    assert both.count(0.0) == 1  # glue that wants contact only is still held
    assert both.wanted(17_000.0) == 5  # one more like the strongest


def test_a_vacuum_bag_is_alone_and_presses_every_line_alike() -> None:
    bag = PressSettings(name="bag", kind="vacuum", air=0.085)
    owned = [clamps(4, opening=300.0), bag]
    assert sets_for(owned, 200.0, False) == ((0,), (1,))
    alone = press_set(owned, [1])
    assert alone.force(1, 10_000.0) == pytest.approx(850.0)
    assert alone.enough(0.08 * 10_000, 10_000)
    assert not alone.enough(0.09 * 10_000, 10_000)
    assert alone.wanted(1e6) == 1


def test_a_rod_wants_a_bore_and_clamps_come_before_it() -> None:
    owned = [clamps(4, opening=300.0), clamps(1, 20_000.0, 600.0, "rod")]
    assert sets_for(owned, 200.0, True) == ((0,), (0, 1))
    assert sets_for(owned, 200.0, False) == ((0,),)
    assert sets_for(owned, 450.0, True) == ((1,),)
    assert sets_for(owned, 450.0, False) == ()
    assert widest_for(owned, False) == ((0,), 300.0)
    assert widest_for(owned, True) == ((1,), 600.0)
    assert widest_for([], True) == ((), 0.0)


def test_no_presses_are_a_set_too() -> None:
    none = press_set([], [])
    assert (none.owned, none.strongest, none.count(100.0), none.force(0, 1.0)) == (0, 0.0, 0, 0.0)


def slab(number: int, width: float, depth: float) -> Slab:
    plan = MultiPolygon([shapely.box(-width / 2, -depth / 2, width / 2, depth / 2)])
    return Slab(number, (number - 1) * 45.0, number * 45.0, plan, plan, plan)


def fitting(slabs: list[Slab], press: PressSettings) -> int:
    """Pads of a press that find room on the two lowest slabs."""
    return int(pads_that_fit(slabs, [press])[0][0, 1])


def test_pads_find_room_as_rows_of_discs_do() -> None:
    """By arithmetic: on 500 × 300 mm pads of 40 mm, 45 mm apart, lie in (500 − 40)/45 + 1 = 11 columns, (300 − 40)/45
    + 1 = 6 rows: 66; none lie closer than the densest way of discs, π/√12 of the area (Lagrange)."""
    clamp = PressSettings("Deep", count=200)
    found = fitting([slab(1, 500, 300), slab(2, 500, 300)], clamp)
    assert 0.85 * 66 <= found <= 500 * 300 * 0.9069 / (math.pi / 4 * 45**2)


def test_a_throat_leaves_a_frame_and_a_small_top_far_in_takes_bars_alone() -> None:
    """A frame 50 − 20 mm wide along the rim of 500 × 300 mm is about 2 × (460 + 260) = 1 440 mm long: 32 pads 45 mm
    apart at the least. On a top of 100 × 100 mm in the middle, 200 and 100 mm from the rim, no pad within 50 mm finds a
    seat: two bars across, of two clamps each."""
    shallow = PressSettings("Shallow", count=200, throat=50.0)
    board = [slab(1, 500, 300), slab(2, 500, 300)]
    assert 26 <= fitting(board, shallow) <= 64
    flared = [slab(1, 500, 300), slab(2, 100, 100)]
    assert fitting(flared, shallow) == 2 * 2
    assert fitting(flared, PressSettings("Deep", count=9, throat=120.0)) >= 4


def test_what_presses_from_above_needs_no_throat_and_a_bag_no_seat() -> None:
    flared = [slab(1, 500, 300), slab(2, 100, 100)]
    assert fitting(flared, PressSettings("Stone", "weight", count=50)) >= 4
    assert fitting(flared, PressSettings("Bag", "vacuum")) == 1


def test_presses_asked_together_find_the_room_that_each_finds_alone() -> None:
    slabs = [slab(1, 500, 300), slab(2, 520, 320), slab(3, 200, 180), slab(4, 500, 300)]
    presses = [
        PressSettings("Shallow", count=200, throat=50.0), PressSettings("Deep", count=9, throat=120.0, pad=60.0),
        PressSettings("Any", count=200), PressSettings("Stone", "weight", count=50), PressSettings("Bag", "vacuum"),
    ]  # fmt: skip
    for press, room in zip(presses, pads_that_fit(slabs, presses), strict=True):
        assert (room == pads_that_fit(slabs, [press])[0]).all()
