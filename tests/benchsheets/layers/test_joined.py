# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stacks put together: at their true places, to scale, with their tenons."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from plans import legs, plant_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Text
from freecad_stacklam.benchsheets.layers import joined
from freecad_stacklam.benchsheets.layers.joined import groups, joined_sheets, silhouette, tenon_outline


def test_only_stacks_that_joints_hold_are_put_together() -> None:
    plan = plant_stand()
    assert [[s.name for s in group] for group in groups(plan)] == [["Pedestal", "Top"]]
    assert groups(replace(plan, joints=())) == [] == groups(legs())
    third = replace(plan.stacks[0], name="Other")
    assert [[s.name for s in g] for g in groups(replace(plan, stacks=(third, *plan.stacks)))] == [["Pedestal", "Top"]]


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in"), ("A3", "mm+in")])
def test_the_top_stands_on_the_pedestal(paper: str, units: str) -> None:
    """Written in tests/plans.py: the pedestal is 450 high, the top 54; 504 in all, the top 560 × 400 and the tenon 127
    long about the height of the seat."""
    plan = plant_stand(units)
    plan = replace(plan, joints=(replace(plan.joints[0], start=-75.0, end=52.0),))
    (sheet,) = joined_sheets(book_of(plan, paper_named(paper), units))
    assert sheet.scale is not None
    solid = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise"]
    assert len(solid) == 4  # two stacks, twice
    for pedestal, top, wide in ((solid[0], solid[1], 560.0), (solid[2], solid[3], 400.0)):
        assert np.ptp(top[:, 0]) / sheet.scale == pytest.approx(wide, abs=0.2)
        assert (top[:, 1].max() - pedestal[:, 1].min()) / sheet.scale == pytest.approx(504.0, abs=0.2)
        assert top[:, 1].min() == pytest.approx(pedestal[:, 1].max(), abs=0.1)
    tenons = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise hidden"]
    assert [np.ptp(t[:, 1]) / sheet.scale for t in tenons] == pytest.approx([plan.joints[0].tenon.length] * 2, abs=0.1)
    words = {m.text for m in sheet.marks if isinstance(m, Text)}
    assert {"Pedestal", "Top", "A", "from the front", "from the right"} <= words


def test_a_leaning_stack_is_seen_where_it_stands() -> None:
    """Arithmetic: a stack lying along the model's x, its z there, is as long across as it is high."""
    plan = plant_stand()
    lying = (0.0, 0.0, 1.0, 100.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0)
    x0, _, x1, _ = silhouette(replace(plan.stacks[0], frame=lying), 0).bounds
    assert (x0, x1) == pytest.approx((100.0, 550.0), abs=0.1)
    joint = replace(plan.joints[0], start=-75.0, end=52.0)
    u0, v0, u1, v1 = tenon_outline(joint, 0).bounds
    assert (u1 - u0, v1 - v0) == pytest.approx((joint.tenon.size[0], joint.end - joint.start))


def test_what_stands_behind_is_left_out() -> None:
    """A 30 × 10 box behind a 10 × 30 one, both from the floor and in the middle: of its outline of 80 the 10
    of the upper edge lie behind the nearer one, which is whole. What only touches, as on the floor, stays."""
    near, far = shapely.box(10, 0, 20, 30), shapely.box(0, 0, 30, 10)
    first, other = joined._seen([far, near], [1, 0])
    assert other.length == pytest.approx(80.0)
    assert first.length == pytest.approx(80.0 - 10.0, abs=0.5)
    assert not first.intersects(shapely.box(11, 9, 19, 11))
    beside = shapely.box(20, 0, 30, 10)
    assert joined._seen([near, beside], [0, 1])[1].length == pytest.approx(40.0, abs=0.1)
