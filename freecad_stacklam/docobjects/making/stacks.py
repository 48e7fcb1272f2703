# SPDX-License-Identifier: LGPL-2.1-or-later

"""Making a stack of a form, and changing one."""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.breathing import breathe
from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import Document, StackObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.forms.directions import direction_of, into_own
from freecad_stacklam.docobjects.forms.form import is_ours
from freecad_stacklam.docobjects.making.layers import match_layers
from freecad_stacklam.docobjects.making.naming import free_name
from freecad_stacklam.docobjects.reading.stacks import FORM, NOTHING, PART, PICKS, axis_of, tab_text
from freecad_stacklam.docobjects.stack import Stack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.words import say


def make_stack(
    document: Document, source: Any, settings: StackSettings, *, path: str = "", piece: str = ""
) -> StackObject:
    """A new stack of `source` with its layers, recomputed. Part of the caller's undo step if one is open.

    source: the form, as the selection gives it; path: to what is meant inside it ("Body."). settings.form: the solid's
    label, needed where there are several. piece: its name (the solid's label, made unique, if not given). Raises
    Refusal before anything was made.
    """
    found = plancache.find_form(source, path, settings.form)
    name = piece or free_name(document, found.label)
    if free_name(document, name) != name:
        raise Refusal(say("Another piece is called “{name}”: give this one a name of its own.", name=name))
    plancache.plan_for(found, settings, name)
    stack = document.addObject("App::FeaturePython", "Stack")
    Stack(stack)
    stack.Label = f"{name} stack"
    stack.Form, stack.FormPath, stack.Piece = source, path, name
    # With one solid the stack follows its form even when that is given another label.
    several = found.label != source.Label or bool(path)
    _fill(stack, settings)
    stack.Solid = found.label if several else ""
    stack.recompute()
    stack.purgeTouched()
    breathe()
    match_layers(stack)
    return stack


def change_stack(stack: StackObject, settings: StackSettings) -> None:
    """Give a stack other settings, and its layers with it. Raises Refusal before anything was changed."""
    found = plancache.find_form(stack.Form, stack.FormPath, settings.form or stack.Solid)
    plancache.plan_for(found, settings, name_of_stack(stack))
    own, still = stack.Axis, settings.axis == _axis_now(stack)
    _fill(stack, settings)
    if still:  # it goes on following what it follows
        stack.Axis = own
    else:
        stack.AxisFollows, stack.AxisFrom, stack.AxisAgainst = NOTHING, None, False
    if settings.form:
        stack.Solid = settings.form
    stack.Document.recompute()


def follow_axis(stack: StackObject, target: Any = None, part: str = "") -> None:
    """Let a stack's axis turn with its form, when that is the target; with a face or edge of an object, whose direction
    it takes; or with nothing, and stay as it is in the model. Its layers follow. Raises Refusal before anything was
    changed."""
    axis = _axis_now(stack) or (stack.Axis.x, stack.Axis.y, stack.Axis.z)
    if target is None:
        stack.AxisFollows, stack.AxisFrom, stack.AxisAgainst = NOTHING, None, False
        stack.Axis = FreeCAD.Vector(*axis)
    elif not part:
        if stack.Form is None or target.Name != stack.Form.Name:
            raise Refusal(
                say(
                    "The axis of “{label}” can turn with its own form, or with a face or edge of “{other}”: name one.",
                    label=stack.Label,
                    other=target.Label,
                )
            )
        own = into_own(stack.Form, stack.FormPath, axis)
        stack.AxisFollows, stack.AxisFrom, stack.AxisAgainst = FORM, None, False
        stack.Axis = FreeCAD.Vector(*own)
    else:
        found = direction_of(target, part)
        if found is None or is_ours(target):
            raise Refusal(
                say(
                    "{part} of “{label}” gives the stacking axis no direction to follow: take a flat or round face, or "
                    "a straight or circular edge, of the model itself.",
                    part=part,
                    label=target.Label,
                )
            )
        against = sum(a * b for a, b in zip(found, axis)) < 0
        stack.AxisFrom = (target, [part])
        stack.AxisFollows, stack.AxisAgainst = PART, against
        stack.Axis = FreeCAD.Vector(*(-c + 0.0 if against else c for c in found))
    stack.Document.recompute()


def _axis_now(stack: StackObject) -> tuple[float, float, float] | None:
    """The stack's axis in the model; None where what it follows is gone."""
    try:
        return axis_of(stack)
    except Refusal:
        return None


def _fill(stack: StackObject, settings: StackSettings) -> None:
    stack.Stock = settings.stock[0]
    stack.MoreStock = [f"{t:.12g} mm" for t in settings.stock[1:]]
    stack.Pick = next(shown for shown, pick in PICKS.items() if pick == settings.pick)
    stack.ForcedPlanes = [f"{h:.12g} mm" for h in settings.forced]
    stack.ForbiddenZones = [f"{low:.12g} mm to {high:.12g} mm" for low, high in settings.forbidden]
    stack.PlanedThicknesses = [f"{t:.12g} mm" for t in settings.thicknesses]
    stack.WasteTabs = [tab_text(tab) for tab in settings.tabs]
    fill(stack, settings)
