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
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.gluing import BrokenLimit
from freecad_stacklam.lamination.quantities import both_pressures, both_temperatures, format_time
from freecad_stacklam.lamination.settings.glue import Glue, times_of
from freecad_stacklam.lamination.tolerances import ROUNDING

CLOCK, OPEN_TIME, CLAMPS, PRESSURE = "clock", "open time", "clamps", "pressure"
#: "chisel": what it must reach; "reach" is what pads reach (pressing/press).
CRUSHING, OPENING, LIFT, CHISEL, SEATS = "crushing", "opening", "lift", "chisel", "seats"


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
    would = f" Smallest change: {mends.joined(help_)}." if help_ else ""
    return BrokenLimit(name, needed, there, unit, f"{says}.{would}")


def _where(shop: Shop) -> str:
    return f"at {both_temperatures(shop.room.temperature)}"


def _times(
    shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float], table: Mapping[str, Glue]
) -> Iterator[BrokenLimit]:
    open_time, assembly = times_of(shop.glue, shop.room.temperature)
    slow = max(lines, key=lambda line: contact_seconds(shop.room, line, shop.glue.faces))
    waits = contact_seconds(shop.room, slow, shop.glue.faces)
    if waits > open_time + ROUNDING:
        says = (
            f"Line {slow.lower} is spread and laid in {format_time(waits)}, and {shop.glue.name} stays open for "
            f"{format_time(open_time)} {_where(shop)}"
        )
        yield _broken(OPEN_TIME, waits, open_time, "s", says, mends.for_open_time(shop, slow, table))
    takes = mends.seconds_of(shop, of, lines, needs)
    if takes > assembly + ROUNDING:
        says = (
            f"{_lines(lines)} {'takes' if len(lines) == 1 else 'take'} {format_time(takes)} from the first glue to the "
            f"last clamp, and {shop.glue.name} must be under pressure after {format_time(assembly)} {_where(shop)}"
        )
        yield _broken(CLOCK, takes, assembly, "s", says, mends.for_clock(shop, of, lines, needs, table))


def _lines(lines: Sequence[PileLine]) -> str:
    return f"Line {lines[0].lower}" if len(lines) == 1 else f"{len(lines)} lines"


def _forces(
    pile: Pile, shop: Shop, of: PressSet, lines: Sequence[PileLine], needs: Sequence[float]
) -> Iterator[BrokenLimit]:
    most = max(range(len(lines)), key=lambda i: needs[i])
    line, need = lines[most], needs[most]
    wanted = both_pressures(need / line.area)
    if not of.enough(need, line.area):
        if of.air is not None:
            says = f"Line {line.lower} wants {wanted}, and the bag presses with {mends.pressure_reached(of.air)}"
            yield _broken(PRESSURE, need / line.area, of.air, "MPa", says, mends.for_clamps(of, need, line.area))
        elif not of.owned:
            what = "no clamps are there" if not shop.presses else "a rod wants a bore from face to face"
            says = f"Nothing presses line {line.lower}, which wants {wanted}, for {what}: add the clamps of the shop"
            yield _broken(CLAMPS, 1.0, 0.0, "", says, [])
        else:
            count = of.wanted(need)
            says = f"Line {line.lower} wants {count} clamps for {wanted} and {of.owned} are there that open wide enough"
            yield _broken(CLAMPS, float(count), float(of.owned), "", says, mends.for_clamps(of, need, line.area))
    if of.air is not None or not of.owned:
        return
    force = of.forces[of.count(need)]
    bears = [(pile.crush(other.lower) or inf) * other.area for other in lines]
    weak = min(range(len(lines)), key=lambda i: bears[i])
    if force > bears[weak] + ROUNDING:
        pressed, strength = force / lines[weak].area, bears[weak] / lines[weak].area
        says = (
            f"The force that line {line.lower} wants presses line {lines[weak].lower} with "
            f"{mends.pressure_reached(pressed)}, and its wood crushes across the grain at "
            f"{mends.pressure_reached(strength)}"
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
        says = (
            f"Line {lines[most].lower} wants {wants} clamps and about {room} find room on layers {first} to {last}, "
            "within their throats"
        )
        help_ = ["fewer layers at once", "clamps of a deeper throat or more force"]
        yield _broken(SEATS, float(wants), float(room), "", says, help_)


def _opening(pile: Pile, shop: Shop, joins: Sequence[tuple[int, int]]) -> Iterator[BrokenLimit]:
    first, last = joins[0][0], joins[-1][1]
    needed = pile.height(first, last) + shop.cauls
    there = widest_for(shop.presses, pile.rod_fits(first, last))[1]
    if there and needed > there + ROUNDING:
        with_cauls = " with its cauls" if shop.cauls else ""
        says = (
            f"Layers {first} to {last} are {size(needed)} high{with_cauls}, and no press that can be used on them "
            f"opens wider than {size(there)}"
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
        what = f"Layer {first} weighs" if first == last else f"Layers {first} to {last} weigh"
        hands = "one person" if not shop.room.helpers else f"{1 + shop.room.helpers} persons"
        says = f"{what} {mends.both_masses(mass)} and {hands} should lay no more than {mends.both_masses(limit)}"
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
            deep = f"{size(depth)} below its open end" if isfinite(depth) else "closed at both ends in this set-up"
            says = f"Line {line.lower} lies in a mortise, {deep}, and a chisel reaches {size(shop.reach)}"
            needed = depth if isfinite(depth) else pile.height(first, last)
            yield _broken(CHISEL, needed, shop.reach, "mm", says, mends.for_reach(line, depth))
            return
