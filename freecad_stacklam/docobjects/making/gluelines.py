# SPDX-License-Identifier: LGPL-2.1-or-later

"""Drawing a stack's glue lines, the finished outlines of a layer, and the axis cross."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.family import made_for, name_of_stack
from freecad_stacklam.docobjects.base.protocols import GlueLinesObject, StackObject
from freecad_stacklam.docobjects.gluelines import SHOWS, GlueLines
from freecad_stacklam.lamination.words import say


def glue_lines_of(stack: StackObject) -> GlueLinesObject | None:
    """The glue lines that are drawn for a stack, or None."""
    return next((o for o in made_for(stack, "glue lines") if o.Shows == SHOWS[0]), None)


def make_glue_lines(stack: StackObject) -> GlueLinesObject:
    """Draw a stack's glue lines; one object for each stack is enough. Part of the caller's undo step if one is open."""
    lines = glue_lines_of(stack)
    if lines is None:
        lines = stack.Document.addObject("Part::FeaturePython", "GlueLines")
        GlueLines(lines)
        lines.Stack = stack
        lines.Label = say("{stack} glue lines", stack=name_of_stack(stack))
        lines.recompute()
        lines.purgeTouched()
    return lines


def finished_outline(stack: StackObject, number: int) -> GlueLinesObject:
    """The object with the finished outlines of one layer, hidden in the 3D view; made if there is none."""
    return _drawn(stack, SHOWS[1], number, f"layer {number}, finished")


def axis_cross(stack: StackObject) -> GlueLinesObject:
    """The object with a stack's axis cross, hidden in the 3D view; made if there is none."""
    return _drawn(stack, SHOWS[2], 0, "axis")


def _drawn(stack: StackObject, shows: str, number: int, name: str) -> Any:
    for there in made_for(stack, "glue lines"):
        if (there.Shows, there.Layer) == (shows, number):
            return there
    lines = stack.Document.addObject("Part::FeaturePython", "".join(w.capitalize() for w in shows.split()))
    GlueLines(lines)
    lines.Stack, lines.Shows, lines.Layer = stack, shows, number
    lines.Label = f"{name_of_stack(stack)} {name}"
    lines.Visibility = False
    lines.recompute()
    lines.purgeTouched()
    return lines
