# SPDX-License-Identifier: LGPL-2.1-or-later

"""Glue-ups that were planned for a document, each kept for what it was planned for."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from importlib import import_module
from typing import Any

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.family import cutting_in, glue_up_in, joints_in
from freecad_stacklam.docobjects.reading.joints import shown_joint
from freecad_stacklam.docobjects.reading.wood import boards_for, key_of
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings

NO_CLAMPS = "There are no clamps: list those that the shop owns, with the force and the opening of each."
#: Plans that were made, by what they were made for.
_made: Memory[GlueUpPlan] = Memory(24)


def glue_up_for(document: Document, settings: Settings, stacks: Sequence[StackPlan]) -> GlueUpPlan:
    """The glue-up of these stacks, the document's own with all that is cut into them, planned once. Raises Refusal."""
    return _made.get(glue_up_key(document, settings, stacks), lambda: _planned(document, settings, stacks))


def glue_up_key(document: Document, settings: Settings, stacks: Sequence[StackPlan]) -> str:
    """What a glue-up is planned for, in few characters: the stacks and where they stand, the joints between them, the
    boards and how they are cut, glue, room and clamps."""
    cutting, wood = cutting_in(document), key_of(stacks, settings)
    cut = cutting.Kept if cutting is not None and cutting.KeptFor == wood else ""
    frames = [[f"{v:.6f}" for v in s.frame] for s in stacks]
    told = settings.joints, settings.glue, settings.room, settings.presses, settings.units
    return sha256(repr((wood, cut, frames, *told)).encode()).hexdigest()[:32]


def _planned(document: Document, settings: Settings, stacks: Sequence[StackPlan]) -> GlueUpPlan:
    if not settings.presses:
        raise Refusal(NO_CLAMPS)
    joints = tuple(shown_joint(j) for j in joints_in(document) if not j.Suppressed)
    boards = boards_for(document, stacks, settings) if boardplan.wanted(settings) else None
    plan = Plan(settings.title, settings.units, tuple(stacks), joints, boards=boards)
    found: GlueUpPlan = planner()(plan, settings, species_table(), glue_table())
    return found


def planner() -> Any:
    """What plans a glue-up; loaded when the first is wanted."""
    return import_module("freecad_stacklam.lamination.gluing.glueup").plan_glue_up


def glue_up_of(document: Document, plan: Plan, settings: Settings) -> GlueUpPlan:
    """The glue-up of a document's plan, planned once. Raises Refusal."""

    def made() -> GlueUpPlan:
        found: GlueUpPlan = planner()(plan, settings, species_table(), glue_table())
        return found

    return _made.get(glue_up_key(document, settings, plan.stacks), made)


def is_glued(document: Document) -> bool:
    """Whether the glue-up is planned with the document: it is not where its object is suppressed."""
    glue_up = glue_up_in(document)
    return glue_up is None or not glue_up.Suppressed
