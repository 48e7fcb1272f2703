# SPDX-License-Identifier: LGPL-2.1-or-later

"""Presses used together. Counts beside published worked examples where there are any."""

from __future__ import annotations

import pytest
from gluepiles import clamps

from freecad_stacklam.lamination.gluing.clampsets import press_set, sets_for, widest_for
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
