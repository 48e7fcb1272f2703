# SPDX-License-Identifier: LGPL-2.1-or-later

"""Keeps a document in step with its plans after a recompute."""

from __future__ import annotations

from collections.abc import Container

from freecad_stacklam.docobjects.base.family import BELONGINGS, settling, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.boards import match_cutting
from freecad_stacklam.docobjects.making.carving import match_carving
from freecad_stacklam.docobjects.making.glueups import match_glue_up
from freecad_stacklam.docobjects.making.layers import match_layers
from freecad_stacklam.docobjects.making.naming import part_twins
from freecad_stacklam.docobjects.making.piece import match_piece
from freecad_stacklam.objectkinds import kind_of


def match_document(document: Document, lost: Container[str] = (), born: Container[str] = ()) -> None:
    """Match layers, cutting plan, carving guide, glue-up and finished piece to the stacks; take away layers without a
    stack, and what of `lost`, names of objects, was made for a stack that is gone. born: names of objects that are new:
    the piece of a copied stack gets a name of its own."""
    if settling(document):
        return
    for obj in [o for o in document.Objects if kind_of(o) in ("layer", *BELONGINGS) and o.Stack is None]:
        if kind_of(obj) == "layer" or obj.Name in lost:
            document.removeObject(obj.Name)
    for stack in part_twins(document, born):
        if "Invalid" not in stack.State:
            stack.recompute()
            stack.purgeTouched()
    for stack in stacks_in(document):
        match_layers(stack)
    match_cutting(document)
    match_carving(document)
    match_glue_up(document)
    match_piece(document)
