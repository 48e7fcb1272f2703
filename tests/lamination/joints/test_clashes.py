# SPDX-License-Identifier: LGPL-2.1-or-later

"""Joints that collide are reported with the layer and the wood between them."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.joints.clashes import clashes_in
from freecad_stacklam.lamination.plan.areas import cut_plan
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import Bit, ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

MESHES = {"Low": solids.box(300, 200, 90, (-150, -100, -90)), "High": solids.box(300, 200, 90, (-150, -100, 0))}


def planned(*joints: JointSettings):
    stacks = tuple(StackSettings(form=n, stock=(45.0,)) for n in MESHES)
    return plan_job([Form(n, m) for n, m in MESHES.items()], Settings(stacks=stacks, joints=joints), species_table())


def pointed(kind: str):
    """A mortise Ø 40 whose bottom lies 8 mm over a glue line, and voids in the layers under that."""
    mesh = {"Low": solids.box(300, 200, 180, (-150, -100, -180)), "High": MESHES["High"]}
    stacks = (
        StackSettings(
            form="Low", stock=(45.0,), hollow=HollowSettings(wall=30.0, caps=1, margin=3.0, least=500.0, turn=4.0),
            pins=PinSettings(diameter=8.0, margin=4.0, depth=10.0),
        ),
        StackSettings(form="High", stock=(45.0,)),
    )  # fmt: skip
    hole = JointSettings("hole", section="round", size=(40.0,), embed=(("Low", 35.0), ("High", 40.0)), relief=0.0)
    settings = Settings(stacks=stacks, joints=(hole,), shop=ShopSettings(bits=(Bit(40.0, kind=kind),)))
    return plan_job([Form(n, m) for n, m in mesh.items()], settings, species_table())


def test_voids_and_pins_keep_clear_of_the_point_of_the_bit_too():
    """The mortise ends 37 mm deep, 8 mm over the layer with the void; a twist bit's point leads by 0.3 · 40 = 12 mm and
    comes out of it by 4, a rim bit's does not. Only the first takes wood from the void."""
    for kind, left in (("twist", True), ("rim", False)):
        low = pointed(kind).stacks[0]
        voids = shapely.union_all([cut_plan(c) for c in low.layers[2].cuts if c.kind == "hollow"])
        (mortise,) = [c for layer in low.layers for c in layer.cuts if c.kind == "mortise"]
        assert mortise.lowest == pytest.approx(143.0 - (12.0 if left else mortise.point_down), abs=0.1)
        assert voids.disjoint(shapely.Point(0, 0).buffer(22.9)) == left
        assert not clashes_in(low, 3.0)


def test_a_pin_set_by_hand_into_the_point_of_a_mortise_is_refused():
    """The mortise ends at 180 − 32 = 148 mm and its twist bit's tip at 136; the pin at the glue line at 135 goes 8 mm
    up and its own point 4 more, to 147."""
    mesh = {"Low": solids.box(300, 200, 180, (-150, -100, -180)), "High": MESHES["High"]}
    hole = JointSettings("hole", section="round", size=(40.0,), embed=(("Low", 30.0), ("High", 40.0)), relief=0.0)
    pins = PinSettings(diameter=8.0, depth=8.0, at=((3.0, 0.0, 0.0), (3.0, 60.0, 20.0)), skip=(1, 2))
    stacks = (StackSettings(form="Low", stock=(45.0,), pins=pins), StackSettings(form="High", stock=(45.0,)))
    for kind in ("twist", "rim"):
        shop = ShopSettings(bits=(Bit(40.0, kind=kind, point=12.0 if kind == "twist" else 0.1),))
        asked = Settings(stacks=stacks, joints=(hole,), shop=shop)
        forms = [Form(n, m) for n, m in mesh.items()]
        low = plan_job(forms, asked, species_table()).stacks[0]
        said = [left.says for left in low.left_out]
        if kind == "twist":
            assert len(said) == 1 and "bored into the mortise of “hole”" in said[0]
        else:
            assert not said and low.pins


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
