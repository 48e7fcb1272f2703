# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Carving object: what the maker wants as a guide for carving, its depth holes drawn where they are bored.

There is one for all stacks of a document. It depends on all that is cut into them, and on the seams of their staves;
the observer keeps it in step, so it needs no links.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import numpy as np
import Part

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import CarvingObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.forms.shapes import show
from freecad_stacklam.docobjects.reading.guide import Guide, guide_for, guide_key, settings_of_carving
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.plan.carving import Bit, DepthHole, DepthMap
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.carvingwords import hour_text
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say


class Carving(Proxy):
    """The carving guide of a document. The name of this class is written in users' files and never changes."""

    KIND = "carving"
    PROPERTIES = (
        Property("Bool", "Suppressed", "Guide", mark("Leave the guide out for now, without deleting it")),
        Property(
            "StringList", "DepthHoles", "Depth holes",
            mark("Faces that are bored: top, bottom or both for every stack, or “Name = top” for one; empty: none"),
        ),
        Property("Bool", "OwnPoint", "Depth holes", mark("The length of the point was measured and is given below")),
        Property(
            "Length", "PointLength", "Depth holes",
            mark("How far the bit's point leads its full width, as measured"),
        ),
        Property(
            "StringList", "Planes", "Templates",
            mark("Other planes, in the model: “Name: x y z; normal nx ny nz”, x y z being a point, with units"),
        ),
        *properties_of(CarvingSettings),
        Property("Integer", "HoleCount", "Plan", mark("Depth holes to bore"), result=True),
        Property("Integer", "StopCount", "Plan", mark("How often the drill stop is set"), result=True),
        Property("Length", "Deepest", "Plan", mark("Depth of the deepest hole, to the bit's tip"), result=True),
        Property("Length", "Shallowest", "Plan", mark("Depth of the shallowest hole"), result=True),
        Property("Volume", "ToCarve", "Plan", mark("Wood to carve away, one of each stack"), result=True),
        Property("String", "Hours", "Plan", mark("Hours of carving at your own rate"), result=True),
        Property("StringList", "Stops", "Plan", mark("The settings of the drill stop"), result=True),
        Property("StringList", "LeftOut", "Plan", mark("Places of the grid that are not bored, and why"), result=True),
        Property("String", "Verdict", "Plan", mark("ok or suppressed"), result=True),
        Property("String", "ShownFor", "Plan", mark("What these figures were made for"), result=True, hidden=True),
    )  # fmt: skip

    def compute(self, obj: CarvingObject) -> None:
        """Find the depth holes, draw them, and write the figures."""
        if obj.Suppressed:
            show(obj, Part.Shape(), FreeCAD.Placement())
            _show_figures(obj, Guide((), ()), "suppressed", "suppressed")
            return
        set_result(obj, "ShownFor", "")
        settings = settings_of_carving(obj)
        stacks = finished_stacks(obj.Document)
        guide = guide_for(obj.Document, stacks, settings)
        show(obj, hole_shape(stacks, guide.maps), FreeCAD.Placement())
        _show_figures(obj, guide, "ok", guide_key(obj.Document, stacks, settings))


def _show_figures(obj: CarvingObject, guide: Guide, verdict: str, key: str) -> None:
    depths, units = [h.depth for h in guide.holes], units_in(obj.Document)
    set_results(
        obj,
        {
            "HoleCount": len(depths),
            "StopCount": guide.stops,
            "Deepest": max(depths, default=0.0),
            "Shallowest": min(depths, default=0.0),
            "ToCarve": guide.volume,
            "Hours": hour_text(guide.hours),
            "Stops": [
                say(
                    "{stack}, {face}: {depth}, {count} holes",
                    stack=s.stack,
                    face=s.face,
                    depth=format_length(s.depth, units),
                    count=s.count,
                )
                for m in guide.maps
                for s in m.stops
            ],
            "LeftOut": guide.left_out(),
            "Verdict": verdict,
            "ShownFor": key,
        },
    )


def hole_shape(stacks: list[StackPlan], maps: tuple[DepthMap, ...]) -> Any:
    """Every depth hole as a solid in the model, with the point that its bit leaves; a null shape without holes."""
    frames = {s.name: s.frame for s in stacks}
    solids = [solid for m in maps for hole in m.holes for solid in _solids(hole, m.bit, frames[m.stack])]
    return Part.Compound(solids) if solids else Part.Shape()


def _solids(hole: DepthHole, bit: Bit, frame: tuple[float, ...]) -> list[Any]:
    into = 1.0 if hole.face == "bottom" else -1.0
    full = hole.depth - bit.point
    ends = np.array([(hole.x, hole.y, hole.surface), (hole.x, hole.y, hole.surface + into * full)])
    mouth, rim = (FreeCAD.Vector(*p) for p in to_model(frame, ends).tolist())
    tip = FreeCAD.Vector(*to_model(frame, np.array([(hole.x, hole.y, hole.tip)]))[0].tolist())
    along = tip - mouth
    body = Part.makeCylinder(bit.diameter / 2, full, mouth, along) if full > ROUNDING else None
    point = Part.makeCone(bit.diameter / 2, 0.0, bit.point, rim, along) if bit.point > ROUNDING else None
    if body is not None and point is not None and bit.kind == "twist":
        return [body.fuse(point)]
    # Other points leave a spur in the middle that is no cone of the full width.
    spur = Part.makeCylinder(bit.diameter / 10, bit.point, rim, along) if bit.point > ROUNDING else None
    return [part for part in (body, spur if bit.kind != "twist" else point) if part is not None]
