# SPDX-License-Identifier: LGPL-2.1-or-later

"""The steps from a stack to its finished plan, each made once for what it is made of.

Ten layers, the pins, the hollow and the whole job show the same plan. A step is made anew when what goes into it
changed: a joint that cuts a stack as it did before leaves that stack, its voids and its pins as they are.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.forms.plancache import Same
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.inside.hollow import hollow_stack
from freecad_stacklam.lamination.inside.pins import finish_stack, pin_stack
from freecad_stacklam.lamination.job.assembly import Steps
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import Species


def placed(
    settings: JointSettings,
    stacks: Mapping[str, StackPlan],
    meshes: Mapping[str, Mesh],
    table: Mapping[str, Species],
    bits: Sequence[Bit],
    units: str,
    stroke: float | None,
) -> JointPlan:
    """See place_joint."""
    joined = [Same(stacks.get(name)) for name in settings.stacks]
    key = (settings, Same(table), tuple(bits), units, stroke, *joined)
    return plancache.joint_for(key, lambda: place_joint(settings, stacks, meshes, table, bits, units, stroke))


def cut(stack: StackPlan, joint: JointPlan) -> StackPlan:
    """See cut_layers. One and the same plan for all joints that cut it alike."""

    def made() -> StackPlan:
        found = cut_layers(stack, joint)
        return plancache.cut_for(("cuts", Same(stack), tuple(layer.cuts for layer in found.layers)), lambda: found)

    return plancache.cut_for(("mortise", Same(stack), Same(joint)), made)


def hollowed(stack: StackPlan, mesh: Mesh, settings: HollowSettings, grain: float, units: str) -> StackPlan:
    """See hollow_stack."""
    key = ("hollow", Same(stack), settings, grain, units)
    return plancache.cut_for(key, lambda: hollow_stack(stack, mesh, settings, grain, units))


def pinned(stack: StackPlan, mesh: Mesh, settings: PinSettings, bits: Sequence[Bit]) -> StackPlan:
    """See pin_stack."""
    key = ("pins", Same(stack), settings, tuple(bits))
    return plancache.cut_for(key, lambda: pin_stack(stack, mesh, settings, bits))


def finished(stack: StackPlan, mesh: Mesh, settings: StackSettings, bits: Sequence[Bit], units: str) -> StackPlan:
    """See finish_stack."""
    return finish_stack(stack, mesh, settings, bits, units, hollowed, pinned)


#: The same for a whole job.
KEPT = Steps(placed, cut, finished)
