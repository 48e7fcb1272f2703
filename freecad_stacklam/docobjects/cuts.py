# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack's plan with all that is cut into its layers: mortises first, then voids, then the pins around both.

Each step is kept (plancache), so that ten layers, the pins and the hollow that show the same plan find it once.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.forms.plancache import Same
from freecad_stacklam.docobjects.joint import shown_joint
from freecad_stacklam.docobjects.stack import shown_plan
from freecad_stacklam.lamination.inside.hollow import hollow_stack
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings


def belongs_to(obj: Any, stack: Any) -> bool:
    """Whether pins or a hollow are there, wanted, and made for this stack."""
    return obj is not None and not obj.Suppressed and obj.Stack is not None and obj.Stack.Name == stack.Name


def jointed_plan(stack: Any, joints: Iterable[Any]) -> StackPlan:
    """The stack's plan with the mortises of these joints. Raises Refusal."""
    plan, _ = shown_plan(stack)
    placed = [shown_joint(joint) for joint in joints if not joint.Suppressed]

    def cut() -> StackPlan:
        found = plan
        for joint in placed:
            found = cut_layers(found, joint)
        return found

    return plancache.cut_for(("mortises", Same(plan), *map(Same, placed)), cut) if placed else plan


def hollowed_plan(stack: Any, joints: Iterable[Any], settings: HollowSettings | None) -> StackPlan:
    """The same with voids. Raises Refusal."""
    plan, grain = jointed_plan(stack, joints), stack.Grain.Value
    if settings is None:
        return plan
    mesh = shown_plan(stack)[1].mesh
    key = ("hollow", Same(plan), settings, grain)
    return plancache.cut_for(key, lambda: hollow_stack(plan, mesh, settings, grain))


def pinned_plan(
    stack: Any, joints: Iterable[Any], hollow: HollowSettings | None, pins: PinSettings | None
) -> StackPlan:
    """The same with voids and pins. Raises Refusal."""
    plan = hollowed_plan(stack, joints, hollow)
    if pins is None:
        return plan
    mesh = shown_plan(stack)[1].mesh
    return plancache.cut_for(("pins", Same(plan), pins), lambda: pin_stack(plan, mesh, pins))
