# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up of a joint: stack to stack over a floating tenon, after each stack is glued by itself.

Walls that run with the layers' grain are long grain and hold; end-grain walls take little. What presses is what reaches
round both stacks or runs through them; wedges hold a tenon by themselves. Joints that close one gap in one direction
are one set-up; one that finds its stacks already glued together, with no open end to come in by, is a broken limit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace
from math import pi

import numpy as np

from freecad_stacklam.lamination.form.frame import to_model, to_stack
from freecad_stacklam.lamination.joining.jointhold import Hold, JointJob, hold_of, places_of, pressures_of
from freecad_stacklam.lamination.joining.jointseat import (
    JointSeat,
    lowest_first,
    seat_of,
    seat_waste,
    squareness_of,
    squareness_words,
    tenon_below,
)
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.joining.timeline import Spread, late, timeline
from freecad_stacklam.lamination.joints.mortise import grain_side
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.gluing import (
    JOINT,
    BrokenLimit,
    Burden,
    Clock,
    SetUp,
)
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.glue import glue_grams
from freecad_stacklam.lamination.tolerances import PARALLEL, ROUNDING
from freecad_stacklam.lamination.wood.weights import weight_of
from freecad_stacklam.lamination.words import mark, quoted, say

#: What mends a clock.
_MENDS = mark("take a helper, or a slower glue")


def joint_set_ups(joints: Sequence[JointPlan], stacks: Sequence[StackPlan], means: Means) -> tuple[SetUp, ...]:
    """A set-up for each joint, in the order of the joints; those that must close together are one. Joints that share no
    stack cure in one round; set-ups and rounds are numbered from 1."""
    job = JointJob(**{f.name: getattr(means, f.name) for f in fields(means)}, stacks={s.name: s for s in stacks})
    glued = {s.name: frozenset((s.name,)) for s in stacks}
    busy: dict[str, int] = {}
    found: list[SetUp] = []
    left = [j for j in joints if len({m.stack for m in j.members} & set(glued)) > 1]
    while left:
        joint = left.pop(0)
        names = [m.stack for m in joint.members if m.stack in glued]
        parts = {glued[n] for n in names}
        together = [k for k in left if len(parts) > 1 and _close_together(joint, k, glued, parts)]
        left = [k for k in left if k not in together]
        number = 1 + max(busy.get(n, 0) for part in parts for n in part)
        made = _set_up((joint, *together), job, blocked=() if len(parts) > 1 else _blocked(joint))
        found.append(replace(made, number=1 + len(found), round=number))
        whole = frozenset().union(*parts)
        for n in whole:
            glued[n], busy[n] = whole, number
    return tuple(found)


def _close_together(
    joint: JointPlan, other: JointPlan, glued: Mapping[str, frozenset[str]], parts: set[frozenset[str]]
) -> bool:
    """Whether `other` joins the same parts in the same direction."""
    theirs = {glued[m.stack] for m in other.members if m.stack in glued}
    level = abs(float(np.dot(joint.axis.along, other.axis.along))) > 1.0 - PARALLEL
    return len(theirs) > 1 and theirs <= parts and level


def _blocked(joint: JointPlan) -> tuple[BrokenLimit, ...]:
    """The limit that is broken where the stacks are glued together before the tenon is in; none where an open end lets
    it in from outside."""
    if joint.members[0].through or joint.members[-1].through:
        return ()
    says = say(
        "{stacks} are glued to each other before the tenon of “{joint}” can enter, and it has no open "
        "end: put it along the axis of the joint that closes them and glue both at once, or let it come "
        "through at one end.",
        stacks=listed([m.stack for m in joint.members]),
        joint=joint.name,
    )
    return (BrokenLimit("order", 1.0, 0.0, "open ends", says),)


def long_grain(joint: JointPlan, member: JointMember, stack: StackPlan) -> float:
    """Area of the mortise's walls that run with the layers' grain, mm²: two walls of a square one, half of the round of
    a bore."""
    if joint.section == "round":
        return pi * joint.size[0] / 2 * member.embed
    side = grain_side(joint.axis, stack)
    return 2 * joint.size[side if len(joint.size) == 2 else 0] * member.embed


def _set_up(joints: Sequence[JointPlan], job: JointJob, blocked: tuple[BrokenLimit, ...]) -> SetUp:
    joint = joints[0]
    members = [m for m in joint.members if m.stack in job.stacks]
    order = lowest_first([job.stacks[m.stack] for m in members])
    lower, upper = order[0], order[-1]
    seats = [seat_of(joint, a, b, job.stacks[a.stack], job.stacks[b.stack]) for a, b in zip(members[:-1], members[1:])]
    walls = sum(long_grain(j, m, job.stacks[m.stack]) for j in joints for m in j.members if m.stack in job.stacks)
    seat_area = sum(s.contact.area for s in seats if s.alike)
    area = walls + seat_area
    hold = hold_of(joints, seats, job)
    clock = _clock(joints, area, len(hold.used), len(order), job)
    places = places_of(joint, seats[0], hold.used, lower, upper, job)
    limits = (*blocked, *hold.limits, *late(clock, "It", "clamp or wedge", say(_MENDS), say(_MENDS)))
    square = squareness_of(joint, lower, upper)
    names = [s.name for s in order]
    before = [*_first(joints, job), *_steps(joints, seats, hold, job), say("It is {held}.", held=hold.says)]
    if square is not None:
        before.append(squareness_words(square, job.units))
    return SetUp(
        number=1,
        round=1,
        kind=JOINT,
        stack=lower.name,
        first=lower.layers[0].number,
        last=lower.layers[-1].number,
        joins=(),
        lines=(),
        clock=clock,
        glue=glue_grams(job.glue, area, job.loss),
        area=area,
        places=places,
        pressures=pressures_of(seats, hold.used, lower, job),
        burden=_burden(order, job),
        opening=max(s.height for s in seats) + 2 * job.room.caul_thickness if hold.used else 0.0,
        limits=limits,
        why=say(
            mark(
                "{stacks} meet over the tenon of “{joint}”, closed together with {others} once each is glued by itself."
            )
            if joints[1:]
            else mark("{stacks} meet over the tenon of “{joint}” once each is glued by itself."),
            stacks=listed(names),
            joint=joint.name,
            others=listed([quoted(j.name) for j in joints[1:]]) if joints[1:] else "",
        ),
        before=tuple(before),
        helps=hold.helps,
        joint=joint.name,
        stacks=tuple(names),
    )


# --- before, and how --------------------------------------------------------------------------------------------------


def _first(joints: Sequence[JointPlan], job: JointJob) -> list[str]:
    """What is worked while the joint is still open."""
    said = []
    for joint in joints:
        members = [m for m in joint.members if m.stack in job.stacks]
        through = [m.stack for m in members if m.through]
        if through:
            said.append(
                say(
                    "Before: the mortise of “{joint}” in {stacks} is bored and chiselled from both faces to meet "
                    "inside; try the dry tenon through it.",
                    joint=joint.name,
                    stacks=listed(through),
                )
            )
        for one, other in [*zip(members[:-1], members[1:]), *zip(members[1:], members[:-1])]:
            stack = job.stacks[one.stack]
            waste = seat_waste(joint, one, other, stack, job.stacks[other.stack])
            if waste > ROUNDING:
                said.append(
                    say(
                        "Before: {waste} of waste stand over the seat of {stack}: carve or plane it down to the form "
                        "there, flat and square to the tenon, or {other} does not come home.",
                        waste=format_length(waste, job.units),
                        stack=one.stack,
                        other=other.stack,
                    )
                )
        for member in members:
            deep = tenon_below(joint, member, job.stacks[member.stack])
            if deep > ROUNDING:
                said.append(
                    say(
                        mark(
                            "Before: carve {stack} at the mouth of “{joint}” down to its finished surface: the "
                            "tenon ends {deep} below the rough face, where no hammer reaches a wedge."
                        )
                        if member.wedge is not None
                        else mark(
                            "Before: carve {stack} at the mouth of “{joint}” down to its finished surface: the "
                            "tenon ends {deep} below the rough face, where it could not be trimmed."
                        ),
                        stack=member.stack,
                        joint=joint.name,
                        deep=format_length(deep, job.units),
                    )
                )
    return said


def _steps(joints: Sequence[JointPlan], seats: Sequence[JointSeat], hold: Hold, job: JointJob) -> list[str]:
    """Which walls get glue, and the order of tenon, stacks and wedges."""
    said = [
        say("Close it dry, FRONT to FRONT, with all clamps on: no light at the seat, the tenon home to its marks.")
        if hold.used
        else say(
            "Close it dry, FRONT to FRONT, pressed home by hand: no light at the seat, the tenon home to its marks."
        )
    ]
    for joint in joints:
        relieved = any(m.relief for m in joint.members)
        said.append(
            say(
                "“{joint}”: glue the walls that run with the layers' grain, {walls}, and the tenon against "
                "them; the end-grain walls take little: {end_grain}.",
                joint=joint.name,
                walls=_width(joint),
                end_grain=say("leave them dry, they are relieved") if relieved else say("a thin coat"),
            )
        )
    alike = [s.alike for s in seats]
    said.append(
        say(
            "Around the tenon the grain of both stacks runs alike: spread the seat too, thinly, and stop "
            "short of the edge."
        )
        if all(alike)
        else say("Around the tenon the grain crosses: leave the seat dry there, so that both can move.")
    )
    wedged = [(j, m) for j in joints for m in j.members if m.wedge is not None and m.stack in job.stacks]
    held = [m.stack for m in joints[0].members if m.wedge is None and m.stack in job.stacks]
    if wedged:
        said.append(
            say(
                mark(
                    "Tenon into {first} first, home to its mark, then {stack} over it; close the seat, look at "
                    "the squareness, then glue kerfs and wedges and drive them by turns until they no longer "
                    "move, pads and cauls clear of the tenon's end; look at the squareness again; pare when the "
                    "glue is hard."
                )
                if held
                else mark(
                    "Tenon home; close the seat, look at the squareness, then glue kerfs and wedges and drive them by "
                    "turns until they no longer move, pads and cauls clear of the tenon's end; look at the squareness "
                    "again; pare when the glue is hard."
                ),
                first=held[0] if held else "",
                stack=wedged[0][1].stack,
            )
        )
    else:
        said.append(
            say(
                "Tenon into the stopped or the lower stack first, home to its mark, then the other over it; snug "
                "all clamps, look at the squareness and tighten by turns."
            )
        )
    return said


def _width(joint: JointPlan) -> str:
    return say("half of the round") if joint.section == "round" else say("two of the four")


def _burden(order: Sequence[StackPlan], job: JointJob) -> Burden | None:
    """All stacks together, their middle in the lowest one's frame."""
    masses, middles, heights = [], [], []
    for stack in order:
        for layer in stack.layers:
            weight = weight_of(job.table, layer.species)
            middle = blank_area(layer.blank).centroid
            centre = (middle.x, middle.y, (layer.bottom + layer.top) / 2)
            masses.append((weight or 0.0) * layer.blank_volume if weight is not None else np.nan)
            middles.append(to_stack(order[0].frame, to_model(stack.frame, np.array([centre])))[0])
            ends = np.array([[0.0, 0.0, layer.bottom], [0.0, 0.0, layer.top]])
            heights += to_stack(order[0].frame, to_model(stack.frame, ends))[:, 2].tolist()
    mass = float(np.sum(masses))
    shares = np.ones(len(masses)) if not np.isfinite(mass) or mass == 0 else np.array(masses)
    x, y, z = np.average(np.array(middles), axis=0, weights=shares).tolist()
    return Burden(max(heights) - min(heights), mass if np.isfinite(mass) else None, (x, y, z))


# --- the clock --------------------------------------------------------------------------------------------------------


def _clock(joints: Sequence[JointPlan], area: float, clamps: int, parts: int, job: JointJob) -> Clock:
    """Walls and tenon are spread, the parts closed over it, then clamps and wedges set."""
    wedges = sum(m.wedge.count for j in joints for m in j.members if m.wedge is not None)
    cauls = 2 if clamps and job.room.caul_thickness > 0 else 0
    return timeline(job.glue, job.room, [Spread(1, area, laid=parts)], cauls, clamps, wedges)
