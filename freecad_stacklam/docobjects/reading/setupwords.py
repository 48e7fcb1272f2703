# SPDX-License-Identifier: LGPL-2.1-or-later

"""A set-up in words: what it lays together, how long that takes, which clamps, what pressure."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, GlueUpPlan, SetUp
from freecad_stacklam.lamination.quantities import format_pressure, format_time
from freecad_stacklam.lamination.refusal import told


def left_out_of(plan: GlueUpPlan, units: str = "mm") -> list[str]:
    """The stacks that could not be planned, and why."""
    return [f"{one.what}: {told(one.says, units)}" for one in plan.left_out]


def condition_lines(plan: GlueUpPlan, units: str = "mm") -> list[str]:
    """What to see to before glue is opened, each with its verdict."""
    return [f"{one.verdict}: {told(one.says, units)}" for one in plan.conditions]


def run_text(one: SetUp) -> str:
    """What is laid together: "Pedestal, sub-stack 1 to 4 with layers 5 to 7"."""
    if one.kind == JOINT:
        return f"{one.joint or 'the joint'}: {listed(one.stacks)}" if one.stacks else one.joint
    if one.kind == EDGES:
        staves = f", {len(one.staves)} staves" if one.staves else ""
        return f"{one.stack}, layer {one.first}{staves}"
    parts = [
        _run("layer", list(run)) if single else " with ".join(_run("sub-stack", [part]) for part in run)
        for single, run in groupby(one.joins or ((one.first, one.last),), lambda part: part[0] == part[1])
    ]
    return f"{one.stack}, {' with '.join(parts)}"


def _run(noun: str, parts: list[tuple[int, int]]) -> str:
    """Parts that lie on each other, by their lowest and highest layer."""
    first, last = parts[0][0], parts[-1][1]
    if first == last:
        return f"{noun} {first}"
    return f"{noun}{'s' if noun == 'layer' else ''} {first} {'and' if last == first + 1 else 'to'} {last}"


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
    noun = {EDGES: "seam", JOINT: "seat on layer"}.get(one.kind, "line")
    return [
        f"{noun} {p.lower}: {format_pressure(p.mean, units)}, wanted {format_pressure(p.wanted[0], units)} to "
        f"{format_pressure(p.wanted[1], units)}; {100 * p.reached:.0f} % of it is pressed"
        for p in one.pressures
    ]
