# SPDX-License-Identifier: LGPL-2.1-or-later

"""All that a document's objects say as one record, and the plan that drawings, bill and checks are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
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
from freecad_stacklam.lamination.job.assembly import Form, assemble
from freecad_stacklam.lamination.job.piece import PARTS
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

#: Plans that were made, by what they were made of.
_made: Memory[Plan] = Memory(4)


def settings_of(document: Document) -> Settings:
    """All that the document's objects say, as one record. Raises Refusal when a value cannot be."""
    return replace(unguided_settings(document), carving=carving_of(document))


def unguided_settings(document: Document) -> Settings:
    """The same without the carving guide, for those whom its faults do not concern. Raises Refusal."""
    stacks = tuple(_stack_settings(s) for s in stacks_in(document))
    joints = tuple(settings_of_joint(j) for j in joints_in(document) if not j.Suppressed)
    return replace(_other_settings(document), stacks=stacks, joints=joints)


def job_settings(document: Document) -> Settings:
    """Title, units, paper and what else holds for the whole job."""
    job = job_in(document)
    settings = Settings(title="") if job is None else Settings(**read(job, Settings))
    return replace(settings, title=settings.title or document.Label)


def _other_settings(document: Document) -> Settings:
    """All but stacks, joints and guide."""
    return replace(
        job_settings(document),
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


@dataclass(frozen=True, eq=False)
class _Sound:
    """What of a document can be planned, and what cannot, with why."""

    settings: Settings
    plans: tuple[StackPlan, ...]
    forms: tuple[Form, ...]
    left_out: tuple[LeftOut, ...]


def _sound_part(document: Document) -> _Sound:
    """One broken stack keeps nothing from the others: it is left out, with the joints that go through it. Raises
    Refusal where there is none that is whole."""
    stacks = stacks_in(document)
    if not stacks:
        raise Refusal(say("There is no stack in this document: pick a form and slice it first."))
    names = [name_of_stack(s) for s in stacks]
    for name in names:
        if names.count(name) > 1:
            raise Refusal(say("Two stacks are called “{name}”: give each piece a name of its own.", name=name))
    chosen, planned, left_out, refused = [], [], [], []
    for stack, name in zip(stacks, names):
        try:
            asked, found = _stack_settings(stack), planned_stack(stack)
        except Refusal as refusal:
            refused.append(refusal)
            left_out.append(LeftOut(name, refusal.sentence))
            continue
        chosen.append(asked)
        planned.append(found)
    if not planned:
        raise refused[0]
    broken = {one.what for one in left_out}
    joints = []
    for joint in joints_in(document):
        lost = next((s for s in joint.Stacks if s is not None and name_of_stack(s) in broken), None)
        if lost is not None and not joint.Suppressed:
            says = say("It joins “{lost}”, which cannot be planned: mend that stack first.", lost=name_of_stack(lost))
            left_out.append(LeftOut(joint.Label, says))
        elif not joint.Suppressed:
            joints.append(settings_of_joint(joint))
    settings = replace(
        _other_settings(document), stacks=tuple(chosen), joints=tuple(joints), carving=carving_of(document)
    )
    plans, forms = zip(*planned)
    return _Sound(settings, plans, forms, tuple(left_out))


def sound_settings(document: Document) -> Settings:
    """All that the document's objects say, without stacks that cannot be planned and joints through them. Raises
    Refusal."""
    return _sound_part(document).settings


def plan_of(document: Document, table: Mapping[str, Species] | None = None) -> Plan:
    """The plan for the document as it is now; the same one for as long as nothing in the document changes. A stack that
    cannot be planned is left out, and a check says stop with the reason.

    table: species by name (the project's own if not given). Raises Refusal.
    """
    return _plan(document, _sound_part(document), table)


def unboarded_plan(document: Document) -> Plan:
    """The same without staves, boards, glue-up and finished piece, for those who plan the boards themselves."""
    none: Any = {**dict.fromkeys(PARTS), "glue": None, "room": None}
    sound = _sound_part(document)
    bare = replace(sound.settings, shop=ShopSettings(), boards=(), presses=(), **none)
    return _plan(document, replace(sound, settings=bare), None)


def _plan(document: Document, sound: _Sound, table: Mapping[str, Species] | None) -> Plan:
    settings, plans, forms = sound.settings, sound.plans, sound.forms
    table = woods_in(document) if table is None else table
    cutting = cutting_in(document)
    boards = (cutting.Kept, cutting.KeptFor) if cutting is not None else None
    on_any_paper = replace(settings, paper="A4", paper_full="")  # which it is changes nothing of a plan
    made_of = (Same(thing) for thing in (table, *plans, *(form.mesh for form in forms)))
    glued = is_glued(document)
    key = (on_any_paper, boards, glued, slow_made(), sound.left_out, *made_of)
    wood, glue = partial(boards_for, document), partial(glue_up_for, document) if glued else None
    steps = replace(KEPT, look=piece_for)
    given = (settings.joints, settings, table, wood, glue, steps, sound.left_out)
    return _made.get(key, lambda: assemble(plans, forms, *given))
