# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on what lies inside a stack: its pins and its voids. Limits without a source can only say caution."""

from __future__ import annotations

from collections.abc import Mapping

import shapely

from freecad_stacklam.lamination.inside.dowelchecks import at_pin, short_dowels
from freecad_stacklam.lamination.inside.waysin import KERF_ROOM, kerfs_of
from freecad_stacklam.lamination.lengths import (
    format_length,
    format_mass,
    format_place,
    format_small_area,
    format_volume,
    rounded_down,
)
from freecad_stacklam.lamination.plan.checks import COVER, WALL, Check, Place, in_model
from freecad_stacklam.lamination.plan.insides import HollowPlan, PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import mass_of
from freecad_stacklam.lamination.words import mark, say, say_many

PRACTICE = mark("common practice, no source")
GEOMETRY = mark("geometry of the plan")
LIMIT = mark("geometry of the plan; limit: common practice, no source")

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
    name = say("{stack}: pins keep layers the right way round", stack=stack.name)
    source = say("geometry of the plan; limit in pin diameters: common practice, no source")
    if judged:
        worst = min(judged, key=lambda m: m.distance or 0.0)
        distance = worst.distance or 0.0
        layer = worst.layer or worst.interface + 1
        if worst.held:
            verdict = "ok"
            says = say(
                "However a layer of {stack} is laid wrongly, a pin misses every hole by at least {distance}; "
                "nearest comes layer {layer}, {way}.",
                stack=stack.name,
                distance=shown(distance),
                layer=layer,
                way=worst.way,
            )
        else:
            verdict = "caution"
            says = say(
                "Layer {layer} of {stack}, {way}, would miss its pins by only {distance}, less than {wanted}: "
                "mark its face and its front before gluing, or use more or thinner pins.",
                layer=layer,
                stack=stack.name,
                way=worst.way,
                distance=shown(distance),
                wanted=format_length(worst.wanted, units),
            )
        found.append(Check(name, verdict, distance, worst.wanted, "mm", source, says))
    elif stack.misfits:
        says = say("No layer of {stack} can be laid turned or turned over: its own outline shows it.", stack=stack.name)
        found.append(Check(name, "ok", 0.0, 0.0, "mm", say(GEOMETRY), says))
    inner = [p for p in stack.pins if not p.waste]
    if inner:
        least = min(inner, key=lambda p: p.least_cover)
        parts = {
            "lower": least.interface,
            "upper": least.interface + 1,
            "stack": stack.name,
            "place": format_place(least.centre, units),
        }
        if least.least_cover <= 0:
            verdict = "stop"
            says = say(
                "A pin between layers {lower} and {upper} of {stack} at ({place}) breaks through the finished surface: "
                "move it or leave it out.",
                **parts,
            )
        elif least.least_cover < cover:
            verdict = "caution"
            says = say(
                "Only {wood} of wood is left over the pin between layers {lower} and {upper} of {stack} at ({place}), "
                "less than {cover}: carve with care there, or give the pins more margin.",
                wood=shown(least.least_cover),
                cover=format_length(cover, units),
                **parts,
            )
        else:
            verdict = "ok"
            says = say(
                "At least {wood} of wood is left over every pin of {stack}.",
                wood=shown(least.least_cover),
                stack=stack.name,
            )
        found.append(
            Check(
                say("{stack}: cover of the pins", stack=stack.name),
                verdict,
                least.least_cover,
                cover,
                "mm",
                say(LIMIT),
                says,
                at_pin(stack, least),
                COVER,
            )
        )
    return found + _on_kerfs(stack, units) + short_dowels(stack, units)


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
    says = say(
        mark(
            "The pin between layers {lower} and {upper} of {stack} at ({place}) stands only {room} from the kerf by "
            "which the blade comes into a void: move it, or glue the kerf and let it set before you bore."
        )
        if left > 0
        else mark(
            "The pin between layers {lower} and {upper} of {stack} at ({place}) stands on the kerf by which the blade "
            "comes into a void: move it, or glue the kerf and let it set before you bore."
        ),
        lower=pin.interface,
        upper=pin.interface + 1,
        stack=stack.name,
        place=format_place(pin.centre, units),
        room=format_length(rounded_down(left, units), units),
    )
    name = say("{stack}: pins beside kerfs", stack=stack.name)
    return [Check(name, "caution", left, KERF_ROOM, "mm", say(LIMIT), says, at_pin(stack, pin))]


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
    volume = format_volume(hollow.volume, units)
    weight = "" if mass is None else format_mass(mass, units)
    wall = format_length(rounded_down(hollow.least_wall, units), units)
    thin = hollow.least_wall < hollow.wall
    found = [
        Check(
            say("{stack}: wall around the voids", stack=stack.name),
            "stop" if thin else "ok",
            hollow.least_wall,
            hollow.wall,
            "mm",
            say(GEOMETRY),
            say("A void of {stack} leaves only {wall} of wood: do not cut.", stack=stack.name, wall=wall)
            if thin
            else say(
                mark(
                    "The voids of {stack} take out {volume}, about {mass}, and leave at least {wall} of wood all round."
                )
                if weight
                else mark("The voids of {stack} take out {volume} and leave at least {wall} of wood all round."),
                stack=stack.name,
                volume=volume,
                mass=weight,
                wall=wall,
            ),
            thinnest_place(stack),
            WALL,
        )
    ]
    line = min((g for g in hollow.glue_lines if g.whole > 0), key=lambda g: g.left / g.whole, default=None)
    if line is not None:
        left = line.left / line.whole
        says = say(
            mark(
                "Between layers {lower} and {upper} of {stack} the voids leave {left} of {whole} of glue area: give a "
                "thicker wall or a web."
            )
            if left < share
            else mark("Between layers {lower} and {upper} of {stack} the voids leave {left} of {whole} of glue area."),
            lower=line.interface,
            upper=line.interface + 1,
            stack=stack.name,
            left=format_small_area(line.left, units),
            whole=format_small_area(line.whole, units),
        )
        found.append(
            Check(
                say("{stack}: glue area around the voids", stack=stack.name),
                "caution" if left < share else "ok",
                100 * left,
                100 * share,
                "%",
                say(LIMIT),
                says,
            )
        )
    found += _worth(stack, hollow, weight, units)
    closed = [v for v in hollow.voids if not (v.vent and v.vent_place)]
    vented = [v for v in hollow.voids if v.vent and v.vent_place]
    if closed:
        first = closed[0]
        says = say(
            _CLOSED[first.layers[0] == first.layers[-1], first.vent_place is not None],
            first=first.layers[0],
            last=first.layers[-1],
            stack=stack.name,
            place="" if first.vent_place is None else format_place(first.vent_place, units),
        )
        place = None
        if first.vent_place is not None:
            place = in_model(stack.frame, (*first.vent_place, stack.layers[first.layers[0] - 1].bottom))
        found.append(
            Check(
                say("{stack}: vents", stack=stack.name),
                "caution",
                float(len(closed)),
                0.0,
                "closed",
                say(PRACTICE),
                says,
                place,
            )
        )
    elif vented:
        says = say("Every void of {stack} is vented to the underside.", stack=stack.name)
        found.append(Check(say("{stack}: vents", stack=stack.name), "ok", 0.0, 0.0, "closed", say(PRACTICE), says))
    return found


#: Of a closed void: by whether it lies in one layer, and whether there is a place for a vent.
_CLOSED = {
    (True, True): mark(
        "The void in layer {first} of {stack} is closed: bore a vent up into it from the underside at ({place}), "
        "so that its air can follow the seasons."
    ),
    (False, True): mark(
        "The void in layers {first} to {last} of {stack} is closed: bore a vent up into it from the underside at "
        "({place}), so that its air can follow the seasons."
    ),
    (True, False): mark(
        "The void in layer {first} of {stack} is closed: no place was found for a vent from the underside; vent "
        "it where it does not show."
    ),
    (False, False): mark(
        "The void in layers {first} to {last} of {stack} is closed: no place was found for a vent from the underside; "
        "vent it where it does not show."
    ),
}


def _worth(stack: StackPlan, hollow: HollowPlan, weight: str, units: str) -> list[Check]:
    """Whether the wood saved is worth the cuts: what each sawn void saves on average, beside what the maker wants."""
    if not hollow.ways_in:
        return []
    count = len(hollow.ways_in)
    each, wood = hollow.volume / count, sum(layer.blank_volume for layer in stack.layers)
    sawn = format_length(sum(way.around + way.length for way in hollow.ways_in), units)
    kerfs = sum(way.kind == "kerf" for way in hollow.ways_in)
    also = (
        say_many("{count} kerf to glue again", "{count} kerfs to glue again", kerfs)
        if kerfs
        else say_many("{count} hole to bore", "{count} holes to bore", count)
    )
    poor = each < hollow.worth
    volume = format_volume(hollow.volume, units)
    says = say(
        "The voids of {stack} save {volume}, {share:.0f} % of its blanks, for {sawing}, {also} and {cut} of cut: "
        "{each} each; the boards are bought all the same.",
        stack=stack.name,
        volume=say("{volume}, about {mass}", volume=volume, mass=weight) if weight else volume,
        share=100 * hollow.volume / wood,
        sawing=say_many("{count} void to saw", "{count} voids to saw", count),
        also=also,
        cut=sawn,
        each=format_volume(each, units),
    )
    if poor:
        worth = format_volume(hollow.worth, units)
        says += " " + say("Less than {worth} each is hardly worth it: leave it solid.", worth=worth)
    name = say("{stack}: what hollowing saves", stack=stack.name)
    source = say("geometry of the plan; limit: the maker's own (first value: common practice, no source)")
    return [Check(name, "caution" if poor else "ok", each / 1e6, hollow.worth / 1e6, "l", source, says)]


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
