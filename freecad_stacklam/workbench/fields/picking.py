# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker has picked: a form to slice, stacks to work on, a direction, a point.

Every function raises Refusal with one sentence when the selection does not fit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.family import stacks_in
from freecad_stacklam.docobjects.forms.directions import direction_of_shape
from freecad_stacklam.docobjects.forms.form import is_ours
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import NO_DIRECTION
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.workbench.fields.words import translate

Triple = tuple[float, float, float]


@dataclass(frozen=True)
class Pick:
    """One picked thing: the object as it stands in the document, the path to what is inside it ("" or "Body."), and
    the name of a face, edge or vertex of it ("" for the whole)."""

    root: Any
    path: str
    element: str

    @property
    def target(self) -> Any:
        """The object itself, at the end of the path."""
        return self.root.getSubObject(self.path, retType=1) if self.path else self.root


def picks() -> list[Pick]:
    """All that is picked in the active document, in the order it was picked."""
    found = []
    for item in FreeCADGui.Selection.getSelectionEx("", 0):
        for sub in item.SubElementNames or ("",):
            path, _, element = sub.rpartition(".")
            found.append(_whole_body(Pick(item.Object, path + "." if path else "", element)))
    return found


def _whole_body(pick: Pick) -> Pick:
    """A face of a Body is named by the feature that made it; the form is the Body."""
    at = pick.path
    while at:
        parent = at[:-1].rpartition(".")[0]
        parent = parent + "." if parent else ""
        holder = pick.root.getSubObject(parent, retType=1) if parent else pick.root
        if holder is not None and holder.isDerivedFrom("PartDesign::Body"):
            return Pick(pick.root, parent, pick.element)
        at = parent
    body = pick.target.getParentGeoFeatureGroup() if pick.target is not None else None
    if not pick.path and body is not None and body.isDerivedFrom("PartDesign::Body"):
        return Pick(body, "", pick.element)
    return pick


def picked_form() -> tuple[Any, str]:
    """The one form that is picked, as (object, path inside it). Inside an assembly it is the part itself; inside a
    link it is the link and a path, because only the link knows where it stands."""
    things: list[tuple[Any, str]] = []
    for pick in picks():
        linked = pick.root.isDerivedFrom("App::Link")
        thing, path = (pick.root, pick.path) if linked else (pick.target, "")
        if linked and pick.target is not None and _same_shape(pick):
            path = ""
        if thing is not None and not any(o.Name == thing.Name and p == path for o, p in things):
            things.append((thing, path))
    if not things:
        raise Refusal(
            translate(
                "StackLam", "Nothing is selected: pick the form you want to slice, in the 3D view or in the tree."
            )
        )
    if len(things) > 1:
        raise Refusal(
            translate("StackLam", "{} things are selected: pick one form, and slice the others after it.").format(
                len(things)
            )
        )
    return things[0]


def _same_shape(pick: Pick) -> bool:
    """Whether the path inside a link only names a feature of the one body that is linked."""
    linked = pick.root.getLinkedObject(True)
    return linked is not None and linked.isDerivedFrom("PartDesign::Body")


def stack_of(obj: Any) -> Any:
    """The stack that an object belongs to: itself, a layer's stack, or the first that was made from this form."""
    kind = kind_of(obj)
    if kind == "stack":
        return obj
    if kind in ("layer", "pins", "hollow", "glue lines"):
        return obj.Stack
    return next((user for user in obj.InList if kind_of(user) == "stack"), None)


def picked_stacks() -> list[Any]:
    """The stacks that are picked, directly or by a layer or form of theirs, without doubles."""
    found: list[Any] = []
    for pick in picks():
        stack = stack_of(pick.target) if pick.target is not None else None
        if stack is not None and stack.Name not in {s.Name for s in found}:
            found.append(stack)
    return found


def stacks_to_join() -> list[Any]:
    """The stacks to join: those that are picked, two or more, or the only two there are."""
    everything = stacks_in(FreeCAD.ActiveDocument)
    if len(everything) < 2:
        raise Refusal(translate("StackLam", "A joint needs two stacks: slice both forms first."))
    found = picked_stacks()
    if len(found) < 2 and len(everything) == 2:
        return everything
    if len(found) < 2:
        raise Refusal(
            translate("StackLam", "A joint needs two stacks and {} is selected: pick all that it joins.").format(
                len(found)
            )
        )
    return found


def one_stack() -> Any:
    """The stack to work on: the one that is picked, by itself, a layer, its pins or its form, or the only one."""
    found = picked_stacks()
    everything = stacks_in(FreeCAD.ActiveDocument)
    if len(found) == 1:
        return found[0]
    if not found and len(everything) == 1:
        return everything[0]
    if not everything:
        raise Refusal(translate("StackLam", "There is no stack yet: slice a form into layers first."))
    raise Refusal(
        translate("StackLam", "{} stacks are selected: pick one, or a layer of it.").format(len(found) or "No")
    )


def _shape(pick: Pick) -> Any:
    shape = pick.root.getSubObject(pick.path + pick.element)
    if shape is None or getattr(shape, "isNull", lambda: True)():
        raise Refusal(translate("StackLam", "That cannot be measured: pick a face, an edge or a vertex of the model."))
    parent = pick.root.getParentGeoFeatureGroup()
    if parent is not None:
        shape = shape.copy()
        shape.Placement = parent.getGlobalPlacement() * shape.Placement
    return shape


def _one_element(what: str) -> Pick:
    chosen = [p for p in picks() if p.element]
    if len(chosen) != 1:
        raise Refusal(translate("StackLam", "Pick {} in the 3D view first, then press the button.").format(what))
    return chosen[0]


def picked_direction() -> tuple[Triple, str, tuple[Any, str] | None]:
    """The direction that a picked face or edge gives, pointing up (or along x or y where it is level), a text for it,
    and what was picked, as (object, name of the element), so that an axis can follow it; None for what was made from
    the model. A flat face gives its normal, a round one its axis; a straight edge its line, a circle its axis."""
    pick = _one_element("one flat or round face, or one straight or circular edge,")
    shape = _shape(pick)
    values = direction_of_shape(shape)
    if values is None:
        raise Refusal(
            translate("StackLam", "That gives no direction: pick a flat or round face, or a straight or circular edge.")
        )
    leading = next(c for c in reversed(values) if abs(c) > NO_DIRECTION)
    x, y, z = (c if leading > 0 else -c for c in values)
    up = x + 0.0, y + 0.0, z + 0.0
    return up, f"{pick.element} of {pick.target.Label}", None if is_ours(pick.target) else _to_follow(pick)


def picked_point() -> tuple[Triple, tuple[Any, str]]:
    """The point that a picked vertex, circular edge or face gives (its centre), and what was picked, as (object, name
    of the element), so that a joint can follow it."""
    pick = _one_element("one vertex, one circular edge, or one face,")
    shape = _shape(pick)
    if shape.ShapeType == "Vertex":
        point = shape.Point
    elif shape.ShapeType == "Edge" and hasattr(shape.Curve, "Center"):
        point = shape.Curve.Center
    elif shape.ShapeType == "Face":
        point = shape.CenterOfMass
    else:
        raise Refusal(
            translate("StackLam", "That gives no point: pick a vertex, a circular edge, or a face for its centre.")
        )
    return (point.x, point.y, point.z), _to_follow(pick)


def _to_follow(pick: Pick) -> tuple[Any, str]:
    """A picked element as a link to it: only a link knows where what it shows stands."""
    if pick.root.isDerivedFrom("App::Link"):
        return pick.root, pick.path + pick.element
    return pick.target, pick.element


def show_alone(obj: Any) -> None:
    """Leave what was just made or changed selected, and nothing else: the next command works on it."""
    FreeCADGui.Selection.clearSelection()
    FreeCADGui.Selection.addSelection(obj.Document.Name, obj.Name)
