# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up of a document's stacks as they are, and the one that its object shows."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from importlib import import_module
from typing import Any
from weakref import WeakKeyDictionary

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, GlueUpObject
from freecad_stacklam.docobjects.family import cutting_in, joints_in
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.joints import shown_joint
from freecad_stacklam.docobjects.reading.whole import unguided_settings
from freecad_stacklam.docobjects.reading.wood import boards_for, key_of
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings

NO_CLAMPS = "There are no clamps: list those that the shop owns, with the force and the opening of each."
#: Plans that were made, by what they were made for; and the one that each object's last execute found.
_made: Memory[GlueUpPlan] = Memory(24)
_shown: WeakKeyDictionary[Any, GlueUpPlan] = WeakKeyDictionary()


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


def asked_of(document: Document) -> tuple[Settings, list[StackPlan]]:
    """The document's settings, and its stacks with all that is cut into them. Raises Refusal."""
    return unguided_settings(document), finished_stacks(document)


def plan_anew(glue_up: GlueUpObject) -> tuple[GlueUpPlan | None, str]:
    """The plan for the document as it is now, which the object then shows, None without clamps; and its key. Raises
    Refusal."""
    _shown.pop(glue_up.Proxy, None)
    settings, stacks = asked_of(glue_up.Document)
    plan = glue_up_for(glue_up.Document, settings, stacks) if settings.presses else None
    if plan is not None:
        _shown[glue_up.Proxy] = plan
    return plan, glue_up_key(glue_up.Document, settings, stacks)


def shown_glue_up(glue_up: GlueUpObject) -> GlueUpPlan | None:
    """The plan that the object shows: that of its last recompute, else a new one; None without clamps. Raises
    Refusal."""
    kept = _shown.get(glue_up.Proxy)
    return plan_anew(glue_up)[0] if kept is None else kept
