# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole document: settings into objects, and objects into the plan that drawings, bill and checks are made from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects.carvingguide import carving_of, make_carving
from freecad_stacklam.docobjects.cuts import belongs_to
from freecad_stacklam.docobjects.cutting import boards_for
from freecad_stacklam.docobjects.forms import plancache
from freecad_stacklam.docobjects.hollow import make_hollow, settings_of_hollow
from freecad_stacklam.docobjects.job import job_in, make_job
from freecad_stacklam.docobjects.joint import make_joint, settings_of_joint
from freecad_stacklam.docobjects.pins import make_pins, settings_of_pins
from freecad_stacklam.docobjects.shop import make_shop, settings_of_shop, shop_in
from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack
from freecad_stacklam.docobjects.stack import (
    form_of_stack,
    make_stack,
    name_of_stack,
    plan_of_stack,
    settings_of_stack,
)
from freecad_stacklam.docobjects.watcher import in_use, joints_in, match_document, stacks_in
from freecad_stacklam.lamination.job.assembly import Form, assemble, matched
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import Species


def settings_of(document: Any) -> Settings:
    """All that the document's objects say, as one record. Raises Refusal when a value cannot be."""
    job = job_in(document)
    settings = (
        Settings(title=document.Label)
        if job is None
        else Settings(
            title=job.Title,
            units=job.Units,
            paper=job.Paper,
            paper_full=job.PaperFull,
            date=job.Date,
            author=job.Author,
        )
    )
    return replace(
        settings,
        stacks=tuple(_stack_settings(s) for s in stacks_in(document)),
        joints=tuple(settings_of_joint(j) for j in joints_in(document) if not j.Suppressed),
        shop=settings_of_shop(shop_in(document)),
        boards=boards_in(document),
        carving=carving_of(document),
    )


def _stack_settings(stack: Any) -> StackSettings:
    """A stack's own settings with those of its hollow and its pins."""
    hollow, pins = in_use(stack, "hollow"), in_use(stack, "pins")
    return replace(
        settings_of_stack(stack),
        form=name_of_stack(stack),
        hollow=settings_of_hollow(hollow) if belongs_to(hollow, stack) else None,
        pins=settings_of_pins(pins) if belongs_to(pins, stack) else None,
    )


def plan_of(document: Any, table: Mapping[str, Species] | None = None) -> Plan:
    """The plan for the document as it is now; stacks that were planned already are not planned again.

    table: species by name (the project's own if not given). Raises Refusal.
    """
    return _plan(document, settings_of(document), table)


def unboarded_plan(document: Any) -> Plan:
    """The same without staves and boards, for those who plan these themselves."""
    return _plan(document, replace(settings_of(document), shop=ShopSettings(), boards=()), None)


def _plan(document: Any, settings: Settings, table: Mapping[str, Species] | None) -> Plan:
    stacks = stacks_in(document)
    if not stacks:
        raise Refusal("There is no stack in this document: pick a form and slice it first.")
    names = [name_of_stack(s) for s in stacks]
    for name in names:
        if names.count(name) > 1:
            raise Refusal(f"Two stacks are called “{name}”: give each piece a name of its own.")
    return assemble(
        [plan_of_stack(s) for s in stacks],
        [form_of_stack(s) for s in stacks],
        settings.joints,
        settings,
        species_table() if table is None else table,
        partial(boards_for, document),
    )


def fill_document(document: Any, forms: Sequence[Any], settings: Settings) -> None:
    """Make the job, a stack for every form, the joints, hollows, pins and carving guide, and recompute.

    forms: objects of the document. Without [[stack]] settings every solid becomes a stack with the defaults. Raises
    Refusal; the document is then unfinished.
    """
    found: list[tuple[Any, plancache.Found]] = []
    for obj in forms:
        found.extend((obj, one) for one in plancache.find_forms(obj))
    pieces = [Form(one.label, one.mesh, one.datum, one.exact) for _, one in found]
    sources = {one.label: obj for obj, one in found}
    pairs = matched(pieces, settings)
    make_job(document, settings)
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
                f"Joint “{joint.name}” names “{missing[0]}”, which is no stack here: "
                f"the stacks are {', '.join(stacks)}."
            )
        make_joint(document, [stacks[name] for name in joint.stacks], joint)
    for form, chosen in pairs:
        if chosen.hollow is not None:
            make_hollow(stacks[form.name], chosen.hollow)
        if chosen.pins is not None:
            make_pins(stacks[form.name], chosen.pins)
    if settings.carving is not None:
        make_carving(document, settings.carving)
    document.recompute()


def refresh(document: Any) -> None:
    """Plan everything anew from the forms as they are, and match the layers."""
    for stack in stacks_in(document):
        stack.touch()
    document.recompute()
    match_document(document)
