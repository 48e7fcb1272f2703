# SPDX-License-Identifier: LGPL-2.1-or-later

"""Making a joint between stacks, and changing one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import Document, JointObject, StackObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.base.woods import AS_STACK
from freecad_stacklam.docobjects.joint import Joint
from freecad_stacklam.docobjects.making.layers import match_layers
from freecad_stacklam.docobjects.reading.joints import THROUGH, placed_joint
from freecad_stacklam.lamination.settings.joint import JointSettings


def make_joint(document: Document, stacks: Sequence[StackObject], settings: JointSettings) -> JointObject:
    """A new joint between `stacks`, with its mortises cut. Part of the caller's undo step if one is open.

    settings.embed: by the pieces' names. Raises Refusal before anything was made.
    """
    placed_joint(stacks, settings)
    joint = document.addObject("Part::FeaturePython", "Joint")
    Joint(joint)
    joint.Label = settings.name
    _fill(joint, stacks, settings)
    joint.recompute()
    joint.purgeTouched()
    for stack in stacks:
        match_layers(stack)
    return joint


def change_joint(joint: JointObject, settings: JointSettings) -> None:
    """Give a joint other settings; its layers follow. Raises Refusal before anything was changed."""
    placed_joint(joint.Stacks, settings)
    if settings.name:
        joint.Label = settings.name
    _fill(joint, joint.Stacks, settings)
    joint.Document.recompute()


def _fill(joint: JointObject, stacks: Sequence[StackObject], settings: JointSettings) -> None:
    by_name: Mapping[str, Any] = {name_of_stack(s): s for s in stacks}
    chosen = [by_name[name] for name in settings.stacks]
    joint.Stacks = chosen
    joint.Embed = [THROUGH if depth is None else f"{depth:.12g} mm" for _, depth in settings.embed]
    joint.Through = FreeCAD.Vector(*settings.through)
    joint.Size = settings.size[0]
    joint.Width = settings.size[-1]
    joint.OwnRelief = settings.relief is not None
    joint.Relief = settings.relief or 0.0
    fill(joint, replace(settings, species=settings.species or AS_STACK))
