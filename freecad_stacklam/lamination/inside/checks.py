# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on what lies inside a stack: its pins and its voids. Limits without a source can only say caution."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import shapely

from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER
from freecad_stacklam.lamination.inside.waysin import KERF_ROOM, kerfs_of
from freecad_stacklam.lamination.lengths import (
    format_bore,
    format_fine,
    format_length,
    format_mass,
    format_place,
    format_small_area,
    format_volume,
    rounded_down,
)
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.insides import HollowPlan, PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.heights import movement_of
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import mass_of

PRACTICE = "common practice, no source"
GEOMETRY = "geometry of the plan"

#: Wood over a pin's side or end below which the maker is warned, mm (common practice: 6 to 8 mm).
PIN_COVER = 8.0
#: Share of a glue line's area that voids should leave.
GLUE_SHARE = 1 / 3


def pin_checks(stack: StackPlan, cover: float = PIN_COVER, units: str = "mm") -> list[Check]:
    """How surely the pins keep every layer the right way round, and how much wood lies over them. cover: mm of
    wood below which the maker is warned."""

    def shown(mm: float) -> str:
        return format_length(rounded_down(mm, units), units)

    found = []
    judged = [m for m in stack.misfits if m.distance is not None]
    name = f"{stack.name}: pins keep layers the right way round"
    source = f"{GEOMETRY}; limit in pin diameters: {PRACTICE}"
    if judged:
        worst = min(judged, key=lambda m: m.distance or 0.0)
        distance = worst.distance or 0.0
        layer = worst.layer or worst.interface + 1
        if worst.held:
            verdict = "ok"
            says = (
                f"However a layer of {stack.name} is laid wrongly, a pin misses every hole by at least "
                f"{shown(distance)}; nearest comes layer {layer}, {worst.way}."
            )
        else:
            verdict = "caution"
            says = (
                f"Layer {layer} of {stack.name}, {worst.way}, would miss its pins by only {shown(distance)}, less than "
                f"{format_length(worst.wanted, units)}: mark its face and its front before gluing, or use more "
                f"or thinner pins."
            )
        found.append(Check(name, verdict, distance, worst.wanted, "mm", source, says))
    elif stack.misfits:
        says = f"No layer of {stack.name} can be laid turned or turned over: its own outline shows it."
        found.append(Check(name, "ok", 0.0, 0.0, "mm", GEOMETRY, says))
    inner = [p for p in stack.pins if not p.waste]
    if inner:
        least = min(inner, key=lambda p: p.least_cover)
        at = format_place(least.centre, units)
        where = f"between layers {least.interface} and {least.interface + 1} of {stack.name} at ({at})"
        if least.least_cover <= 0:
            verdict, says = "stop", f"A pin {where} breaks through the finished surface: move it or leave it out."
        elif least.least_cover < cover:
            verdict = "caution"
            says = (
                f"Only {shown(least.least_cover)} of wood is left over the pin {where}, less than "
                f"{format_length(cover, units)}: carve with care there, or give the pins more margin."
            )
        else:
            verdict = "ok"
            says = f"At least {shown(least.least_cover)} of wood is left over every pin of {stack.name}."
        source = f"{GEOMETRY}; limit: {PRACTICE}"
        found.append(Check(f"{stack.name}: cover of the pins", verdict, least.least_cover, cover, "mm", source, says,
                           _at_pin(stack, least)))  # fmt: skip
    return found + _on_kerfs(stack, units) + _short_dowels(stack, units)


def _on_kerfs(stack: StackPlan, units: str) -> list[Check]:
    """Said only where it is so: a pin that the maker set on a kerf by which the blade comes into a void."""
    near: list[tuple[float, PinPlan]] = []
    for pin in stack.pins:
        kerfs = kerfs_of(stack, (pin.interface, pin.interface + 1))
        radius = max(pin.radius_below, pin.radius_above)
        near += [(max(0.0, kerf.distance(shapely.Point(pin.centre)) - radius), pin) for kerf in kerfs]
    near = [one for one in near if one[0] < KERF_ROOM - ROUNDING]
    if not near:
        return []
    left, pin = min(near, key=lambda one: one[0])
    apart = f"only {format_length(rounded_down(left, units), units)} from" if left > 0 else "on"
    says = (
        f"The pin between layers {pin.interface} and {pin.interface + 1} of {stack.name} "
        f"at ({format_place(pin.centre, units)}) stands {apart} the kerf by which the blade comes into a void: move "
        "it, or glue the kerf and let it set before you bore."
    )
    name = f"{stack.name}: pins beside kerfs"
    return [Check(name, "caution", left, KERF_ROOM, "mm", f"{GEOMETRY}; limit: {PRACTICE}", says, _at_pin(stack, pin))]


def _short_dowels(stack: StackPlan, units: str) -> list[Check]:
    """Said only where it is so: thin layers leave shallow holes, and a dowel shorter than it is thick tips in them."""
    short = [p for p in stack.pins if 0 < p.dowel < p.diameter]
    if not short:
        return []
    worst = min(short, key=lambda p: p.dowel / p.diameter)
    says = (
        f"A dowel between layers {worst.interface} and {worst.interface + 1} of {stack.name} is only "
        f"{format_length(worst.dowel, units)} long and {format_bore(worst.diameter, units)} thick: take thinner "
        "dowels, or leave them less room."
    )
    name, place = f"{stack.name}: short dowels", _at_pin(stack, worst)
    return [Check(name, "caution", worst.dowel, worst.diameter, "mm", PRACTICE, says, place)]


def _at_pin(stack: StackPlan, pin: PinPlan) -> Place:
    """Where a pin crosses its glue line, in the model."""
    return in_model(stack.frame, (*pin.centre, stack.layers[pin.interface - 1].top))


def dowel_checks(stack: StackPlan, table: Mapping[str, Species], swing: float, units: str = "mm") -> list[Check]:
    """Whether the dowels have room at their ends for what the layers shrink: a dowel stands along the stack's height
    with its grain and does not shrink, the wood that its holes go through does.

    swing: % points of moisture. Nothing where the wood's shrinkage is not known.
    """
    worst: tuple[float, float, PinPlan] | None = None
    for pin in stack.pins:
        low, high = stack.layers[pin.interface - 1 : pin.interface + 1]
        moves = movement_of([(low.species, pin.depth_down), (high.species, pin.depth_up)], table, swing)
        if pin.waste or moves is None:
            continue
        room = pin.depth_down + pin.depth_up - pin.dowel
        if stack.movement is not None:
            moves = replace(moves, cut=stack.movement.cut)
        if worst is None or room - moves.most < worst[1] - worst[0]:
            worst = (moves.most, room, pin)
    if worst is None:
        return []
    shrinks, room, pin = worst
    low, high = stack.layers[pin.interface - 1 : pin.interface + 1]
    moves = movement_of([(low.species, pin.depth_down), (high.species, pin.depth_up)], table, swing)
    assert moves is not None
    tight = shrinks >= room
    cut = "" if stack.movement is None else stack.movement.cut
    by = (
        f"{format_fine(shrinks, units, up=True)} (all boards {cut}-sawn)"
        if cut in (FLAT, QUARTER)
        else f"{format_fine(moves.flat, units, up=True)} (flat-sawn) to "
        f"{format_fine(moves.quarter, units, up=True)} (quarter-sawn)"
    )
    depth = format_length(pin.depth_down + pin.depth_up, units)
    says = (
        f"A dowel does not shrink in its length, but {depth} of {stack.name}'s layers around it lose "
        f"{by} over {swing:g} points of moisture; its ends have {format_fine(room, units)} of room"
    ) + (": shorten the dowels, or they open the glue line." if tight else ".")
    source = "FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage"
    name = f"{stack.name}: room at the dowels' ends"
    return [Check(name, "caution" if tight else "ok", shrinks, room, "mm", source, says, _at_pin(stack, pin))]


def hollow_checks(
    stack: StackPlan, table: Mapping[str, Species], share: float = GLUE_SHARE, units: str = "mm"
) -> list[Check]:
    """What the voids save, the wall and the glue area they leave, and whether air can get out of them. share: part
    of a glue line's area that should be left; table: species, for the mass."""
    hollow = stack.hollow
    if hollow is None:
        return []
    numbers = {n for v in hollow.voids for n in v.layers}
    parts = [
        (layer.species, hollow.volume * layer.thickness / _height(stack, numbers))
        for layer in stack.layers if layer.number in numbers
    ]  # fmt: skip
    mass = mass_of(table, parts)
    weighs = f", about {format_mass(mass, units)}," if mass is not None else ""
    saved = format_volume(hollow.volume, units) + weighs
    wall = format_length(rounded_down(hollow.least_wall, units), units)
    thin = hollow.least_wall < hollow.wall
    found = [
        Check(
            f"{stack.name}: wall around the voids", "stop" if thin else "ok", hollow.least_wall, hollow.wall, "mm",
            GEOMETRY,
            f"A void of {stack.name} leaves only {wall} of wood: do not cut." if thin
            else f"The voids of {stack.name} take out {saved} and leave at least {wall} of wood "
            f"all round.", thinnest_place(stack),
        )
    ]  # fmt: skip
    line = min((g for g in hollow.glue_lines if g.whole > 0), key=lambda g: g.left / g.whole, default=None)
    if line is not None:
        left = line.left / line.whole
        says = (
            f"Between layers {line.interface} and {line.interface + 1} of {stack.name} the voids leave "
            f"{format_small_area(line.left, units)} of {format_small_area(line.whole, units)} of glue area"
        ) + (": give a thicker wall or a web." if left < share else ".")
        found.append(
            Check(
                f"{stack.name}: glue area around the voids", "caution" if left < share else "ok", 100 * left,
                100 * share, "%", f"{GEOMETRY}; limit: {PRACTICE}", says,
            )
        )  # fmt: skip
    found += _worth(stack, hollow, saved, units)
    closed = [v for v in hollow.voids if not (v.vent and v.vent_place)]
    vented = [v for v in hollow.voids if v.vent and v.vent_place]
    if closed:
        first = closed[0]
        one = first.layers[0] == first.layers[-1]
        where = f"layer {first.layers[0]}" if one else f"layers {first.layers[0]} to {first.layers[-1]}"
        says = f"The void in {where} of {stack.name} is closed: "
        if first.vent_place is not None:
            at = format_place(first.vent_place, units)
            says += f"bore a vent up into it from the underside at ({at}), so that its air can follow the seasons."
        else:
            says += "no place was found for a vent from the underside; vent it where it does not show."
        place = None
        if first.vent_place is not None:
            place = in_model(stack.frame, (*first.vent_place, stack.layers[first.layers[0] - 1].bottom))
        found.append(Check(f"{stack.name}: vents", "caution", float(len(closed)), 0.0, "closed", PRACTICE, says, place))
    elif vented:
        says = f"Every void of {stack.name} is vented to the underside."
        found.append(Check(f"{stack.name}: vents", "ok", 0.0, 0.0, "closed", PRACTICE, says))
    return found


def _worth(stack: StackPlan, hollow: HollowPlan, saved: str, units: str) -> list[Check]:
    """Whether the wood saved is worth the cuts: what each sawn void saves on average, beside what the maker wants."""
    if not hollow.ways_in:
        return []
    count = len(hollow.ways_in)
    each, wood = hollow.volume / count, sum(layer.blank_volume for layer in stack.layers)
    sawn = format_length(sum(way.around + way.length for way in hollow.ways_in), units)
    kerfs = sum(way.kind == "kerf" for way in hollow.ways_in)
    more = f", {_many(kerfs, 'kerf')} to glue again" if kerfs else f", {_many(count, 'hole')} to bore"
    poor = each < hollow.worth
    says = (
        f"The voids of {stack.name} save {saved.rstrip(',')}, {100 * hollow.volume / wood:.0f} % of its blanks, for "
        f"{_many(count, 'void')} to saw{more} and {sawn} of cut: {format_volume(each, units)} each; the boards "
        f"are bought all the same"
    )
    if poor:
        says += f". Less than {format_volume(hollow.worth, units)} each is hardly worth it: leave it solid"
    name = f"{stack.name}: what hollowing saves"
    source = f"{GEOMETRY}; limit: the maker's own (first value: {PRACTICE})"
    return [Check(name, "caution" if poor else "ok", each / 1e6, hollow.worth / 1e6, "l", source, says + ".")]


def _many(count: int, thing: str) -> str:
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def _height(stack: StackPlan, numbers: set[int]) -> float:
    return sum(layer.thickness for layer in stack.layers if layer.number in numbers)


def thinnest_place(plan: StackPlan) -> Place:
    """A point of a void's wall, in the model, that lies nearest to the finished outlines at its layer's glue lines."""
    best: tuple[float, tuple[float, float, float]] = (float("inf"), (0.0, 0.0, 0.0))
    for layer in plan.layers:
        voids = [polygon_of(c.outline) for c in layer.cuts if c.kind == "hollow"]
        if not voids:
            continue
        room = shapely.union_all(voids).boundary
        for height, section in ((layer.bottom, layer.finished_bottom), (layer.top, layer.finished_top)):
            if section.is_empty:
                continue
            line = shapely.shortest_line(room, section.boundary)
            if line.length < best[0]:
                x, y = line.coords[0]
                best = line.length, (x, y, height)
    return in_model(plan.frame, best[1])
