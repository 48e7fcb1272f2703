# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Joint object: a mortise and floating tenon between two stacks. It is drawn as its tenon.

A joint depends on its stacks; the layers of those stacks depend on the joint and cut its mortise.
"""

from __future__ import annotations

from math import atan2, degrees, sin
from typing import Any

import FreeCAD
import numpy as np
import Part

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import JointObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.woods import offer_woods, with_woods
from freecad_stacklam.docobjects.forms.shapes import show, tenon_shape
from freecad_stacklam.docobjects.reading.joints import anchored, shown_joint
from freecad_stacklam.lamination.joints.checks import JOINT_COVER
from freecad_stacklam.lamination.plan.jointaxis import joint_axis
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.tolerances import STILL
from freecad_stacklam.lamination.words import mark


class Joint(Proxy):
    """A joint between stacks. The name of this class is written in users' files and never changes."""

    KIND = "joint"
    PROPERTIES = (
        Property("LinkListGlobal", "Stacks", "Joint", mark("The stacks that are joined")),
        Property(
            "StringList",
            "Embed",
            "Joint",
            "How deep the tenon goes into each stack, in their order: a length with its unit, or through; "
            "“Name = 75 mm” names the stack",
        ),
        Property("Bool", "Suppressed", "Joint", mark("Leave this joint out for now, without deleting it")),
        Property("VectorDistance", "Through", "Axis", mark("A point on the axis, in the model")),
        Property(
            "LinkSubGlobal",
            "Anchor",
            "Axis",
            mark("A vertex, circle or face whose middle the axis goes through instead"),
        ),
        Property("Length", "Size", "Tenon", mark("Side of the mortise, or its diameter"), 40.0),
        Property("Length", "Width", "Tenon", mark("Second side of a rectangular mortise"), 40.0),
        Property(
            "Bool", "OwnRelief", "Season", mark("Cut the relief given here instead of what the movement calls for")
        ),
        Property("Length", "Relief", "Season", mark("Relief on each end-grain wall, where given")),
        *with_woods(properties_of(JointSettings)),
        Property("Placement", "Placed", "Plan", mark("Where the tenon was placed"), result=True, hidden=True),
        Property("Length", "TenonLength", "Plan", mark("Length of the tenon"), result=True),
        Property(
            "Length", "ReliefCut", "Plan", mark("Relief that is cut on each end-grain wall, at most"), result=True
        ),
        Property("Length", "TenonSide", "Plan", mark("Side of the tenon"), result=True),
        Property(
            "Distance", "LeastCover", "Plan", mark("Least wood from the mortise to the finished surface"), result=True
        ),
        Property("VectorDistance", "CoverPlace", "Plan", mark("Where that is, in the model"), result=True),
        Property(
            "String",
            "Verdict",
            "Plan",
            mark("ok; caution: little wood is left over the mortise; stop: it breaks out; or suppressed"),
            result=True,
        ),
    )

    def __init__(self, obj: JointObject) -> None:
        super().__init__(obj)
        offer_woods(obj)

    def compute(self, obj: JointObject) -> None:
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
        set_results(
            obj,
            {
                "TenonLength": plan.tenon.length,
                "ReliefCut": max(m.relief for m in plan.members),
                "TenonSide": plan.tenon.size[0],
                "LeastCover": plan.least_cover,
                "CoverPlace": place,
                "Verdict": "stop" if plan.least_cover <= 0 else "ok" if plan.least_cover >= JOINT_COVER else "caution",
            },
        )

    def onDocumentRestored(self, obj: JointObject) -> None:
        """Called by FreeCAD when a file was opened. Files of 0.1 do not say where the tenon was placed."""
        known = "Placed" in obj.PropertiesList
        super().onDocumentRestored(obj)
        offer_woods(obj)
        if not known:
            obj.Placed = obj.Placement

    def onChanged(self, obj: JointObject, name: str) -> None:
        """Called by FreeCAD when a property changes. A tenon that is dragged or turned by hand takes its axis along."""
        if name != "Placement" or "Placed" not in obj.PropertiesList:
            return
        document = obj.Document
        if document.Restoring or document.Transacting or obj.Shape.isNull():
            return
        motion = obj.Placement.multiply(obj.Placed.inverse())
        if motion.Base.Length > STILL or abs(sin(motion.Rotation.Angle / 2)) > STILL:
            _drag(obj, motion)


def _drag(joint: JointObject, motion: Any) -> None:
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
