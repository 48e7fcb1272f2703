# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on the dowels in the pins' holes: whether they are long enough, and have room for what the layers shrink."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER
from freecad_stacklam.lamination.lengths import (
    format_bore,
    format_fine,
    format_length,
)
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.wood.heights import movement_of
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import mark, say

PRACTICE = mark("common practice, no source")


def short_dowels(stack: StackPlan, units: str) -> list[Check]:
    """Said only where it is so: thin layers leave shallow holes, and a dowel shorter than it is thick tips in them."""
    short = [p for p in stack.pins if 0 < p.dowel < p.diameter]
    if not short:
        return []
    worst = min(short, key=lambda p: p.dowel / p.diameter)
    says = say(
        "A dowel between layers {lower} and {upper} of {stack} is only {dowel} long and {diameter} "
        "thick: take thinner dowels, or leave them less room.",
        lower=worst.interface,
        upper=worst.interface + 1,
        stack=stack.name,
        dowel=format_length(worst.dowel, units),
        diameter=format_bore(worst.diameter, units),
    )
    name, place = say("{stack}: short dowels", stack=stack.name), at_pin(stack, worst)
    return [Check(name, "caution", worst.dowel, worst.diameter, "mm", say(PRACTICE), says, place)]


def at_pin(stack: StackPlan, pin: PinPlan) -> Place:
    """Where a pin crosses its glue line, in the model."""
    return in_model(stack.frame, (*pin.centre, stack.layers[pin.interface - 1].top))


def dowel_checks(stack: StackPlan, table: Mapping[str, Species], swing: float, units: str = "mm") -> list[Check]:
    """Whether the dowels have room at their ends for what the layers shrink: a dowel stands along the stack's height
    with its grain and does not shrink, the wood that its holes go through does.

    swing: % points of moisture. Nothing where the wood's shrinkage is not known.
    """
    worst: tuple[float, float, PinPlan] | None = None
    for pin in stack.pins:
        low, high = stack.layers[pin.interface - 1 : pin.interface + 1]
        moves = movement_of([(low.species, pin.depth_down), (high.species, pin.depth_up)], table, swing)
        if pin.waste or moves is None:
            continue
        room = pin.depth_down + pin.depth_up - pin.dowel
        if stack.movement is not None:
            moves = replace(moves, cut=stack.movement.cut)
        if worst is None or room - moves.most < worst[1] - worst[0]:
            worst = (moves.most, room, pin)
    if worst is None:
        return []
    shrinks, room, pin = worst
    low, high = stack.layers[pin.interface - 1 : pin.interface + 1]
    moves = movement_of([(low.species, pin.depth_down), (high.species, pin.depth_up)], table, swing)
    assert moves is not None
    tight = shrinks >= room
    cut = "" if stack.movement is None else stack.movement.cut
    lost = say(
        mark("{loss} (all boards flat-sawn)")
        if cut == FLAT
        else mark("{loss} (all boards quarter-sawn)")
        if cut == QUARTER
        else mark("{flat} (flat-sawn) to {quarter} (quarter-sawn)"),
        loss=format_fine(shrinks, units, up=True),
        flat=format_fine(moves.flat, units, up=True),
        quarter=format_fine(moves.quarter, units, up=True),
    )
    says = say(
        mark(
            "A dowel does not shrink in its length, but {depth} of {stack}'s layers around it lose {loss} over "
            "{swing:g} points of moisture; its ends have {room} of room: shorten the dowels, or they open the glue "
            "line."
        )
        if tight
        else mark(
            "A dowel does not shrink in its length, but {depth} of {stack}'s layers around it lose {loss} over "
            "{swing:g} points of moisture; its ends have {room} of room."
        ),
        depth=format_length(pin.depth_down + pin.depth_up, units),
        stack=stack.name,
        loss=lost,
        swing=swing,
        room=format_fine(room, units),
    )
    source = say("FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage")
    name = say("{stack}: room at the dowels' ends", stack=stack.name)
    return [Check(name, "caution" if tight else "ok", shrinks, room, "mm", source, says, at_pin(stack, pin))]
