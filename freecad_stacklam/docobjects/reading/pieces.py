# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is found about the finished piece of a document as it is now."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress

from freecad_stacklam.docobjects.base.family import name_of_stack, piece_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, PieceObject, StackObject
from freecad_stacklam.docobjects.base.woods import woods_of
from freecad_stacklam.docobjects.forms.plancache import solid_text
from freecad_stacklam.docobjects.reading.glueups import asked_of
from freecad_stacklam.docobjects.reading.piece import (
    Runner,
    look_slowly,
    piece_for,
    piece_key,
    plainly,
    slow_standing,
    slow_text,
)
from freecad_stacklam.docobjects.reading.stacks import planned_stack
from freecad_stacklam.docobjects.reading.whole import sound_settings, unboarded_plan
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.piece import OPINION, pending_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.outsideprograms import OutsidePrograms


def asked_piece(document: Document) -> tuple[Settings, Plan, dict[str, Mesh]]:
    """The document's settings, what of its plan the finished piece asks, and its forms. One broken stack keeps nothing
    from the others: it is left out. Raises Refusal where none is whole."""
    try:
        settings, plan = asked_of(document)
    except Refusal:
        settings, plan = sound_settings(document), unboarded_plan(document)
    meshes = {}
    for stack in stacks_in(document):
        with suppress(Refusal):
            _, form = planned_stack(stack)
            meshes[form.name] = form.mesh
    return settings, plan, meshes


def found_anew(piece: PieceObject) -> tuple[PieceFindings, str, dict[str, str]]:
    """The findings for the document as it is now, their key, and how the slow parts stand. Raises Refusal."""
    settings, plan, meshes = asked_piece(piece.Document)
    found = piece_for(plan, meshes, settings, woods_of(settings.species))
    return found, piece_key(plan, settings), slow_standing(plan, settings, piece.Looked)


def key_now(document: Document) -> str:
    """What the findings of the document as it is now would be made for. Raises Refusal."""
    settings, plan, _ = asked_piece(document)
    return piece_key(plan, settings)


def look_deeper(document: Document, tell: Callable[[float, str], bool], run: Runner = plainly) -> tuple[bool, str]:
    """Make the slow figures for the document as it is now: whether all are there (`tell` stopped none of them), and the
    text that keeps what there is. run: how each is done; it touches no document. Raises Refusal."""
    settings, plan, meshes = asked_piece(document)
    # Asked of the document here: `run` may do the rest beside the window.
    programs = outside_programs(document) if OPINION in pending_of(settings) else None
    finished = look_slowly(plan, meshes, settings, woods_of(settings.species), tell, run, programs)
    piece = piece_in(document)
    return finished, slow_text(plan, settings, "" if piece is None else piece.Looked)


def outside_programs(document: Document) -> OutsidePrograms:
    """The programs of a second opinion, with the solids of the document as they are now."""
    return OutsidePrograms({name_of_stack(s): _solid_of(s) for s in stacks_in(document)}.get)


def _solid_of(stack: StackObject) -> str | None:
    """The text of a stack's solid in the model, as the kernel writes it; None where its form is a mesh."""
    return None if stack.Form is None else solid_text(stack.Form, stack.FormPath, stack.Solid)
