# SPDX-License-Identifier: LGPL-2.1-or-later

"""The verdict on the least wood left square to the surface, under walls and under step faces."""

from __future__ import annotations

from freecad_stacklam.lamination.lengths import format_fine, format_place, format_volume
from freecad_stacklam.lamination.plan.checks import Check, in_model
from freecad_stacklam.lamination.plan.layers import LeastWood, SquareCost, StackPlan
from freecad_stacklam.lamination.words import figure, mark, say

SOURCE = mark(
    "geometry of the plan: walls by the proof, step faces by shadows of thin slabs; the stack's two ends left out"
)


def wood_checks(stack: StackPlan, units: str) -> list[Check]:
    """How much wood is left where it is least, beside what was asked for; nothing where it was not measured."""
    least = stack.containment.least_wood
    if least is None:
        return []
    cost = stack.containment.square
    thin = least.distance < least.asked
    left, asked = format_fine(max(least.distance, 0.0), units), format_fine(least.asked, units)
    where = say("{where}, at ({place})", where=_place(least), place=format_place(least.place, units))
    if thin:
        says = say(
            "{stack} has only {left} of wood square to its surface {where}, less than {asked}: {remedy}",
            stack=stack.name,
            left=left,
            where=where,
            asked=asked,
            remedy=_remedy(stack, cost, units),
        )
    else:
        says = say(
            "{stack} has at least {left} of wood square to its surface, {where}; {asked} are asked for.",
            stack=stack.name,
            left=left,
            where=where,
            asked=asked,
        )
    if stack.square and cost is not None:
        says += " " + say(
            "Measured square to the surface, the allowance takes {wood} more wood than measured level "
            "({cost}), which would leave {level}.",
            wood=format_volume(cost.wood, units),
            cost=_percent(cost),
            level=format_fine(cost.level, units),
        )
    name = say("{stack}: least wood square to the surface", stack=stack.name)
    place = in_model(stack.frame, least.place)
    return [Check(name, "caution" if thin else "ok", least.distance, least.asked, "mm", say(SOURCE), says, place)]


def _place(least: LeastWood) -> str:
    if least.kind == "wall":
        return say("inside the sawn edge of layer {layer}", layer=least.layer)
    if least.side > 0:
        return say("under the uncovered upper face of layer {layer}", layer=least.layer)
    return say("over the uncovered lower face of layer {layer}", layer=least.layer)


def _remedy(stack: StackPlan, cost: SquareCost | None, units: str) -> str:
    if stack.square or cost is None:
        return say("carve the marked steps last and lightly, or give more allowance.")
    return say(
        "carve the marked steps last and lightly; more allowance, thinner layers or an allowance square to the surface "
        "leave more, the last for {wood} more wood ({cost}).",
        wood=format_volume(cost.wood, units),
        cost=_percent(cost),
    )


def _percent(cost: SquareCost) -> str:
    return figure(f"{100 * cost.share:.1f} %")
