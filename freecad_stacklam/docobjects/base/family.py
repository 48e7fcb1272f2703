# SPDX-License-Identifier: LGPL-2.1-or-later

"""Questions about the objects of a document: which stacks, what was made for one, what is at work in it."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.protocols import (
    CarvingObject,
    CuttingObject,
    Document,
    GlueUpObject,
    JointObject,
    PieceObject,
    ShopObject,
    StackObject,
)
from freecad_stacklam.lamination.words import say
from freecad_stacklam.objectkinds import kind_of

#: What is made for one stack and goes with it, besides its layers.
BELONGINGS = ("hollow", "pins", "glue lines")


def stacks_in(document: Document) -> list[StackObject]:
    """Every stack of a document, in the order they were made."""
    return [o for o in document.Objects if kind_of(o) == "stack"]


def joints_in(document: Document) -> list[JointObject]:
    """Every joint of a document, in the order they were made."""
    return [o for o in document.Objects if kind_of(o) == "joint"]


def joints_of(stack: StackObject) -> list[JointObject]:
    """Every joint that runs through a stack, in the order they were made."""
    return [o for o in joints_in(stack.Document) if any(s.Name == stack.Name for s in o.Stacks if s is not None)]


def made_for(stack: StackObject, kind: str) -> list[Any]:
    """The objects of one kind of BELONGINGS of a stack, in the order they were made."""
    return [
        o for o in stack.Document.Objects if kind_of(o) == kind and o.Stack is not None and o.Stack.Name == stack.Name
    ]


def in_use(stack: StackObject, kind: str) -> Any:
    """The pins or the hollow that cut a stack's layers: the first that is not suppressed, or the first; None without
    any. A stack has no more than one of either; a copy is idle until it is given a stack of its own."""
    found = made_for(stack, kind)
    return next((o for o in found if not o.Suppressed), found[0] if found else None)


def idle_because(obj: Any) -> tuple[str, str] | None:
    """Why pins or a hollow do nothing, as a word and a sentence; None for those that do."""
    if obj.Suppressed:
        return "suppressed", say("“{label}” is suppressed: nothing is cut for it.", label=obj.Label)
    if obj.Stack is None:
        return "idle", say("“{label}” has no stack: choose the one it is made for, or delete it.", label=obj.Label)
    if kind_of(obj.Stack) != "stack":
        return "idle", say(
            "“{chosen}” is no stack: choose the one that “{made}” is made for, or delete it.",
            chosen=obj.Stack.Label,
            made=obj.Label,
        )
    used = in_use(obj.Stack, kind_of(obj))
    if used is not None and used.Name != obj.Name:
        return "idle", say(
            "“{other}” is at work in the same stack: give “{made}” another, or delete it.",
            other=used.Label,
            made=obj.Label,
        )
    return None


def belongs_to(obj: Any, stack: StackObject) -> bool:
    """Whether pins or a hollow are there, wanted, and made for this stack."""
    return obj is not None and not obj.Suppressed and obj.Stack is not None and obj.Stack.Name == stack.Name


def name_of_stack(stack: StackObject) -> str:
    """The piece's name on drawings, in the bill and in joints."""
    return str(stack.Piece or stack.Label)


def shop_in(document: Document) -> ShopObject | None:
    """The document's shop, or None."""
    return next((o for o in document.Objects if kind_of(o) == "shop"), None)


def cutting_in(document: Document) -> CuttingObject | None:
    """The document's cutting plan, or None."""
    return next((o for o in document.Objects if kind_of(o) == "cutting"), None)


def carving_in(document: Document) -> CarvingObject | None:
    """The document's carving guide, or None."""
    return next((o for o in document.Objects if kind_of(o) == "carving"), None)


def glue_up_in(document: Document) -> GlueUpObject | None:
    """The document's glue-up, or None."""
    return next((o for o in document.Objects if kind_of(o) == "glue-up"), None)


def piece_in(document: Document) -> PieceObject | None:
    """What is set of the document's finished piece, or None."""
    return next((o for o in document.Objects if kind_of(o) == "piece"), None)


def settling(document: Document) -> bool:
    """Whether FreeCAD is reading, undoing or redoing, which bring objects back themselves."""
    return bool(document.Restoring or document.Transacting)
