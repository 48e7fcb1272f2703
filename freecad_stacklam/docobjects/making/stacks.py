# SPDX-License-Identifier: LGPL-2.1-or-later

"""Making a stack of a form, and changing one."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.breathing import breathe
from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import Document, StackObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.making.layers import match_layers
from freecad_stacklam.docobjects.making.naming import free_name
from freecad_stacklam.docobjects.reading.stacks import PICKS, tab_text
from freecad_stacklam.docobjects.stack import Stack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings


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
        raise Refusal(f"Another piece is called “{name}”: give this one a name of its own.")
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
    _fill(stack, settings)
    if settings.form:
        stack.Solid = settings.form
    stack.Document.recompute()


def _fill(stack: StackObject, settings: StackSettings) -> None:
    stack.Stock = settings.stock[0]
    stack.MoreStock = [f"{t:.12g} mm" for t in settings.stock[1:]]
    stack.Pick = next(shown for shown, pick in PICKS.items() if pick == settings.pick)
    stack.ForcedPlanes = [f"{h:.12g} mm" for h in settings.forced]
    stack.ForbiddenZones = [f"{low:.12g} mm to {high:.12g} mm" for low, high in settings.forbidden]
    stack.PlanedThicknesses = [f"{t:.12g} mm" for t in settings.thicknesses]
    stack.WasteTabs = [tab_text(tab) for tab in settings.tabs]
    fill(stack, settings)
