# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where stacks meet: areas and distances of boxes and discs in closed form, heights and diagonals by Pythagoras."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, pi

import numpy as np
import pytest
from blocks import GROWN, block, joint_of
from plans import layer_of, plant_stand, stack_of, worked_stand
from shapely import Point

from freecad_stacklam.lamination.joining.jointseat import (
    along_axis,
    floor_of,
    lowest_first,
    seat_of,
    seat_waste,
    squareness_of,
    squareness_words,
    tenon_below,
)


def test_the_seat_of_two_blocks() -> None:
    """200 × 160 on 300 × 120: they meet on 200 × 120 less the mortise of 40 × 40; corners are rounded by the growth
    (4 × (1 − π/4) · 3.2² = 8.8 mm² each block, and none of them lies in the overlap of 120 by 200)."""
    low, high = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 90.0)
    joint = joint_of(low, high)
    seat = seat_of(joint, *joint.members, low, high)
    assert seat.contact.area == pytest.approx(200 * 120 - 1600, abs=1)
    assert seat.height == pytest.approx(120)
    assert seat.alike
    # A bar in the inner corner of the cross, at 100, 60, reaches in to where a pad of 40 lies whole, at 80, 40.
    assert seat.reach(40.0) == pytest.approx(hypot(20, 20), abs=0.1)


def test_crossed_grain_is_seen() -> None:
    low, high = block("Low", 200, 160, (45.0,), 0.0), block("High", 300, 120, (30.0,), 45.0, grain=90.0)
    joint = joint_of(low, high)
    assert not seat_of(joint, *joint.members, low, high).alike
    turned = replace(high, layers=tuple(replace(x, grain=172.0) for x in high.layers))
    assert seat_of(joint, *joint.members, low, turned).alike


def test_a_round_tenon_leaves_a_ring() -> None:
    disc = Point(0, 0).buffer(100 - GROWN, quad_segs=180)
    low = stack_of("Low", (layer_of(1, 0, 45, [disc, disc]),))
    high = block("High", 300, 300, (30.0,), 45.0)
    joint = joint_of(low, high, section="round", size=(30.0,))
    assert seat_of(joint, *joint.members, low, high).contact.area == pytest.approx(pi * (100**2 - 15**2), rel=1e-3)


def test_waste_over_a_seat_keeps_the_stacks_apart() -> None:
    """The form ends 4 mm below the rough face of its stack."""
    low, high = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 86.0)
    joint = joint_of(low, high, height=86.0)
    members = (replace(joint.members[0], end=86.0), joint.members[1])
    joint = replace(joint, members=members)
    assert seat_waste(joint, members[0], members[1], low, high) == pytest.approx(4.0)
    assert seat_waste(joint, members[1], members[0], high, low) == pytest.approx(0.0)


def test_a_tenon_below_the_rough_face() -> None:
    low, high = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 90.0)
    joint = joint_of(low, high, through=True)
    assert tenon_below(joint, joint.members[1], high) == pytest.approx(0.0)
    assert tenon_below(replace(joint, end=23.0), joint.members[1], high) == pytest.approx(7.0)
    assert tenon_below(replace(joint, end=33.0), joint.members[1], high) == 0.0
    assert tenon_below(joint, joint.members[0], low) == 0.0
    worked = worked_stand()
    assert tenon_below(replace(worked.joints[0], start=-73, end=54), worked.joints[0].members[1], worked.stacks[1]) == 6


def test_heights_and_diagonals_of_two_blocks() -> None:
    """By Pythagoras: from the edge of the foot, 100 out, up 90 to the rim, 150 out on the other side."""
    low, high = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 90.0)
    square = squareness_of(joint_of(low, high), low, high)
    assert square is not None
    assert dict(square.heights) == pytest.approx(dict.fromkeys(("RIGHT", "back", "left", "FRONT"), 90.0))
    found = dict(square.diagonals)
    assert (found["RIGHT"], found["left"]) == pytest.approx((hypot(250, 90), hypot(250, 90)))
    assert (found["FRONT"], found["back"]) == pytest.approx((hypot(140, 90), hypot(140, 90)))
    words = squareness_words(square, "in")
    assert "mm" not in words
    assert "RIGHT 3-17/32 in" in words  # 90 mm are 3.543 in
    assert "RIGHT 90 mm" in squareness_words(square, "mm")


def test_a_stack_that_lies_has_no_rim() -> None:
    low, high = block("Low", 200, 160, (45.0, 90.0), 0.0), block("High", 300, 120, (30.0,), 90.0)
    lying = replace(high, frame=(0.0, 0, 1.0, 0, 0, 1.0, 0, 0, -1.0, 0, 0, 90.0, 0, 0, 0, 1.0))
    assert squareness_of(joint_of(low, high), low, lying) is None


def test_stacks_from_the_floor_up_and_places_along_the_axis() -> None:
    foot, head = plant_stand().stacks
    joint = plant_stand().joints[0]
    assert [s.name for s in lowest_first([head, foot])] == ["Pedestal", "Top"]
    assert floor_of(head) == pytest.approx(450)
    assert along_axis(joint.axis, foot, 375.0) == pytest.approx(-75)
    turned = replace(foot, frame=(1.0, 0, 0, 0, 0, -1.0, 0, 0, 0, 0, -1.0, 450.0, 0, 0, 0, 1.0))
    assert floor_of(turned) == pytest.approx(0)
    assert along_axis(joint.axis, turned, 75.0) == pytest.approx(-75)
    assert np.isfinite(seat_of(joint, *joint.members, foot, head).reach(40.0))
