# SPDX-License-Identifier: LGPL-2.1-or-later

"""The verdict on the least wood left square to the surface, under walls and under step faces."""

from __future__ import annotations

from freecad_stacklam.lamination.lengths import format_fine, format_place, format_volume
from freecad_stacklam.lamination.plan.checks import Check, in_model
from freecad_stacklam.lamination.plan.layers import LeastWood, SquareCost, StackPlan

SOURCE = "geometry of the plan: walls by the proof, step faces by shadows of thin slabs; the stack's two ends left out"


def wood_checks(stack: StackPlan, units: str) -> list[Check]:
    """How much wood is left where it is least, beside what was asked for; nothing where it was not measured."""
    least = stack.containment.least_wood
    if least is None:
        return []
    cost = stack.containment.square
    thin = least.distance < least.asked
    left, asked = format_fine(max(least.distance, 0.0), units), format_fine(least.asked, units)
    where = f"{_place(least)}, at ({format_place(least.place, units)})"
    if thin:
        says = f"{stack.name} has only {left} of wood square to its surface {where}, less than {asked}: "
        says += _remedy(stack, cost, units)
    else:
        says = f"{stack.name} has at least {left} of wood square to its surface, {where}; {asked} are asked for."
    if stack.square and cost is not None:
        says += (
            f" Measured square to the surface, the allowance takes {format_volume(cost.wood, units)} more wood than "
            f"measured level ({_percent(cost)}), which would leave {format_fine(cost.level, units)}."
        )
    name = f"{stack.name}: least wood square to the surface"
    place = in_model(stack.frame, least.place)
    return [Check(name, "caution" if thin else "ok", least.distance, least.asked, "mm", SOURCE, says, place)]


def _place(least: LeastWood) -> str:
    if least.kind == "wall":
        return f"inside the sawn edge of layer {least.layer}"
    if least.side > 0:
        return f"under the uncovered upper face of layer {least.layer}"
    return f"over the uncovered lower face of layer {least.layer}"


def _remedy(stack: StackPlan, cost: SquareCost | None, units: str) -> str:
    marked = "carve the marked steps last and lightly"
    if stack.square or cost is None:
        return f"{marked}, or give more allowance."
    return (
        f"{marked}; more allowance, thinner layers or an allowance square to the surface leave more, the last for "
        f"{format_volume(cost.wood, units)} more wood ({_percent(cost)})."
    )


def _percent(cost: SquareCost) -> str:
    return f"{100 * cost.share:.1f} %"
