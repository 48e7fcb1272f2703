# SPDX-License-Identifier: LGPL-2.1-or-later

"""Panels of staves under bars. Sources: clamps by force, 27 in² × 450 psi over 1,350 lbf = 9 and 25 in² × 150 psi over
420 lbf = 9 (published examples); glue, times and mass by hand."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

import pytest
from blocks import strips
from plans import worked_stand

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.joining.edges import edge_set_ups
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.joining.panels import panels_of
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.gluing import EDGES, SetUp
from freecad_stacklam.lamination.quantities import POUND_FORCE, PSI
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

GLUE = glue_table()["yellow glue"]
PIPE = PressSettings("pipe clamp", count=12, force=4670.0, opening=900.0, throat=45.0, pad=40.0)
ROOM = GluingRoom()


def set_ups(staves: list[Stave], presses: tuple[PressSettings, ...] = (PIPE,), room: GluingRoom = ROOM,
            wanted: tuple[float, float] = (0.7, 1.7), **more: object) -> tuple[SetUp, ...]:  # fmt: skip
    means = Means(GLUE, 0.15, room, presses, lambda _: wanted, species_table(), **more)  # type: ignore[arg-type]
    return edge_set_ups(staves, worked_stand().stacks, means)


@pytest.mark.parametrize(("area", "pressure", "force", "count"), [(27.0, 450.0, 1350.0, 9), (25.0, 150.0, 420.0, 9)])
def test_clamps_by_force(area: float, pressure: float, force: float, count: int) -> None:
    """One seam of that area, in², at that pressure, psi, by clamps of that force, lbf. The cones alone want fewer: the
    stave is so wide that one clamp would reach along."""
    length = area * 25.4**2 / 45.0
    staves = strips(250, 250, length=length)
    presses = (replace(PIPE, force=force * POUND_FORCE, count=40),)
    (found,) = set_ups(staves, presses, wanted=(pressure * PSI, 10.0))
    assert len(found.places) == count == ceil(area * pressure / force)
    assert found.held


def test_bars_are_told_as_they_are_drawn() -> None:
    (found,) = set_ups(strips(120, 90, 130))
    at = sorted(place.at[0] for place in found.places)
    apart, first = round(at[1] - at[0]), round(at[0])
    assert f"Set {len(at)} clamps, about {apart} mm apart, the first {first} mm from the ends." in found.before
    assert any("of the" in said for said in set_ups(strips(120, 90, 130), (replace(PIPE, count=2),))[0].before)


def test_glue_and_mass_of_a_panel() -> None:
    """By hand: two seams of 600 × 45 mm are 0.054 m²; 180 g/m² and 15 % loss are 11.178 g. 600 × 340 × 45 mm of white
    oak at 761.6 kg/m³ (FPL-GTR-282, Eq. 4-14: 0.68 × 1.12) are 6.99 kg."""
    (found,) = set_ups(strips(120, 90, 130))
    assert found.glue == pytest.approx(11.178)
    assert found.burden is not None
    assert found.burden.mass == pytest.approx(6.992, abs=1e-3)
    assert found.burden.middle == pytest.approx((300, 170, 0))
    assert (found.kind, found.stack, found.first, found.last, found.staves) == (
        EDGES, "Seat", 1, 1, ("Seat 1 a", "Seat 1 b", "Seat 1 c")
    )  # fmt: skip


def test_pressures_sum_up_to_the_clamps_force() -> None:
    (found,) = set_ups(strips(120, 90, 130))
    for seam in found.pressures:
        assert seam.mean * seam.area == pytest.approx(sum(p.force for p in found.places))
        assert seam.least <= seam.fifth <= seam.mean
        assert seam.reached == 1.0
        assert seam.mean >= 0.7


def test_a_short_seam_is_not_starved() -> None:
    """One 4.67 kN clamp on 60 × 20 mm would be 3.9 MPa: it is told to be tightened to 1.7 MPa × 1200 mm² = 2.04 kN."""
    (found,) = set_ups(strips(60, 60, length=60, thick=20))
    (place,) = found.places
    assert place.force == pytest.approx(1.7 * 1200)
    assert any("2.04 kN" in line for line in found.before)


@pytest.mark.parametrize(
    ("presses", "name", "says"),
    [
        ((replace(PIPE, opening=300.0),), "opening", "opens 412 mm and the widest opens 300 mm"),
        ((replace(PIPE, count=2),), "clamps", "5 clamps are wanted and 2 are there: 3 more"),
        ((), "clamps", "are wanted and 0 are there"),
        ((replace(PIPE, kind="vacuum"),), "clamps", "are wanted and 0 are there"),
    ],
)
def test_what_is_not_there_is_named_with_what_would_do(
    presses: tuple[PressSettings, ...], name: str, says: str
) -> None:
    """600 × 45 mm at 0.7 MPa are 18.9 kN: 5 clamps of 4.67 kN."""
    (found,) = set_ups(strips(120, 90, 130), presses)
    assert [limit.name for limit in found.limits] == [name]
    assert says in found.limits[0].says
    assert not found.held


def test_a_clock_that_breaks_names_the_mend() -> None:
    """At 40 °C the times are a quarter: 15 min are 3 min 45 s (2 to the power of −2; common practice, no source)."""
    (found,) = set_ups(strips(*[60] * 7), room=replace(ROOM, temperature=40.0))
    assert found.clock.assembly_limit == pytest.approx(225)
    clock = next(limit for limit in found.limits if limit.name == "clock")
    assert "two parts" in clock.says
    assert clock.needed == pytest.approx(found.clock.moves[-1].end)
    helped = set_ups(strips(*[60] * 7), room=replace(ROOM, helpers=2))[0]
    alone = set_ups(strips(*[60] * 7))[0]
    assert helped.clock.to_pressure < alone.clock.to_pressure


def test_a_seam_that_is_shorter_than_the_panel_gets_its_own_clamps() -> None:
    """An outer stave of 500 beside inner ones of 900: clamps at 45, 450 and 855 mm would leave its seam one clamp in
    the middle, 0.21 MPa; more are set until it has 0.7 MPa and every place of it is reached."""
    outer, *inner = strips(60, 150, 150, length=900.0)
    outer = replace(outer, region=((200, 0), (700, 0), (700, 60), (200, 60)))
    (found,) = set_ups([outer, *inner])
    assert len(panels_of([outer, *inner])[0].seams) == 2
    assert all(p.mean >= 0.7 and p.reached > 1 - 1e-9 for p in found.pressures)
    assert found.held
    assert pytest.approx(0.2076, abs=1e-4) == 4670 / (500 * 45)
    few = set_ups([outer, *inner], (replace(PIPE, count=4),))[0]
    assert [x.name for x in few.limits] == ["clamps"]
    assert few.limits[0].needed == len(found.places)


def test_panels_cure_side_by_side_while_clamps_last() -> None:
    """Each wants 5 of 12: two in a round."""
    staves = [s for layer in range(1, 6) for s in strips(120, 90, 130, layer=layer)]
    found = set_ups(staves)
    assert [s.round for s in found] == [1, 1, 2, 2, 3]
    assert [s.number for s in found] == [1, 2, 3, 4, 5]
    assert all(len(s.places) == 5 and s.held for s in found)


def test_copies_are_told() -> None:
    assert "each of 3 copies" in set_ups(strips(120, 90, copies=3))[0].why


def test_loose_pieces_of_the_worked_stand_are_told_and_lengths_follow_the_units() -> None:
    plan = worked_stand()
    assert plan.boards is not None
    (found,) = set_ups(list(plan.boards.staves))
    assert (found.stack, found.first) == ("Pedestal", 2)
    assert "mm" in found.before[-1]
    (inches,) = set_ups(list(plan.boards.staves), units="in")
    assert "mm" not in "".join((inches.why, *inches.before, *(x.says for x in inches.limits)))
