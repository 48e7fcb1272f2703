# SPDX-License-Identifier: LGPL-2.1-or-later

"""All that a document's objects say as one record, and the plan that drawings, bill and checks are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from freecad_stacklam.docobjects.base.family import cutting_in, joints_in, name_of_stack, shop_in, stacks_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, StackObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.base.woods import own_woods_in, woods_in
from freecad_stacklam.docobjects.forms.plancache import Same
from freecad_stacklam.docobjects.reading.gluing import glue_up_for, gluing_in, is_glued
from freecad_stacklam.docobjects.reading.guide import carving_of
from freecad_stacklam.docobjects.reading.insides import hollow_in, pins_in
from freecad_stacklam.docobjects.reading.joints import settings_of_joint
from freecad_stacklam.docobjects.reading.piece import piece_for, piece_settings_in, slow_made
from freecad_stacklam.docobjects.reading.stacks import planned_stack, settings_of_stack
from freecad_stacklam.docobjects.reading.steps import KEPT
from freecad_stacklam.docobjects.reading.wood import boards_for, settings_of_shop
from freecad_stacklam.docobjects.spreadsheets.rack import boards_in
from freecad_stacklam.lamination.job.assembly import assemble
from freecad_stacklam.lamination.job.piece import PARTS
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import Species

#: Plans that were made, by what they were made of.
_made: Memory[Plan] = Memory(4)


def settings_of(document: Document) -> Settings:
    """All that the document's objects say, as one record. Raises Refusal when a value cannot be."""
    return replace(unguided_settings(document), carving=carving_of(document))


def unguided_settings(document: Document) -> Settings:
    """The same without the carving guide, for those whom its faults do not concern. Raises Refusal."""
    job = job_in(document)
    settings = Settings(title="") if job is None else Settings(**read(job, Settings))
    return replace(
        settings,
        title=settings.title or document.Label,
        stacks=tuple(_stack_settings(s) for s in stacks_in(document)),
        joints=tuple(settings_of_joint(j) for j in joints_in(document) if not j.Suppressed),
        shop=settings_of_shop(shop_in(document)),
        boards=boards_in(document),
        **gluing_in(document),
        species=own_woods_in(document),
        **piece_settings_in(document),
    )


def _stack_settings(stack: StackObject) -> StackSettings:
    """A stack's own settings with those of its hollow and its pins."""
    return replace(
        settings_of_stack(stack),
        form=name_of_stack(stack),
        hollow=hollow_in(stack),
        pins=pins_in(stack),
    )


def plan_of(document: Document, table: Mapping[str, Species] | None = None) -> Plan:
    """The plan for the document as it is now; the same one for as long as nothing in the document changes.

    table: species by name (the project's own if not given). Raises Refusal.
    """
    return _plan(document, settings_of(document), table)


def unboarded_plan(document: Document) -> Plan:
    """The same without staves, boards, glue-up and finished piece, for those who plan the boards themselves."""
    none: Any = {**dict.fromkeys(PARTS), "glue": None, "room": None}
    bare = replace(settings_of(document), shop=ShopSettings(), boards=(), presses=(), **none)
    return _plan(document, bare, None)


def _plan(document: Document, settings: Settings, table: Mapping[str, Species] | None) -> Plan:
    stacks = stacks_in(document)
    if not stacks:
        raise Refusal("There is no stack in this document: pick a form and slice it first.")
    names = [name_of_stack(s) for s in stacks]
    for name in names:
        if names.count(name) > 1:
            raise Refusal(f"Two stacks are called “{name}”: give each piece a name of its own.")
    planned = [planned_stack(s) for s in stacks]
    plans, forms = [plan for plan, _ in planned], [form for _, form in planned]
    table = woods_in(document) if table is None else table
    cutting = cutting_in(document)
    boards = (cutting.Kept, cutting.KeptFor) if cutting is not None else None
    on_any_paper = replace(settings, paper="A4", paper_full="")  # which it is changes nothing of a plan
    made_of = (Same(thing) for thing in (table, *plans, *(form.mesh for form in forms)))
    glued = is_glued(document)
    key = (on_any_paper, boards, glued, slow_made(), *made_of)
    wood, glue = partial(boards_for, document), partial(glue_up_for, document) if glued else None
    steps = replace(KEPT, look=piece_for)
    return _made.get(key, lambda: assemble(plans, forms, settings.joints, settings, table, wood, glue, steps))
