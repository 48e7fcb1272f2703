# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole job from meshes and settings, without a document."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.lamination.job.assembly import Form, assemble, matched
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.wood.species import Species


def plan_job(forms: Sequence[Form], settings: Settings, table: Mapping[str, Species]) -> Plan:
    """Plan every form. Without [[stack]] settings every form becomes a stack with the defaults.

    Raises Refusal when a setting names a form that is not there, or a form or joint cannot be made as asked.
    """
    stacks = [
        plan_stack(form.mesh, chosen, name=form.name, datum=form.datum, exact_points=form.exact_points)
        for form, chosen in matched(forms, settings)
    ]
    return assemble(stacks, forms, settings.joints, settings, table)
