# SPDX-License-Identifier: LGPL-2.1-or-later

"""The joint's own set-up: areas of walls and glue by hand, the order of joints by reasoning on three blocks. Which
walls hold: the Wood Handbook, FPL-GTR-282 (2021), Ch. 10, on end-grain gluing; the rest common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from blocks import block, joint_of
from plans import plant_stand, worked_stand

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.joining.jointglue import joint_set_ups, long_grain
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.plan.gluing import JOINT, SetUp
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

LOW, HIGH = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0, 60.0), 90.0)
THIRD = block("Third", 200, 160, (45.0,), 150.0)
DEEP = PressSettings("deep clamp", count=8, force=4670.0, opening=700.0, throat=250.0, pad=40.0)


def glued(joints: tuple[JointPlan, ...], stacks: tuple[StackPlan, ...], room: GluingRoom | None = None,
          presses: tuple[PressSettings, ...] = (DEEP,), **more: object) -> tuple[SetUp, ...]:  # fmt: skip
    glue, wanted = glue_table()["yellow glue"], (0.7, 1.7)
    means = Means(glue, 0.15, room or GluingRoom(), presses, lambda _: wanted, species_table(), **more)  # type: ignore[arg-type]
    return joint_set_ups(joints, stacks, means)


def test_long_grain_walls() -> None:
    """Two walls of 40 by 28 mm each hold; of Ø30, half of its round. A tenon of 50 by 30 with the grain along its first
    side has two of 50."""
    joint = joint_of(LOW, HIGH)
    assert long_grain(joint, joint.members[0], LOW) == 2 * 40 * 28
    round_ = joint_of(LOW, HIGH, section="round", size=(30.0,))
    assert long_grain(round_, round_.members[0], LOW) == pytest.approx(pi * 15 * 28)
    oblong = joint_of(LOW, HIGH, section="rectangle", size=(50.0, 30.0))
    assert long_grain(oblong, oblong.members[0], LOW) == 2 * 50 * 28
    turned = replace(LOW, layers=tuple(replace(x, grain=90.0) for x in LOW.layers))
    assert long_grain(oblong, oblong.members[0], turned) == 2 * 30 * 28


def test_glue_of_walls_and_seat() -> None:
    """By hand: walls 2 × 2240, seat 200 × 120 − 1600 = 22,400: 26,880 mm² at 180 g/m² and 15 % are 5.56 g."""
    (found,) = glued((joint_of(LOW, HIGH),), (LOW, HIGH))
    assert found.area == pytest.approx(26_880, abs=2)
    assert found.glue == pytest.approx(5.564, abs=2e-3)
    assert (found.kind, found.joint, found.stacks, found.stack) == (JOINT, "Low to High", ("Low", "High"), "Low")
    assert found.held
    assert found.clock.to_contact < found.clock.to_pressure
    assert found.burden is not None
    assert found.burden.height == pytest.approx(150)
    # White oak at 761.6 kg/m³ (0.68 × 1.12): blocks of 200 × 160 × 90 and 300 × 120 × 60, corners rounded.
    assert found.burden.mass == pytest.approx(761.6e-9 * (200 * 160 * 90 + 300 * 120 * 60), rel=1e-3)


def test_crossed_grain_leaves_the_seat_dry() -> None:
    crossed = replace(HIGH, layers=tuple(replace(x, grain=90.0) for x in HIGH.layers))
    (found,) = glued((joint_of(LOW, crossed),), (LOW, crossed))
    assert found.area == pytest.approx(2 * 2240)
    assert found.pressures == ()
    assert any("leave the seat dry" in x for x in found.before)


def test_the_work_before_and_the_order_of_the_wedged_stand() -> None:
    plan = worked_stand()
    joint = replace(plan.joints[0], start=-73.0, end=54.0)
    (found,) = glued((joint,), plan.stacks)
    text = "\n".join(found.before)
    assert "in Top is bored and chiselled from both faces" in text
    assert "the tenon ends 6 mm below the rough face, where no hammer reaches a wedge" in text
    assert text.index("Close it dry") < text.index("Tenon into Pedestal first") < text.index("Square it")
    assert "leave them dry, they are relieved" in text
    # Held by its wedges: no jaws to open, no clamps to set.
    (alone,) = glued((joint,), plan.stacks, presses=(replace(DEEP, opening=200.0),))
    assert alone.opening == 0.0 and not any("with all clamps on" in said for said in alone.before)
    assert "RIGHT 450 mm" in text
    (inches,) = glued((joint,), plan.stacks, units="in")
    told = [inches.why, *inches.before, *inches.helps, *(x.says for x in inches.limits)]
    assert not any(" mm" in x for x in told)


def test_waste_over_the_seat_is_told() -> None:
    high = block("High", 300, 120, (30.0, 60.0), 86.0)
    joint = joint_of(LOW, high, height=86.0)
    joint = replace(joint, members=(replace(joint.members[0], end=86.0), joint.members[1]))
    (found,) = glued((joint,), (LOW, high))
    assert any("4 mm of waste stand over the seat of Low" in x for x in found.before)


def test_joints_of_a_pile_follow_each_other() -> None:
    joints = joint_of(LOW, HIGH), joint_of(HIGH, THIRD, height=150.0)
    found = glued(joints, (LOW, HIGH, THIRD))
    assert [(s.number, s.round, s.joint) for s in found] == [(1, 1, "Low to High"), (2, 2, "High to Third")]
    assert all(s.held for s in found)


def test_joints_that_share_no_stack_cure_side_by_side() -> None:
    names = {"Low": "L2", "High": "H2"}
    low, high = (replace(s, name=names[s.name]) for s in (LOW, HIGH))
    found = glued((joint_of(LOW, HIGH), joint_of(low, high)), (LOW, HIGH, low, high))
    assert [s.round for s in found] == [1, 1]


def test_two_tenons_in_one_direction_close_together() -> None:
    one = joint_of(LOW, HIGH)
    two = replace(one, name="Other", point=(60.0, 0.0, 90.0), size=(20.0,))
    (found,) = glued((one, two), (LOW, HIGH))
    assert "closed together with “Other”" in found.why
    assert found.held
    assert found.area > glued((one,), (LOW, HIGH))[0].area


def test_stacks_glued_before_their_joint_can_enter_are_a_broken_limit() -> None:
    """Two blocks over a tenon upright; one that lies across, blind at both ends, has no way in. An open end is one."""
    one = joint_of(LOW, HIGH)
    across = replace(one, name="Across", direction=(0.5, 0.0, 0.8660254))
    found = glued((one, across), (LOW, HIGH))
    assert found[0].held
    assert [x.name for x in found[1].limits] == ["order"]
    assert "“Across” can enter" in found[1].limits[0].says
    open_ = replace(across, members=(across.members[0], replace(across.members[1], through=True)))
    assert all(x.name != "order" for x in glued((one, open_), (LOW, HIGH))[1].limits)


def test_a_ring_of_three_is_closed_by_a_joint_that_cannot_enter() -> None:
    ring = replace(joint_of(LOW, THIRD, height=150.0), name="Ring", direction=(0.0, 0.6, 0.8))
    found = glued((joint_of(LOW, HIGH), joint_of(HIGH, THIRD, height=150.0), ring), (LOW, HIGH, THIRD))
    assert [x.name for x in found[2].limits][:1] == ["order"]


def test_joints_of_one_known_stack_are_left_out_and_a_hot_room_breaks_the_clock() -> None:
    assert glued((joint_of(LOW, HIGH),), (LOW,)) == ()
    (found,) = glued(plant_stand().joints, plant_stand().stacks, GluingRoom(temperature=60.0))
    assert {x.name for x in found.limits} == {"clock", "open time"}
