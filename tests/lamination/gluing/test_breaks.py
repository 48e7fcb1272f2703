# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a set-up breaks, by how much, in both units. Arithmetic shown."""

from __future__ import annotations

from dataclasses import replace

import pytest
from gluepiles import PEDESTAL, YELLOW, clamps, pile_with, shop_with

from freecad_stacklam.lamination.gluing.breaks import breaks_of
from freecad_stacklam.lamination.gluing.clampsets import press_set
from freecad_stacklam.lamination.gluing.limits import Shop
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, Pile
from freecad_stacklam.lamination.plan.gluing import BrokenLimit
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

SLOW = replace(YELLOW, name="slow white glue", open_time=1080.0, assembly_time=1500.0)
TABLE = {"yellow glue": YELLOW, "slow white glue": SLOW}
ALL = [(k, k) for k in range(1, 11)]


def only(pile: Pile, shop: Shop, joins: list[tuple[int, int]] = ALL) -> BrokenLimit:
    """The one limit that is broken."""
    found = breaks_of(pile, shop, joins, press_set(shop.presses, range(len(shop.presses))), TABLE)
    assert len(found) == 1, found
    return found[0]


def test_a_set_up_that_holds_breaks_nothing() -> None:
    pile = pile_with(PEDESTAL, crush=7.4, masses=[1.0] * 10)
    shop = shop_with(pile, [clamps(24, opening=450.0)])
    assert breaks_of(pile, shop, ALL, press_set(shop.presses, [0]), TABLE) == ()


def test_too_few_clamps_say_what_would_do_and_what_is_reached() -> None:
    pile = pile_with(PEDESTAL)
    broken = only(pile, shop_with(pile, [clamps(12)]))
    assert (broken.name, broken.needed, broken.there) == ("clamps", 16.0, 12.0)
    # 12 · 4.67 kN / 59,832 mm² = 0.9366 MPa = 135.8 psi: never overstated.
    assert told(broken.says).startswith("Line 1 wants 16 clamps for 1.20 MPa and 12 are there")
    assert "4 more clamps like “clamp”, or 0.93 MPa with the 12 that are there" in told(broken.says)
    assert "135 psi with the 12" in told(broken.says, "in")


def test_too_long_says_by_how_much_and_what_mends_it() -> None:
    pile = pile_with(PEDESTAL)
    broken = only(pile, shop_with(pile, [clamps(24)], replace(YELLOW, assembly_time=600.0)))
    # 9 · 55 − 10 s, 199,655 mm² at 400 s/m², 16 clamps of 20 s: 884.9 s.
    assert (broken.name, round(broken.needed, 1), broken.there, broken.unit) == ("clock", 884.9, 600.0, "s")
    assert "9 lines take 14 min 45 s from the first glue to the last clamp" in broken.says
    # A helper: 9 · (10 + 15 + 30) − 10 + 40 + 8 clamps · 20 = 685 s, too long still; two: 484.8 + 26.6 + 120 too.
    # Without line 1 (8 lines, 10 clamps): 430 + 55.9 + 200 = 686; without 2 too: 375 + 40.6 + 140 = 556 s, 7 lines.
    assert "no more than 7 lines at once" in broken.says
    assert "slow white glue, which has 25 min here" in broken.says
    # 20 − 10 · log2(884.9 / 600) = 14.4 °C.
    assert "a room at 14 °C" in told(broken.says)


def test_a_line_may_be_too_slow_by_itself() -> None:
    pile = pile_with(PEDESTAL)
    broken = only(pile, shop_with(pile, [clamps(24)], replace(YELLOW, open_time=60.0)))
    # Line 1: 59,832 mm² · 400 s/m² + 15 + 30 = 68.9 s.
    assert (broken.name, round(broken.needed, 1), broken.there) == ("open time", 68.9, 60.0)
    assert "one more helper" in broken.says  # 12.0 + 15 + 30 = 57 s
    assert "Line 1 is spread and laid in 1 min 9 s" in broken.says


def test_crushing_is_a_limit_of_the_smallest_line() -> None:
    pile = pile_with(PEDESTAL, crush=5.0)
    broken = only(pile, shop_with(pile, [clamps(24)]))
    # The smallest is line 7, 11,259 mm²: 16 · 4.67 kN are 6.636 MPa on it.
    assert (broken.name, round(broken.needed, 2), broken.there) == ("crushing", 6.64, 5.0)
    assert "line 7 in another set-up than line 1" in broken.says
    # 74,720 / 5.0 − 11,259 = 3,685 mm².
    assert "two waste tabs of 37 cm² together" in told(broken.says)
    # ⌊5.0 · 11,259 / 4,670⌋ = 12 clamps.
    assert "no more than 12 of the 24 clamps, which leaves 0.93 MPa" in told(broken.says)


def test_a_stack_higher_than_every_press() -> None:
    pile = pile_with(PEDESTAL)
    broken = only(pile, shop_with(pile, [clamps(24, opening=300.0)]))
    assert (broken.name, broken.needed, broken.there, broken.unit) == ("opening", 450.0, 300.0, "mm")
    assert "Smallest change: a press that opens 450 mm, such as a rod through a bore." in told(broken.says)
    assert "17.717 in" in told(broken.says, "in")
    room = GluingRoom(caul_thickness=36.0, caul=0.0)
    broken = only(pile, shop_with(pile, [clamps(24, opening=480.0)], room=room))
    assert (broken.needed, broken.there) == (522.0, 480.0)
    assert "cauls no thicker than 15 mm" in told(broken.says)  # (480 − 450) / 2


def test_a_part_too_heavy_to_lay() -> None:
    pile = pile_with([5e3] * 3, masses=[50.0, 20.0, 1.0, 1.0], widths=[300.0] * 4)
    broken = only(pile, shop_with(pile, [clamps(9)]), [(1, 1), (2, 2), (3, 4)])
    # NIOSH: 23 · 25 / 35 = 16.4 kg for one; layer 1 stays on the bench.
    assert (broken.name, broken.needed, round(broken.there, 2), broken.unit) == ("lift", 20.0, 16.43, "kg")
    assert "Layer 2 weighs 20.0 kg and one person should lay no more than 16.4 kg" in told(broken.says)
    assert "one more helper" in broken.says
    assert "44.1 lb" in told(broken.says, "in")


def test_a_mortise_out_of_reach() -> None:
    pile = pile_with([5e3] * 5, channels=(Channel(MORTISE, "joint", 1, 6, True, True),))
    broken = only(pile, shop_with(pile, [clamps(9)], reach=100.0), [(k, k) for k in range(1, 7)])
    assert (broken.name, broken.needed, broken.there) == ("chisel", 135.0, 100.0)
    assert "a chisel that reaches 135 mm" in told(broken.says)
    closed = pile_with([5e3] * 2, channels=(Channel(MORTISE, "joint", 2, 3, False, False),))
    broken = only(closed, shop_with(closed, [clamps(9)], reach=100.0), [(1, 1), (2, 2), (3, 3)])
    assert "closed at both ends" in broken.says
    assert broken.needed == 135.0


def test_no_clamps_and_a_weak_bag() -> None:
    pile = pile_with([5e3])
    broken = only(pile, shop_with(pile, []), [(1, 1), (2, 2)])
    assert (broken.name, broken.there) == ("clamps", 0.0)
    assert "add the clamps of the shop" in broken.says
    bag = PressSettings(name="bag", kind="vacuum")
    broken = only(pile, shop_with(pile, [bag]), [(1, 1), (2, 2)])
    assert (broken.name, broken.needed, broken.there) == ("pressure", pytest.approx(1.2), 0.085)
    assert "clamps in place of the bag" in broken.says
