# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on how the pieces stand, each with what to change. Nothing here says stop: whether a piece is meant to stand
freely is the maker's, and the loads are no standard's test."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, cos, radians, sin, tan

from freecad_stacklam.lamination.findings.standing import TOUCHING, PieceStanding, Point, StandingFindings, Tipping
from freecad_stacklam.lamination.lengths import format_length, format_mass, rounded_down, rounded_up
from freecad_stacklam.lamination.plan.checks import Check, Place
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.standing.tipping import GRAVITY
from freecad_stacklam.lamination.standing.whole import ROLLS
from freecad_stacklam.lamination.words import mark, say

STATICS = mark("statics of rigid bodies: an estimate, not a compliance test")
PRACTICE = mark("common practice, no source")
#: Shown for a ratio where nothing tips.
MOST_RATIO = 99.0
#: How a direction is called when it is this near to one of the four sides, degrees.
_NEAR = 15.0
#: What touches over a longer way than this is a line, mm.
_LINE = 20.0
#: Figures all round that differ by no more than this part are alike.
_ALIKE = 0.03
#: A foot that should stand out further by more than this part of the piece's height is no cure.
_CURE = 0.5
#: The same of a push alone: no edge can be drawn in, and a foot far wider than the top is no stand's.
_CURE_OF_PUSH = 0.25
#: More than this is put into nothing that is carried about, kg (common practice, no source).
MOST_BALLAST = 50.0
_METRE = 1000.0
ALL_ROUND = mark("whichever way")
_SIDES = (mark("RIGHT"), mark("the back"), mark("the left"), mark("FRONT"))


def standing_checks(findings: StandingFindings, units: str = "mm") -> tuple[Check, ...]:
    """All verdicts on how the pieces stand. units: mm or in, of the sentences."""
    found: list[Check] = []
    for piece in findings.pieces:
        found.append(_support(piece, findings, units))
        if piece.rolls or piece.falls:
            continue
        found.append(_empty(piece, findings, units))
        found += [_load(piece, one, findings, units) for one in piece.loads]
        found.append(_level(piece, findings, units))
    found += [
        Check(
            say("standing left out"), "caution", 0.0, 0.0, "", say("the rule named in the sentence"), told(one, units)
        )
        for one in findings.left_out
    ]
    return tuple(found)


def towards(direction: float) -> str:
    """A direction in words: “towards FRONT”, “between FRONT and RIGHT, 305° round from RIGHT”."""
    quarter, rest = divmod(direction % 360.0, 90.0)
    at = int(quarter)
    if rest <= _NEAR:
        return say("towards {sides}", sides=say(_SIDES[at]))
    if rest >= 90.0 - _NEAR:
        return say("towards {sides}", sides=say(_SIDES[(at + 1) % 4]))
    return say(
        "between {sides} and {other}, {direction:.0f}° round from RIGHT",
        sides=say(_SIDES[at]),
        other=say(_SIDES[(at + 1) % 4]),
        direction=direction % 360.0,
    )


def whichever(values: Sequence[float | None], direction: float) -> str:
    """A direction in words; of what is much alike all round no single one."""
    known = [v for v in values if v is not None]
    if known and len(known) == len(values) and max(known) - min(known) <= _ALIKE * max(min(known), 0.0):
        return say(ALL_ROUND)
    return towards(direction)


def _up(mm: float, units: str) -> str:
    return format_length(rounded_up(mm, units), units)


def _down(mm: float, units: str) -> str:
    return format_length(rounded_down(mm, units), units)


def _at_edge(piece: PieceStanding, edge: tuple[Point, Point] | None) -> Place | None:
    """The middle of an edge that it tips over, on the floor; None where there is none."""
    if edge is None:
        return None
    (ax, ay), (bx, by) = edge
    return (ax + bx) / 2, (ay + by) / 2, piece.floor


def _at_foot(piece: PieceStanding) -> Place | None:
    """The lowest point of the foot that is furthest off the floor; None where it has no feet."""
    foot = max(piece.feet, key=lambda f: f.gap, default=None)
    return None if foot is None else (*foot.at, piece.floor + foot.gap)


def _support(piece: PieceStanding, findings: StandingFindings, units: str) -> Check:
    name = say("{piece}: what it stands on", piece=piece.name)
    touching = [foot for foot in piece.feet if foot.touches]
    if piece.rolls:
        how = say("in a point") if len(piece.support) < 2 or not _long(piece) else say("along a line")
        flat = _up(2 * piece.centre[2] * tan(radians(findings.least_angle)), units)
        says = say(
            "{piece} touches the floor only {how} and with no face, so it rolls or falls: flatten its underside, or "
            "give it feet, to at least {flat} across, or hold it otherwise.",
            piece=piece.name,
            how=how,
            flat=flat,
        )
        return Check(name, "caution", 0.0, ROLLS, "mm", say(STATICS), says, _at_foot(piece))
    if piece.falls or piece.inside <= 0:
        says = say(
            "{piece} falls over by itself {tip_direction}: its weight lies {inside} outside what it stands on; let a "
            "foot stand out {wider} further on that side, or fix it.",
            piece=piece.name,
            tip_direction=towards(piece.tip_direction),
            inside=_up(max(-piece.inside, 0.0), units),
            wider=_up(piece.wider, units),
        )
        return Check(name, "caution", piece.inside, 0.0, "mm", say(STATICS), says, _at_edge(piece, piece.tip_edge))
    many = (
        say("{touching} feet", touching=len(touching))
        if len(touching) > 1
        else say("one face")
        if touching[0].face
        else say("one rounded foot")
    )
    says = say(
        "{piece} rests on {many}; its weight lies {inside} inside the nearest edge of what it stands on.",
        piece=piece.name,
        many=many,
        inside=_down(piece.inside, units),
    )
    return Check(name, "ok", piece.inside, 0.0, "mm", say(STATICS), says, _at_edge(piece, piece.tip_edge))


def _long(piece: PieceStanding) -> bool:
    """Whether what touches is a line and no point."""
    xs, ys = zip(*piece.support) if piece.support else ((0.0,), (0.0,))
    return bool(max(max(xs) - min(xs), max(ys) - min(ys)) > _LINE)


def _empty(piece: PieceStanding, findings: StandingFindings, units: str) -> Check:
    low = piece.tip_angle < findings.least_angle
    where = whichever(piece.tip_angles, piece.tip_direction)
    says = say(
        "Empty, {piece} tips {where} when it is tilted by {tip_angle:.1f}°",
        piece=piece.name,
        where=where,
        tip_angle=piece.tip_angle,
    ) + (
        say(
            ": let it stand out {wider} further on that side, or bring its weight lower.", wider=_up(piece.wider, units)
        )
        if low
        else "."
    )
    return Check(
        say("{piece}: tips when empty", piece=piece.name),
        "caution" if low else "ok",
        piece.tip_angle,
        findings.least_angle,
        "°",
        say("{statics}; the limit: {practice}", statics=say(STATICS), practice=say(PRACTICE)),
        says,
        _at_edge(piece, piece.tip_edge),
    )


def _load(piece: PieceStanding, load: Tipping, findings: StandingFindings, units: str) -> Check:
    least = findings.least_ratio
    ratio = MOST_RATIO if load.ratio is None else min(load.ratio, MOST_RATIO)
    source = say(
        "{statics}; the load: {source}; the limit: {practice}",
        statics=say(STATICS),
        source=load.source,
        practice=say(PRACTICE),
    )
    name = say("{piece}: tipping, {load}", piece=piece.name, load=load.name)
    where = whichever(load.ratios, load.direction)
    unknown = "" if piece.mass is not None else say(" Its own weight is not known and was left out.")
    what = f"{load.name[0].upper()}{load.name[1:]}"
    edge = _at_edge(piece, (load.start, load.end))
    if load.ratio is None:
        says = say(
            "{what} does not tip {piece} in any direction.{unknown}", what=what, piece=piece.name, unknown=unknown
        )
        return Check(name, "ok", ratio, least, "", source, says)
    if load.ratio >= least:
        says = say(
            "Against {load}, {piece} is held {ratio:.2f} times as much as it is tipped, {where}.",
            load=load.name,
            piece=piece.name,
            ratio=load.ratio,
            where=where,
        )
        return Check(name, "ok", ratio, least, "", source, says + unknown, edge)
    how = (
        say("{what} tips {piece} over at once", what=what, piece=piece.name)
        if load.ratio < 1
        else say("{piece} only just stands up to {load}", piece=piece.name, load=load.name)
    )
    fact = say(
        "{how}, {where}: it is held {ratio:.2f} times as much as tipped, and {least:g} times is wanted",
        how=how,
        where=where,
        ratio=load.ratio,
        least=least,
    )
    says = f"{fact}; {_steadied(piece, load, findings, units)}.{unknown}"
    return Check(name, "caution", ratio, least, "", source, says, edge)


def _steadied(piece: PieceStanding, load: Tipping, findings: StandingFindings, units: str) -> str:
    """What keeps a piece from tipping, with its figures."""
    round_about = whichever(load.ratios, load.direction) == say(ALL_ROUND)
    side = say("all round") if round_about else say("on that side")
    feet = say("its feet") if len(piece.feet) > 1 else say("its foot")
    further = _up(load.wider, units)
    if load.wider > (_CURE_OF_PUSH if load.inward is None else _CURE) * piece.height:
        low = _ballast(piece, load, findings)
        far = (
            say("further than the piece is high")
            if load.wider > piece.height
            else say("{further} further", further=further)
        )
        weigh = "" if low is None else say(", or put {low} low down in it", low=format_mass(rounded_mass(low), units))
        return say(
            "no foot mends that, for it would have to stand out {far} {side}: fix it to wall or floor{weigh}",
            far=far,
            side=side,
            weigh=weigh,
        )
    ways = [say("let {feet} stand out {further} further {side}", feet=feet, further=further, side=side)]
    top = say("top") if len(piece.tops) < 2 else say("top {top}", top=load.top)
    if load.inward is not None:
        ways.append(
            say(
                "draw the edge of the {top} in by {inward} {what}",
                top=top,
                inward=_up(load.inward, units),
                what=say("all round") if round_about else say("there"),
            )
        )
    return say(", or ").join(ways)


def rounded_mass(mass: float) -> float:
    """A weight to be added, kg, never less than is needed: up to the next whole one."""
    return float(ceil(mass))


def _ballast(piece: PieceStanding, load: Tipping, findings: StandingFindings) -> float | None:
    """What must lie on the floor of a piece, under its middle, for the least ratio, kg: its moment about the line over
    which it tips is what is lacking there. None where that is more than anybody would put in, or nothing is known."""
    turn = radians(load.direction)
    way = (cos(turn), sin(turn))
    arm = sum((s - c) * w for s, c, w in zip(load.start, piece.centre, way)) - findings.soft_floor
    lacking = findings.least_ratio * load.tipping - load.holding  # N·m
    if piece.mass is None or arm <= 0:
        return None
    mass = lacking / (GRAVITY * arm / _METRE)
    return mass if mass <= MOST_BALLAST else None


def _level(piece: PieceStanding, findings: StandingFindings, units: str) -> Check:
    level = piece.levelling
    gap = max((foot.gap for foot in piece.feet), default=0.0)
    name = say("{piece}: level", piece=piece.name)
    source = say("geometry of the form; the practice of scribing: {practice}", practice=say(PRACTICE))
    if gap > TOUCHING:
        off = [
            say("foot {number} by {gap}", number=f.number, gap=format_length(f.gap, units))
            for f in piece.feet
            if not f.touches
        ]
        says = say(
            "{piece} rests with {list} off the floor: wedge it up level and scribe all feet at {scribe} above the "
            "floor, the height at which the shortest ends.",
            piece=piece.name,
            list=", ".join(off),
            scribe=_up(level.scribe, units),
        )
        return Check(name, "caution", gap, TOUCHING, "mm", source, says, _at_foot(piece))
    sway = format_length(level.rock, units)
    out = format_length(findings.short_foot, units)
    if not findings.short_foot:
        says = say("All feet of {piece} touch the floor when it rests.", piece=piece.name)
    elif level.rocks:
        says = say(
            "All of {piece} touches a flat floor; one foot or the floor out by {out} lets its top sway by {sway}: "
            "hollow a broad foot, level the feet by a scribe line, or use levelling glides.",
            piece=piece.name,
            out=out,
            sway=sway,
        )
    else:
        says = say(
            "On three feet {piece} never rocks; a foot or a floor out by {out} leans its top by {sway}.",
            piece=piece.name,
            out=out,
            sway=sway,
        )
    return Check(name, "ok", gap, TOUCHING, "mm", source, says, _at_foot(piece))
