# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Stack object: a form and how it is piled up. Its layers are children of their own (layer.py).

A stack draws nothing itself: what is seen are its layers, so nothing is drawn twice. It depends on its form only; the
layers depend on the stack. `Layers` and `Insides` are hidden kinds of links that take no part in the order of
recomputing, because the tree needs the way down and the recompute the way up.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from weakref import WeakKeyDictionary

import FreeCAD

from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.base.properties import Property, set_result
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings

#: How glue lines are chosen, as the maker reads it → as the settings say it.
PICKS = {"counted": "", "least wood": "least wood", "fewest layers": "fewest layers"}
#: The plan that a stack's last execute found, so that its layers need not look at the form again.
_shown: WeakKeyDictionary[Any, tuple[str, StackPlan, Form]] = WeakKeyDictionary()


class Stack(Proxy):
    """One form as a stack of layers. The name of this class is written in users' files and never changes."""

    KIND = "stack"
    PROPERTIES = (
        Property("LinkGlobal", "Form", "Form", "The solid or closed mesh that is carved from this stack"),
        Property("String", "FormPath", "Form", "Path to the form inside an assembly or link", hidden=True),
        Property("String", "Solid", "Form", "Which solid of the form, by its label, where it has several"),
        Property("String", "Piece", "Form", "Name of the piece on drawings and in the bill"),
        Property("Length", "Stock", "Boards", "Thickness of the boards as they leave the planer", 45.0),
        Property(
            "StringList", "MoreStock", "Boards", "Other planed thicknesses at hand, with units: layers may be of any"
        ),
        Property(
            "Enumeration",
            "Pick",
            "Boards",
            "counted: layers of the stock thickness from the bottom up, or, with several, the least wood; least wood: "
            "glue lines where they save most; fewest layers",
            list(PICKS),
        ),
        Property("Volume", "GlueLineWorth", "Boards", "Wood that one more glue line must save to be worth its work"),
        Property(
            "StringList",
            "PlanedThicknesses",
            "Boards",
            "Thicknesses measured on your own boards, with units, from the bottom: they win over the stock",
        ),
        Property("String", "Species", "Boards", "The wood, as named in the species table", "white oak"),
        Property("Angle", "Grain", "Boards", "Direction of the grain in the layers, turned from the stack's x"),
        Property("Integer", "Copies", "Boards", "How many of this stack are made", 1),
        Property("Vector", "Axis", "Piling", "Direction in which the layers are piled", FreeCAD.Vector(0, 0, 1)),
        Property("Length", "Allowance", "Piling", "Wood left outside the form, all round", 3.0),
        Property(
            "StringList", "ForcedPlanes", "Piling", "Heights in the form at which a glue line must lie, with units"
        ),
        Property(
            "StringList",
            "ForbiddenZones",
            "Piling",
            "Heights between which no glue line may lie, such as 120 mm to 150 mm",
        ),
        Property("Bool", "FillHoles", "Piling", "Leave the holes of the form unsawn"),
        Property("Integer", "LayerCount", "Plan", "Number of layers", result=True),
        Property("Length", "StackHeight", "Plan", "Height of the glued stack", result=True),
        Property("Volume", "FormVolume", "Plan", "Volume of the finished form", result=True),
        Property("Volume", "WoodVolume", "Plan", "Volume of all blanks", result=True),
        Property("Volume", "CarvedVolume", "Plan", "Wood to carve away", result=True),
        Property("Distance", "LeastCover", "Plan", "Least distance from the form to a blank's wall", result=True),
        Property(
            "String", "Verdict", "Plan", "ok: the form is proven to lie inside its blanks; stop: it is not", result=True
        ),
        Property("StringList", "Notes", "Plan", "What was mended or left out when the form was read", result=True),
        Property("LinkListHidden", "Layers", "Plan", "The layers, from the bottom", result=True, hidden=True),
        Property("LinkListHidden", "Insides", "Plan", "Its hollow, pins and glue lines", result=True, hidden=True),
    )

    def __init__(self, obj: Any) -> None:
        super().__init__(obj)
        watcher.install()

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened."""
        super().onDocumentRestored(obj)
        watcher.install()

    def compute(self, obj: Any) -> None:
        """Plan the stack and write its figures."""
        _shown.pop(self, None)
        settings = settings_of_stack(obj)
        plan, form = _planned(obj, settings)
        _shown[self] = repr(settings), plan, form
        wood = sum(layer.blank_volume for layer in plan.layers)
        for name, value in (
            ("LayerCount", len(plan.layers)),
            ("StackHeight", plan.height),
            ("FormVolume", plan.form.volume),
            ("WoodVolume", wood),
            ("CarvedVolume", wood - plan.form.volume),
            ("LeastCover", plan.containment.least_cover),
            ("Verdict", "ok" if plan.containment.proven else "stop"),
            ("Notes", list(plan.form.notes)),
        ):
            set_result(obj, name, value)


# --- reading a stack ----------------------------------------------------------------------------------------------


def settings_of_stack(stack: Any) -> StackSettings:
    """What the maker chose. `form` is the solid's label. Raises Refusal when a value cannot be."""
    return StackSettings(
        form=stack.Solid,
        stock=(stack.Stock.Value, *_lengths(stack.MoreStock)),
        thicknesses=_lengths(stack.PlanedThicknesses),
        axis=(stack.Axis.x, stack.Axis.y, stack.Axis.z),
        allowance=stack.Allowance.Value,
        species=stack.Species,
        grain=stack.Grain.Value,
        copies=stack.Copies,
        fill_holes=stack.FillHoles,
        pick=PICKS[stack.Pick],
        glue_line_worth=stack.GlueLineWorth.Value,
        forced=_lengths(stack.ForcedPlanes),
        forbidden=tuple(_zone(text) for text in stack.ForbiddenZones if text.strip()),
    )


def _lengths(texts: Sequence[str]) -> tuple[float, ...]:
    return tuple(parse_length(text) for text in texts if text.strip())


def _zone(text: str) -> tuple[float, float]:
    low, to, high = text.partition(" to ")
    if not to:
        raise Refusal(f"“{text}” is no zone without glue lines: write its heights as in 120 mm to 150 mm.")
    return parse_length(low), parse_length(high)


def name_of_stack(stack: Any) -> str:
    """The piece's name on drawings, in the bill and in joints."""
    return str(stack.Piece or stack.Label)


def plan_of_stack(stack: Any) -> StackPlan:
    """The plan for the form and the settings as they are now. Raises Refusal."""
    return _planned(stack, settings_of_stack(stack))[0]


def form_of_stack(stack: Any) -> Form:
    """The form as it is now, for joints and for the whole job. Raises Refusal."""
    return _form(_find(stack), stack)


def shown_plan(stack: Any) -> tuple[StackPlan, Form]:
    """The plan that the stack shows: the one of its last recompute while its settings are the same, else a new one."""
    settings = settings_of_stack(stack)
    asked, plan, form = _shown.get(stack.Proxy, ("", None, None))
    if plan is None or form is None or asked != repr(settings) or plan.name != name_of_stack(stack):
        plan, form = _planned(stack, settings)
        _shown[stack.Proxy] = repr(settings), plan, form
    return plan, form


def _find(stack: Any) -> plancache.Found:
    if stack.Form is None:
        raise Refusal(f"The form of “{stack.Label}” is gone: choose another, or delete the stack.")
    return plancache.find_form(stack.Form, stack.FormPath, stack.Solid)


def _form(found: plancache.Found, stack: Any) -> Form:
    return Form(name_of_stack(stack), found.mesh, found.datum, found.exact)


def _planned(stack: Any, settings: StackSettings) -> tuple[StackPlan, Form]:
    found = _find(stack)
    return plancache.plan_for(found, settings, name_of_stack(stack)), _form(found, stack)


# --- making and changing ------------------------------------------------------------------------------------------


def make_stack(document: Any, source: Any, settings: StackSettings, *, path: str = "", piece: str = "") -> Any:
    """A new stack of `source` with its layers, recomputed. Part of the caller's undo step if one is open.

    source: the form, as the selection gives it; path: to what is meant inside it ("Body."). settings.form: the solid's
    label, needed where there are several. piece: its name (the solid's label, made unique, if not given). Raises
    Refusal before anything was made.
    """
    found = plancache.find_form(source, path, settings.form)
    name = piece or _free_name(document, found.label)
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
    watcher.match_layers(stack)
    return stack


def change_stack(stack: Any, settings: StackSettings) -> None:
    """Give a stack other settings, and its layers with it. Raises Refusal before anything was changed."""
    found = plancache.find_form(stack.Form, stack.FormPath, settings.form or stack.Solid)
    plancache.plan_for(found, settings, name_of_stack(stack))
    _fill(stack, settings)
    if settings.form:
        stack.Solid = settings.form
    stack.Document.recompute()


def _fill(stack: Any, settings: StackSettings) -> None:
    stack.Stock = settings.stock[0]
    stack.MoreStock = [f"{t:.12g} mm" for t in settings.stock[1:]]
    stack.Pick = next(shown for shown, pick in PICKS.items() if pick == settings.pick)
    stack.GlueLineWorth = settings.glue_line_worth
    stack.ForcedPlanes = [f"{h:.12g} mm" for h in settings.forced]
    stack.ForbiddenZones = [f"{low:.12g} mm to {high:.12g} mm" for low, high in settings.forbidden]
    stack.PlanedThicknesses = [f"{t:.12g} mm" for t in settings.thicknesses]
    stack.Axis = FreeCAD.Vector(*settings.axis)
    stack.Allowance = settings.allowance
    stack.Species = settings.species
    stack.Grain = settings.grain
    stack.Copies = settings.copies
    stack.FillHoles = settings.fill_holes


def _free_name(document: Any, wanted: str) -> str:
    taken = {name_of_stack(o) for o in document.Objects if isinstance(getattr(o, "Proxy", None), Stack)}
    name, number = wanted, 2
    while name in taken:
        name, number = f"{wanted} {number}", number + 1
    return name
