# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint's settings from its properties, and where it runs between its stacks as they are shown."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.docobjects.base.family import name_of_stack, shop_in
from freecad_stacklam.docobjects.base.protocols import JointObject, StackObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.base.woods import AS_STACK, woods_in
from freecad_stacklam.docobjects.reading import steps
from freecad_stacklam.docobjects.reading.stacks import shown_plan
from freecad_stacklam.docobjects.reading.wood import settings_of_shop
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import SECTIONS, Depths, JointSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.objectkinds import kind_of

THROUGH = "through"


def settings_of_joint(joint: JointObject) -> JointSettings:
    """What the maker chose, the stacks by their pieces' names. Raises Refusal when a value cannot be."""
    held = read(joint, JointSettings)
    held["species"] = "" if held["species"] == AS_STACK else held["species"]
    return JointSettings(
        name=joint.Label,
        through=anchored(joint) or (joint.Through.x, joint.Through.y, joint.Through.z),
        size=(joint.Size.Value, joint.Width.Value)[: SECTIONS[joint.Section]],
        embed=_depths(joint),
        relief=joint.Relief.Value if joint.OwnRelief else None,
        **held,
    )


def anchored(joint: JointObject) -> tuple[float, float, float] | None:
    """The middle of what the joint is anchored to, in the model; None without an anchor. It follows when that moves."""
    if joint.Anchor is None:
        return None
    target, elements = joint.Anchor
    shape = target.getSubObject(elements[0]) if elements and elements[0] else getattr(target, "Shape", None)
    if shape is None or shape.isNull():
        raise Refusal(
            say("What joint “{label}” was anchored to is gone: pick a vertex, circle or face again.", label=joint.Label)
        )
    if shape.ShapeType == "Vertex":
        point = shape.Point
    elif shape.ShapeType == "Edge" and hasattr(shape.Curve, "Center"):
        point = shape.Curve.Center
    else:
        point = shape.CenterOfMass
    parent = target.getParentGeoFeatureGroup()
    if parent is not None:
        point = parent.getGlobalPlacement().multVec(point)
    return point.x, point.y, point.z


def _depths(joint: JointObject) -> Depths:
    for other in joint.Stacks:
        if kind_of(other) != "stack":
            raise Refusal(
                say(
                    "Joint “{label}” cannot join “{other}”, which is no stack: choose stacks.",
                    label=joint.Label,
                    other=other.Label,
                )
            )
    names = [name_of_stack(s) for s in joint.Stacks]
    if len(names) < 2:
        raise Refusal(
            say("Joint “{label}” has lost a stack: choose the stacks it joins, or delete it.", label=joint.Label)
        )
    lines = [line.strip() for line in joint.Embed if line.strip()]
    if len(lines) != len(names):
        raise Refusal(
            say(
                "Joint “{label}” joins {stacks} stacks but gives {depths} depths: give one for each "
                "stack, such as 75 mm, or through.",
                label=joint.Label,
                stacks=len(names),
                depths=len(lines),
            )
        )
    depths: dict[str, float | None] = {}
    for name, line in zip(names, lines):
        owner, equals, text = line.rpartition("=")
        owner = owner.strip() if equals else name
        if owner not in names:
            raise Refusal(
                say(
                    "Joint “{label}” gives a depth for “{owner}”, which it does not join: its stacks are {list}.",
                    label=joint.Label,
                    owner=owner,
                    list=", ".join(names),
                )
            )
        text = text.strip()
        depths[owner] = None if text.lower() == THROUGH else parse_length(text)
    if len(depths) != len(names):
        raise Refusal(
            say(
                "Joint “{label}” gives two depths for one stack: give one for each of {list}.",
                label=joint.Label,
                list=", ".join(names),
            )
        )
    return tuple((name, depths[name]) for name in names)


def shown_joint(joint: JointObject) -> JointPlan:
    """The joint between its stacks as they are shown. Raises Refusal."""
    settings = settings_of_joint(joint)
    if any("Invalid" in s.State for s in joint.Stacks):
        raise Refusal(say("Joint “{label}” waits for its stacks: mend those first.", label=joint.Label))
    return placed_joint(joint.Stacks, settings)


def placed_joint(of_stacks: Sequence[StackObject], settings: JointSettings) -> JointPlan:
    """A joint of these settings between these stacks as they are shown, bored with the bits and the drill press of the
    document's shop, or with those that shops working in the document's units keep. Raises Refusal."""
    shown = [shown_plan(s) for s in of_stacks]
    document = of_stacks[0].Document
    shop, units = settings_of_shop(shop_in(document)), units_in(document)
    stacks = {plan.name: plan for plan, _ in shown}
    meshes = {form.name: form.mesh for _, form in shown}
    return steps.placed(settings, stacks, meshes, woods_in(document), shop.bits, units, shop.drill_stroke)
