"""The GlueLines object: a stack's glue lines drawn on its finished form, so that the maker sees how they fall."""

from __future__ import annotations

from typing import Any

import FreeCAD
import Part
import shapely
from shapely.geometry import Polygon

from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.properties import Property, set_result
from freecad_stacklam.docobjects.proxy import Proxy
from freecad_stacklam.docobjects.shapes import placement_of, show
from freecad_stacklam.docobjects.stack import name_of_stack, shown_plan
from freecad_stacklam.lamination.plan import StackPlan

#: Lines are drawn with no more points than this deviation asks for, mm.
DEVIATION = 0.02


class GlueLines(Proxy):
    """The glue lines of one stack. The name of this class is written in users' files and never changes."""

    KIND = "glue lines"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Glue lines", "The stack whose glue lines are drawn on its form"),
        Property("Integer", "LineCount", "Plan", "Glue lines that are seen on the finished form", result=True),
        Property("Length", "TotalLength", "Plan", "Length of all of them on the finished form", result=True),
        Property("StringList", "Lines", "Plan", "Height and length of each", result=True),
    )

    def __init__(self, obj: Any) -> None:
        super().__init__(obj)
        watcher.install()

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened."""
        super().onDocumentRestored(obj)
        watcher.install()

    def compute(self, obj: Any) -> None:
        """Draw the lines and write their figures."""
        if obj.Stack is None:
            obj.Shape = Part.Shape()
            return
        plan, _ = shown_plan(obj.Stack)
        show(obj, line_shape(plan), placement_of(plan.frame))
        lengths = [sum(ring.length for ring in _rings(plan, k)) for k in range(len(plan.layers) - 1)]
        for name, value in (
            ("LineCount", sum(length > 0 for length in lengths)),
            ("TotalLength", sum(lengths)),
            (
                "Lines",
                [
                    f"layers {layer.number} and {layer.number + 1}: {layer.top:g} mm high, {length:.0f} mm long"
                    for layer, length in zip(plan.layers, lengths)
                ],
            ),
        ):
            set_result(obj, name, value)


def line_shape(plan: StackPlan) -> Any:
    """The finished outlines at every glue line as closed wires, in the stack's frame; a null shape without any."""
    wires = []
    for k, layer in enumerate(plan.layers[:-1]):
        for ring in _rings(plan, k):
            points = shapely.get_coordinates(ring.simplify(DEVIATION)).tolist()
            wires.append(Part.makePolygon([FreeCAD.Vector(x, y, layer.top) for x, y in points]))
    return Part.Compound(wires) if wires else Part.Shape()


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


def glue_lines_of(stack: Any) -> Any:
    """The glue lines that are drawn for a stack, or None."""
    found = watcher.made_for(stack, "glue lines")
    return found[0] if found else None


def make_glue_lines(stack: Any) -> Any:
    """Draw a stack's glue lines; one object for each stack is enough. Part of the caller's undo step if one is open."""
    lines = glue_lines_of(stack)
    if lines is None:
        lines = stack.Document.addObject("Part::FeaturePython", "GlueLines")
        GlueLines(lines)
        lines.Stack = stack
        lines.Label = f"{name_of_stack(stack)} glue lines"
        lines.recompute()
        lines.purgeTouched()
    return lines
