# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is the same of several pieces is told once, and nothing else is lost."""

from __future__ import annotations

from dataclasses import replace

from plans import pedestal, plant_stand

from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.toldonce import told_once
from freecad_stacklam.lamination.plan.whole import Plan


def stool() -> Plan:
    """A seat on three legs, each with its joint; only their names matter."""
    stand = plant_stand()
    (joint,) = stand.joints
    names = ("Seat", "Leg", "Leg 2", "Leg 3")
    joints = tuple(
        replace(joint, name=f"{leg} to seat", members=tuple(
            replace(member, stack=name) for member, name in zip(joint.members, (leg, "Seat"), strict=True)))
        for leg in names[1:]
    )  # fmt: skip
    return replace(stand, stacks=tuple(replace(pedestal(), name=name) for name in names), joints=joints)


def caution(name: str, says: str, verdict: str = "caution") -> Check:
    return Check(name, verdict, 1.0, 2.0, "mm", "common practice, no source", says)


def said(*checks: Check) -> list[str]:
    return [check.says for check in told_once(stool(), checks)]


def test_what_holds_for_three_legs_is_told_once_and_names_them() -> None:
    told = said(
        caution("Leg: height over the year", "Leg moves 3.2 mm."),
        caution("Seat: height over the year", "Seat moves 0.4 mm."),
        caution("Leg 2: height over the year", "Leg 2 moves 3.2 mm."),
        caution("Leg 3: height over the year", "Leg 3 moves 3.2 mm."),
    )
    assert told == ["Leg moves 3.2 mm. The same holds for Leg 2 and Leg 3.", "Seat moves 0.4 mm."]


def test_a_joint_s_own_stacks_may_differ_and_no_others() -> None:
    words = "The tenon of “{0} to seat” moves against the end grain of {1}."
    told = said(
        caution("Leg to seat: movement in Leg", words.format("Leg", "Leg")),
        caution("Leg to seat: movement in Seat", words.format("Leg", "Seat")),
        caution("Leg 2 to seat: movement in Leg 2", words.format("Leg 2", "Leg 2")),
        caution("Leg 2 to seat: movement in Seat", words.format("Leg 2", "Seat")),
    )
    assert told == [words.format("Leg", at) + " The same holds for Leg 2 to seat." for at in ("Leg", "Seat")]


def test_other_figures_other_verdicts_and_other_things_are_told_by_themselves() -> None:
    apart = (
        caution("Leg: smallest part", "A part of Leg is 79 mm long."),
        caution("Leg 2: smallest part", "A part of Leg 2 is 78 mm long."),
        caution("Leg: least wood", "Leg stands out of its blanks.", "stop"),
        caution("Leg 2: least wood", "Leg 2 stands out of its blanks.", "stop"),
        caution("Month to glue", "Glue in May."),
        caution("Month to cut", "Glue in May."),
        caution("Leg: reach", "Layer 2 of Leg is short."),
        caution("Leg: reach", "Layer 2 of Leg is short."),
    )
    assert told_once(stool(), apart) == apart
    assert told_once(Plan("Nothing", "mm", ()), apart) == apart
