# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which limits a set-up breaks, by how much, and what mends each: figures and sentences.

Here nothing is waived: what no order mends is told as well. Times s, forces N, pressures MPa, lengths mm, masses kg.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import inf, isfinite

from freecad_stacklam.lamination.gluing import mends
from freecad_stacklam.lamination.gluing.clampsets import PressSet, widest_for
from freecad_stacklam.lamination.gluing.limits import Shop, contact_seconds, lift_limit
from freecad_stacklam.lamination.gluing.pile import Pile, PileLine
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.gluing import BrokenLimit
from freecad_stacklam.lamination.quantities import both_pressures, both_temperatures, format_time
from freecad_stacklam.lamination.settings.glue import Glue, times_of
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say, say_many

CLOCK, OPEN_TIME, CLAMPS, PRESSURE = mark("clock"), mark("open time"), mark("clamps"), mark("pressure")
#: "chisel": what it must reach; "reach" is what pads reach (pressing/press).
CRUSHING, OPENING, LIFT = mark("crushing"), mark("opening"), mark("lift")
CHISEL, SEATS = mark("chisel"), mark("seats")


def breaks_of(
    pile: Pile,
    shop: Shop,
    joins: Sequence[tuple[int, int]],
    of: PressSet,
    table: Mapping[str, Glue] | None = None,
) -> tuple[BrokenLimit, ...]:
    """The broken limits of a set-up that joins parts, each (first, last) layer from the bottom, and is pressed by a set
    of presses: as many of them as its largest line wants."""
    lines = [pile.line(last) for _, last in joins[:-1]]
    needs = [shop.wanted[line.lower - pile.first][0] * line.area for line in lines]
    found = [
        *_times(shop, of, lines, needs, table or {}),
        *_forces(pile, shop, of, lines, needs),
        *_seats(pile, shop, of, joins, lines, needs),
        *_opening(pile, shop, joins),
        *_lift(pile, shop, joins),
        *_chisel(pile, shop, joins, lines),
    ]
    return tuple(found)


def _broken(name: str, needed: float, there: float, unit: str, says: str, help_: Sequence[str]) -> BrokenLimit:
    would = " " + say("Smallest change: {changes}.", changes=mends.joined(help_)) if help_ else ""
    return BrokenLimit(name, needed, there, unit, f"{says}.{would}")


def _times(
    shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float], table: Mapping[str, Glue]
) -> Iterator[BrokenLimit]:
    open_time, assembly = times_of(shop.glue, shop.room.temperature)
    slow = max(lines, key=lambda line: contact_seconds(shop.room, line, shop.glue.faces))
    waits = contact_seconds(shop.room, slow, shop.glue.faces)
    if waits > open_time + ROUNDING:
        says = say(
            "Line {line} is spread and laid in {waits}, and {glue} stays open for {open_time} at {temperature}",
            line=slow.lower,
            waits=format_time(waits),
            glue=shown(shop.glue.name),
            open_time=format_time(open_time),
            temperature=both_temperatures(shop.room.temperature),
        )
        yield _broken(OPEN_TIME, waits, open_time, "s", says, mends.for_open_time(shop, slow, table))
    takes = mends.seconds_of(shop, of, lines, needs)
    if takes > assembly + ROUNDING:
        says = say_many(
            "Line {line} takes {takes} from the first glue to the last clamp, and {glue} must be under pressure after "
            "{assembly} at {temperature}",
            "{count} lines take {takes} from the first glue to the last clamp, and {glue} must be under pressure after "
            "{assembly} at {temperature}",
            len(lines),
            line=lines[0].lower,
            takes=format_time(takes),
            glue=shown(shop.glue.name),
            assembly=format_time(assembly),
            temperature=both_temperatures(shop.room.temperature),
        )
        yield _broken(CLOCK, takes, assembly, "s", says, mends.for_clock(shop, of, lines, needs, table))


def _forces(
    pile: Pile, shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float]
) -> Iterator[BrokenLimit]:
    most = max(range(len(lines)), key=lambda i: needs[i])
    line, need = lines[most], needs[most]
    wanted = both_pressures(need / line.area)
    if not of.enough(need, line.area):
        if of.air is not None:
            says = say(
                "Line {line} wants {wanted}, and the bag presses with {air}",
                line=line.lower,
                wanted=wanted,
                air=mends.pressure_reached(of.air),
            )
            yield _broken(PRESSURE, need / line.area, of.air, "MPa", says, mends.for_clamps(of, need, line.area))
        elif not of.owned:
            says = (
                say(
                    "Nothing presses line {line}, which wants {wanted}, for a rod wants a bore from face to face: add "
                    "the clamps of the shop",
                    line=line.lower,
                    wanted=wanted,
                )
                if shop.presses
                else say(
                    "Nothing presses line {line}, which wants {wanted}, for no clamps are there: add the clamps of the "
                    "shop",
                    line=line.lower,
                    wanted=wanted,
                )
            )
            yield _broken(CLAMPS, 1.0, 0.0, "", says, [])
        else:
            count = of.wanted(need)
            says = say(
                "Line {line} wants {count} clamps for {wanted} and {owned} are there that open wide enough",
                line=line.lower,
                count=count,
                wanted=wanted,
                owned=of.owned,
            )
            yield _broken(CLAMPS, float(count), float(of.owned), "", says, mends.for_clamps(of, need, line.area))
    if of.air is not None or not of.owned:
        return
    force = of.forces[of.count(need)]
    bears = [(pile.crush(other.lower) or inf) * other.area for other in lines]
    weak = min(range(len(lines)), key=lambda i: bears[i])
    if force > bears[weak] + ROUNDING:
        pressed, strength = force / lines[weak].area, bears[weak] / lines[weak].area
        says = say(
            "The force that line {line} wants presses line {weak} with {pressed}, and its wood crushes "
            "across the grain at {strength}",
            line=line.lower,
            weak=lines[weak].lower,
            pressed=mends.pressure_reached(pressed),
            strength=mends.pressure_reached(strength),
        )
        above = pile.layer(lines[weak].lower + 1)
        ways = mends.for_crushing(of, lines, weak, force, strength, above)
        yield _broken(CRUSHING, pressed, strength, "MPa", says, ways)


def _seats(
    pile: Pile, shop: Shop, of: PressSet, joins: Sequence[tuple[int, int]], lines: Sequence[PileLine],
    needs: Sequence[float],
) -> Iterator[BrokenLimit]:  # fmt: skip
    """Fewer pads find room on the run than its largest line wants."""
    first, last = joins[0][0], joins[-1][1]
    room = shop.seats(of, first - pile.first, last - pile.first)
    most = max(range(len(lines)), key=lambda i: needs[i])
    wants = of.count(needs[most]) if of.owned else 0
    if room < wants and of.air is None:
        says = say(
            "Line {line} wants {wants} clamps and about {room} find room on layers {first} to {last}, "
            "within their throats",
            line=lines[most].lower,
            wants=wants,
            room=room,
            first=first,
            last=last,
        )
        help_ = [say("fewer layers at once"), say("clamps of a deeper throat or more force")]
        yield _broken(SEATS, float(wants), float(room), "", says, help_)


def _opening(pile: Pile, shop: Shop, joins: Sequence[tuple[int, int]]) -> Iterator[BrokenLimit]:
    first, last = joins[0][0], joins[-1][1]
    needed = pile.height(first, last) + shop.cauls
    there = widest_for(shop.presses, pile.rod_fits(first, last))[1]
    if there and needed > there + ROUNDING:
        says = (
            say(
                "Layers {first} to {last} are {height} high with its cauls, and no press that can be used on them "
                "opens wider than {opening}",
                first=first,
                last=last,
                height=size(needed),
                opening=size(there),
            )
            if shop.cauls
            else say(
                "Layers {first} to {last} are {height} high, and no press that can be used on them opens wider than "
                "{opening}",
                first=first,
                last=last,
                height=size(needed),
                opening=size(there),
            )
        )
        whole = (first, last) == (pile.first, pile.last)
        yield _broken(OPENING, needed, there, "mm", says, mends.for_opening(shop, needed, there, whole))


def _lift(pile: Pile, shop: Shop, joins: Sequence[tuple[int, int]]) -> Iterator[BrokenLimit]:
    worst: tuple[float, float, float, tuple[int, int]] | None = None
    for part in joins[1:]:
        mass, limit = pile.mass(*part), lift_limit(shop.room, pile.width(*part))
        if mass is not None and mass > limit + ROUNDING and (worst is None or mass / limit > worst[0]):
            worst = mass / limit, mass, limit, part
    if worst is not None:
        _, mass, limit, (first, last) = worst
        one = first == last
        parts = {"first": first, "last": last, "mass": mends.both_masses(mass), "limit": mends.both_masses(limit)}
        says = say_many(
            mark("Layer {first} weighs {mass} and one person should lay no more than {limit}")
            if one
            else mark("Layers {first} to {last} weigh {mass} and one person should lay no more than {limit}"),
            mark("Layer {first} weighs {mass} and {count} persons should lay no more than {limit}")
            if one
            else mark("Layers {first} to {last} weigh {mass} and {count} persons should lay no more than {limit}"),
            1 + shop.room.helpers,
            **parts,
        )
        help_ = mends.for_lift(shop, mass, pile.width(first, last), last - first + 1)
        yield _broken(LIFT, mass, limit, "kg", says, help_)


def _chisel(
    pile: Pile, shop: Shop, joins: Sequence[tuple[int, int]], lines: Sequence[PileLine]
) -> Iterator[BrokenLimit]:
    if shop.reach is None:
        return
    first, last = joins[0][0], joins[-1][1]
    for line in lines:
        depth = min(pile.reach_below(line.lower, first), pile.reach_above(line.lower, last))
        if depth > shop.reach + ROUNDING:
            says = (
                say(
                    "Line {line} lies in a mortise, {depth} below its open end, and a chisel reaches {reach}",
                    line=line.lower,
                    depth=size(depth),
                    reach=size(shop.reach),
                )
                if isfinite(depth)
                else say(
                    "Line {line} lies in a mortise, closed at both ends in this set-up, and a chisel reaches {reach}",
                    line=line.lower,
                    reach=size(shop.reach),
                )
            )
            needed = depth if isfinite(depth) else pile.height(first, last)
            yield _broken(CHISEL, needed, shop.reach, "mm", says, mends.for_reach(line, depth))
            return
