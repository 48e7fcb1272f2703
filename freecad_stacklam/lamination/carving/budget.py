# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether the allowance pays for all that goes wrong a little: saw, layout, print, slip, carving and the rest.

Independent errors add by the root of the sum of their squares; all of them to the wrong side at one place add plainly.
"""

from __future__ import annotations

from dataclasses import fields
from math import hypot

import numpy as np

from freecad_stacklam.lamination.findings.budget import AllowanceBudget, BudgetItem
from freecad_stacklam.lamination.lengths import format_fine, format_length, rounded_up
from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import sample
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.words import mark, say, spoken

SOURCE = mark("propagation of independent errors (root-sum-square); the amounts: common practice, no source")
_PERCENT = 100.0


def budget_of(stack: StackPlan, settings: BudgetSettings) -> AllowanceBudget:
    """The budget of one stack against the least wood left of its plan, level or square, whichever is less. Without
    pins nothing goes to the fit of their holes."""
    far = max((float(np.hypot(*sample(o.outer).T).max()) for layer in stack.layers for o in layer.blank), default=0.0)
    rows = {row.name: row for row in rows_of(BudgetSettings)}
    items = []
    for name in (field.name for field in fields(settings) if field.name in rows):
        value = float(getattr(settings, name))
        amount = value * far / _PERCENT if name == "print_scale" else value
        if name == "hole_fit" and not stack.pins:
            amount = 0.0
        items.append(BudgetItem(rows[name].caption, amount, rows[name].tip))
    amounts = [item.amount for item in items]
    proof = stack.containment
    there = proof.least_cover if proof.least_wood is None else min(proof.least_cover, proof.least_wood.distance)
    return AllowanceBudget(stack.name, tuple(items), hypot(*amounts), sum(amounts), max(there, 0.0))


def budget_check(budget: AllowanceBudget, units: str = "mm") -> Check:
    """The verdict on a budget: the likely sum against what is there. units: mm or in, of the sentence."""

    def up(mm: float) -> str:
        return format_length(rounded_up(mm, units), units)

    # Less than the steps of a rule would read as none, and stand against the containment's own figure.
    there = format_fine(budget.there, units)
    most = max(budget.items, key=lambda item: item.amount)
    if budget.more > 0:
        verdict = "caution"
        step = say(most.name)
        says = say(
            "{stack} has {there} of wood square to its surface at its thinnest, and the steps of the work likely take "
            "{likely}: give {more} more allowance, or work closer; most goes to “{step}”, {amount}.",
            stack=budget.stack,
            there=there,
            likely=up(budget.likely),
            more=up(budget.more),
            step=step.lower() if spoken() == "en" else step,
            amount=up(most.amount),
        )
    elif budget.worst > budget.there:
        verdict = "ok"
        says = say(
            "{stack} has {there} of wood square to its surface at its thinnest; the steps of the work likely take "
            "{likely}, and {worst} if all go wrong at one place.",
            stack=budget.stack,
            there=there,
            likely=up(budget.likely),
            worst=up(budget.worst),
        )
    else:
        verdict = "ok"
        says = say(
            "{stack} has {there} of wood square to its surface at its thinnest, enough even if all steps go wrong "
            "at one place ({worst}).",
            stack=budget.stack,
            there=there,
            worst=up(budget.worst),
        )
    return Check(
        say("{stack}: budget of the allowance", stack=budget.stack),
        verdict,
        budget.likely,
        budget.there,
        "mm",
        say(SOURCE),
        says,
    )
