# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on the glue-up: broken limits, pressure, reach, crushing, conditions, days before carving.

Rules of practice say caution. Stop is said only where what is owned cannot press a run or a panel at all, or where a
joint has no way in: both are geometry. Two stacks over a tenon can be pressed by bars and rope, so there it is caution.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from freecad_stacklam.lamination.gluing.conditions import IRON, PLANED, ROOM, TEMPERATURE, waiting_of
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.gluing import (
    JOINT,
    LAYERS,
    BrokenLimit,
    Condition,
    GlueUpPlan,
    LinePressure,
    SetUp,
)
from freecad_stacklam.lamination.pressing.press import NEAR
from freecad_stacklam.lamination.quantities import format_pressure
from freecad_stacklam.lamination.words import mark, say

PRACTICE = mark("common practice, no source")
#: Part of a line's area that the 45° cones should reach (common practice, no source).
LEAST_REACHED = 0.95
#: Part of the mean strength across the grain that pressure may use: 95 of 100 boards have as much, by the scatter of
#: 28 % that FPL-GTR-190 (2010), Table 5-6, gives for it: 1 − 1.645 × 0.28.
MOST_CRUSH = 1.0 - 1.645 * 0.28
_CRUSHING = mark("FPL-GTR-190 (2010), Table 5-3a, compression across the grain, and Table 5-6, its scatter")
_PRESSURE = mark("pressure by the glue's kind; thin glues by the wood's density, FPL-GTR-282 (2021), Ch. 10")
_CONES = mark("45° cones under the pads; limit: common practice, no source")
_TIMES = mark("the glue's own times at the room's temperature, and the maker's times for each move")
_SHOP = mark("geometry of the plan; the shop's own clamps")
#: Where a limit comes from, by its name.
_SOURCES = {
    "clock": _TIMES,
    "open time": _TIMES,
    "clamps": mark(
        "pressure by the glue's kind; thin glues by the wood's density, FPL-GTR-282 (2021), Ch. 10; the shop's own "
        "clamps"
    ),
    "opening": _SHOP,
    "throat": _SHOP,
    "reach": _SHOP,
    "chisel": mark("geometry of the plan; the maker's own chisel"),
    "lift": mark("the lifting equation's 23 kg at 25 cm (revised NIOSH equation, 1991), or the maker's own"),
    "crushing": _CRUSHING,
    "pressure": _PRESSURE,
    "order": mark("geometry of the plan"),
}
#: Limits of what presses: broken where nothing presses, they stop the work.
_OF_PRESSES = ("clamps", "opening", "throat", "reach", "pressure")


def glue_checks(plan: GlueUpPlan, units: str = "mm") -> tuple[Check, ...]:
    """All verdicts on the glue-up, in the order of the work."""
    found: list[Check] = [*_conditions(plan.conditions)]
    for set_up in plan.set_ups:
        found += [_broken(set_up, limit) for limit in set_up.limits]
    for stack in dict.fromkeys(s.stack for s in plan.set_ups):
        found += _lines(stack, [s for s in plan.set_ups if s.stack == stack and s.kind == LAYERS], units)
    return (*found, *_waiting(plan))


def presses_nothing(set_up: SetUp) -> bool:
    """Whether nothing that is owned presses a set-up: no pad stands on it, and no line of it gets anything."""
    return not set_up.places and all(line.mean <= 0.0 for line in set_up.pressures)


def _broken(set_up: SetUp, limit: BrokenLimit) -> Check:
    unpressed = limit.name in _OF_PRESSES and set_up.kind != JOINT and presses_nothing(set_up)
    verdict = "stop" if unpressed or limit.name == "order" else "caution"
    words = (
        mark("Set-up {number}, layer {first} of {stack}: {limit}")
        if set_up.staves
        else mark("Set-up {number}, “{joint}” of {stack}: {limit}")
        if set_up.joint
        else mark("Set-up {number}, layers {first} to {last} of {stack}: {limit}")
    )
    parts = {"first": set_up.first, "last": set_up.last, "joint": set_up.joint, "stack": set_up.stack}
    return Check(
        say("{stack}: set-up {number}, {limit}", stack=set_up.stack, number=set_up.number, limit=say(limit.name)),
        verdict,
        limit.needed,
        limit.there,
        limit.unit,
        say(_SOURCES.get(limit.name, PRACTICE)),
        say(words, number=set_up.number, limit=limit.says, **parts),
    )


# --- what the lines get -----------------------------------------------------------------------------------------------


def _lines(stack: str, set_ups: Sequence[SetUp], units: str) -> list[Check]:
    """The worst line of a stack's runs for pressure, reach and crushing; nothing of a line whose set-up says so
    already, as a limit that it breaks."""
    found: list[Check] = []
    if lines := _untold(set_ups, "clamps", "pressure"):
        found.append(_too_little(stack, min(lines, key=lambda line: line.mean - line.wanted[0]), units))
    if lines := _untold(set_ups):
        worst = max(lines, key=lambda line: line.mean - line.wanted[1])
        together = next((s.pressures for s in set_ups if any(line is worst for line in s.pressures)), (worst,))
        found += _too_much(stack, worst, together, units)
    if lines := _untold(set_ups, "reach"):
        found.append(_reached(stack, min(lines, key=lambda line: line.reached)))
    if lines := [line for line in _untold(set_ups, "crushing") if line.crush is not None]:
        found.append(_crushed(stack, lines, units))
    return found


def _untold(set_ups: Iterable[SetUp], *names: str) -> list[LinePressure]:
    """Lines of the set-ups that break none of these limits."""
    return [
        line
        for s in set_ups
        if not presses_nothing(s) and not any(b.name in names for b in s.limits)
        for line in s.pressures
    ]


def _too_little(stack: str, worst: LinePressure, units: str) -> Check:
    mean, least = (format_pressure(v, units) for v in (worst.mean, worst.least))
    short = worst.mean < worst.wanted[0] * (1 - NEAR)
    says = say(
        mark(
            "Line {line} of {stack} gets {mean} on average and about {least} where it gets "
            "least; {wanted} are wanted: more clamps, fewer layers at once, flatter faces and "
            "stiffer cauls, in the order of what you have."
        )
        if short
        else mark(
            "Line {line} of {stack} gets {mean} on average and about {least} where it gets least; {wanted} are wanted."
        ),
        line=worst.lower,
        stack=stack,
        mean=mean,
        least=least,
        wanted=_wanted(worst, units),
    )
    name = say("{stack}: pressure at its weakest glue line", stack=stack)
    return Check(name, "caution" if short else "ok", worst.mean, worst.wanted[0], "MPa", say(_PRESSURE), says)


def _too_much(stack: str, worst: LinePressure, together: Sequence[LinePressure], units: str) -> list[Check]:
    """together: the lines that lie under the same pads, and would get less with it."""
    if worst.mean <= worst.wanted[1] * (1 + NEAR):
        return []
    share = worst.wanted[1] / worst.mean
    others_hold = all(line.mean * share >= line.wanted[0] * (1 - NEAR) for line in together)
    says = say(
        mark(
            "Line {line} of {stack} would get {mean}, more than the {wanted} beyond which a line is "
            "starved: tighten to {share:.0f} % of the clamps' force there, or set fewer."
        )
        if others_hold
        else mark(
            "Line {line} of {stack} would get {mean}, more than the {wanted} beyond which a line is "
            "starved, and with less force another line under the same clamps would get too little: glue fewer layers "
            "at once."
        ),
        line=worst.lower,
        stack=stack,
        mean=format_pressure(worst.mean, units),
        wanted=format_pressure(worst.wanted[1], units),
        share=100 * share,
    )
    name = say("{stack}: pressure at its most pressed glue line", stack=stack)
    return [Check(name, "caution", worst.mean, worst.wanted[1], "MPa", say(_PRESSURE), says)]


def _wanted(line: LinePressure, units: str) -> str:
    return say(
        "{least} to {most}",
        least=format_pressure(line.wanted[0], units),
        most=format_pressure(line.wanted[1], units),
    )


def _reached(stack: str, worst: LinePressure) -> Check:
    short = worst.reached < LEAST_REACHED
    says = say(
        mark(
            "The pads reach {reached:.0f} % of line {line} of {stack}, which they reach least: "
            "see its clamp plan for where, and what would help."
        )
        if short
        else mark("The pads reach {reached:.0f} % of line {line} of {stack}, which they reach least."),
        reached=100 * worst.reached,
        line=worst.lower,
        stack=stack,
    )
    return Check(
        say("{stack}: reach of the pads", stack=stack),
        "caution" if short else "ok",
        100 * worst.reached,
        100 * LEAST_REACHED,
        "%",
        say(_CONES),
        says,
    )


def _crushed(stack: str, lines: list[LinePressure], units: str) -> Check:
    worst = max(lines, key=lambda line: line.crush or 0.0)
    crush = worst.crush or 0.0
    much = crush > MOST_CRUSH
    says = say(
        mark(
            "Line {line} of {stack} at {mean} uses {crush:.0f} % of the wood's strength across "
            "the grain: the smallest line takes the whole force, so glue it by itself or with "
            "fewer clamps."
        )
        if much
        else mark("Line {line} of {stack} at {mean} uses {crush:.0f} % of the wood's strength across the grain."),
        line=worst.lower,
        stack=stack,
        mean=format_pressure(worst.mean, units),
        crush=100 * crush,
    )
    return Check(
        say("{stack}: crushing across the grain", stack=stack),
        "caution" if much else "ok",
        100 * crush,
        100 * MOST_CRUSH,
        "%",
        say(_CRUSHING),
        says,
    )


# --- room, wood and water ---------------------------------------------------------------------------------------------


def _conditions(conditions: Iterable[Condition]) -> list[Check]:
    """What is known, one by one; what is not, together. Conditions without a figure that say go are reminders."""
    found, unknown = [], []
    for one in conditions:
        if one.figure is None:
            unknown += [_named(one)] if one.verdict != "go" else []
            continue
        verdict = "ok" if one.verdict == "go" else "caution"
        found.append(
            Check(
                say("glue-up: {what}", what=_named(one)),
                verdict,
                one.figure,
                one.limit or 0.0,
                one.unit,
                _condition(one),
                one.says,
            )
        )
    if unknown:
        says = say(
            "Not known before gluing: {conditions}: measure and set them, or see to them at the bench as the list "
            "of conditions says.",
            conditions="; ".join(unknown),
        )
        found.append(
            Check(
                say("glue-up: what is not known"),
                "caution",
                float(len(unknown)),
                0.0,
                "conditions",
                say(PRACTICE),
                says,
            )
        )
    return found


def _named(one: Condition) -> str:
    return say(one.name) if one.name in (TEMPERATURE, ROOM, PLANED, IRON) else one.name


def _condition(one: Condition) -> str:
    if one.name == TEMPERATURE:
        return say("the glue's own least temperature")
    if one.name == ROOM:
        return say("FPL-GTR-282 (2021), Eq. 4-5 and Table 13-2")
    return say(PRACTICE)


def _waiting(plan: GlueUpPlan) -> list[Check]:
    waiting = waiting_of(plan.water)
    if waiting is None:
        return []
    days, says = waiting
    source = say("water by its mass over the wood's; the days: extension literature on sunken joints, a rule of thumb")
    return [Check(say("glue-up: days before carving"), "ok", days, 0.0, "days", source, says)]
