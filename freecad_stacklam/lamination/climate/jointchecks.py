# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on what a year in the room does to joints."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.seasons import (
    MONTHS,
    JointSeason,
    Year,
    even,
)
from freecad_stacklam.lamination.lengths import format_fine
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.words import mark, say

MOVES = mark("diffusion from memory, movement by FPL-GTR-282 (2021) Eq. 13-3; limit: common practice, no source")
MOVES_IN_ROOM = mark("diffusion from memory, movement by FPL-GTR-282 (2021) Eq. 13-3; limit: geometry of the plan")
#: Share of the spread of wedges that the tenon's shrinking may take.
WEDGE_SHARE = 0.5
#: Room that glue leaves, mm: a gap beyond the clearance opens the line by more than a glue film.
OPENS = 0.15
#: Movements are told to this, mm: months of a year that differ by less are alike.
FINE = 0.01


def month_of(year: Year, most: bool) -> str:
    """Name of the month with the most, or the least."""
    return say(MONTHS[year.index(max(year) if most else min(year))])


def _when(year: Year, most: bool, moved: float) -> str:
    """In brackets the month, where it moves by so much that a month can be named."""
    return "" if moved < FINE or even(year, FINE) else f" ({month_of(year, most)})"


def joint_checks(joint: JointSeason, units: str) -> list[Check]:
    """What a year does to one tenon in one stack. units: of lengths in sentences, "mm" or "in"."""
    return [*_along(joint, units), *_across(joint, units), *_wedged(joint, units)]


def _along(joint: JointSeason, units: str) -> list[Check]:
    """What a tenon does between its end-grain walls."""
    if joint.along is None:
        return []
    room = 2 * (joint.clearance + joint.relief)
    squeeze, gap = max(max(joint.along), 0.0), max(-min(joint.along), 0.0)
    tight = squeeze > room
    swells = format_fine(squeeze, units, True) + _when(joint.along, True, squeeze)
    shrinks = format_fine(gap, units, True) + _when(joint.along, False, gap)
    moves = (
        say(
            "Along the grain of {stack} the tenon of “{joint}” swells by up to {swells} and shrinks by {shrinks}",
            stack=joint.stack, joint=joint.joint, swells=swells, shrinks=shrinks,
        )
        if gap
        else say(
            "Along the grain of {stack} the tenon of “{joint}” swells by up to {swells}",
            stack=joint.stack, joint=joint.joint, swells=swells,
        )
    )  # fmt: skip
    relief, spare = format_fine((squeeze - room) / 2, units, True), format_fine(room, units)
    takes = (
        say("its {room} of room takes that.", room=spare)
        if not tight
        else say("it has {room} of room: cut {relief} more relief from each end-grain wall.", room=spare, relief=relief)
        if room
        else say("it has no room: cut {relief} more relief from each end-grain wall.", relief=relief)
    )
    name = say("{joint}: squeeze in {stack}", joint=joint.joint, stack=joint.stack)
    source = say(MOVES_IN_ROOM)
    return [Check(name, "caution" if tight else "ok", squeeze, room, "mm", source, f"{moves}; {takes}")]


def _across(joint: JointSeason, units: str) -> list[Check]:
    """How far tenon and mortise come apart across the grain."""
    if joint.across is None:
        return []
    worst = max(map(abs, joint.across))
    wide = worst > OPENS + 2 * joint.clearance
    parts = {"stack": joint.stack, "joint": joint.joint, "worst": format_fine(worst, units, True)}
    says = (
        say(
            "Across the grain of {stack} tenon and mortise of “{joint}” move apart or together by up to {worst}, if "
            "their rings lie at worst: lay the tenon's rings as those of the layers, or make it narrower.",
            **parts,
        )
        if wide
        else say(
            "Across the grain of {stack} tenon and mortise of “{joint}” move apart or together by up to {worst}, if "
            "their rings lie at worst; the glue takes that.",
            **parts,
        )
    )
    name = say("{joint}: across in {stack}", joint=joint.joint, stack=joint.stack)
    limit, source = OPENS + 2 * joint.clearance, say(MOVES)
    return [Check(name, "caution" if wide else "ok", worst, limit, "mm", source, says)]


def _wedged(joint: JointSeason, units: str) -> list[Check]:
    """How much of its wedges' spread a tenon loses."""
    if joint.wedged is None or joint.spread <= 0:
        return []
    lost = max(-min(joint.wedged), 0.0)
    loose = lost > WEDGE_SHARE * joint.spread
    parts = {
        "stack": joint.stack, "joint": joint.joint, "lost": format_fine(lost, units, True),
        "spread": format_fine(joint.spread, units),
    }  # fmt: skip
    says = (
        say(
            "Where it is wedged in {stack} the tenon of “{joint}” shrinks by up to {lost}, its wedges spread it by "
            "{spread}: it may come loose in the dry months; glue it with drier wood, or wedge it wider.",
            **parts,
        )
        if loose
        else say(
            "Where it is wedged in {stack} the tenon of “{joint}” shrinks by up to {lost}, its wedges spread it by "
            "{spread}.",
            **parts,
        )
    )
    name = say("{joint}: wedge in {stack}", joint=joint.joint, stack=joint.stack)
    limit, source = WEDGE_SHARE * joint.spread, say(MOVES)
    return [Check(name, "caution" if loose else "ok", lost, limit, "mm", source, says)]
