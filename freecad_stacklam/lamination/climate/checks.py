# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a year in the room. They never say stop: how fast moisture moves is known to a factor of three."""

from __future__ import annotations

from collections.abc import Mapping

from freecad_stacklam.lamination.climate.jointchecks import MOVES, MOVES_IN_ROOM, joint_checks, month_of
from freecad_stacklam.lamination.findings.seasons import (
    ALIKE,
    MONTHS,
    LayerSeason,
    SeasonFindings,
    even,
)
from freecad_stacklam.lamination.lengths import format_fine, format_length, format_move
from freecad_stacklam.lamination.plan.checks import NO_PLACES, Check, Place
from freecad_stacklam.lamination.wood.unknown import MOVEMENT
from freecad_stacklam.lamination.words import mark, say

PRACTICE = mark("common practice, no source")
HANDBOOK = mark("FPL-GTR-282 (2021): Table 13-2 (6 to 10 % indoors), Eq. 4-5")
#: Moisture of furniture indoors, % (FPL-GTR-282, 2021, Table 13-2), and points by which layers may be off when glued.
LEAST_INDOORS, MOST_INDOORS, OFF_WHEN_GLUED = 6.0, 10.0, 2.0
#: Points beyond those that a month's air may ask for: the table is for wood when it is built in, not for every month.
BEYOND = 1.5
#: Points by which neighbouring layers may come to differ: half of those by which they may when they are glued.
BESIDE = 1.0
#: Points by which a room's months differ that are alike.
#: Share of a stack's height, and mm, from which its movement is worth a word: both.
HIGH, HIGH_LEAST = 0.01, 3.0


def season_checks(
    findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place] = NO_PLACES
) -> tuple[Check, ...]:
    """What a year in the room asks the maker to mind. units: of lengths in sentences, "mm" or "in". at_lines: a place
    of each glue line, by its stack and the layer under it."""
    found = [_room(findings), _glued(findings), *_neighbours(findings, units, at_lines), *_heights(findings, units)]
    for joint in findings.joints:
        found += joint_checks(joint, units)
    found += _pins(findings, units, at_lines)
    found += [
        Check(say("movement"), "caution", 0.0, 0.0, "", say(HANDBOOK), note)
        for note in findings.notes
        if note.startswith(say(MOVEMENT))
    ]
    found += [_month(one.work, one.cost[one.chosen] - one.cost[one.best], one.says) for one in findings.advice]
    return tuple(found)


def _room(findings: SeasonFindings) -> Check:
    low, high = min(findings.equilibrium), max(findings.equilibrium)
    dry, wet = month_of(findings.equilibrium, False), month_of(findings.equilibrium, True)
    beyond = max(LEAST_INDOORS - low, high - MOST_INDOORS, 0.0)
    far = beyond > BEYOND
    too_dry = LEAST_INDOORS - low > high - MOST_INDOORS
    parts = {"low": low, "high": high, "dry": dry, "wet": wet, "least": LEAST_INDOORS, "most": MOST_INDOORS}
    if even(findings.equilibrium):
        says = (
            say("The room asks for {low:.1f} % of moisture all year.", low=low)
            if not far
            else say(
                "The room asks for {low:.1f} % of moisture all year, far from the {least:g} to {most:g} % at which "
                "furniture is made for indoors: moisten the air by a machine, or leave more room where wood meets "
                "what does not move.",
                **parts,
            )
            if too_dry
            else say(
                "The room asks for {low:.1f} % of moisture all year, far from the {least:g} to {most:g} % at which "
                "furniture is made for indoors: dry the air by a machine, or leave more room where wood meets what "
                "does not move.",
                **parts,
            )
        )
    elif not far:
        says = say("The room asks for {low:.1f} % of moisture in {dry} and {high:.1f} % in {wet}.", **parts)
    elif too_dry:
        says = say(
            "The room asks for {low:.1f} % of moisture in {dry} and {high:.1f} % in {wet}, far from the {least:g} to "
            "{most:g} % at which furniture is made for indoors: moisten the air in {dry} by a machine, or leave more "
            "room where wood meets what does not move.",
            **parts,
        )
    else:
        says = say(
            "The room asks for {low:.1f} % of moisture in {dry} and {high:.1f} % in {wet}, far from the {least:g} to "
            "{most:g} % at which furniture is made for indoors: dry the air in {wet} by a machine, or leave more room "
            "where wood meets what does not move.",
            **parts,
        )
    source = f"{say(HANDBOOK)}; {say(PRACTICE)}"
    return Check(say("The room's air"), "caution" if far else "ok", beyond, BEYOND, "points", source, says)


def _glued(findings: SeasonFindings) -> Check:
    middle = sum(findings.piece.mean) / 12
    off = abs(findings.moisture - middle)
    if off > OFF_WHEN_GLUED:
        verdict = "caution"
        says = say(
            "Glued at {moisture:.1f} %, the piece comes to lie about {middle:.1f} %, {off:.1f} points off: let the "
            "layers rest in air of the room's kind until a meter shows {meter:.0f} %.",
            moisture=findings.moisture,
            middle=middle,
            off=off,
            meter=middle,
        )
    else:
        verdict = "ok"
        says = say(
            "Glued at {moisture:.1f} %, the piece comes to lie about {middle:.1f} %.",
            moisture=findings.moisture,
            middle=middle,
        )
    return Check(say("Moisture when glued"), verdict, off, OFF_WHEN_GLUED, "points", say(PRACTICE), says)


def apart(one: LayerSeason, other: LayerSeason) -> tuple[float, int]:
    """The most by which two layers' means differ over the first year and the settled one, points; its month."""
    both = [
        max(abs(a - b), abs(c - d))
        for a, b, c, d in zip(one.moisture.mean, other.moisture.mean, one.moisture.first, other.moisture.first)
    ]
    return max(both), both.index(max(both))


#: Of neighbours: by whether a month is named, whether widths are known, and whether it is much.
_DIFFER = {
    (False, False, False): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points: the glue line holds that."
    ),
    (True, False, False): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points, in {month}: the glue line holds that."
    ),
    (False, True, False): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points, so that their widths would differ by "
        "about {strain}: the glue line holds that."
    ),
    (True, True, False): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points, in {month}, so that their widths "
        "would differ by about {strain}: the glue line holds that."
    ),
    (True, False, True): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points, in {month}: the glue line holds that; "
        "slow it by an even finish on all faces, end grain above all."
    ),
    (True, True, True): mark(
        "Layers {below} and {above} of {stack} differ by up to {off:.1f} points, in {month}, so that their widths "
        "would differ by about {strain}: the glue line holds that; slow it by an even finish on all faces, end "
        "grain above all."
    ),
}


def _neighbours(findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the two neighbours that differ most: their widths want to differ, and the glue line holds them."""
    found = []
    for stack in findings.stacks:
        own = [one for one in findings.layers if one.stack == stack.stack]
        pairs = [(*apart(a, b), a, b) for a, b in zip(own, own[1:])]
        if not pairs:
            continue
        off, month, below, above = max(pairs, key=lambda pair: pair[0])
        strain = 0.0
        known = below.change is not None and above.change is not None
        if below.change is not None and above.change is not None and below.width and above.width:
            strain = abs(below.change.worst[month] - above.change.worst[month])
        much = off > BESIDE
        says = say(
            _DIFFER[much or off >= ALIKE, known, much],
            below=below.number,
            above=above.number,
            stack=stack.stack,
            off=off,
            month=say(MONTHS[month]),
            strain=format_move(strain, units),
        )
        name, place = say("{stack}: neighbouring layers", stack=stack.stack), at_lines.get((stack.stack, below.number))
        found.append(Check(name, "caution" if much else "ok", off, BESIDE, "points", say(PRACTICE), says, place))
    return found


#: Of a stack's height: by the cut of its boards and whether it is much.
_STANDS = {
    ("flat", False): mark("{stack} stands {range} than when it was glued, of {height} (flat sawn)."),
    ("quarter", False): mark("{stack} stands {range} than when it was glued, of {height} (quarter sawn)."),
    ("", False): mark(
        "{stack} stands {range} than when it was glued, of {height}, depending on how its boards are sawn."
    ),
    ("flat", True): mark(
        "{stack} stands {range} than when it was glued, of {height} (flat sawn); let nothing rigid bridge its height."
    ),
    ("quarter", True): mark(
        "{stack} stands {range} than when it was glued, of {height} (quarter sawn); let nothing rigid bridge its "
        "height."
    ),
    ("", True): mark(
        "{stack} stands {range} than when it was glued, of {height}, depending on how its boards are sawn; let nothing "
        "rigid bridge its height."
    ),
}


def _heights(findings: SeasonFindings, units: str) -> list[Check]:
    found = []
    for stack in findings.stacks:
        if stack.change is None:
            continue
        low, high = stack.change.range
        limit = max(HIGH * stack.height, HIGH_LEAST)
        much = high - low > limit
        less, more = format_move(max(-low, 0.0), units), format_move(max(high, 0.0), units)
        moved = (
            say("up to {high} higher", high=more)
            if low >= 0
            else say("up to {low} lower", low=less)
            if high <= 0
            else say("{low} lower to {high} higher", low=less, high=more)
        )
        cut = stack.change.cut if (stack.change.cut, much) in _STANDS else ""
        height = format_length(stack.height, units)
        says = say(_STANDS[cut, much], stack=stack.stack, range=moved, height=height)
        name = say("{stack}: height over the year", stack=stack.stack)
        source = say(MOVES)
        found.append(Check(name, "caution" if much else "ok", high - low, limit, "mm", source, says))
    return found


def _pins(findings: SeasonFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the pins that come nearest to filling their holes: dowels do not shrink along their length."""
    found = []
    for stack in dict.fromkeys(pin.stack for pin in findings.pins):
        pins = [pin for pin in findings.pins if pin.stack == stack]
        worst = min(pins, key=lambda pin: pin.room + min(pin.change))
        lost = max(-min(worst.change), 0.0)
        tight = lost > worst.room
        spare = format_fine(worst.room, units) if worst.room else say("nothing")
        parts = {"stack": stack, "lost": format_fine(lost, units, True), "line": worst.interface, "spare": spare}
        says = (
            say(
                "The layers of {stack} shrink by up to {lost} along the dowels at glue line {line}, which do not, and "
                "have {spare} to spare: cut the dowels shorter, or they push the layers apart.",
                **parts,
            )
            if tight
            else say(
                "The layers of {stack} shrink by up to {lost} along the dowels at glue line {line}, which do not, and "
                "have {spare} to spare.",
                **parts,
            )
        )
        name, place = say("{stack}: dowels over the year", stack=stack), at_lines.get((stack, worst.interface))
        source = say(MOVES_IN_ROOM)
        found.append(Check(name, "caution" if tight else "ok", lost, worst.room, "mm", source, says, place))
    return found


_MONTH_TO = {"cut": mark("Month to cut"), "glue": mark("Month to glue"), "deliver": mark("Month to deliver")}


def _month(work: str, worse: float, says: str) -> Check:
    verdict = "caution" if worse > BESIDE else "ok"
    return Check(say(_MONTH_TO[work]), verdict, worse, BESIDE, "points", say(PRACTICE), says)
