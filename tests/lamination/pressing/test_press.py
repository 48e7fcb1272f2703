# SPDX-License-Identifier: LGPL-2.1-or-later

"""A run as it is pressed. Counts of clamps are worked examples of the trade: 27 in² at 450 psi with clamps of 1,350 lbf
and 25 in² at 150 psi with clamps of 420 lbf take 9 each (woodworking magazines, 2010 and later); a disc of 350 mm at
0.7 and 1.2 MPa takes 15 and 25 clamps of 1,050 lbf, 41 and 71 of 370 lbf (force over force, by hand)."""

from __future__ import annotations

from math import ceil, pi, sqrt

import pytest
from piles import boxes, clamps, discs, pile, ring
from plans import pedestal

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.pressing import landings
from freecad_stacklam.lamination.pressing.press import Pressed, press_run
from freecad_stacklam.lamination.pressing.work import wood_of, work_of
from freecad_stacklam.lamination.quantities import POUND_FORCE, PSI
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings


@pytest.fixture(autouse=True)
def no_tabs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tabs are sought last and long, and nothing here asks for them; those who do: test_tabs, test_landings, and of
    whole glue-ups test_glueup."""
    monkeypatch.setattr(landings, "tabs_for", lambda *_: ())


ROOM, BARE = GluingRoom(), GluingRoom(caul_thickness=0.0)
INCH2 = 25.4**2


def pressed(
    stack: StackPlan,
    presses: list[PressSettings],
    want: tuple[float, float] = (1.2, 1.8),
    room: GluingRoom = BARE,
    units: str = "mm",
    last: int | None = None,
) -> Pressed:
    top = last or len(stack.layers)
    wanted = dict.fromkeys(range(1, top), want)
    return press_run(wood_of(stack), 1, top, range(1, top), presses, room, wanted, units, species_table())


@pytest.mark.parametrize(
    ("square_inches", "psi", "pounds", "count"), [(27.0, 450.0, 1350.0, 9), (25.0, 150.0, 420.0, 9)]
)
def test_published_counts(square_inches: float, psi: float, pounds: float, count: int) -> None:
    side = sqrt(square_inches * INCH2)
    found = pressed(boxes(2, side, side), [clamps(30, force=pounds * POUND_FORCE, pad=5.0)], (psi * PSI, 2 * psi * PSI))
    assert (found.asked, len(found.places)) == (count, count)
    assert found.held and found.pressures[0].mean >= psi * PSI * 0.999


@pytest.mark.parametrize(
    ("pressure", "pounds", "count"), [(0.7, 1050.0, 15), (1.2, 1050.0, 25), (0.7, 370.0, 41), (1.2, 370.0, 71)]
)
def test_a_disc_of_350(pressure: float, pounds: float, count: int) -> None:
    work = work_of(wood_of(discs([350, 350])), 1, 2, [1], {1: (pressure, 2.0)}, {})
    assert work.force == pytest.approx({0.7: 67_350, 1.2: 115_450}[pressure], rel=1e-3)  # N, by π·350²/4
    assert ceil(work.force / (pounds * POUND_FORCE)) == count
    if count <= 25:
        found = pressed(discs([350, 350]), [clamps(99, force=pounds * POUND_FORCE)], (pressure, 2.0))
        assert len(found.places) == count and found.held


def test_too_few_clamps_are_told_with_what_they_reach() -> None:
    found = pressed(discs([350, 350]), [clamps(12)])
    (limit,) = found.limits
    reaches = 12 * 4670 / (pi * 175**2)
    assert (limit.name, limit.needed, limit.there) == ("clamps", 25, 12)
    assert found.pressures[0].mean == pytest.approx(reaches, rel=1e-3)
    assert "get 0.58 MPa between layers 1 and 2, where the glue wants 1.20 MPa: 13 more like “pipe clamp”" in limit.says
    inches = pressed(discs([350, 350]), [clamps(12)], units="in").limits[0].says
    assert "84 psi" in inches and "MPa" not in inches  # 0.5825 / 0.006895 = 84.5
    alone = pressed(discs([350, 350]), [clamps(1)]).limits[0].says
    assert alone.startswith("The one clamp that can be used gets 0.05 MPa between layers 1 and 2")  # 4670 / 96,211


def test_an_absurd_count_of_clamps_is_not_the_first_advice() -> None:
    # Ø350 at 1.2 MPa wants 25 of 4.67 kN: with 2 owned another glue comes first, with 20 five more clamps.
    says = [pressed(discs([350, 350]), [clamps(n)]).limits[0].says for n in (2, 20)]
    assert "take a glue that wants no more than" in says[0] and "such as one that fills gaps" in says[0]
    assert "5 more like" in says[1] and "fills gaps" not in says[1]


def test_the_stand_pressed_at_once() -> None:
    found = pressed(pedestal(), [clamps(24, pad=30.0)])
    assert [p.lower for p in found.pressures] == list(range(1, 10))
    largest = max(found.pressures, key=lambda p: p.area)
    smallest = min(found.pressures, key=lambda p: p.area)
    force = sum(p.force for p in found.places)
    assert largest.mean == pytest.approx(force / largest.area, rel=1e-6)
    assert smallest.mean == pytest.approx(force / smallest.area, rel=1e-6)
    assert smallest.crush == pytest.approx(smallest.mean / 7.4)
    assert found.opening == 450.0
    assert any("The smaller lines get the force of the largest" in s for s in found.cautions)
    assert any("another line would get too little: glue fewer layers at once" in s for s in found.cautions)


def test_a_run_that_all_its_lines_bear_with_less_force_is_told_how_much() -> None:
    # A bar has two clamps: 12 kN on Ø80 (5027 mm²) are 2.39 MPa, on Ø96 (7238 mm²) 1.66; 70 % of it are 1.66 and 1.15.
    found = pressed(discs([96, 96, 80, 80]), [clamps(24, force=6000.0)], (1.1, 1.66), ROOM)
    most = max(p.mean for p in found.pressures)
    least = min(p.mean for p in found.pressures)
    share = found.pressures[0].wanted[1] / most
    says = [s for s in found.cautions if s.startswith("Tighten to ")]
    assert share < 1.0 and least * share >= found.pressures[0].wanted[0]
    assert says == [
        f"Tighten to {round(100 * share)} % of the force in the table instead: no line gets too little by it."
    ]


def test_the_smallest_line_of_a_run_may_be_crushed() -> None:
    # Ø300 wants 85 kN at 1.2 MPa; Ø100 bears 7.4 MPa · 7 854 mm² = 58 kN.
    found = pressed(discs([300, 300, 100, 100, 300, 300]), [clamps(24)])
    crushed = next(limit for limit in found.limits if limit.name == "crushing")
    assert crushed.needed == pytest.approx(max(p.mean for p in found.pressures)) and crushed.there == pytest.approx(7.4)


def test_no_clamps() -> None:
    found = pressed(discs([350, 350]), [])
    assert found.limits[0].name == "clamps" and found.limits[0].needed == 25
    assert found.places == () and found.pressures[0].mean == 0.0 and not found.held


def test_no_clamp_opens_wide_enough() -> None:
    (limit,) = pressed(boxes(10, 120, 120), [clamps(24, opening=300.0)]).limits
    assert (limit.name, limit.needed, limit.there, limit.unit) == ("opening", 450.0, 300.0, "mm")
    assert "they stand 450 mm high, the widest clamp opens 300 mm; use a longer clamp" in limit.says
    # The last set-up is as high as the stack in any order: only a part of it may be told to be made of fewer layers.
    (part,) = pressed(boxes(12, 120, 120), [clamps(24, opening=300.0)], last=10).limits
    assert "glue fewer layers at once" in part.says and "fewer" not in limit.says


def test_no_clamp_reaches_in() -> None:
    # The small top of a wide foot: 100 mm from any bar, and half a pad more.
    (limit,) = pressed(discs([300, 100]), [clamps(24, throat=75.0)]).limits
    assert limit.name == "throat" and limit.needed == pytest.approx(120.0, abs=0.5) and limit.there == 75.0
    # A deeper clamp that does not open wide enough is none: the deepest that is told is of those that do.
    (limit,) = pressed(discs([300, 100]), [clamps(24, throat=75.0), clamps(4, opening=50.0, throat=300.0)]).limits
    assert "the deepest throat of those clamps is 75 mm" in limit.says
    (limit,) = pressed(discs([300, 100]), [clamps(24, throat=75.0)], units="in").limits
    assert "are 4-3/4 in from" in limit.says  # 120 mm are 4.724 in: 151.2 / 32, so 152 / 32


def test_a_shell_has_no_seat_but_with_boards() -> None:
    shell = pile([[ring(300, 270)], [ring(296, 266)]], 27.0)
    (limit,) = pressed(shell, [clamps(24)]).limits
    assert limit.name == "reach" and "cauls over the whole faces" in limit.says
    found = pressed(shell, [clamps(24)], room=ROOM)
    assert [c.side for c in found.cauls] == ["bottom", "top"] and found.held
    assert found.opening == 54 + 2 * 36 and found.pressures[0].reached > 0.97


def test_a_clamp_that_opens_for_the_wood_may_not_for_its_cauls() -> None:
    shell = pile([[ring(150, 120)], [ring(146, 116)]], 27.0)
    found = pressed(shell, [clamps(24, opening=100.0)], room=ROOM)
    assert found.places == () and found.limits[0].name == "opening"
    assert (found.limits[0].needed, found.limits[0].there) == (126.0, 100.0)


def test_a_thick_glue_in_a_bag() -> None:
    bag = PressSettings("bag", kind="vacuum", air=0.085)
    found = pressed(boxes(2, 600, 600, 27.0), [bag], (0.01, 0.2))
    assert found.held and found.pressures[0].mean == pytest.approx(0.085)
    thin = pressed(boxes(2, 600, 600, 27.0), [bag])
    assert thin.limits[0].name == "pressure" and "that any thin line wants" in thin.limits[0].says


def test_wide_boards_with_a_short_throat_get_bars() -> None:
    found = pressed(boxes(2, 600, 400, 27.0), [clamps(40, throat=60.0)], (0.5, 2.0), ROOM)
    assert found.cauls and found.pressures[0].reached > 0.98 and found.held
    assert any("by turns" in said for said in found.cautions)  # one end drawn alone tips a bar


def test_pads_that_dent_are_told() -> None:
    # 4.67 kN on a pad of 25 mm: 9.5 MPa on oak that bears 7.4.
    found = pressed(boxes(2, 200, 100), [clamps(12, pad=25.0)])
    assert any(s.startswith("The pads press with 9.51 MPa and dent the wood") for s in found.cautions)


def test_a_run_of_glued_layers_has_no_new_line() -> None:
    found = press_run(wood_of(boxes(3, 200, 100)), 1, 3, [], [clamps()], ROOM, {})
    assert found == Pressed((), (), (), 135.0) and found.held


def test_layers_glued_before_are_only_passed_through() -> None:
    stack = discs([200, 200, 200, 200])
    found = press_run(wood_of(stack), 1, 4, [2], [clamps(12)], BARE, {2: (1.2, 1.8)}, "mm", species_table())
    assert [p.lower for p in found.pressures] == [2] and found.opening == 180.0


def test_what_helps_is_told_in_the_makers_units() -> None:
    wide = boxes(2, 600, 400, 27.0)
    found = pressed(wide, [clamps(40, throat=60.0)], (0.5, 2.0), units="in")
    assert found.helps and all(" mm" not in s and "\ue000" not in s for s in found.helps)
    assert any("18-29/32 in long" in s for s in found.helps)  # 480 / 25.4 = 18.898, up to the next 1/32
    assert any("480 mm long" in s for s in pressed(wide, [clamps(40, throat=60.0)], (0.5, 2.0)).helps)
