# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the joint sheet says: which walls get glue, chamfer and groove, the order of the work."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin, sqrt

import pytest
from plans import worked_stand

from freecad_stacklam.benchsheets.drawing.lettering import units_of
from freecad_stacklam.benchsheets.joints.jointwords import joint_words, leading_ends, order_of_work
from freecad_stacklam.lamination.plan.joints import JointPlan

MM, INCHES = units_of("mm"), units_of("in")


def bare(**changes: object) -> JointPlan:
    """The stand's joint without its wedges."""
    joint = worked_stand().joints[0]
    return replace(joint, members=tuple(replace(m, wedge=None) for m in joint.members), **changes)  # type: ignore[arg-type]


def said(joint: JointPlan, units=MM) -> str:
    return " ".join(joint_words(worked_stand(), joint, units))


def test_long_grain_walls_get_the_glue_and_relieved_ones_none() -> None:
    joint = bare()
    relieved = replace(joint, members=tuple(replace(m, relief=0.4) for m in joint.members))
    tight = replace(joint, members=tuple(replace(m, relief=0.0) for m in joint.members))
    assert "none on the two end-grain walls, which are relieved by 0.4 mm each" in said(relieved)
    assert "relieved by 0.016 in each" in said(relieved, INCHES)  # 0.4 / 25.4 = 0.0157
    assert "a thin coat at most on the two end-grain walls" in said(tight)
    assert "two quarters" in said(replace(tight, section="round"))


def test_ends_that_go_in_are_chamfered_and_the_groove_stops_where_it_would_show() -> None:
    joint = bare()
    assert leading_ends(joint) == (True, False)
    assert "the end that goes in by 2 mm" in said(joint) and "short of an end that shows" in said(joint)
    stopped = replace(joint, members=tuple(replace(m, through=False) for m in joint.members))
    assert "both ends by 3/32 in" in said(stopped, INCHES) and "that shows" not in said(stopped)


@pytest.mark.parametrize("units", [MM, INCHES])
def test_the_order_of_work_names_who_is_bored_when_and_the_dummy_tenon(units) -> None:
    joint = bare()
    steps = order_of_work(worked_stand(), joint, units)
    every = " ".join(steps)
    assert "reference face" in every and "dummy tenon" in every and "draw it from Pedestal" in every
    assert every.index("Before glue-up, Pedestal") < every.index("After glue-up, Top") < every.index("Try it dry")
    alone = replace(joint, drilling=tuple(row for row in joint.drilling if row.stack == "Top"))
    assert "dummy" not in " ".join(order_of_work(worked_stand(), alone, units))


def test_a_leaning_axis_is_told_as_the_drills_table_is_set() -> None:
    """sin 12° = 0.2079 to the right: the bevel stands at 78°; towards (−1, 1) in plan is 135° round from RIGHT."""
    lean = radians(12.0)
    right = said(bare(direction=(sin(lean), 0.0, cos(lean))))
    assert "In Pedestal and Top the axis leans 12.0° from square" in right
    assert "going up towards RIGHT: a bevel set to 78.0°" in right and "along the axis" in right
    aslant = said(bare(direction=(sin(lean) * sqrt(0.5), -sin(lean) * sqrt(0.5), -cos(lean))))  # pointing down
    assert "leans 12.0°" in aslant and "towards 135° (0° is RIGHT, 90° the back)" in aslant
    assert "leans" not in said(bare())


def test_a_point_that_comes_out_of_its_layer_is_told() -> None:
    """Walls 43 deep in a layer of 45, the point 4 mm longer: 2 mm of it come out."""
    joint = bare()
    short, long = (replace(joint.drilling[0], depth=43.0, point=point) for point in (1.5, 4.0))
    assert "comes out" not in said(replace(joint, drilling=(short,)))
    told = said(replace(joint, drilling=(long,)))
    assert "Pedestal 9: the bit's point comes out 2 mm through the layer's underside (the next layer hides it)" in told
    lowest = said(replace(joint, drilling=(replace(long, layer=1),)))
    assert "a face of the stack" in lowest


def test_x_of_a_face_turned_over_is_told() -> None:
    joint = bare()
    for side, told in (("top", False), ("bottom", True)):
        bored = replace(joint, drilling=(replace(joint.drilling[0], side=side),))
        words = " ".join(order_of_work(worked_stand(), bored, MM))
        assert ("to the left once the wood is turned" in words) is told


def test_two_goes_where_the_stroke_is_short() -> None:
    joint = bare()
    for stroke, asked in ((10.0, True), (500.0, False)):
        rows = tuple(replace(row, stroke=stroke) for row in joint.drilling)
        assert ("two goes" in said(replace(joint, drilling=rows))) is asked


def test_a_round_mortise_is_named_by_its_bit_and_its_room_is_told_down() -> None:
    """36 mm are 45.35 of 1/32 in and no inch bit; 2 mm are 2.5 of 1/32 in."""
    joint = bare(section="round", size=(36.0,), end_room=2.0)
    assert "Mortise round, Ø 36 mm; clearance" in said(joint, INCHES)
    assert "Mortise round, Ø 1-3/8 in; clearance" in said(replace(joint, size=(34.925,)), INCHES)
    assert "1/16 in room at a stopped end" in said(joint, INCHES) and "2 mm room at a stopped end" in said(joint)
