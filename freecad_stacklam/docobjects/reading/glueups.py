# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up of a document's stacks as they are, and the one that its object shows."""

from __future__ import annotations

from typing import Any
from weakref import WeakKeyDictionary

from freecad_stacklam.docobjects.base.protocols import Document, GlueUpObject
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.keptglue import glue_up_for, glue_up_key
from freecad_stacklam.docobjects.reading.whole import unguided_settings
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.job import Settings

#: The plan that each object's last execute found.
_shown: WeakKeyDictionary[Any, GlueUpPlan] = WeakKeyDictionary()


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
