# SPDX-License-Identifier: LGPL-2.1-or-later

"""The mortises on the joint sheet: as cut, on the face they are laid out on, with FRONT beside each."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from plans import worked_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import units_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import FilledRegion, Polyline, Text
from freecad_stacklam.benchsheets.joints.jointsheet import joint_sheets
from freecad_stacklam.benchsheets.joints.mouthviews import mouth_marks, mouth_views, room_for
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.plan.whole import Plan

MM = units_of("mm")


def cut_as(plan: Plan, outline: object) -> Plan:
    """The plan with every mortise cut to that outline."""
    stacks = tuple(
        replace(stack, layers=tuple(
            replace(layer, cuts=tuple(replace(c, outline=outline) if c.kind == "mortise" else c for c in layer.cuts))
            for layer in stack.layers))
        for stack in plan.stacks
    )  # fmt: skip
    return replace(plan, stacks=stacks)


def test_every_mortise_stands_on_the_sheet_with_its_size_as_cut_and_front() -> None:
    plan = cut_as(worked_stand(), rectangle(41.0, 40.2, (7.0, -3.0)))  # relieved by 0.4 along the grain
    (sheet, *_) = joint_sheets(book_of(plan, paper_named("A3")))
    words = [m.text for m in sheet.marks if isinstance(m, Text)]
    assert "mortise in Pedestal, 41 × 40.2, from above" in words
    assert "mortise in Top, 41 × 40.2, from below, turned over" in words
    assert words.count("FRONT") == 2
    outlines = [
        np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise" and m.closed
    ]
    assert len(outlines) == 2 and sheet.scale is not None
    for corners in outlines:
        assert np.ptp(corners, axis=0) / sheet.scale == pytest.approx((41.0, 40.2))


def test_front_is_below_each_mortise_and_a_face_below_is_seen_turned_over() -> None:
    plan = worked_stand()
    pedestal, top = mouth_views(plan, plan.joints[0], MM)
    assert (pedestal.seen, top.seen) == ("from above", "from below, turned over")
    marks = mouth_marks([pedestal, top], 0.0, 100.0, 180.0, 2)
    points = [np.asarray(m.loops[0]) for m in marks if isinstance(m, FilledRegion)]
    mortises = [np.asarray(m.points) for m in marks if isinstance(m, Polyline) and m.pen == "mortise"]
    below = [p for p in points if any(p[:, 1].max() < q[:, 1].min() and
             abs(p[0, 0] - q[:, 0].mean()) < 1e-6 for q in mortises)]  # fmt: skip
    assert len(below) == 2
    # A leaning mortise 20 mm to the right of straight is to the left once the layer is turned over.
    aslant = rectangle(40.0, 20.0, turn=30.0)
    plan = cut_as(plan, aslant)
    views = mouth_views(plan, plan.joints[0], MM)
    right, left = (max(v.shape.exterior.coords, key=lambda p: p[1])[0] for v in views)
    assert right == pytest.approx(-left) and abs(right) > 1.0
    assert views[0].size == "40 × 20"


def test_round_mouths_and_the_room_the_row_takes() -> None:
    plan = cut_as(worked_stand(), circle(32.0, (5.0, 5.0)))
    joint = replace(plan.joints[0], section="round", size=(32.0,))
    views = mouth_views(plan, joint, MM)
    assert [view.size for view in views] == ["Ø 32", "Ø 32"]
    # 32 mm are 40.3 of 1/32 in and no inch bit: it bears the measure it is sold in
    assert {view.size for view in mouth_views(plan, joint, units_of("in"))} == {"Ø 32 mm"}
    assert room_for(views, 2, 180.0) == pytest.approx(room_for(views, 1, 180.0) - 16.0, abs=0.05)
    assert room_for(views, 1, 60.0) == float("inf")  # two of 32 do not stand side by side there
    assert room_for([], 1, 180.0) == 0.0
    bare = replace(
        plan, stacks=tuple(replace(s, layers=tuple(replace(n, cuts=()) for n in s.layers)) for s in plan.stacks)
    )
    assert mouth_views(bare, joint, MM) == [] and isinstance(plan.stacks[0].layers[9].cuts[0], Cut)
