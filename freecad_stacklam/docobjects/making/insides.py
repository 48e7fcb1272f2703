# SPDX-License-Identifier: LGPL-2.1-or-later

"""Hollowing and pinning a stack: made, changed and tried. At most one hollow and one set of pins work in a stack."""

from __future__ import annotations

from math import ceil
from typing import Any

from freecad_stacklam.docobjects.base.family import in_use, joints_of, name_of_stack
from freecad_stacklam.docobjects.base.protocols import HollowObject, PinsObject, StackObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.hollow import Hollow
from freecad_stacklam.docobjects.making.layers import match_layers
from freecad_stacklam.docobjects.pins import Pins
from freecad_stacklam.docobjects.reading.insides import hollow_in, pin_texts, pinned_plan, pins_in
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.options.rows import Record
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import say

#: By how much a wall is made thinner until it leaves a void, mm, where lengths are read in mm and in inches; and the
#: thinnest that a panel begins with.
WALL_STEP, LEAST_WALL = {"mm": 5.0, "in": INCH / 4}, 10.0


def make_hollow(stack: StackObject, asked: HollowSettings) -> HollowObject:
    """A hollow for a stack, its voids cut. Part of the caller's undo step if one is open.

    Raises Refusal before anything was made, also when the stack's pins would not fit any more.
    """
    there = _at_work(stack, "hollow")
    if there is not None:
        raise Refusal(
            say(
                "{stack} is hollowed already (“{label}”): change that hollow instead.",
                stack=name_of_stack(stack),
                label=there.Label,
            )
        )
    try_hollow(stack, asked)
    return put_hollow(stack, asked)


def put_hollow(stack: StackObject, asked: HollowSettings) -> HollowObject:
    """The same untried: a hollow that cannot be made shows its sentence as an error, and the layers do without it."""
    return _made(stack, Hollow, asked)


def make_pins(stack: StackObject, asked: PinSettings) -> PinsObject:
    """Pins for a stack, its layers bored. Part of the caller's undo step if one is open.

    Raises Refusal before anything was made.
    """
    there = _at_work(stack, "pins")
    if there is not None:
        raise Refusal(
            say(
                "{stack} is pinned already (“{label}”): change those pins instead.",
                stack=name_of_stack(stack),
                label=there.Label,
            )
        )
    try_pins(stack, asked)
    return put_pins(stack, asked)


def put_pins(stack: StackObject, asked: PinSettings) -> PinsObject:
    """The same untried, as put_hollow."""
    return _made(stack, Pins, asked)


def change_hollow(hollow: HollowObject, asked: HollowSettings) -> None:
    """Give a hollow other settings; pins and layers follow. Raises Refusal before anything was changed."""
    if hollow.Stack is not None:
        try_hollow(hollow.Stack, asked)
    _fill(hollow, asked)
    hollow.Document.recompute()


def change_pins(pins: PinsObject, asked: PinSettings) -> None:
    """Give pins other settings; their layers follow. Raises Refusal before anything was changed."""
    if pins.Stack is not None:
        try_pins(pins.Stack, asked)
    _fill(pins, asked)
    pins.Document.recompute()


def try_hollow(stack: StackObject, asked: HollowSettings | None) -> StackPlan:
    """The stack's plan with its joints and its pins as they are, and voids as asked. Raises Refusal, also where they
    leave a glue line no room for its pins; one that has none without the voids either is no reason."""
    joints, pins = joints_of(stack), pins_in(stack)
    plan = pinned_plan(stack, joints, asked, pins)
    if asked is not None and plan.left_out and plan.left_out != pinned_plan(stack, joints, None, pins).left_out:
        raise Refusal(plan.left_out[0].says)
    return plan


def wall_that_works(stack: StackObject, wanted: float) -> float:
    """The thickest wall, mm, not thicker than `wanted` and steps of WALL_STEP below it, that leaves a stack a void; the
    wanted one where none does."""
    step = WALL_STEP["in" if units_in(stack.Document) == "in" else "mm"]
    walls = [wanted - step * n for n in range(ceil(wanted / step)) if n == 0 or wanted - step * n >= LEAST_WALL]
    # The thinner the wall, the more is left: halves of the list tell where it begins to work.
    works, fails = len(walls), -1
    at = 0
    while works - fails > 1:
        if _leaves_a_void(stack, walls[at]):
            works = at
        else:
            fails = at
        at = (works + fails) // 2
    return walls[works] if works < len(walls) else wanted


def _leaves_a_void(stack: StackObject, wall: float) -> bool:
    try:
        return try_hollow(stack, HollowSettings(wall=wall)).hollow is not None
    except Refusal:
        return False


def try_pins(stack: StackObject, asked: PinSettings | None) -> StackPlan:
    """The stack's plan with its joints and its hollow as they are, and pins as asked. Raises Refusal."""
    return pinned_plan(stack, joints_of(stack), hollow_in(stack), asked)


def _at_work(stack: StackObject, kind: str) -> Any:
    there = in_use(stack, kind)
    return there if there is not None and not there.Suppressed else None


def _fill(obj: Any, asked: Record) -> None:
    fill(obj, asked)
    if isinstance(asked, PinSettings):
        obj.At = pin_texts(asked.at)


def _made(stack: StackObject, proxy: type[Proxy], asked: Record) -> Any:
    made = stack.Document.addObject("Part::FeaturePython", proxy.__name__)
    proxy(made)
    made.Label = f"{name_of_stack(stack)} {proxy.KIND}"
    made.Stack = stack
    _fill(made, asked)
    match_layers(stack)
    return made
