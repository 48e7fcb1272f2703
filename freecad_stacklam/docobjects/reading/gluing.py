# SPDX-License-Identifier: LGPL-2.1-or-later

"""Glue and room from the properties of a document's glue-up, the clamps from its sheet, and the plan for them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from hashlib import sha256
from importlib import import_module
from typing import Any

from freecad_stacklam.data import glue_table
from freecad_stacklam.docobjects.base.family import cutting_in, glue_up_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, GlueUpObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.woods import woods_of
from freecad_stacklam.docobjects.reading.wood import key_of
from freecad_stacklam.docobjects.spreadsheets.clamps import presses_in
from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.presses import NO_CLAMPS


def glue_of(glue_up: GlueUpObject) -> GlueSettings:
    """The glue. Raises Refusal when a value cannot be."""
    return GlueSettings(**_values(glue_up, GlueSettings))


def room_of(glue_up: GlueUpObject) -> GluingRoom:
    """The room. Raises Refusal when a value cannot be."""
    return GluingRoom(**_values(glue_up, GluingRoom))


def _values(glue_up: GlueUpObject, record: type[Record]) -> dict[str, Any]:
    """Values of a record's rows. A property's 0 stands for what is left out, unless its name is among the zeros."""
    held = read(glue_up, record)
    meant = [row.name for row in rows_of(record) if row.property in glue_up.Zeros and held[row.name] is None]
    return {**held, **dict.fromkeys(meant, 0.0)}


def zeros_of(*many: Record) -> list[str]:
    """The properties of options that may be left out, and are given as 0."""
    return [
        row.property
        for record in many
        for row in rows_of(type(record))
        if row.property and row.first is None and getattr(record, row.name) == 0
    ]


def gluing_in(document: Document) -> dict[str, Any]:
    """What of a job's settings is about the glue-up, by the names of their fields: without a glue-up no glue and no
    room, without their sheet no clamps. Raises Refusal."""
    glue_up = glue_up_in(document)
    told: dict[str, Any] = {"presses": presses_in(document)}
    if glue_up is not None:
        told |= {"glue": glue_of(glue_up), "room": room_of(glue_up)}
    return told


# --- the plan -------------------------------------------------------------------------------------------------------

#: Plans that were made, by what they were made for.
_made: Memory[GlueUpPlan] = Memory(24)


def glue_up_for(document: Document, plan: Plan, settings: Settings) -> GlueUpPlan:
    """The glue-up of a document's stacks, with all that is cut into them, planned once. Raises Refusal."""
    return _made.get(glue_up_key(document, plan.stacks, settings), lambda: _planned(plan, settings))


def is_glued(document: Document) -> bool:
    """Whether the glue-up is planned with the document: it is not where its object is suppressed."""
    glue_up = glue_up_in(document)
    return glue_up is None or not glue_up.Suppressed


def glue_up_key(document: Document, stacks: Sequence[StackPlan], settings: Settings) -> str:
    """What a glue-up is planned for, in few characters: the stacks and where they stand, the joints between them, the
    boards and how they are cut, glue, room and clamps. What the glue costs is the bill's alone."""
    cutting, wood = cutting_in(document), key_of(stacks, settings)
    cut = cutting.Kept if cutting is not None and cutting.KeptFor == wood else ""
    frames = [[f"{v:.6f}" for v in s.frame] for s in stacks]
    glue = None if settings.glue is None else replace(settings.glue, price=None)
    told = settings.joints, glue, settings.room, settings.presses, settings.units, settings.species
    return sha256(repr((wood, cut, frames, *told)).encode()).hexdigest()[:32]


def _planned(plan: Plan, settings: Settings) -> GlueUpPlan:
    if not settings.presses:
        raise Refusal(NO_CLAMPS)
    found: GlueUpPlan = planner()(plan, settings, woods_of(settings.species), glue_table())
    return found


def planner() -> Any:
    """What plans a glue-up; loaded when the first is wanted."""
    return import_module("freecad_stacklam.lamination.gluing.glueup").plan_glue_up
