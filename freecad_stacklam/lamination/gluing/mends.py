# SPDX-License-Identifier: LGPL-2.1-or-later

"""The smallest change that mends a broken limit, in words. Times s, forces N, pressures MPa, lengths mm, masses kg.

Each function gives what would do by itself, the smallest first; none where nothing small does.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import ceil, floor, inf, log2

from freecad_stacklam.lamination.gluing.clampsets import PressSet
from freecad_stacklam.lamination.gluing.limits import (
    Shop,
    cauls_laid,
    contact_seconds,
    lift_limit,
    line_seconds,
    set_up_seconds,
)
from freecad_stacklam.lamination.gluing.pile import PileLayer, PileLine
from freecad_stacklam.lamination.joining.timeline import closing_seconds
from freecad_stacklam.lamination.lengths import format_mass, format_small_area, size
from freecad_stacklam.lamination.pressing.tabs import option_line, option_of
from freecad_stacklam.lamination.quantities import PSI, both_temperatures, format_time
from freecad_stacklam.lamination.refusal import either
from freecad_stacklam.lamination.settings.glue import HALVES, TOLD_AT, Glue, times_of
from freecad_stacklam.lamination.settings.stack import TabSettings
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.words import figure, say, say_many

#: More helpers than this do not find room around a pile (common practice, no source).
MOST_HELPERS = 3
#: Tabs that make a small line larger: how wide, and of the blank's width at the most; narrower or longer ones than the
#: last two are of no use, mm (common practice, no source).
TAB_WIDTH, TAB_SHARE, LEAST_TAB, LONGEST_TAB = 60.0, 0.6, 20.0, 150.0


def pressure_reached(pressure: float) -> str:
    """A pressure that is reached, never overstated: "0.93 MPa" or "135 psi"."""
    return either(
        figure(f"{floor(pressure * 100 + WHOLE) / 100:.2f} MPa"),
        f"{floor(pressure / PSI + WHOLE)} psi",
    )


def both_masses(kg: float) -> str:
    """A mass in a sentence, told in the maker's units."""
    return either(format_mass(kg), format_mass(kg, "in"))


def _areas(mm2: float) -> str:
    up = ceil(mm2 / 100) * 100.0
    return either(format_small_area(up), format_small_area(up, "in"))


def joined(mends: Sequence[str]) -> str:
    """Changes of which any one does: “a, or b, or c”."""
    told = mends[0]
    for mend in mends[1:]:
        told = say("{change}, or {other}", change=told, other=mend)
    return told


def seconds_of(shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float]) -> float:
    """How long a set-up takes from the first glue to the last clamp, with as many presses as its largest line wants."""
    count = of.count(max(needs, default=0.0))
    closing = closing_seconds(shop.room, count, cauls_laid(shop.room))
    spread = [line_seconds(shop.room, line, shop.glue.faces) for line in lines]
    return set_up_seconds(spread, closing, shop.room.start)


def for_clock(
    shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float], table: Mapping[str, Glue]
) -> list[str]:
    """For a set-up that takes longer than the glue allows."""

    def takes(other: Shop) -> float:
        return seconds_of(other, of, lines, needs)

    mends = _helpers(shop, lambda other: takes(other) <= times_of(other.glue, other.room.temperature)[1] + ROUNDING)
    most = _lines_at_once(shop, of, lines, needs)
    if 0 < most < len(lines):
        mends.append(say_many("no more than {count} line at once", "no more than {count} lines at once", most))
    mends += _slower(shop, table, 1, takes)
    return mends + _cooler(shop, takes(shop), shop.glue.assembly_time)


def for_open_time(shop: Shop, line: PileLine, table: Mapping[str, Glue]) -> list[str]:
    """For one line that waits longer for its contact than the glue stays open."""

    def takes(other: Shop) -> float:
        return contact_seconds(other.room, line, other.glue.faces)

    mends = _helpers(shop, lambda other: takes(other) <= times_of(other.glue, other.room.temperature)[0] + ROUNDING)
    mends += _slower(shop, table, 0, takes)
    return mends + _cooler(shop, takes(shop), shop.glue.open_time)


def _helpers(shop: Shop, held: Callable[[Shop], bool]) -> list[str]:
    for more in range(1, MOST_HELPERS + 1 - shop.room.helpers):
        if held(replace(shop, room=replace(shop.room, helpers=shop.room.helpers + more))):
            return [say_many("one more helper", "{count} more helpers", more)]
    return []


def _lines_at_once(shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float]) -> int:
    """How many of the lines fit the clock: without the largest, then the next, until they do."""
    limit = times_of(shop.glue, shop.room.temperature)[1]
    left = sorted(range(len(lines)), key=lambda i: -needs[i])
    while left:
        if seconds_of(shop, of, [lines[i] for i in left], [needs[i] for i in left]) <= limit + ROUNDING:
            return len(left)
        left.pop(0)
    return 0


def _slower(shop: Shop, table: Mapping[str, Glue], which: int, takes: Callable[[Shop], float]) -> list[str]:
    """The quickest glue of the table that is slow enough: of the same sort (a thin line or a filled gap)."""
    found: tuple[float, str] | None = None
    for glue in table.values():
        there = times_of(glue, shop.room.temperature)[which]
        fits = glue.name != shop.glue.name and glue.thin == shop.glue.thin
        fits &= glue.least_temperature <= shop.room.temperature
        if fits and takes(replace(shop, glue=glue)) <= there + ROUNDING and (found is None or there < found[0]):
            found = there, glue.name
    return [say("{glue}, which has {time} here", glue=found[1], time=format_time(found[0]))] if found else []


def _cooler(shop: Shop, seconds: float, at_twenty: float) -> list[str]:
    """The warmest room in which the glue stays wet for so long; none where it would be too cold for the glue."""
    warmest = floor(TOLD_AT - HALVES * log2(seconds / at_twenty) + WHOLE)
    if shop.glue.least_temperature <= warmest < shop.room.temperature:
        return [say("a room at {temperature}", temperature=both_temperatures(warmest))]
    return []


def for_clamps(of: PressSet, need: float, area: float) -> list[str]:
    """For a line that wants more clamps than there are: how many more, and what is reached with those there are."""
    if of.air is not None:
        return [say("clamps in place of the bag"), say("{pressure} with the bag", pressure=pressure_reached(of.air))]
    if not of.owned:
        return []
    more = of.wanted(need) - of.owned
    clamps = say_many(
        "{count} more clamp like “{clamp}”", "{count} more clamps like “{clamp}”", more, clamp=of.names[0]
    )
    return [
        clamps,
        say(
            "{pressure} with the {owned} that are there",
            pressure=pressure_reached(of.forces[-1] / area),
            owned=of.owned,
        ),
    ]


def for_crushing(
    of: PressSet, lines: Sequence[PileLine], weak: int, force: float, strength: float, above: PileLayer
) -> list[str]:
    """For a line that is crushed by the force that another wants: `weak` is its place in `lines`, `above` the layer
    over it."""
    line = lines[weak]
    mends = []
    if len(lines) > 1:
        largest = max(lines, key=lambda other: other.area)
        mends.append(say("line {line} in another set-up than line {other}", line=line.lower, other=largest.lower))
    mends += _tabs(line, above, force / strength - line.area)
    fewer = max((n for n in range(1, of.owned + 1) if of.forces[n] <= strength * line.area + ROUNDING), default=0)
    if of.air is None and fewer:
        most = max(other.area for other in lines)
        mends.append(
            say(
                "no more than {fewer} of the {owned} clamps, which leaves {pressure} on the largest line",
                fewer=fewer,
                owned=of.owned,
                pressure=pressure_reached(of.forces[fewer] / most),
            )
        )
    return mends


def _tabs(line: PileLine, above: PileLayer, area: float) -> list[str]:
    """Two waste tabs opposite each other on the layers of a line, which add an area to it, with the line that asks for
    them; none where they would be too long to be of use."""
    width = min(TAB_WIDTH, float(floor(above.width * TAB_SHARE)))
    out = float(ceil(area / 2 / width - WHOLE)) if width >= LEAST_TAB else inf
    if out > LONGEST_TAB:
        return []
    _, y = above.middle
    asked = [
        TabSettings((line.lower, line.lower + 1), at, width, out, round(aside) + 0.0)
        for at, aside in ((0.0, y), (180.0, -y))
    ]
    written = option_line(map(option_of, asked))
    return [
        say(
            "two waste tabs of {area} together on that line ({setting}, for the stack's settings)",
            area=_areas(area),
            setting=written,
        )
    ]


def for_opening(shop: Shop, needed: float, there: float, whole: bool) -> list[str]:
    """For a run that no press opens wide enough for."""
    mends = []
    cauls = (there - (needed - shop.cauls)) / 2
    if 0.0 < cauls < shop.room.caul_thickness:
        mends.append(say("cauls no thicker than {thickness}", thickness=size(cauls)))
    mends.append(say("a press that opens {opening}, such as a rod through a bore", opening=size(needed)))
    if not whole:
        mends.append(say("fewer layers at once"))
    return mends


def for_lift(shop: Shop, mass: float, width: float, layers: int) -> list[str]:
    """For a part that is too heavy for the arms that are there."""
    mends = []
    for more in range(1, MOST_HELPERS + 1 - shop.room.helpers):
        if lift_limit(replace(shop.room, helpers=shop.room.helpers + more), width) >= mass - ROUNDING:
            mends.append(say_many("one more helper", "{count} more helpers", more))
            break
    if layers > 1:
        mends.append(say("a thinner sub-stack"))
    return [*mends, say("a hoist or a lift table")]


def for_reach(line: PileLine, depth: float) -> list[str]:
    """For a line in a mortise that no chisel reaches from an open end."""
    reach = [say("a chisel that reaches {depth}", depth=size(depth))] if depth < inf else []
    return [
        *reach,
        say(
            "the mortise cut to size in layers {lower} and {upper} before, and no glue near its walls",
            lower=line.lower,
            upper=line.lower + 1,
        ),
    ]
