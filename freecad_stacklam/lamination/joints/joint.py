# SPDX-License-Identifier: LGPL-2.1-or-later

"""Mortise and floating tenon along an axis: where it runs in each stack, its tenon, and the wood left around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.joints.axis import convex_plan, section_outline
from freecad_stacklam.lamination.joints.boring import bit_for, bored_at, borings_of, point_bodies
from freecad_stacklam.lamination.joints.cover import Mouth, cover_of
from freecad_stacklam.lamination.joints.mortise import ends_on_glue_line, mortise_span, moving, relief_for
from freecad_stacklam.lamination.joints.runs import Run, chain_of, feelers_of, mouths_of, runs_of, wood_around
from freecad_stacklam.lamination.joints.wedges import wedge_of
from freecad_stacklam.lamination.lengths import format_length, size
from freecad_stacklam.lamination.plan.jointaxis import JointAxis, joint_axis
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Tenon
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]


def place_joint(
    settings: JointSettings,
    stacks: Mapping[str, StackPlan],
    meshes: Mapping[str, Mesh],
    table: Mapping[str, Species] | None = None,
    bits: Sequence[Bit] = (),
    units: str = "mm",
    stroke: float | None = None,
) -> JointPlan:
    """Run the joint through its members and measure it.

    stacks and meshes: by name; the meshes in model coordinates. table: species, for the movement of the tenon in its
    mortise; without it no relief is cut. bits: those that the shop owns; without them those
    that shops which work in `units` keep. stroke: of its drill press, mm. Raises Refusal when the joint cannot be
    made as asked.
    """
    name = settings.name
    if len(settings.embed) < 2:
        raise Refusal(
            say("Joint “{joint}” needs two stacks to join: give a depth in each of them, or “through”.", joint=name)
        )
    for stack in settings.stacks:
        if stack not in stacks:
            raise Refusal(
                say(
                    "Joint “{joint}” names “{stack}”, which is no stack here: the stacks are {names}.",
                    joint=name,
                    stack=stack,
                    names=", ".join(stacks),
                )
            )
    axis = joint_axis(settings.through, settings.axis, settings.turn)
    chain = chain_of(name, [runs_of(settings, axis, stacks[n], meshes[n]) for n in settings.stacks])
    for run in chain:
        if max(settings.size) > float(np.linalg.norm(np.ptp(run.points, axis=0))):
            raise Refusal(
                say(
                    "The mortise of joint “{joint}” is {width} wide, more than {stack} is in any direction: make it "
                    "smaller, and mind its unit.",
                    joint=name,
                    width=format_length(max(settings.size), units),
                    stack=run.stack.name,
                )
            )
    plan = section_outline(settings.section, settings.size)
    feelers = feelers_of(convex_plan(plan))

    bit = bit_for(settings.size, bits, units)
    places = bored_at(settings.section, settings.size, bit.diameter)
    spans, members, covers = [], [], []
    for i, (run, mouths) in enumerate(zip(chain, mouths_of(chain, feelers))):
        span, hold, tenon = _span(settings, run, mouths, first=i == 0, last=i == len(chain) - 1)
        spans.append((*span, *tenon))
        through = settings.depth_in(run.stack.name) is None
        low, high = mortise_span(run.stack, axis, plan, span)
        member = JointMember(run.stack.name, low, high, through, hold)
        moving = _moving(settings, axis, run.stack, member, stacks[chain[0].stack.name].species, table)
        # The wedges fill what relief would leave.
        members.append(replace(moving, relief=0.0) if _is_wedged(settings, run, chain) else moving)
        open_ends = [
            m for m, face in zip(mouths, (run.low, run.high)) if min(abs(face - s) for s in span) < ROUNDING or through
        ]
        distance, place, share = wood_around(name, run, axis, plan, span, open_ends)
        covers.append((distance, place))
        if not through and not ends_on_glue_line(run.stack, member):
            first = i == 0
            for body in point_bodies(bit, places, span[0] if first else span[1], down=first):
                found = cover_of(run.points, run.mesh.triangles, body, open_ends)
                covers.append((found.distance, _triple(axis.model(np.array([found.place]))[0])))
        members[-1] = replace(members[-1], share=share)

    meet = (chain[0].high + chain[1].low) / 2
    start, end = spans[0][2], spans[-1][3]
    proud = settings.proud if settings.ends != "flush" else 0.0
    start -= proud if members[0].through else 0.0
    end += proud if members[-1].through else 0.0
    distance, place = min(covers, key=lambda found: found[0])
    joint = JointPlan(
        name=name,
        section=settings.section,
        size=settings.size,
        point=_triple(axis.point + meet * axis.along),
        direction=_triple(axis.along),
        clearance=settings.clearance,
        end_room=settings.end_room,
        members=tuple(members),
        tenon=Tenon(
            length=end - start,
            section=settings.section,
            size=tuple(s - 2 * settings.clearance for s in settings.size),
            species=settings.species or chain[0].stack.species,
        ),
        least_cover=distance,
        cover_place=place,
        turn=settings.turn,
        start=start - meet,
        end=end - meet,
        proud=proud,
        swing=settings.swing,
    )
    if settings.ends == "wedged":
        wood = None if table is None else table.get(joint.tenon.species)
        beyond = (chain[0].low - start, *[0.0] * (len(chain) - 2), end - chain[-1].high)
        wedged = [
            replace(m, wedge=wedge_of(joint, m, run.stack, run is chain[0], out, wood))
            if _is_wedged(settings, run, chain)
            else m
            for m, run, out in zip(members, chain, beyond)
        ]
        joint = replace(joint, members=tuple(wedged))
    of_members = [stacks[m.stack] for m in members]
    rows = borings_of(joint, of_members, bits, settings.chisel_reach, units, stroke, settings.before_glue_up)
    return replace(joint, drilling=rows)


def _triple(values: Floats) -> tuple[float, float, float]:
    return float(values[0]), float(values[1]), float(values[2])


def _span(
    settings: JointSettings, run: Run, mouths: list[Mouth], *, first: bool, last: bool
) -> tuple[tuple[float, float], float, tuple[float, float]]:
    """Where the mortise runs in one member, how much tenon it holds, and where the tenon begins and ends there."""
    depth, length = settings.depth_in(run.stack.name), run.high - run.low
    if depth is None:
        if not run.alone:
            raise Refusal(
                say(
                    "Joint “{joint}” cannot go through {stack}: its axis passes a void there; give it a depth, or "
                    "move it.",
                    joint=settings.name,
                    stack=run.stack.name,
                )
            )
        return (
            (run.low, run.high),
            length,
            (min(run.low, mouths[0].low) if first else run.low, max(run.high, mouths[1].high)),
        )
    if not (first or last):
        raise Refusal(
            say(
                "Joint “{joint}” must go through {stack}, which lies between the others: write “through”.",
                joint=settings.name,
                stack=run.stack.name,
            )
        )
    deep = depth + settings.end_room
    if deep >= length:
        raise Refusal(
            say(
                "Joint “{joint}” would go {depth} deep (end room counted) into {stack}, which is only {thickness} "
                "thick there: make it shallower, or through.",
                joint=settings.name,
                depth=size(deep),
                stack=run.stack.name,
                thickness=size(length),
            )
        )
    if first:
        return (run.high - deep, run.high), depth, (run.high - depth, run.high)
    return (run.low, run.low + deep), depth, (run.low, run.low + depth)


def _moving(
    settings: JointSettings,
    axis: JointAxis,
    stack: StackPlan,
    member: JointMember,
    species: str,
    table: Mapping[str, Species] | None,
) -> JointMember:
    """The member with its movement over the season and the relief for it."""
    if table is None:
        return replace(member, relief=settings.relief or 0.0)
    tenon = table.get(settings.species or species)
    moved = moving(member, axis, stack, settings.size, tenon, table.get(stack.species), settings.swing)
    relief = settings.relief if settings.relief is not None else relief_for(moved.movement_along, settings.clearance)
    return replace(moved, relief=0.0 if settings.section == "round" and settings.relief is None else relief)


def _is_wedged(settings: JointSettings, run: Run, chain: Sequence[Run]) -> bool:
    """Whether the tenon ends in this member, comes through it, and is wedged there."""
    at_end = run is chain[0] or run is chain[-1]
    return settings.ends == "wedged" and at_end and settings.depth_in(run.stack.name) is None
