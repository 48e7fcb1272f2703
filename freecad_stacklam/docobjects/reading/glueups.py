# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up of a document's stacks as they are, and the one that its object shows."""

from __future__ import annotations

from typing import Any
from weakref import WeakKeyDictionary

from freecad_stacklam.docobjects.base.family import joints_in
from freecad_stacklam.docobjects.base.protocols import Document, GlueUpObject
from freecad_stacklam.docobjects.reading.gluing import glue_up_for, glue_up_key
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.joints import shown_joint
from freecad_stacklam.docobjects.reading.whole import unguided_settings
from freecad_stacklam.docobjects.reading.wood import boards_for
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings

#: The plan that each object's last execute found.
_shown: WeakKeyDictionary[Any, GlueUpPlan] = WeakKeyDictionary()


def asked_of(document: Document) -> tuple[Settings, Plan]:
    """The document's settings, and what of its plan a glue-up asks: the stacks with all that is cut into them, the
    joints, the boards. Raises Refusal."""
    settings, stacks = unguided_settings(document), finished_stacks(document)
    joints = tuple(shown_joint(j) for j in joints_in(document) if not j.Suppressed)
    boards = boards_for(document, stacks, settings) if boardplan.wanted(settings) else None
    return settings, Plan(settings.title, settings.units, tuple(stacks), joints, boards=boards)


def key_now(document: Document) -> str:
    """What a glue-up of the document as it is now would be planned for. Raises Refusal."""
    return glue_up_key(document, finished_stacks(document), unguided_settings(document))


def plan_anew(glue_up: GlueUpObject) -> tuple[GlueUpPlan | None, str]:
    """The plan for the document as it is now, which the object then shows, None without clamps; and its key. Raises
    Refusal."""
    _shown.pop(glue_up.Proxy, None)
    settings, whole = asked_of(glue_up.Document)
    plan = glue_up_for(glue_up.Document, whole, settings) if settings.presses else None
    if plan is not None:
        _shown[glue_up.Proxy] = plan
    return plan, glue_up_key(glue_up.Document, whole.stacks, settings)


def shown_glue_up(glue_up: GlueUpObject) -> GlueUpPlan | None:
    """The plan that the object shows: that of its last recompute, else a new one; None without clamps. Raises
    Refusal."""
    kept = _shown.get(glue_up.Proxy)
    return plan_anew(glue_up)[0] if kept is None else kept
