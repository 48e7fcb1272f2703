# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack's plan with all that is cut into its layers: mortises first, then voids, then the pins around both."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from freecad_stacklam.docobjects.base.family import belongs_to, in_use, joints_of, shop_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document, HollowObject, JointObject, PinsObject, StackObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading import steps
from freecad_stacklam.docobjects.reading.joints import shown_joint
from freecad_stacklam.docobjects.reading.stacks import shown_plan
from freecad_stacklam.docobjects.reading.wood import settings_of_shop
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import say


def settings_of_hollow(hollow: HollowObject) -> HollowSettings:
    """What the maker chose. Raises Refusal when a value cannot be."""
    return HollowSettings(**read(hollow, HollowSettings))


def settings_of_pins(pins: PinsObject) -> PinSettings:
    """What the maker chose. Raises Refusal when a value cannot be."""
    return PinSettings(**read(pins, PinSettings), at=pin_places(pins.At))


def pin_places(texts: Iterable[str]) -> tuple[tuple[float, float, float], ...]:
    """Pins set by hand from texts such as "1; 40 mm; -12 mm": glue line, x and y from the axis. Raises Refusal."""
    return tuple(_pin_place(text) for text in texts if text.strip())


def _pin_place(text: str) -> tuple[float, float, float]:
    parts = [part.strip() for part in text.split(";")]
    if len(parts) != 3 or not parts[0].isdecimal():
        raise Refusal(
            say(
                "“{text}” is no place of a pin: write glue line; x; y, parted by semicolons, as in 1; 40 mm; -12 mm.",
                text=text,
            )
        )
    return float(parts[0]), parse_length(parts[1]), parse_length(parts[2])


def pin_texts(places: Iterable[tuple[float, float, float]]) -> list[str]:
    """The same places as texts."""
    return [f"{line:g}; {x:.12g} mm; {y:.12g} mm" for line, x, y in places]


def hollow_in(stack: StackObject) -> HollowSettings | None:
    """The settings of the hollow that is at work in a stack. Raises Refusal."""
    return _hollow_for(in_use(stack, "hollow"), stack)


def pins_in(stack: StackObject) -> PinSettings | None:
    """The settings of the pins that are at work in a stack. Raises Refusal."""
    return _pins_for(in_use(stack, "pins"), stack)


def _hollow_for(hollow: HollowObject | None, stack: StackObject) -> HollowSettings | None:
    return settings_of_hollow(hollow) if hollow is not None and belongs_to(hollow, stack) else None


def _pins_for(pins: PinsObject | None, stack: StackObject) -> PinSettings | None:
    return settings_of_pins(pins) if pins is not None and belongs_to(pins, stack) else None


def jointed_plan(stack: StackObject, joints: Iterable[JointObject]) -> StackPlan:
    """The stack's plan with the mortises of these joints. Raises Refusal."""
    plan, _ = shown_plan(stack)
    for joint in joints:
        if not joint.Suppressed:
            plan = steps.cut(plan, shown_joint(joint))
    return plan


def hollowed_plan(stack: StackObject, joints: Iterable[JointObject], settings: HollowSettings | None) -> StackPlan:
    """The same with voids. Raises Refusal."""
    plan, grain = jointed_plan(stack, joints), stack.Grain.Value
    if settings is None:
        return plan
    return steps.hollowed(plan, shown_plan(stack)[1].mesh, settings, grain, units_in(stack.Document))


def pinned_plan(
    stack: StackObject, joints: Iterable[JointObject], hollow: HollowSettings | None, pins: PinSettings | None
) -> StackPlan:
    """The same with voids and pins. Raises Refusal."""
    plan = hollowed_plan(stack, joints, hollow)
    if pins is None:
        return plan
    bits = settings_of_shop(shop_in(stack.Document)).bits
    return steps.pinned(plan, shown_plan(stack)[1].mesh, pins, bits)


def plan_with_cuts(
    stack: StackObject,
    joints: Iterable[JointObject],
    hollow: HollowObject | None = None,
    pins: PinsObject | None = None,
) -> StackPlan:
    """The stack's plan with mortises, voids and pin holes cut into its layers, as far as they can be made. Raises
    Refusal for a joint that cannot."""
    return _as_far_as_can_be(stack, joints, _hollow_for(hollow, stack), _pins_for(pins, stack))


def _as_far_as_can_be(
    stack: StackObject, joints: Iterable[JointObject], hollow: HollowSettings | None, pins: PinSettings | None
) -> StackPlan:
    """With the voids and pins that can be made; the plan names the others, and the objects tell why."""
    joints = list(joints)
    plan = jointed_plan(stack, joints)
    out: list[LeftOut] = []
    try:
        plan = hollowed_plan(stack, joints, hollow)
    except Refusal as refusal:
        hollow = None
        out.append(LeftOut("hollow", refusal.sentence))
    try:
        plan = pinned_plan(stack, joints, hollow, pins)
    except Refusal as refusal:
        out.append(LeftOut("pins", refusal.sentence))
    return replace(plan, left_out=(*plan.left_out, *out)) if out else plan


def shown_hollow(hollow: HollowObject) -> StackPlan:
    """The stack's plan with its joints and these voids. Raises Refusal."""
    assert hollow.Stack is not None  # an idle hollow is not asked
    return hollowed_plan(hollow.Stack, hollow.Joints, settings_of_hollow(hollow))


def shown_pins(pins: PinsObject) -> StackPlan:
    """The stack's plan with its joints, its hollow and these pins. Raises Refusal."""
    assert pins.Stack is not None  # idle pins are not asked
    return pinned_plan(pins.Stack, pins.Joints, _hollow_for(pins.Hollow, pins.Stack), settings_of_pins(pins))


def finished_stacks(document: Document) -> list[StackPlan]:
    """Every stack with its mortises, voids and pin holes, as far as they can be made, planned once. Raises Refusal."""
    stacks = stacks_in(document)
    if not stacks:
        raise Refusal(say("There is no stack in this document: pick a form and slice it first."))
    return [_as_far_as_can_be(stack, joints_of(stack), hollow_in(stack), pins_in(stack)) for stack in stacks]
