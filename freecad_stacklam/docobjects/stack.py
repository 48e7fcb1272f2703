# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Stack object: a form and how it is piled up. Its layers are children of their own (layer.py).

A stack draws nothing itself: what is seen are its layers, so nothing is drawn twice. It depends on its form only; the
layers depend on the stack. `Layers` and `Insides` are hidden kinds of links that take no part in the order of
recomputing, because the tree needs the way down and the recompute the way up.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.properties import Property, set_results
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.base.woods import offer_woods, with_woods
from freecad_stacklam.docobjects.reading.stacks import FOLLOWS, PICKS, plan_anew
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import area
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE
from freecad_stacklam.lamination.words import mark


class Stack(Proxy):
    """One form as a stack of layers. The name of this class is written in users' files and never changes."""

    KIND = "stack"
    PROPERTIES = (
        Property("LinkGlobal", "Form", "Form", mark("The solid or closed mesh that is carved from this stack")),
        Property("String", "FormPath", "Form", mark("Path to the form inside an assembly or link"), hidden=True),
        Property("String", "Solid", "Form", mark("Which solid of the form, by its label, where it has several")),
        Property("String", "Piece", "Form", mark("Name of the piece on drawings and in the bill")),
        Property("Length", "Stock", "Boards", mark("Thickness of the boards as they leave the planer"), 45.0),
        Property(
            "StringList",
            "MoreStock",
            "Boards",
            mark("Other planed thicknesses at hand, with units: layers may be of any"),
        ),
        Property(
            "Enumeration",
            "Pick",
            "Boards",
            "counted: layers of the stock thickness from the bottom up, or, with several, the least wood; least wood: "
            "glue lines where they save most; fewest layers",
            list(PICKS),
        ),
        Property(
            "StringList",
            "PlanedThicknesses",
            "Boards",
            mark("Thicknesses measured on your own boards, with units, from the bottom: they win over the stock"),
        ),
        Property(
            "StringList",
            "ForcedPlanes",
            "Piling",
            mark("Heights in the form at which a glue line must lie, with units"),
        ),
        Property(
            "StringList",
            "ForbiddenZones",
            "Piling",
            mark("Heights between which no glue line may lie, such as 120 mm to 150 mm"),
        ),
        Property(
            "StringList",
            "WasteTabs",
            "Piling",
            "Waste left on blanks for clamps and sawn off after gluing, such as layers 3-5; direction 45deg; width "
            "60 mm; out 50 mm",
        ),
        *with_woods(properties_of(StackSettings)),
        Property(
            "Enumeration",
            "AxisFollows",
            "Piling",
            "What the axis turns with: nothing, it stays as it is in the model; the form, in whose own x, y and z it "
            "is then given; or a face or edge",
            list(FOLLOWS),
        ),
        Property("LinkSubGlobal", "AxisFrom", "Piling", mark("The face or edge whose direction the axis follows")),
        Property("Bool", "AxisAgainst", "Piling", mark("The axis runs against the direction of that face or edge")),
        Property("Integer", "LayerCount", "Plan", mark("Number of layers"), result=True),
        Property("Length", "StackHeight", "Plan", mark("Height of the glued stack"), result=True),
        Property("Volume", "FormVolume", "Plan", mark("Volume of the finished form"), result=True),
        Property("Volume", "WoodVolume", "Plan", mark("Volume of all blanks"), result=True),
        Property("Volume", "CarvedVolume", "Plan", mark("Wood to carve away, waste tabs sawn off"), result=True),
        Property("Distance", "LeastCover", "Plan", mark("Least distance from the form to a blank's wall"), result=True),
        Property(
            "Distance", "WoodLeft", "Plan", mark("Least wood square to the surface, under walls and steps"), result=True
        ),
        Property("VectorDistance", "CoverPlace", "Plan", mark("Where that is, in the model"), result=True),
        Property(
            "String", "CoverVerdict", "Plan", mark("ok, or caution: less wood is left than asked for"), result=True
        ),
        Property(
            "VectorList",
            "ThinRims",
            "Plan",
            mark(
                "The rims of the step faces over which less wood is left than asked for: lines in the "
                "model, two ends each"
            ),
            result=True,
            hidden=True,
        ),
        Property(
            "String",
            "Verdict",
            "Plan",
            mark("ok: the form is proven to lie inside its blanks; stop: it is not, or it cannot be planned"),
            result=True,
        ),
        Property(
            "StringList", "Notes", "Plan", mark("What was mended or left out when the form was read"), result=True
        ),
        Property("LinkListHidden", "Layers", "Plan", mark("The layers, from the bottom"), result=True, hidden=True),
        Property(
            "LinkListHidden", "Insides", "Plan", mark("Its hollow, pins and glue lines"), result=True, hidden=True
        ),
    )

    def __init__(self, obj: StackObject) -> None:
        super().__init__(obj)
        offer_woods(obj)

    def onDocumentRestored(self, obj: StackObject) -> None:
        """Called by FreeCAD when a file was opened."""
        super().onDocumentRestored(obj)
        offer_woods(obj)

    def compute(self, obj: StackObject) -> None:
        """Plan the stack and write its figures; of a stack that cannot be planned its verdict says so."""
        try:
            plan, _ = plan_anew(obj)
        except Refusal as refusal:
            set_results(obj, {"Verdict": "stop", "Notes": [refusal.told(units_in(obj.Document))]})
            raise
        wood = sum(layer.blank_volume for layer in plan.layers)
        # Waste tabs are sawn off before anything is carved.
        bare = sum(sum(map(area, layer.without_tabs)) * layer.thickness for layer in plan.layers)
        set_results(
            obj,
            {
                "LayerCount": len(plan.layers),
                "StackHeight": plan.height,
                "FormVolume": plan.form.volume,
                "WoodVolume": wood,
                "CarvedVolume": bare - plan.form.volume,
                "LeastCover": plan.containment.least_cover,
                **_wood_left(plan),
                "Verdict": "ok" if plan.containment.proven else "stop",
                "Notes": list(plan.form.notes),
            },
        )


def _wood_left(plan: StackPlan) -> dict[str, Any]:
    """The least wood and its place in the model; nothing of a plan where it was not measured."""
    least = plan.containment.least_wood
    if least is None:
        return {"WoodLeft": 0.0, "CoverPlace": FreeCAD.Vector(), "CoverVerdict": "", "ThinRims": []}
    (place,) = to_model(plan.frame, np.array([least.place])).tolist()
    verdict = "caution" if least.distance < least.asked else "ok"
    return {
        "WoodLeft": least.distance,
        "CoverPlace": FreeCAD.Vector(*place),
        "CoverVerdict": verdict,
        "ThinRims": [FreeCAD.Vector(*end) for end in thin_rims(plan).tolist()],
    }


def thin_rims(plan: StackPlan) -> NDArray[np.float64]:
    """The rims of the plan's thin zones on the step faces, in the model: (2n, 3), mm, two rows a line; none, (0, 3)."""
    ends = [np.zeros((0, 3))]
    for layer in plan.layers:
        for zone in layer.thin:
            height = layer.top if zone.side > 0 else layer.bottom
            for part in shapely.get_parts(zone.area.simplify(FIT_TOLERANCE)):
                for ring in (part.exterior, *part.interiors):
                    flat = shapely.get_coordinates(ring)
                    points = np.column_stack([flat, np.full(len(flat), height)])
                    ends.append(np.stack([points[:-1], points[1:]], axis=1).reshape(-1, 3))
    return to_model(plan.frame, np.concatenate(ends))
