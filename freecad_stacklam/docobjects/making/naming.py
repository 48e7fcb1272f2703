# SPDX-License-Identifier: LGPL-2.1-or-later

"""The names of pieces: of a copy, of a form that is called something else, and of the maker's own choice."""

from __future__ import annotations

import re
from collections.abc import Container
from typing import Any

from freecad_stacklam.docobjects.base.family import BELONGINGS, made_for, name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, StackObject
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say
from freecad_stacklam.objectkinds import kind_of

_NUMBER = re.compile(r" \d+$")


def free_name(document: Document, wanted: str, besides: str = "") -> str:
    """`wanted`, or the same with a number where another stack than the one named `besides` has it."""
    taken = {name_of_stack(s) for s in stacks_in(document) if s.Name != besides}
    name, number = wanted, 2
    while name in taken:
        name, number = f"{wanted} {number}", number + 1
    return name


def name_piece(stack: StackObject, name: str) -> None:
    """Give a piece its name, and the labels of what belongs to it, where they are those it was given. Part of the
    caller's undo step if one is open. Raises Refusal for no name, and for one that another piece has."""
    old, name = name_of_stack(stack), " ".join(name.split())
    if not name:
        raise Refusal(say("The piece has no name: give it one, it stands on every drawing."))
    if name == old:
        return
    if free_name(stack.Document, name, stack.Name) != name:
        raise Refusal(say("Another piece is called “{name}”: give this one a name of its own.", name=name))
    stack.Piece = name
    belongings = [o for kind in BELONGINGS for o in made_for(stack, kind)]
    layers = [o for o in stack.Document.Objects if kind_of(o) == "layer" and o.Stack is not None]
    for one in (stack, *belongings, *(o for o in layers if o.Stack.Name == stack.Name)):
        if one.Label.startswith(f"{old} "):
            one.Label = name + one.Label[len(old) :]


def follow_label(form: Any, old: str) -> None:
    """A form was called `old`: what bears its name follows, a piece that the maker named does not."""
    for stack in stacks_in(form.Document):
        source = stack.Form
        if source is None or not (source.Name == form.Name or _within(source, form)):
            continue
        if stack.Solid == old:
            stack.Solid = form.Label
        if name_of_stack(stack) == old:
            name_piece(stack, free_name(stack.Document, form.Label, stack.Name))


def _within(source: Any, form: Any) -> bool:
    return any(o.Name == form.Name and o.Document.Name == form.Document.Name for o in source.OutListRecursive)


def part_twins(document: Document, born: Container[str]) -> list[StackObject]:
    """Give each stack of `born`, names of new objects, a free name where an earlier one has that of its piece; those
    that were given one. After “Leg 2” comes “Leg 3”."""
    parted: list[StackObject] = []
    there: set[str] = set()
    for stack in sorted(stacks_in(document), key=lambda s: s.ID):
        if stack.Name in born and stack.Piece in there:
            stack.Piece = free_name(document, _NUMBER.sub("", stack.Piece), stack.Name)
            parted.append(stack)
        there.add(name_of_stack(stack))
    return parted
