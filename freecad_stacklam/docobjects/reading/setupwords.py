# SPDX-License-Identifier: LGPL-2.1-or-later

"""A set-up in words: what it lays together, how long that takes, which clamps, what pressure."""

from __future__ import annotations

from collections import Counter

from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, SetUp
from freecad_stacklam.lamination.quantities import format_pressure, format_time


def run_text(one: SetUp) -> str:
    """What is laid together: "Pedestal, layers 1 to 3 with 4 and 5"."""
    if one.kind == JOINT:
        return f"{one.joint or 'the joint'}: {listed(one.stacks)}" if one.stacks else one.joint
    if one.kind == EDGES:
        staves = f", {len(one.staves)} staves" if one.staves else ""
        return f"{one.stack}, layer {one.first}{staves}"
    if all(first == last for first, last in one.joins) or not one.joins:
        return f"{one.stack}, layers {one.first} to {one.last}"
    parts = [f"layer {first}" if first == last else f"layers {first} to {last}" for first, last in one.joins]
    return f"{one.stack}, {' with '.join(parts)}"


def time_text(one: SetUp) -> str:
    """How long the first glue waits, and how long it may."""
    clock = one.clock
    return (
        f"contact after {format_time(clock.to_contact)} of {format_time(clock.open_limit)}, "
        f"pressure after {format_time(clock.to_pressure)} of {format_time(clock.assembly_limit)}"
    )


def clamp_lines(one: SetUp) -> list[str]:
    """The clamps it takes: "6 × Bar clamp"."""
    return [f"{count} × {press}" for press, count in Counter(place.press for place in one.places).items()]


def pressure_lines(one: SetUp, units: str = "mm") -> list[str]:
    """The mean pressure on each line beside what the glue wants of it."""
    return [
        f"line {p.lower}: {format_pressure(p.mean, units)} of {format_pressure(p.wanted[0], units)} to "
        f"{format_pressure(p.wanted[1], units)}, {100 * p.reached:.0f} % reached"
        for p in one.pressures
    ]
