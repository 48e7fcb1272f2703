# SPDX-License-Identifier: LGPL-2.1-or-later

"""Joints that collide are reported with the layer and the wood between them."""

from __future__ import annotations

import numpy as np
import pytest
import solids
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.joints.clashes import clashes_in
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

MESHES = {"Low": solids.box(300, 200, 90, (-150, -100, -90)), "High": solids.box(300, 200, 90, (-150, -100, 0))}


def planned(*joints: JointSettings):
    stacks = tuple(StackSettings(form=n, stock=(45.0,)) for n in MESHES)
    return plan_job([Form(n, m) for n, m in MESHES.items()], Settings(stacks=stacks, joints=joints), species_table())


def joint(name, x, size=30.0, **changes):
    return JointSettings(
        name, through=(x, 0, 0), size=(size,), embed=(("Low", 40.0), ("High", 40.0)), relief=0.0, **changes
    )


def test_joints_far_apart_are_not_mentioned():
    plan = planned(joint("left", -40), joint("right", 40))
    assert plan.proven
    assert not any("left" in c.name and "right" in c.name for c in plan.checks)


def test_joints_that_meet_stop_the_plan():
    plan = planned(joint("left", -10), joint("right", 10))
    found = [c for c in plan.checks if "left" in c.name and "right" in c.name]
    assert [c.verdict for c in found] == ["stop", "stop"]
    assert not plan.proven


def test_joints_that_are_near_get_a_caution_with_the_exact_distance():
    plan = planned(joint("left", -18), joint("right", 18))
    found = [c for c in plan.checks if "left" in c.name and "right" in c.name]
    assert [c.verdict for c in found] == ["caution", "caution"]
    assert [c.figure for c in found] == pytest.approx([6.0, 6.0])  # 36 − 30
    assert {c.layer for s in plan.stacks for c in clashes_in(s)} == {1, 2}


def test_crossing_axes_are_found_in_the_layer_where_they_cross():
    lean = np.tan(np.radians(30))
    # one leans towards the other and meets it below the seam
    plan = planned(joint("left", -30, 16.0, axis=(-lean, 0, 1)), joint("right", 10, 16.0, axis=(lean, 0, 1)))
    low = clashes_in(plan.stacks[0], 10.0)
    assert len(low) == 1
    assert low[0].apart < 10.0
