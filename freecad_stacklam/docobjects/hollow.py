# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Hollow object: the voids of one stack, drawn as the wood that they take away.

Voids keep clear of mortises, so a hollow depends on the stack and its joints; pins and layers depend on the hollow.
"""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.family import idle_because
from freecad_stacklam.docobjects.base.properties import Property, set_results
from freecad_stacklam.docobjects.base.protocols import HollowObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.base.woods import woods_in
from freecad_stacklam.docobjects.forms.shapes import hollow_shape, placement_of, show, show_idle
from freecad_stacklam.docobjects.reading.insides import shown_hollow
from freecad_stacklam.lamination.inside.checks import hollow_checks, thinnest_place
from freecad_stacklam.lamination.lengths import format_small_area
from freecad_stacklam.lamination.plan.checks import is_of
from freecad_stacklam.lamination.plan.insides import HollowPlan
from freecad_stacklam.lamination.plan.verdicts import worst_of
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.tolerances import NO_AREA
from freecad_stacklam.lamination.words import mark, say

#: How the check of the cover is called.
COVER_CHECK = "wall around the voids"


class Hollow(Proxy):
    """The voids of one stack. The name of this class is written in users' files and never changes."""

    KIND = "hollow"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Hollow", mark("The stack whose layers are hollowed")),
        Property("LinkListGlobal", "Joints", "Hollow", mark("The joints that the voids keep clear of"), hidden=True),
        Property("Bool", "Suppressed", "Hollow", mark("Leave the voids out for now, without deleting them")),
        *properties_of(HollowSettings),
        Property("Integer", "VoidCount", "Plan", mark("Number of voids in one stack"), result=True),
        Property("Volume", "WoodSaved", "Plan", mark("Volume of the voids"), result=True),
        Property("Distance", "LeastWall", "Plan", mark("Least wood left around the voids"), result=True),
        Property(
            "VectorDistance", "CoverPlace", "Plan", mark("Where the wall is about thinnest, in the model"), result=True
        ),
        Property(
            "Area", "GlueArea", "Plan", mark("Glue area left where the voids take the largest share"), result=True
        ),
        Property(
            "StringList", "GlueLines", "Plan", mark("Glue area left at each glue line that voids meet"), result=True
        ),
        Property("String", "CoverVerdict", "Plan", mark("The verdict on the wall"), result=True, hidden=True),
        Property("String", "Verdict", "Plan", mark("ok, caution, stop, suppressed or idle"), result=True),
        Property("StringList", "Notes", "Plan", mark("What the checks say"), result=True),
    )

    def compute(self, obj: HollowObject) -> None:
        """Find the voids, draw them, and write their figures."""
        idle = idle_because(obj)
        if idle:
            show_idle(obj, *idle, VoidCount=0, GlueLines=[])
            return
        plan = shown_hollow(obj)
        assert plan.hollow is not None
        show(obj, hollow_shape(plan), placement_of(plan.frame))
        units = units_in(obj.Document)
        checks = hollow_checks(plan, woods_in(obj.Document), units=units)
        met = glue_lines_met(plan.hollow)
        set_results(
            obj,
            {
                "VoidCount": len(plan.hollow.voids),
                "WoodSaved": plan.hollow.volume,
                "LeastWall": plan.hollow.least_wall,
                "CoverPlace": FreeCAD.Vector(*thinnest_place(plan)),
                "GlueArea": min(met, key=lambda g: g.left / g.whole).left if met else 0.0,
                "GlueLines": [_glue_line(g.interface, g.left, g.whole, units) for g in met],
                "CoverVerdict": worst_of(c for c in checks if is_of(c, COVER_CHECK)),
                "Verdict": worst_of(checks),
                "Notes": [c.says for c in checks],
            },
        )


def glue_lines_met(hollow: HollowPlan) -> list[Any]:
    """The glue lines whose area the voids make smaller."""
    return [g for g in hollow.glue_lines if g.whole > 0 and g.left < g.whole - NO_AREA]


def _glue_line(interface: int, left: float, whole: float, units: str) -> str:
    return say(
        "layers {lower} and {upper}: {left} of {whole}",
        lower=interface,
        upper=interface + 1,
        left=format_small_area(left, units),
        whole=format_small_area(whole, units),
    )
