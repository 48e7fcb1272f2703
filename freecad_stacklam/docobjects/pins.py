# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Pins object: the registration dowels of one stack, drawn where they stand.

Pins keep clear of mortises and voids, so they depend on the stack, its joints and its hollow; the layers depend on the
pins and are bored for them.
"""

from __future__ import annotations

import FreeCAD
import numpy as np

from freecad_stacklam.docobjects.base.family import idle_because
from freecad_stacklam.docobjects.base.properties import Property, set_results
from freecad_stacklam.docobjects.base.protocols import PinsObject, StackObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.forms.shapes import pin_shape, placement_of, show, show_idle
from freecad_stacklam.docobjects.reading.insides import shown_pins
from freecad_stacklam.docobjects.reading.stacks import shown_plan
from freecad_stacklam.lamination.form.frame import lying, to_model
from freecad_stacklam.lamination.inside.checks import pin_checks
from freecad_stacklam.lamination.job.checks import left_out_checks
from freecad_stacklam.lamination.joints.surfacecover import SurfaceCover
from freecad_stacklam.lamination.lengths import format_length, rounded_down
from freecad_stacklam.lamination.plan.checks import is_of
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.verdicts import worst_of
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import mark, say

#: How nearly the place of the least cover is found, mm.
_PLACE_TOLERANCE = 0.05
#: How the check of the cover is called.
COVER_CHECK = "cover of the pins"


class Pins(Proxy):
    """The pins of one stack. The name of this class is written in users' files and never changes."""

    KIND = "pins"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Pins", mark("The stack whose layers are pinned")),
        Property("LinkListGlobal", "Joints", "Pins", mark("The joints that the pins keep clear of"), hidden=True),
        Property("LinkGlobal", "Hollow", "Pins", mark("The hollow that the pins keep clear of"), hidden=True),
        Property("Bool", "Suppressed", "Pins", mark("Leave these pins out for now, without deleting them")),
        *properties_of(PinSettings),
        Property(
            "StringList", "At", "Pins", "Pins set by hand, such as 1; 40 mm; -12 mm: glue line (the number of the "
            "layer below it), x and y from the axis; a glue line with any gets no others",
        ),
        Property("Integer", "PinCount", "Plan", mark("Number of pins in one stack"), result=True),
        Property("Distance", "LeastCover", "Plan", mark("Least wood from a pin to the finished surface"), result=True),
        Property("VectorDistance", "CoverPlace", "Plan", mark("Where that is, in the model"), result=True),
        Property(
            "Length", "LeastMisfit", "Plan",
            mark("How far pins miss their holes in the worst wrong way"),
            result=True,
        ),
        Property("StringList", "Misfits", "Plan", mark("The same for each glue line, with the wrong way"), result=True),
        Property("String", "CoverVerdict", "Plan", mark("The verdict on the cover"), result=True, hidden=True),
        Property("String", "Verdict", "Plan", mark("ok, caution, stop, suppressed or idle"), result=True),
        Property("StringList", "Notes", "Plan", mark("What the checks say"), result=True),
    )  # fmt: skip

    def compute(self, obj: PinsObject) -> None:
        """Place the pins, draw them, and write their figures."""
        idle = idle_because(obj)
        if idle:
            show_idle(obj, *idle, PinCount=0, Misfits=[])
            return
        assert obj.Stack is not None
        plan = shown_pins(obj)
        show(obj, pin_shape(plan), placement_of(plan.frame))
        units = units_in(obj.Document)
        checks = [*left_out_checks([plan], units=units), *pin_checks(plan, units=units)]
        least, place = _least(obj.Stack, plan)
        judged = [m.distance for m in plan.misfits if m.distance is not None]
        set_results(
            obj,
            {
                "PinCount": len(plan.pins),
                "LeastCover": least,
                "CoverPlace": FreeCAD.Vector(*place),
                "LeastMisfit": min(judged, default=0.0),
                "Misfits": misfit_lines(plan, units),
                "CoverVerdict": worst_of(c for c in checks if is_of(c, COVER_CHECK)),
                "Verdict": worst_of(checks),
                "Notes": [*(c.says for c in checks), *without_waste(plan, obj.Waste)],
            },
        )


def _least(stack: StackObject, plan: StackPlan) -> tuple[float, tuple[float, float, float]]:
    """The least cover of the pins and the place of the pin where it is found, in the model."""
    inner = [p for p in plan.pins if not p.waste]
    if not inner:
        return 0.0, (0.0, 0.0, 0.0)
    pin = min(inner, key=lambda p: p.least_cover)
    return pin.least_cover, pin_place(stack, plan, pin)


def pin_place(stack: StackObject, plan: StackPlan, pin: PinPlan) -> tuple[float, float, float]:
    """The point of a pin that comes nearest to the finished surface, in the model."""
    mesh = shown_plan(stack)[1].mesh
    height = plan.layers[pin.interface - 1].top
    found = SurfaceCover(lying(mesh, plan.frame), mesh.triangles).nearest(height, pin, _PLACE_TOLERANCE)
    x, y, z = to_model(plan.frame, np.array([found.place]))[0]
    return float(x), float(y), float(z)


def misfit_lines(plan: StackPlan, units: str = "mm") -> list[str]:
    """One line for each glue line: how surely its pins keep the upper layer the right way round; misses are rounded
    down."""
    lines = []
    for m in plan.misfits:
        where = say("layers {lower} and {upper}", lower=m.interface, upper=m.interface + 1)
        if m.distance is None:
            lines.append(say("{where}: the outline itself shows every wrong way", where=where))
        else:
            lines.append(f"{where}: {format_length(rounded_down(m.distance, units), units)}, {m.way}")
    return lines


def without_waste(plan: StackPlan, asked: bool) -> list[str]:
    """A sentence that says where pins in waste wood were asked for and found no room."""
    there = {p.interface for p in plan.pins if p.waste}
    missing = [layer.number for layer in plan.layers[:-1] if layer.number not in there] if asked else []
    if not missing:
        return []
    lines = ", ".join(say("{lower} and {upper}", lower=n, upper=n + 1) for n in missing)
    return [
        say("There is no room in the waste wood for pins between layers {lines}: give more allowance.", lines=lines)
    ]
