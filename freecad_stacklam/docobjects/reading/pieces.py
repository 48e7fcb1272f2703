# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is found about the finished piece of a document as it is now."""

from __future__ import annotations

from collections.abc import Callable

from freecad_stacklam.docobjects.base.family import name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, PieceObject
from freecad_stacklam.docobjects.base.woods import woods_of
from freecad_stacklam.docobjects.forms.plancache import solid_text
from freecad_stacklam.docobjects.reading.glueups import asked_of
from freecad_stacklam.docobjects.reading.piece import look_slowly, piece_for, piece_key
from freecad_stacklam.docobjects.reading.stacks import planned_stack
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.outsideprograms import OutsidePrograms


def asked_piece(document: Document) -> tuple[Settings, Plan, dict[str, Mesh]]:
    """The document's settings, what of its plan the finished piece asks, and its forms. Raises Refusal."""
    settings, plan = asked_of(document)
    meshes = {form.name: form.mesh for _, form in (planned_stack(s) for s in stacks_in(document))}
    return settings, plan, meshes


def found_anew(piece: PieceObject) -> tuple[PieceFindings, str]:
    """The findings for the document as it is now, and their key. Raises Refusal."""
    settings, plan, meshes = asked_piece(piece.Document)
    return piece_for(plan, meshes, settings, woods_of(settings.species)), piece_key(plan, settings)


def key_now(document: Document) -> str:
    """What the findings of the document as it is now would be made for. Raises Refusal."""
    settings, plan, _ = asked_piece(document)
    return piece_key(plan, settings)


def look_deeper(document: Document, tell: Callable[[float, str], bool]) -> bool:
    """Make the slow figures for the document as it is now; False where `tell` stopped them. Raises Refusal."""
    settings, plan, meshes = asked_piece(document)
    return look_slowly(plan, meshes, settings, woods_of(settings.species), tell, outside_programs(document))


def outside_programs(document: Document) -> OutsidePrograms:
    """The programs of a second opinion, which ask the document for its solids."""
    return OutsidePrograms(lambda name: _solid_of(document, name))


def _solid_of(document: Document, name: str) -> str | None:
    """The text of a stack's solid in the model, as the kernel writes it; None where its form is a mesh."""
    for stack in stacks_in(document):
        if name_of_stack(stack) == name and stack.Form is not None:
            return solid_text(stack.Form, stack.FormPath, stack.Solid)
    return None
