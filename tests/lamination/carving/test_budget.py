# SPDX-License-Identifier: LGPL-2.1-or-later

"""Budgets by whole right triangles (3, 4, 5 and 5, 12, 13; Pythagoras) and a box in space (2, 3, 6, 7)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from blocks import block

from freecad_stacklam.lamination.carving.budget import budget_check, budget_of
from freecad_stacklam.lamination.findings.budget import AllowanceBudget, BudgetItem
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import LeastWood, StackPlan
from freecad_stacklam.lamination.usage.budget import BudgetSettings

NOTHING = BudgetSettings(*(0.0,) * 9)


def stack(there: float = 5.0) -> StackPlan:
    """A block of 600 by 800 as sawn: its corner lies 500 from the axis (3, 4, 5)."""
    made = block("Block", 600.0, 800.0, (45.0,), 0.0)
    return replace(made, containment=replace(made.containment, least_cover=there))


@pytest.mark.parametrize(
    ("amounts", "likely", "worst"),
    [
        ({"saw": 3.0, "layout": 4.0}, 5.0, 7.0),
        ({"slip": 5.0, "carving": 12.0}, 13.0, 17.0),
        ({"saw": 2.0, "slip": 3.0, "carving": 6.0}, 7.0, 11.0),
        ({"print_scale": 0.1}, 0.4987, 0.4987),  # a thousandth of 500 less 1.3: (√2 − 1) · 3.2 of a rounded corner
    ],
)
def test_errors_add_by_their_squares_and_at_worst_plainly(
    amounts: dict[str, float], likely: float, worst: float
) -> None:
    found = budget_of(stack(), replace(NOTHING, **amounts))
    assert (found.likely, found.worst) == pytest.approx((likely, worst), abs=0.001)
    assert len(found.items) == 9


def test_verdicts_and_what_is_lacking() -> None:
    triangle = replace(NOTHING, saw=3.0, layout=4.0)
    short, enough, plenty = (budget_check(budget_of(stack(there), triangle)) for there in (4.0, 5.0, 7.0))
    assert [c.verdict for c in (short, enough, plenty)] == ["caution", "ok", "ok"]
    assert "1 mm more allowance" in short.says
    assert "“layout”, 4 mm" in short.says
    assert "7 mm if all go wrong" in enough.says
    assert "enough even if all" in plenty.says
    assert "mm" not in budget_check(budget_of(stack(4.0), triangle), "in").says


def test_the_least_wood_square_to_the_surface_counts_where_it_is_less() -> None:
    made = stack(5.0)
    wood = LeastWood(2.0, (0.0, 0.0, 0.0), "step", 1)
    made = replace(made, containment=replace(made.containment, least_wood=wood))
    assert budget_of(made, NOTHING).there == 2.0


def test_little_wood_is_not_told_as_none() -> None:
    # 0.5 mm are 0.019 in (rounded down), less than 1/32 in.
    budget = AllowanceBudget("P", (BudgetItem("Carving", 1.5, ""),), 1.5, 1.5, 0.5)
    assert "P has 0.019 in of wood square to its surface" in budget_check(budget, "in").says


def test_what_has_no_pins_needs_nothing_for_the_fit_of_their_holes() -> None:
    asked = replace(NOTHING, hole_fit=0.2)
    assert budget_of(stack(), asked).worst == 0.0
    pinned = replace(stack(), pins=(PinPlan(1, (0.0, 0.0), 8.0, 12.0, 12.0, 20.0),))
    assert budget_of(pinned, asked).worst == 0.2
