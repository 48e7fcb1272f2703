# SPDX-License-Identifier: LGPL-2.1-or-later

"""What holds two stacks together while the glue of their joint cures: clamps that reach round both, a rod through the
tenon, go-bars, weights, wedges alone; where the pads stand, and what the seat gets.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.frame import to_model, to_stack
from freecad_stacklam.lamination.joining.jointseat import JointSeat
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.lengths import format_length, rounded_up
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import BrokenLimit, ClampPlace, LinePressure
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.quantities import format_force, format_pressure
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.words import mark, say, say_many

#: Clamps that bring a joint home, at least: one on either side of the axis (common practice, no source).
PAIR = 2
#: What else than clamps presses two stacks together, in the order in which it is looked for.
_OTHERS = ("rod", "go-bar", "weight")


#: A pad as a clamp has it by its first values.
_PAD = PressSettings("clamp").pad


@dataclass(frozen=True, kw_only=True)
class JointJob(Means):
    """What all joints share: the stacks by name, too."""

    stacks: Mapping[str, StackPlan]


@dataclass(frozen=True)
class Hold:
    """How a joint is held, in words; with what, and what else would do."""

    says: str
    used: tuple[PressSettings, ...] = ()
    limits: tuple[BrokenLimit, ...] = ()
    helps: tuple[str, ...] = ()


def hold_of(joints: Sequence[JointPlan], seats: Sequence[JointSeat], job: JointJob) -> Hold:
    """What is owned and reaches, best first: clamps round both, rod, go-bars, weights, wedges alone."""
    units = job.units
    needed = max(s.height for s in seats) + 2 * job.room.caul_thickness
    clamps = [p for p in job.presses if p.kind == "clamp"]
    tall = [p for p in clamps if p.opening is None or p.opening >= needed - ROUNDING]
    able = [p for p in tall if p.throat is None or p.throat >= max(s.reach(p.pad) for s in seats) - ROUNDING]
    wedged = any(m.wedge is not None for j in joints for m in j.members)
    bored = all(m.through for m in joints[0].members)
    others = [
        p for kind in _OTHERS for p in job.presses if p.kind == kind and (kind != "rod" or bored)
        and (kind != "rod" or p.opening is None or p.opening >= needed - ROUNDING)
    ]  # fmt: skip
    helps = _helps(seats, needed, wedged, bored, job)
    for group, least in ((able, PAIR), *(([p], 1) for p in others)):
        if group:
            used, limits = _enough(group, least, seats, job)
            says = say(
                mark("held by {used} that reach round both") if group is able else mark("held by {used}"),
                used=_many(used),
            )
            eased = max(p.force for p in used)
            if eased < max(p.force for p in group) - ROUNDING:
                force = format_force(eased, units)
                says = say(
                    "{held}, tightened to about {force} each so as not to starve the seat", held=says, force=force
                )
            if wedged:
                says = say("{held}, and by its wedges", held=says)
            return Hold(says, used, limits, helps)
    if wedged:
        return Hold(
            say(
                "held by its wedges alone; press the seat home by hand weight until they bite: what pressure "
                "they give the seat hangs on how hard it is driven, and is not computed"
            ),
            helps=helps,
        )
    says = say("pressed together by nothing that is owned: see what would help")
    if clamps and not tall:
        widest = max(p.opening or 0.0 for p in clamps)
        what = BrokenLimit(
            "opening",
            needed,
            widest,
            "mm",
            say(
                "Both stacks and their cauls are {height} high and the widest clamp opens {widest}: {remedy}",
                height=format_length(needed, units),
                widest=format_length(widest, units),
                remedy=helps[0],
            ),
        )
    elif tall:
        deepest = max(p.throat or 0.0 for p in tall)
        reach = max(s.reach(min(p.pad for p in tall)) for s in seats)
        what = BrokenLimit(
            "throat",
            reach,
            deepest,
            "mm",
            say(
                "From the outside in to the seat it is {reach} and the deepest clamp reaches {deepest}: {remedy}",
                reach=format_length(rounded_up(reach, units), units),
                deepest=format_length(deepest, units),
                remedy=helps[0],
            ),
        )
    else:
        what = BrokenLimit("clamps", float(PAIR), 0.0, "", say("There is no clamp: {remedy}", remedy=helps[0]))
    return Hold(says, (), (what,), helps)


def _helps(seats: Sequence[JointSeat], needed: float, wedged: bool, bored: bool, job: JointJob) -> tuple[str, ...]:
    """Other ways to press it together, best first."""
    units = job.units
    reach = format_length(rounded_up(max(s.reach(_PAD) for s in seats), units), units)
    tall = format_length(rounded_up(needed, units), units)
    said = [
        say(
            mark(
                "two bars across, above and below both stacks, joined outside by clamps or threaded rods {length} "
                "long, want no throat: the bars are cauls, and lie clear of the tenon's end and its wedges."
            )
            if wedged
            else mark(
                "two bars across, above and below both stacks, joined outside by clamps or threaded rods {length} "
                "long, want no throat: the bars are cauls."
            ),
            length=tall,
        ),
        say("a clamp of {opening} opening and {throat} throat.", opening=tall, throat=reach),
    ]
    if not wedged:  # wedges are driven from the open end, which then lies on the bench
        said.insert(
            1,
            say(
                "turn it over on a flat bench, the upper stack down: the bench is the caul, and weights or "
                "go-bars on the foot press it."
            ),
        )
    if bored:
        said.insert(0, say("a rod of {length} through a bore in the tenon, with a plate at either end.", length=tall))
    return tuple(said)


def _many(used: Sequence[PressSettings]) -> str:
    counts: dict[str, int] = {}
    for one in used:
        counts[one.name] = counts.get(one.name, 0) + 1
    return listed([f"{n} × {name}" for name, n in counts.items()])


def _pressed_area(seats: Sequence[JointSeat]) -> float:
    return max((s.contact.area for s in seats if s.alike), default=0.0)


def _enough(
    able: Sequence[PressSettings], least: int, seats: Sequence[JointSeat], job: JointJob
) -> tuple[tuple[PressSettings, ...], tuple[BrokenLimit, ...]]:
    """As many of them as the seat wants, the strongest first and none with more force than it bears, and what is
    missing."""
    single = [p for p in sorted(able, key=lambda p: -p.force) for _ in range(p.count)]
    low, high = (max(job.wanted(s.species)[i] for s in job.stacks.values()) for i in (0, 1))
    area = _pressed_area(seats)
    count = least
    while count < len(single) and sum(p.force for p in single[:count]) < area * low - ROUNDING:
        count += 1
    used = tuple(single[:count])
    force = sum(p.force for p in used)
    wants = max(least, len(used) + ceil(max(0.0, area * low - force) / min(p.force for p in used) - WHOLE))
    if wants <= len(used):
        ease = min(1.0, high * area / force) if area > 0 and high > 0 else 1.0
        return tuple(replace(p, force=p.force * ease) if ease < 1.0 else p for p in used), ()
    words = (
        (
            mark(
                "{wants} clamps are wanted and {count} is there: {more} more would do, or a glue that wants less "
                "pressure; with those the seat gets {pressure}."
            ),
            mark(
                "{wants} clamps are wanted and {count} are there: {more} more would do, or a glue that wants less "
                "pressure; with those the seat gets {pressure}."
            ),
        )
        if area > 0
        else (
            mark(
                "{wants} clamps are wanted and {count} is there: {more} more would do, or a glue that wants less "
                "pressure."
            ),
            mark(
                "{wants} clamps are wanted and {count} are there: {more} more would do, or a glue that wants less "
                "pressure."
            ),
        )
    )
    pressure = format_pressure(force / area, job.units) if area > 0 else ""
    return used, (
        BrokenLimit(
            "clamps",
            float(wants),
            float(len(used)),
            "",
            say_many(*words, len(used), wants=wants, more=wants - len(used), pressure=pressure),
        ),
    )


def places_of(
    joint: JointPlan, seat: JointSeat, used: Sequence[PressSettings], lower: StackPlan, upper: StackPlan, job: JointJob
) -> tuple[ClampPlace, ...]:
    """Pads evenly round the tenon over the seat, where they lie on it whole; a single one over the axis."""
    pad = max((p.pad for p in used), default=0.0)
    ring = seat.contact.convex_hull.buffer(-pad / 2)
    if not used or ring.is_empty or ring.geom_type != "Polygon":
        return ()
    line = ring.exterior
    start = line.project(shapely.Point(ring.bounds[2], 0.0))
    spots = [line.interpolate((start + i * line.length / len(used)) % line.length) for i in range(len(used))]
    if len(used) == 1:
        spots = [shapely.Point(0.0, 0.0)]
    flat = joint.axis.model(np.array([[p.x, p.y, 0.0] for p in spots]))
    at = to_stack(lower.frame, flat)
    tops = to_stack(lower.frame, to_model(upper.frame, np.array([[0.0, 0.0, 0.0], [0.0, 0.0, upper.height]])))[:, 2]
    head = float(max(*tops.tolist(), lower.height))
    return tuple(
        ClampPlace(press.name, (float(x), float(y)), press.force, press.pad, 0.0, head)
        for press, (x, y, _) in zip(used, at)
    )


def pressures_of(
    seats: Sequence[JointSeat], used: Sequence[PressSettings], lower: StackPlan, job: JointJob
) -> tuple[LinePressure, ...]:
    """Force over area of each seat that is glued; how it spreads is not worked out. It counts as the line over the
    lower stack's uppermost layer. None where nothing presses that a force is known of: wedges, hands."""
    if not used:
        return ()
    force, wanted = sum(p.force for p in used), job.wanted(lower.species)
    number = lower.layers[-1].number
    return tuple(
        LinePressure(number, s.contact.area, p := force / s.contact.area, p, p, 1.0, MultiPolygon(),
                     wanted)
        for s in seats if s.alike and s.contact.area > 0
    )  # fmt: skip
