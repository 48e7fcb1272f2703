# SPDX-License-Identifier: LGPL-2.1-or-later

"""The GlueLines object: a stack's glue lines drawn on its finished form, so that the maker sees how they fall.

For the pages that the maker edits, one may also hold a single layer's finished outlines, or the stack's axis cross.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import Part
import shapely
from shapely.geometry import Polygon

from freecad_stacklam.docobjects.base.properties import Property, set_results
from freecad_stacklam.docobjects.base.protocols import GlueLinesObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.forms.shapes import placement_of, show, wire_of
from freecad_stacklam.docobjects.reading.stacks import shown_plan
from freecad_stacklam.lamination.layers.fitting import fit_outside
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

#: Lines are drawn with no more points than this deviation asks for, mm.
DEVIATION = 0.02
#: How far outside the section its fitted outline may lie, mm, about half.
FITTED = 0.05
#: Longest dash of such an outline, mm, and the gap behind it as a part of the dash.
DASH, GAP = 24.0, 0.2
#: What an object of this kind may draw, and half the width of an axis cross, mm.
SHOWS = ("glue lines", "finished outlines", "axis cross")
CROSS = 12.0


class GlueLines(Proxy):
    """The glue lines of one stack. The name of this class is written in users' files and never changes."""

    KIND = "glue lines"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Glue lines", mark("The stack whose glue lines are drawn on its form")),
        Property("Enumeration", "Shows", "Glue lines", mark("What is drawn of the stack"), list(SHOWS)),
        Property("Integer", "Layer", "Glue lines", mark("Number of the layer whose finished outlines are drawn")),
        Property("Integer", "LineCount", "Plan", mark("Glue lines that are seen on the finished form"), result=True),
        Property("Length", "TotalLength", "Plan", mark("Length of all of them on the finished form"), result=True),
        Property("StringList", "Lines", "Plan", mark("Height and length of each"), result=True),
    )

    def compute(self, obj: GlueLinesObject) -> None:
        """Draw the lines and write their figures."""
        if obj.Stack is None:
            obj.Shape = Part.Shape()
            return
        plan, _ = shown_plan(obj.Stack)
        if obj.Shows != SHOWS[0]:
            shape = finished_shape(plan, obj.Layer) if obj.Shows == SHOWS[1] else cross_shape(plan)
            show(obj, shape, placement_of(plan.frame))
            return
        show(obj, line_shape(plan), placement_of(plan.frame))
        units = units_in(obj.Document)
        lengths = [sum(ring.length for ring in _rings(plan, k)) for k in range(len(plan.layers) - 1)]
        set_results(
            obj,
            {
                "LineCount": sum(length > 0 for length in lengths),
                "TotalLength": sum(lengths),
                "Lines": [
                    say(
                        "layers {lower} and {upper}: {height} high, {length} long",
                        lower=layer.number,
                        upper=layer.number + 1,
                        height=format_length(layer.top, units),
                        length=format_length(length, units),
                    )
                    for layer, length in zip(plan.layers, lengths)
                ],
            },
        )


def line_shape(plan: StackPlan) -> Any:
    """The finished outlines at every glue line as closed wires, in the stack's frame; a null shape without any."""
    wires = []
    for k, layer in enumerate(plan.layers[:-1]):
        for ring in _rings(plan, k):
            points = shapely.get_coordinates(ring.simplify(DEVIATION)).tolist()
            wires.append(Part.makePolygon([FreeCAD.Vector(x, y, layer.top) for x, y in points]))
    return Part.Compound(wires) if wires else Part.Shape()


def finished_shape(plan: StackPlan, number: int) -> Any:
    """The finished outlines at the bottom and the top of one layer, fitted with lines and arcs that TechDraw is fast
    with, in long dashes: TechDraw would fill closed outlines, and cover what lies under them. A null shape for a layer
    that is not there."""
    if not 1 <= number <= len(plan.layers):
        return Part.Shape()
    layer = plan.layers[number - 1]
    dashes = [
        dash
        for area, height in ((layer.finished_bottom, layer.bottom), (layer.finished_top, layer.top))
        if not area.is_empty
        for outline in fit_outside(area, FITTED)
        for loop in (outline.outer, *outline.holes)
        for dash in _dashes(wire_of(loop, height))
    ]
    return Part.Compound(dashes) if dashes else Part.Shape()


def _dashes(wire: Any) -> list[Any]:
    """A closed wire of lines and arcs in dashes."""
    dash = min(DASH, wire.Length / 10)
    period, phase, found = dash + dash * GAP, 0.0, []
    for edge in wire.Edges:
        at, length = 0.0, edge.Length
        while at < length - ROUNDING:
            run = min((dash if phase < dash else period) - phase, length - at)
            if phase < dash and run > 0.05:
                ends = edge.getParameterByLength(at), edge.getParameterByLength(min(at + run, length))
                found.append(edge.Curve.toShape(*ends))
            at += run
            phase = 0.0 if phase + run > period - ROUNDING else phase + run
    return found


def cross_shape(plan: StackPlan) -> Any:
    """Four short lines that meet on the axis, just over the stack, so that the point can be measured from."""
    middle = FreeCAD.Vector(0, 0, plan.height + 1.0)
    arms = [FreeCAD.Vector(x * CROSS, y * CROSS, 0) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1))]
    return Part.Compound([Part.makeLine(middle, middle + arm) for arm in arms])


def _rings(plan: StackPlan, k: int) -> list[Any]:
    """The rings of the finished form between layer k and the next, from 0."""
    lower, upper = plan.layers[k], plan.layers[k + 1]
    area = lower.finished_top if not lower.finished_top.is_empty else upper.finished_bottom
    return [
        ring
        for polygon in area.geoms
        if isinstance(polygon, Polygon)
        for ring in (polygon.exterior, *polygon.interiors)
    ]
