# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Joint object: a mortise and floating tenon between two stacks. It is drawn as its tenon.

A joint depends on its stacks; the layers of those stacks depend on the joint and cut its mortise.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import atan2, degrees, sin
from typing import Any

import FreeCAD
import numpy as np
import Part

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.base.properties import Property, set_result
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.forms.shapes import show, tenon_shape
from freecad_stacklam.docobjects.stack import name_of_stack, shown_plan
from freecad_stacklam.lamination.joints.axis import joint_axis
from freecad_stacklam.lamination.joints.checks import JOINT_COVER
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import ENDS, SECTIONS, Depths, JointSettings

THROUGH = "through"
#: A tenon that was moved by less than this, mm or half radians, was not moved by hand.
_STILL = 1e-7


class Joint(Proxy):
    """A joint between stacks. The name of this class is written in users' files and never changes."""

    KIND = "joint"
    PROPERTIES = (
        Property("LinkListGlobal", "Stacks", "Joint", "The stacks that are joined"),
        Property(
            "StringList",
            "Embed",
            "Joint",
            "How deep the tenon goes into each stack, in their order: a length with its unit, or through; "
            "“Name = 75 mm” names the stack",
        ),
        Property("Bool", "Suppressed", "Joint", "Leave this joint out for now, without deleting it"),
        Property("VectorDistance", "Through", "Axis", "A point on the axis, in the model"),
        Property(
            "LinkSubGlobal", "Anchor", "Axis", "A vertex, circle or face whose middle the axis goes through instead"
        ),
        Property("Vector", "Axis", "Axis", "Direction of the axis, in the model", FreeCAD.Vector(0, 0, 1)),
        Property("Enumeration", "Section", "Tenon", "Shape of the mortise across its axis", list(SECTIONS)),
        Property("Length", "Size", "Tenon", "Side of the mortise, or its diameter", 40.0),
        Property("Length", "Width", "Tenon", "Second side of a rectangular mortise", 40.0),
        Property("Angle", "Turn", "Tenon", "Turn of the section about the axis"),
        Property("Enumeration", "Ends", "Tenon", "How the tenon ends where it comes through", list(ENDS)),
        Property("Length", "Proud", "Tenon", "How far a proud or wedged tenon stands out", 5.0),
        Property("Length", "Clearance", "Tenon", "Room for glue on each face of the tenon", 0.1),
        Property("Length", "EndRoom", "Tenon", "Room beyond the tenon at a stopped end", 2.0),
        Property("String", "Species", "Tenon", "Wood of the tenon; empty: that of the lower stack"),
        Property("Float", "Swing", "Season", "Change of the wood's moisture over the year, % points", 4.0),
        Property("Bool", "OwnRelief", "Season", "Cut the relief given here instead of what the movement calls for"),
        Property("Length", "Relief", "Season", "Relief on each end-grain wall, where given"),
        Property("Length", "ChiselReach", "Bench", "A deeper mortise is cut layer by layer before glue-up", 100.0),
        Property("Placement", "Placed", "Plan", "Where the tenon was placed", result=True, hidden=True),
        Property("Length", "TenonLength", "Plan", "Length of the tenon", result=True),
        Property("Length", "ReliefCut", "Plan", "Relief that is cut on each end-grain wall, at most", result=True),
        Property("Length", "TenonSide", "Plan", "Side of the tenon", result=True),
        Property("Distance", "LeastCover", "Plan", "Least wood from the mortise to the finished surface", result=True),
        Property("VectorDistance", "CoverPlace", "Plan", "Where that is, in the model", result=True),
        Property(
            "String",
            "Verdict",
            "Plan",
            "ok; caution: little wood is left over the mortise; stop: it breaks out; or suppressed",
            result=True,
        ),
    )

    def compute(self, obj: Any) -> None:
        """Place the joint and draw its tenon."""
        if obj.Suppressed:
            obj.Shape = Part.Shape()
            set_result(obj, "Verdict", "suppressed")
            return
        plan = shown_joint(obj)
        shape, placement = tenon_shape(plan)
        set_result(obj, "Placed", placement)
        show(obj, shape, placement)
        place = FreeCAD.Vector(*plan.cover_place)
        for name, value in (
            ("TenonLength", plan.tenon.length),
            ("ReliefCut", max(m.relief for m in plan.members)),
            ("TenonSide", plan.tenon.size[0]),
            ("LeastCover", plan.least_cover),
            ("CoverPlace", place),
            ("Verdict", "stop" if plan.least_cover <= 0 else "ok" if plan.least_cover >= JOINT_COVER else "caution"),
        ):
            set_result(obj, name, value)

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened. Files of 0.1 do not say where the tenon was placed."""
        known = "Placed" in obj.PropertiesList
        super().onDocumentRestored(obj)
        if not known:
            obj.Placed = obj.Placement

    def onChanged(self, obj: Any, name: str) -> None:
        """Called by FreeCAD when a property changes. A tenon that is dragged or turned by hand takes its axis along."""
        if name != "Placement" or "Placed" not in obj.PropertiesList:
            return
        document = obj.Document
        if document.Restoring or document.Transacting or obj.Shape.isNull():
            return
        motion = obj.Placement.multiply(obj.Placed.inverse())
        if motion.Base.Length > _STILL or abs(sin(motion.Rotation.Angle / 2)) > _STILL:
            _drag(obj, motion)


def _drag(joint: Any, motion: Any) -> None:
    """Move a joint's axis by a placement, and let go of its anchor."""
    at = anchored(joint) or tuple(joint.Through)
    before = joint_axis(at, tuple(joint.Axis), joint.Turn.Value)
    point, along = motion.multVec(FreeCAD.Vector(*at)), motion.Rotation.multVec(joint.Axis)
    side = np.array(motion.Rotation.multVec(FreeCAD.Vector(*before.side)))
    after = joint_axis(tuple(point), tuple(along))
    joint.Placed = joint.Placement
    if joint.Anchor is not None:
        joint.Anchor = None
    joint.Through, joint.Axis = point, along
    joint.Turn = degrees(atan2(float(side @ after.other), float(side @ after.side)))


# --- reading a joint ----------------------------------------------------------------------------------------------


def settings_of_joint(joint: Any) -> JointSettings:
    """What the maker chose, the stacks by their pieces' names. Raises Refusal when a value cannot be."""
    return JointSettings(
        name=joint.Label,
        through=anchored(joint) or (joint.Through.x, joint.Through.y, joint.Through.z),
        axis=(joint.Axis.x, joint.Axis.y, joint.Axis.z),
        section=joint.Section,
        size=(joint.Size.Value, joint.Width.Value)[: SECTIONS[joint.Section]],
        turn=joint.Turn.Value,
        embed=_depths(joint),
        clearance=joint.Clearance.Value,
        end_room=joint.EndRoom.Value,
        ends=joint.Ends,
        proud=joint.Proud.Value,
        swing=joint.Swing,
        relief=joint.Relief.Value if joint.OwnRelief else None,
        chisel_reach=joint.ChiselReach.Value,
        species=joint.Species,
    )


def anchored(joint: Any) -> tuple[float, float, float] | None:
    """The middle of what the joint is anchored to, in the model; None without an anchor. It follows when that moves."""
    if joint.Anchor is None:
        return None
    target, elements = joint.Anchor
    shape = target.getSubObject(elements[0]) if elements and elements[0] else getattr(target, "Shape", None)
    if shape is None or shape.isNull():
        raise Refusal(f"What joint “{joint.Label}” was anchored to is gone: pick a vertex, circle or face again.")
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


def _depths(joint: Any) -> Depths:
    names = [name_of_stack(s) for s in joint.Stacks]
    if len(names) < 2:
        raise Refusal(f"Joint “{joint.Label}” has lost a stack: choose the stacks it joins, or delete it.")
    lines = [line.strip() for line in joint.Embed if line.strip()]
    if len(lines) != len(names):
        raise Refusal(
            f"Joint “{joint.Label}” joins {len(names)} stacks but gives {len(lines)} depths: give one for each stack, "
            "such as 75 mm, or through."
        )
    depths: dict[str, float | None] = {}
    for name, line in zip(names, lines):
        owner, equals, text = line.rpartition("=")
        owner = owner.strip() if equals else name
        if owner not in names:
            raise Refusal(
                f"Joint “{joint.Label}” gives a depth for “{owner}”, which it does not join: "
                f"its stacks are {', '.join(names)}."
            )
        text = text.strip()
        depths[owner] = None if text.lower() == THROUGH else parse_length(text)
    if len(depths) != len(names):
        raise Refusal(f"Joint “{joint.Label}” gives two depths for one stack: give one for each of {', '.join(names)}.")
    return tuple((name, depths[name]) for name in names)


def shown_joint(joint: Any) -> JointPlan:
    """The joint between its stacks as they are shown. Raises Refusal."""
    settings = settings_of_joint(joint)
    if any("Invalid" in s.State for s in joint.Stacks):
        raise Refusal(f"Joint “{joint.Label}” waits for its stacks: mend those first.")
    return _placed(joint.Stacks, settings)


def _placed(of_stacks: Sequence[Any], settings: JointSettings) -> JointPlan:
    shown = [shown_plan(s) for s in of_stacks]
    key = (repr(settings), *(plancache.Same(plan) for plan, _ in shown))
    stacks = {plan.name: plan for plan, _ in shown}
    meshes = {form.name: form.mesh for _, form in shown}
    return plancache.joint_for(key, lambda: place_joint(settings, stacks, meshes, species_table()))


# --- making and changing ------------------------------------------------------------------------------------------


def make_joint(document: Any, stacks: Sequence[Any], settings: JointSettings) -> Any:
    """A new joint between `stacks`, with its mortises cut. Part of the caller's undo step if one is open.

    settings.embed: by the pieces' names. Raises Refusal before anything was made.
    """
    _placed(stacks, settings)
    joint = document.addObject("Part::FeaturePython", "Joint")
    Joint(joint)
    joint.Label = settings.name
    _fill(joint, stacks, settings)
    joint.recompute()
    joint.purgeTouched()
    for stack in stacks:
        watcher.match_layers(stack)
    return joint


def change_joint(joint: Any, settings: JointSettings) -> None:
    """Give a joint other settings; its layers follow. Raises Refusal before anything was changed."""
    _placed(joint.Stacks, settings)
    if settings.name:
        joint.Label = settings.name
    _fill(joint, joint.Stacks, settings)
    joint.Document.recompute()


def _fill(joint: Any, stacks: Sequence[Any], settings: JointSettings) -> None:
    by_name: Mapping[str, Any] = {name_of_stack(s): s for s in stacks}
    chosen = [by_name[name] for name in settings.stacks]
    joint.Stacks = chosen
    joint.Embed = [THROUGH if depth is None else f"{depth:.12g} mm" for _, depth in settings.embed]
    joint.Through = FreeCAD.Vector(*settings.through)
    joint.Axis = FreeCAD.Vector(*settings.axis)
    joint.Section = settings.section
    joint.Size = settings.size[0]
    joint.Width = settings.size[-1]
    joint.Turn = settings.turn
    joint.Ends = settings.ends
    joint.Proud = settings.proud
    joint.Swing = settings.swing
    joint.OwnRelief = settings.relief is not None
    joint.Relief = settings.relief or 0.0
    joint.ChiselReach = settings.chisel_reach
    joint.Clearance = settings.clearance
    joint.EndRoom = settings.end_room
    joint.Species = settings.species
