# SPDX-License-Identifier: LGPL-2.1-or-later

"""At which bevel an end is carved that meets a flat face under a leaning tenon."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

from blocks import joint_of
from plans import layer_of, stack_of
from shapely import Point

from freecad_stacklam.benchsheets.joints.jointwords import members_of
from freecad_stacklam.benchsheets.joints.shoulderwords import shoulder_words
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.plan.whole import Plan


def said(lean: float, below: float, above: float) -> list[str]:
    """A seat with finished sections of these radii at its two ends, over a leg; its joint leans by so many degrees."""
    cut = Cut("mortise", circle(25.0), 0.0, 40.0, "Leg to seat")
    seat = stack_of("Seat", (layer_of(1, 0.0, 40.0, [Point(0, 0).buffer(below), Point(0, 0).buffer(above)], (cut,)),))
    leg: StackPlan = stack_of("Leg", (layer_of(1, 0.0, 40.0, [Point(0, 0).buffer(60.0)] * 2),))
    joint = replace(joint_of(leg, seat), name="Leg to seat")
    joint = replace(joint, direction=(sin(radians(lean)), 0.0, cos(radians(lean))))
    return shoulder_words(members_of(Plan("Stool", "mm", (leg, seat), (joint,)), joint), joint)


def test_the_bevel_is_what_the_lean_leaves_of_a_right_angle() -> None:
    (told,) = said(15.0, 150.0, 5.0)
    assert told.startswith("Carve the end of Leg that meets Seat flat, at 75.0° to the tenon")


def test_nothing_is_said_of_an_upright_tenon_or_of_a_face_that_is_not_known() -> None:
    assert said(0.0, 150.0, 5.0) == []
    assert said(15.0, 150.0, 150.0) == []  # flat at both ends: on which they meet is not known
    assert said(15.0, 5.0, 5.0) == []
