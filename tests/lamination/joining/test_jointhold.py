# SPDX-License-Identifier: LGPL-2.1-or-later

"""What holds a joint: the heights and distances by hand, pressure as force over area."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, hypot

import pytest
from blocks import block, joint_of
from plans import worked_stand

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.joining.jointhold import Hold, JointJob, hold_of, places_of, pressures_of
from freecad_stacklam.lamination.joining.jointseat import seat_of
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

LOW, HIGH = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 90.0)
DEEP = PressSettings("deep clamp", count=8, force=4670.0, opening=400.0, throat=150.0, pad=40.0)


def job(*presses: PressSettings, wanted: tuple[float, float] = (0.7, 1.7), units: str = "mm") -> JointJob:
    return JointJob(
        glue_table()["yellow glue"], 0.15, GluingRoom(), presses, lambda _: wanted, species_table(), units,
        stacks={"Low": LOW, "High": HIGH},
    )  # fmt: skip


def held(*presses: PressSettings, joint: JointPlan | None = None, **more: object) -> Hold:
    joint = joint or joint_of(LOW, HIGH)
    return hold_of((joint,), (seat_of(joint, *joint.members, LOW, HIGH),), job(*presses, **more))  # type: ignore[arg-type]


def test_clamps_that_reach_round_come_first() -> None:
    """A seat of 22,400 mm² at 0.7 MPa wants 15.7 kN: 4 clamps of 4.67 kN."""
    found = held(PressSettings("sand", kind="weight", force=300.0), DEEP)
    assert len(found.used) == ceil(22400 * 0.7 / 4670) == 4
    assert found.limits == ()
    assert "4 × deep clamp that reach round both" in found.says


def test_a_glue_that_fills_gaps_is_not_starved() -> None:
    """0.2 MPa on 22,400 mm² are 4.48 kN: two clamps of 2.24 kN."""
    found = held(DEEP, wanted=(0.01, 0.2))
    assert [p.force for p in found.used] == pytest.approx([2240, 2240], rel=1e-3)
    assert "2.24 kN" in found.says


def test_too_few_clamps_say_what_the_seat_gets() -> None:
    """2 × 4670 N over 22,400 mm² are 0.42 MPa."""
    found = held(replace(DEEP, count=2))
    (limit,) = found.limits
    assert (limit.name, limit.needed, limit.there) == ("clamps", 4, 2)
    assert "0.42 MPa" in limit.says
    assert limit.says.startswith("4 clamps are wanted and 2 are there: 2 more")
    (limit,) = held(replace(DEEP, count=1)).limits
    assert limit.says.startswith("4 clamps are wanted and 1 is there: 3 more")


@pytest.mark.parametrize(
    ("press", "name", "needed", "there"),
    [
        (replace(DEEP, opening=180.0), "opening", 120.0 + 72, 180.0),
        (replace(DEEP, throat=25.0), "throat", hypot(20, 20), 25.0),
    ],
)
def test_clamps_that_do_not_reach(press: PressSettings, name: str, needed: float, there: float) -> None:
    """Both blocks are 120 mm high and lie between cauls of 36 mm."""
    (limit,) = held(press).limits
    assert (limit.name, limit.there) == (name, there)
    assert limit.needed == pytest.approx(needed, abs=0.1)
    assert "two bars across" in limit.says


def test_nothing_owned_is_told_with_what_would_do() -> None:
    found = held()
    assert [x.name for x in found.limits] == ["clamps"]
    assert found.used == ()
    assert any("bench is the caul" in x for x in found.helps)


def test_a_rod_only_where_the_tenon_is_bored_through_and_the_rod_long_enough() -> None:
    rod = PressSettings("rod", kind="rod", force=20_000.0, opening=300.0)
    bars = PressSettings("bars", kind="go-bar", force=200.0, count=6)
    assert held(rod).limits[0].name == "clamps"
    joint = joint_of(LOW, HIGH, embed=90.0, through=True)
    joint = replace(joint, members=(replace(joint.members[0], through=True), joint.members[1]))
    assert held(rod, joint=joint).used == (rod,)
    assert held(replace(rod, opening=150.0), bars, joint=joint).used == (bars,) * 6
    assert "a rod of" in held(joint=joint).helps[0]


def test_wedges_hold_alone_and_along_with_clamps() -> None:
    wedge = worked_stand().joints[0].members[1].wedge
    joint = joint_of(LOW, HIGH, through=True)
    joint = replace(joint, members=(joint.members[0], replace(joint.members[1], wedge=wedge)))
    alone = held(joint=joint)
    assert alone.limits == ()
    assert "wedges alone" in alone.says
    assert alone.says.endswith("hangs on how hard it is driven, and is not computed")
    assert not alone.limits
    assert "by its wedges" in held(DEEP, joint=joint).says
    # Its open end may not lie on the bench while wedges are driven into it, nor under a bar.
    assert not any("turn it over" in x or "wedges alone" in x for x in alone.helps)
    assert "clear of the tenon's end" in alone.helps[0]


def test_pads_lie_on_the_seat_and_the_pressure_is_force_over_area() -> None:
    joint = joint_of(LOW, HIGH)
    seat = seat_of(joint, *joint.members, LOW, HIGH)
    used = (DEEP,) * 4
    places = places_of(joint, seat, used, LOW, HIGH, job())
    assert len(places) == 4
    for place in places:
        assert abs(place.at[0]) <= 80.001
        assert abs(place.at[1]) <= 40.001
        assert (place.foot, place.head) == (0.0, 120.0)
    (line,) = pressures_of((seat,), used, LOW, job())
    assert line.mean * line.area == pytest.approx(4 * 4670)
    assert line.lower == 2
    assert places_of(joint, seat, (), LOW, HIGH, job()) == ()
    assert pressures_of((seat,), (), LOW, job()) == ()
    (single,) = places_of(joint, seat, (DEEP,), LOW, HIGH, job())
    assert single.at == pytest.approx((0.0, 0.0))


def test_lengths_follow_the_units() -> None:
    found = held(replace(DEEP, throat=25.0), units="in")
    assert "mm" not in found.limits[0].says + "".join(found.helps)
