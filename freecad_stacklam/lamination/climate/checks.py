# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a year in the room. They never say stop: how fast moisture moves is known to a factor of three."""

from __future__ import annotations

from collections.abc import Mapping

from freecad_stacklam.lamination.findings.seasons import (
    ALIKE,
    MONTHS,
    JointSeason,
    LayerSeason,
    SeasonFindings,
    Year,
    even,
)
from freecad_stacklam.lamination.lengths import format_fine, format_length, format_move
from freecad_stacklam.lamination.plan.checks import NO_PLACES, Check, Place
from freecad_stacklam.lamination.wood.unknown import MOVEMENT
from freecad_stacklam.lamination.words import say

PRACTICE = "common practice, no source"
HANDBOOK = "FPL-GTR-282 (2021): Table 13-2 (6 to 10 % indoors), Eq. 4-5"
MOVES = "diffusion from memory, movement by FPL-GTR-282 (2021) Eq. 13-3; limit: "
#: Moisture of furniture indoors, % (FPL-GTR-282, 2021, Table 13-2), and points by which layers may be off when glued.
LEAST_INDOORS, MOST_INDOORS, OFF_WHEN_GLUED = 6.0, 10.0, 2.0
#: Points beyond those that a month's air may ask for: the table is for wood when it is built in, not for every month.
BEYOND = 1.5
#: Points by which neighbouring layers may come to differ: half of those by which they may when they are glued.
BESIDE = 1.0
#: Points by which a room's months differ that are alike.
#: Share of a stack's height, and mm, from which its movement is worth a word: both.
HIGH, HIGH_LEAST = 0.01, 3.0
#: Share of the spread of wedges that the tenon's shrinking may take.
WEDGE_SHARE = 0.5
#: Room that glue leaves, mm: a gap beyond the clearance opens the line by more than a glue film.
OPENS = 0.15
#: Movements are told to this, mm: months of a year that differ by less are alike.
FINE = 0.01


def season_checks(
    findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place] = NO_PLACES
) -> tuple[Check, ...]:
    """What a year in the room asks the maker to mind. units: of lengths in sentences, "mm" or "in". at_lines: a place
    of each glue line, by its stack and the layer under it."""
    found = [_room(findings), _glued(findings), *_neighbours(findings, units, at_lines), *_heights(findings, units)]
    for joint in findings.joints:
        found += _joint(joint, units)
    found += _pins(findings, units, at_lines)
    found += [
        Check("movement", "caution", 0.0, 0.0, "", HANDBOOK, note)
        for note in findings.notes
        if note.startswith(say(MOVEMENT))
    ]
    found += [_month(one.work, one.cost[one.chosen] - one.cost[one.best], one.says) for one in findings.advice]
    return tuple(found)


def month_of(year: Year, most: bool) -> str:
    """Name of the month with the most, or the least."""
    return MONTHS[year.index(max(year) if most else min(year))]


def _when(year: Year, most: bool, moved: float) -> str:
    """In brackets the month, where it moves by so much that a month can be named."""
    return "" if moved < FINE or even(year, FINE) else f" ({month_of(year, most)})"


def _room(findings: SeasonFindings) -> Check:
    low, high = min(findings.equilibrium), max(findings.equilibrium)
    dry, wet = month_of(findings.equilibrium, False), month_of(findings.equilibrium, True)
    beyond = max(LEAST_INDOORS - low, high - MOST_INDOORS, 0.0)
    far = beyond > BEYOND
    same = even(findings.equilibrium)
    if same:
        says = f"The room asks for {low:.1f} % of moisture all year"
    else:
        says = f"The room asks for {low:.1f} % of moisture in {dry} and {high:.1f} % in {wet}"
    do, month = ("moisten", dry) if LEAST_INDOORS - low > high - MOST_INDOORS else ("dry", wet)
    says += (
        f", far from the {LEAST_INDOORS:g} to {MOST_INDOORS:g} % at which furniture is made for indoors: {do} the air "
        f"{'' if same else f'in {month} '}by a machine, or leave more room where wood meets what does not move."
        if far
        else "."
    )
    return Check(
        "The room's air", "caution" if far else "ok", beyond, BEYOND, "points", f"{HANDBOOK}; {PRACTICE}", says
    )


def _glued(findings: SeasonFindings) -> Check:
    middle = sum(findings.piece.mean) / 12
    off = abs(findings.moisture - middle)
    says = f"Glued at {findings.moisture:.1f} %, the piece comes to lie about {middle:.1f} %"
    says += (
        f", {off:.1f} points off: let the layers rest in air of the room's kind until a meter shows {middle:.0f} %."
        if off > OFF_WHEN_GLUED
        else "."
    )
    verdict = "caution" if off > OFF_WHEN_GLUED else "ok"
    return Check("Moisture when glued", verdict, off, OFF_WHEN_GLUED, "points", PRACTICE, says)


def apart(one: LayerSeason, other: LayerSeason) -> tuple[float, int]:
    """The most by which two layers' means differ over the first year and the settled one, points; its month."""
    both = [
        max(abs(a - b), abs(c - d))
        for a, b, c, d in zip(one.moisture.mean, other.moisture.mean, one.moisture.first, other.moisture.first)
    ]
    return max(both), both.index(max(both))


def _neighbours(findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the two neighbours that differ most: their widths want to differ, and the glue line holds them."""
    found = []
    for stack in findings.stacks:
        own = [one for one in findings.layers if one.stack == stack.stack]
        pairs = [(*apart(a, b), a, b) for a, b in zip(own, own[1:])]
        if not pairs:
            continue
        off, month, below, above = max(pairs, key=lambda pair: pair[0])
        says = f"Layers {below.number} and {above.number} of {stack.stack} differ by up to {off:.1f} points"
        says += f", in {MONTHS[month]}" if off >= ALIKE else ""
        if below.change is not None and above.change is not None:
            strain = abs(below.change.worst[month] - above.change.worst[month]) if below.width and above.width else 0.0
            says += f", so that their widths would differ by about {format_move(strain, units)}"
        says += (
            ": the glue line holds that; slow it by an even finish on all faces, end grain above all."
            if off > BESIDE
            else ": the glue line holds that."
        )
        verdict = "caution" if off > BESIDE else "ok"
        name, place = f"{stack.stack}: neighbouring layers", at_lines.get((stack.stack, below.number))
        found.append(Check(name, verdict, off, BESIDE, "points", PRACTICE, says, place))
    return found


def _heights(findings: SeasonFindings, units: str) -> list[Check]:
    found = []
    for stack in findings.stacks:
        if stack.change is None:
            continue
        low, high = stack.change.range
        limit = max(HIGH * stack.height, HIGH_LEAST)
        much = high - low > limit
        less, more = f"{format_move(max(-low, 0.0), units)} lower", f"{format_move(max(high, 0.0), units)} higher"
        says = f"up to {more}" if low >= 0 else f"up to {less}" if high <= 0 else f"{less} to {more}"
        says = f"{stack.stack} stands {says} than when it was glued, of {format_length(stack.height, units)}"
        says += {"flat": " (flat sawn)", "quarter": " (quarter sawn)"}.get(
            stack.change.cut, ", depending on how its boards are sawn"
        )
        says += "; let nothing rigid bridge its height." if much else "."
        found.append(
            Check(f"{stack.stack}: height over the year", "caution" if much else "ok", high - low, limit, "mm",
                  MOVES + PRACTICE, says)
        )  # fmt: skip
    return found


def _joint(joint: JointSeason, units: str) -> list[Check]:
    found: list[Check] = []
    name = f"{joint.joint}: "
    if joint.along is not None:
        room = 2 * (joint.clearance + joint.relief)
        squeeze, gap = max(max(joint.along), 0.0), max(-min(joint.along), 0.0)
        tight = squeeze > room
        there = f"{format_fine(room, units)} of" if room else "no"
        says = (
            f"Along the grain of {joint.stack} the tenon of “{joint.joint}” swells by up to "
            f"{format_fine(squeeze, units, True)}{_when(joint.along, True, squeeze)}"
        )
        shrinks = f" and shrinks by {format_fine(gap, units, True)}{_when(joint.along, False, gap)}"
        says += f"{shrinks}; " if gap else "; "
        says += (
            f"it has {there} room: cut {format_fine((squeeze - room) / 2, units, True)} more "
            "relief from each end-grain wall."
            if tight
            else f"its {format_fine(room, units)} of room takes that."
        )
        found.append(Check(f"{name}squeeze in {joint.stack}", "caution" if tight else "ok", squeeze, room, "mm",
                           MOVES + "geometry of the plan", says))  # fmt: skip
    if joint.across is not None:
        worst = max(map(abs, joint.across))
        wide = worst > OPENS + 2 * joint.clearance
        says = (
            f"Across the grain of {joint.stack} tenon and mortise of “{joint.joint}” move apart or together by up to "
            f"{format_fine(worst, units, True)}, if their rings lie at worst"
        )
        says += (
            ": lay the tenon's rings as those of the layers, or make it narrower." if wide else "; the glue takes that."
        )
        found.append(Check(f"{name}across in {joint.stack}", "caution" if wide else "ok", worst,
                           OPENS + 2 * joint.clearance, "mm", MOVES + PRACTICE, says))  # fmt: skip
    if joint.wedged is not None and joint.spread > 0:
        lost = max(-min(joint.wedged), 0.0)
        loose = lost > WEDGE_SHARE * joint.spread
        says = (
            f"Where it is wedged in {joint.stack} the tenon of “{joint.joint}” shrinks by up to "
            f"{format_fine(lost, units, True)}, its wedges spread it by {format_fine(joint.spread, units)}"
        )
        says += ": it may come loose in the dry months; glue it with drier wood, or wedge it wider." if loose else "."
        found.append(Check(f"{name}wedge in {joint.stack}", "caution" if loose else "ok", lost,
                           WEDGE_SHARE * joint.spread, "mm", MOVES + PRACTICE, says))  # fmt: skip
    return found


def _pins(findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the pins that come nearest to filling their holes: dowels do not shrink along their length."""
    found = []
    for stack in dict.fromkeys(pin.stack for pin in findings.pins):
        pins = [pin for pin in findings.pins if pin.stack == stack]
        worst = min(pins, key=lambda pin: pin.room + min(pin.change))
        lost = max(-min(worst.change), 0.0)
        tight = lost > worst.room
        spare = format_fine(worst.room, units) if worst.room else "nothing"
        says = (
            f"The layers of {stack} shrink by up to {format_fine(lost, units, True)} along the dowels at glue line "
            f"{worst.interface}, which do not, and have {spare} to "
            "spare"
        )
        says += ": cut the dowels shorter, or they push the layers apart." if tight else "."
        found.append(Check(f"{stack}: dowels over the year", "caution" if tight else "ok", lost, worst.room, "mm",
                           MOVES + "geometry of the plan", says, at_lines.get((stack, worst.interface))))  # fmt: skip
    return found


def _month(work: str, worse: float, says: str) -> Check:
    verdict = "caution" if worse > BESIDE else "ok"
    return Check(f"Month to {work}", verdict, worse, BESIDE, "points", PRACTICE, says)
