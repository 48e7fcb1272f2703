# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole document from settings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from freecad_stacklam.docobjects.base.family import stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, JobObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.job import Job
from freecad_stacklam.docobjects.making.boards import make_shop
from freecad_stacklam.docobjects.making.carving import put_carving
from freecad_stacklam.docobjects.making.glueups import put_glue_up
from freecad_stacklam.docobjects.making.insides import put_hollow, put_pins
from freecad_stacklam.docobjects.making.joints import make_joint
from freecad_stacklam.docobjects.making.matching import match_document
from freecad_stacklam.docobjects.making.piece import put_piece
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.making.stacks import make_stack
from freecad_stacklam.docobjects.spreadsheets.rack import write_rack
from freecad_stacklam.lamination.job.assembly import Form, matched
from freecad_stacklam.lamination.job.piece import piece_wanted
from freecad_stacklam.lamination.options.recordlines import record_line
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.words import say


def make_job(document: Document, settings: Settings) -> JobObject:
    """The document's job with these settings; made if there is none."""
    job = the_one(document, job_in, Job, "Commission")
    fill(job, settings)
    return job


def begin_job(document: Document, units: str, paper: str) -> None:
    """Give a document that holds nothing of ours yet a job in the maker's own inches; part of the caller's undo step.

    Units decide which bits bore the holes, so they are kept in the file and are the same wherever it is opened. A
    document without a job is one in millimetres, and with stacks in it stays one.
    """
    if units != "mm" and job_in(document) is None and not stacks_in(document):
        make_job(document, Settings(title="", units=units, paper=paper))


def fill_document(
    document: Document,
    forms: Sequence[Any],
    settings: Settings,
    cut_boards: Callable[[Document], object] = lambda _: None,
) -> None:
    """Make the job, a stack for every form, the joints, hollows, pins, carving guide, glue-up and finished piece, and
    recompute.

    forms: objects of the document. Without [[stack]] settings every solid becomes a stack with the defaults. A hollow,
    pins, a guide or a glue-up that cannot be made stand there with their errors. cut_boards: plans how the boards are
    cut, before their staves are glued. Raises Refusal; the document is then unfinished.
    """
    found: list[tuple[Any, plancache.Found]] = []
    for obj in forms:
        found.extend((obj, one) for one in plancache.find_forms(obj))
    pieces = [Form(one.label, one.mesh, one.datum, one.exact) for _, one in found]
    sources = {one.label: obj for obj, one in found}
    pairs = matched(pieces, settings)
    job = make_job(document, settings)
    job.Woods = [record_line(own) for own in settings.species]
    if settings.shop.given:
        make_shop(document, settings.shop)
    if settings.boards:
        write_rack(document, settings.boards, settings.units)
    stacks = {
        form.name: make_stack(document, sources[form.name], replace(chosen, form=form.name), piece=form.name)
        for form, chosen in pairs
    }
    for joint in settings.joints:
        missing = [name for name in joint.stacks if name not in stacks]
        if missing:
            raise Refusal(
                say(
                    "Joint “{name}” names “{missing}”, which is no stack here: the stacks are {list}.",
                    name=joint.name,
                    missing=missing[0],
                    list=", ".join(stacks),
                )
            )
        make_joint(document, [stacks[name] for name in joint.stacks], joint)
    for form, chosen in pairs:
        if chosen.hollow is not None:
            put_hollow(stacks[form.name], chosen.hollow)
        if chosen.pins is not None:
            put_pins(stacks[form.name], chosen.pins)
    if settings.carving is not None:
        put_carving(document, settings.carving)
    document.recompute()
    cut_boards(document)
    if settings.glue is not None or settings.room is not None or settings.presses:
        glue, room = settings.glue or GlueSettings(), settings.room or GluingRoom()
        put_glue_up(document, glue, room, settings.presses, settings.units)
        document.recompute()
    if piece_wanted(settings):
        put_piece(document, settings)
        document.recompute()


def refresh(document: Document) -> None:
    """Plan everything anew from the forms as they are, and match the layers."""
    for stack in stacks_in(document):
        stack.touch()
    document.recompute()
    match_document(document)
