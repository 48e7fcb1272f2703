# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on what a year does to a joint: what moves along the tenon, across it, and against its end-grain walls."""

from __future__ import annotations

from freecad_stacklam.lamination.lengths import (
    format_fine,
    format_length,
    plain_fine,
)
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

PRACTICE = mark("common practice, no source")
YEAR = mark("FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the limit: common practice, no source")
#: Length of cross-grain glue that a tenon should have in a member at most, mm; how far a flush end may come out over a
#: year, and how much the tenon may move against its glued walls, mm. Rules of thumb, too.
GLUED_LENGTH = 100.0
FLUSH_MOVE = 0.2
ACROSS_MOVE = 0.5


def over_the_year(joint: JointPlan, member: JointMember, units: str) -> list[Check]:
    """What the layers do along the tenon, which does not move, and what both do across the layers' grain."""
    found = []
    swing, source = joint.swing, say(YEAR)
    long = member.embed > GLUED_LENGTH + ROUNDING
    embed = format_length(member.embed, units)
    says = say(
        mark(
            "The tenon of “{joint}” is glued in {stack} across the grain, over {depth}, more "
            "than {most}: glue the lower part alone, or let it in less."
        )
        if long
        else mark("The tenon of “{joint}” is glued in {stack} across the grain, over {depth}."),
        joint=joint.name,
        stack=member.stack,
        depth=embed,
        most=format_length(GLUED_LENGTH, units),
    )
    found.append(
        Check(
            say("{joint}: cross-grain glue in {stack}", joint=joint.name, stack=member.stack),
            "caution" if long else "ok",
            member.embed,
            GLUED_LENGTH,
            "mm",
            say(PRACTICE),
            says,
        )
    )
    moves = member.movement_height
    if moves is not None and member.through and not joint.proud and member in (joint.members[0], joint.members[-1]):
        out = moves > FLUSH_MOVE
        says = say(
            mark(
                "Over {swing:g} points of moisture {stack} moves up to {moves} along the tenon of “{joint}”: its "
                "flush end stands out in the dry season and sinks in the wet; chamfer it, or let it stand proud."
            )
            if out
            else mark(
                "Over {swing:g} points of moisture {stack} moves up to {moves} along the tenon of “{joint}”; its "
                "end stays flush."
            ),
            swing=swing,
            stack=member.stack,
            moves=format_fine(moves, units, up=True),
            joint=joint.name,
        )
        verdict = "caution" if out else "ok"
        found.append(
            Check(
                say("{joint}: flush end in {stack}", joint=joint.name, stack=member.stack),
                verdict,
                moves,
                FLUSH_MOVE,
                "mm",
                source,
                says,
            )
        )
    across = member.movement_across
    if across is not None:
        much = across > ACROSS_MOVE
        told = format_fine(across, units, up=True)
        says = say(
            mark(
                "Over {swing:g} points of moisture the tenon of “{joint}” moves up to {moves} against its glued "
                "walls in {stack}, which opens glue lines: take a narrower tenon, or tenon and layers of like "
                "grain."
            )
            if much
            else mark(
                "Over {swing:g} points of moisture the tenon of “{joint}” moves up to {moves} against its glued "
                "walls in {stack}."
            ),
            swing=swing,
            joint=joint.name,
            moves=told,
            stack=member.stack,
        )
        verdict = "caution" if much else "ok"
        found.append(
            Check(
                say("{joint}: movement across in {stack}", joint=joint.name, stack=member.stack),
                verdict,
                across,
                ACROSS_MOVE,
                "mm",
                source,
                says,
            )
        )
    return found


def wedged_movement(joint: JointPlan, member: JointMember, units: str) -> Check:
    """A wedged end has no room along the grain: it is crushed in the wet and loosens in the dry."""
    assert member.movement_along is not None
    room = 2 * joint.clearance
    tight = member.movement_along > room + ROUNDING
    moves = format_fine(member.movement_along, units, up=True)
    says = say(
        mark(
            "Over {swing:g} points of moisture the wedged tenon of “{joint}” moves {moves} "
            "against the end-grain walls of {stack}, which do not move: its fibres are crushed "
            "in the wet season and it loosens in the dry. Makers accept that; keep the wedged "
            "side short, or pass through without wedges and give relief."
        )
        if tight
        else mark(
            "Over {swing:g} points of moisture the wedged tenon of “{joint}” moves {moves} "
            "against the end-grain walls of {stack}, which do not move."
        ),
        swing=joint.swing,
        joint=joint.name,
        moves=moves,
        stack=member.stack,
    )
    source = say("FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the verdict: common practice, no source")
    verdict = "caution" if tight else "ok"
    return Check(
        say("{joint}: movement in {stack}", joint=joint.name, stack=member.stack),
        verdict,
        member.movement_along,
        room,
        "mm",
        source,
        says,
    )


def _eased(joint: JointPlan, member: JointMember, units: str) -> str:
    """How much comes off each end-grain wall so that the tenon has room to move, and how."""
    assert member.movement_along is not None
    each = format_fine(member.movement_along / 2 - joint.clearance, units, up=True)
    if joint.section == "round":
        return say(
            "rasp {amount} off each of the two end-grain quarters of its wall, or take a square tenon with relief",
            amount=each,
        )
    return say("cut {amount} of relief on each of its two end-grain walls", amount=each)


def movement(joint: JointPlan, member: JointMember, units: str) -> Check:
    """Along the layers' grain the mortise does not move and the tenon does."""
    assert member.movement_along is not None
    room = 2 * (joint.clearance + member.relief)
    tight = member.movement_along > room + ROUNDING
    moves, gives = format_fine(member.movement_along, units, up=True), format_fine(room, units)
    if not tight and float(plain_fine(room, units, "down")) < float(plain_fine(member.movement_along, units, "up")):
        # less than the last place apart: each rounded for safety would contradict the verdict
        gives = say("as much")
    parts = {"swing": joint.swing, "joint": joint.name, "moves": moves, "stack": member.stack, "room": gives}
    says = (
        say(
            "Over {swing:g} points of moisture the tenon of “{joint}” moves {moves} along the grain of {stack}, which "
            "does not; the mortise has room for {room}: {remedy}.",
            remedy=_eased(joint, member, units),
            **parts,
        )
        if tight
        else say(
            "Over {swing:g} points of moisture the tenon of “{joint}” moves {moves} along the grain of {stack}, which "
            "does not; the mortise has room for {room}.",
            **parts,
        )
    )
    source = say("FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage")
    verdict = "caution" if tight else "ok"
    return Check(
        say("{joint}: movement in {stack}", joint=joint.name, stack=member.stack),
        verdict,
        member.movement_along,
        room,
        "mm",
        source,
        says,
    )
