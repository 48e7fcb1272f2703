# SPDX-License-Identifier: LGPL-2.1-or-later

"""A set-up in words: what it lays together, how long that takes, which clamps, what pressure."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, GlueUpPlan, SetUp
from freecad_stacklam.lamination.quantities import format_pressure, format_time
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.words import say, say_many


def left_out_of(plan: GlueUpPlan, units: str = "mm") -> list[str]:
    """The stacks that could not be planned, and why."""
    return [f"{one.what}: {told(one.says, units)}" for one in plan.left_out]


def condition_lines(plan: GlueUpPlan, units: str = "mm") -> list[str]:
    """What to see to before glue is opened, each with its verdict."""
    return [f"{shown(one.verdict)}: {told(one.says, units)}" for one in plan.conditions]


def run_text(one: SetUp) -> str:
    """What is laid together: "Pedestal, sub-stack 1 to 4 with layers 5 to 7"."""
    if one.kind == JOINT:
        return f"{one.joint or say('the joint')}: {listed(one.stacks)}" if one.stacks else one.joint
    if one.kind == EDGES:
        if one.staves:
            return say_many(
                "{stack}, layer {layer}, {count} stave",
                "{stack}, layer {layer}, {count} staves",
                len(one.staves),
                stack=one.stack,
                layer=one.first,
            )
        return say("{stack}, layer {layer}", stack=one.stack, layer=one.first)
    parts = [
        _run("layer", list(run)) if single else say(" with ").join(_run("sub-stack", [part]) for part in run)
        for single, run in groupby(one.joins or ((one.first, one.last),), lambda part: part[0] == part[1])
    ]
    return f"{one.stack}, {say(' with ').join(parts)}"


def _run(noun: str, parts: list[tuple[int, int]]) -> str:
    """Parts that lie on each other, by their lowest and highest layer."""
    first, last = parts[0][0], parts[-1][1]
    if first == last:
        return say("layer {first}", first=first) if noun == "layer" else say("sub-stack {first}", first=first)
    ends = {"first": first, "last": last}
    if noun == "layer":
        return (
            say("layers {first} and {last}", **ends) if last == first + 1 else say("layers {first} to {last}", **ends)
        )
    return (
        say("sub-stack {first} and {last}", **ends) if last == first + 1 else say("sub-stack {first} to {last}", **ends)
    )


def time_text(one: SetUp) -> str:
    """How long the first glue waits, and how long it may."""
    clock = one.clock
    return say(
        "contact after {to_contact} of {open_limit}, pressure after {to_pressure} of {assembly_limit}",
        to_contact=format_time(clock.to_contact),
        open_limit=format_time(clock.open_limit),
        to_pressure=format_time(clock.to_pressure),
        assembly_limit=format_time(clock.assembly_limit),
    )


def clamp_lines(one: SetUp) -> list[str]:
    """The clamps it takes: "6 × Bar clamp"."""
    return [f"{count} × {press}" for press, count in Counter(place.press for place in one.places).items()]


def pressure_lines(one: SetUp, units: str = "mm") -> list[str]:
    """The mean pressure on each line beside what the glue wants of it."""
    noun = {EDGES: say("seam"), JOINT: say("seat on layer")}.get(one.kind, say("line"))
    return [
        say(
            "{noun} {lower}: {mean}, wanted {least} to {most}; {reached:.0f} % of it is pressed",
            noun=noun,
            lower=p.lower,
            mean=format_pressure(p.mean, units),
            least=format_pressure(p.wanted[0], units),
            most=format_pressure(p.wanted[1], units),
            reached=100 * p.reached,
        )
        for p in one.pressures
    ]
