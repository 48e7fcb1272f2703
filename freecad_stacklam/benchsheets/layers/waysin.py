# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the blade gets into a void or a ring: drawn where it is sawn or bored, and said."""

from __future__ import annotations

import shapely
from shapely import MultiLineString, Point

from freecad_stacklam.benchsheets.drawing.lettering import Units, bit_text, length_text, number, text_width
from freecad_stacklam.benchsheets.drawing.lines import rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Mark, Text
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.lamination.inside.waysin import ring_ways
from freecad_stacklam.lamination.plan.insides import WayIn
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.words import say

#: Half of what a kerf takes up where its words are put beside it, mm.
THIN = 1.0


def way_line(way: WayIn) -> MultiLineString:
    """The kerf by which the blade gets into a void, or the hole through which it is threaded."""
    if way.kind == "kerf":
        return MultiLineString([[way.start, way.end]])
    return rings(Point(way.start).buffer(way.bit / 2, 16))


def ways_of(stack: StackPlan, layer: LayerPlan) -> tuple[WayIn, ...]:
    """The ways into the voids and the rings of a layer, as its sheets draw them."""
    voids = stack.hollow.ways_in if stack.hollow is not None else ()
    return (*(way for way in voids if way.layer == layer.number), *ring_ways(layer))


def label_way(places: Places, way: WayIn, turn: float, units: Units) -> None:
    """What is sawn or bored there, beside it."""
    words = (
        say("kerf: saw in here")
        if way.kind == "kerf"
        else say("bore Ø {bit} for the blade", bit=bit_text(way.bit, units))
    )
    width = text_width(words, PLAIN)

    def rows(x: float, y: float) -> tuple[Mark, ...]:
        return (Text((x, y), words, PLAIN),)

    area = turned(shapely.buffer(shapely.MultiPoint([way.start, way.end]).convex_hull, max(way.bit / 2, THIN)), turn)
    if not places.beside(area, width, PLAIN, rows):
        middle = area.centroid
        places.near((middle.x, middle.y), width, PLAIN, rows)


def way_in_words(stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    """How the blade gets into the voids of a layer."""
    words = []
    for way in stack.hollow.ways_in if stack.hollow is not None else ():
        if way.layer != layer.number:
            continue
        start = number(way.start[0], units), number(way.start[1], units)
        if way.kind == "kerf":
            words.append(
                say(
                    "Void: saw in along the grain from the edge at x {x}, y {y} to the void at x {end_x}, y {end_y} "
                    "({length}), cut it out, and glue the kerf again with a slip as thick as the kerf in it, before "
                    "pins are bored and the faces are planed.",
                    x=start[0],
                    y=start[1],
                    end_x=number(way.end[0], units),
                    end_y=number(way.end[1], units),
                    length=length_text(way.length, units),
                )
            )
        else:
            words.append(
                say(
                    "Void: bore Ø {bit} through the waste at x {x}, y {y}, thread the blade and cut the void out from "
                    "there; a band saw cannot: take a saw whose blade comes loose at one end.",
                    bit=bit_text(way.bit, units),
                    x=start[0],
                    y=start[1],
                )
            )
    return words + [_ring_words(way, units) for way in ring_ways(layer)]


def _ring_words(way: WayIn, units: Units) -> str:
    """How the blade gets into a ring; the maker's saw decides between the two."""
    bit = bit_text(HollowSettings().way_in_bit, units)
    if way.kind == "kerf":
        return say(
            "Ring: saw in along the grain from the edge at x {x}, y {y} to the hole at x {end_x}, y {end_y} "
            "({length}), cut it out, and glue the kerf again with a slip as thick as the kerf in it, before pins are "
            "bored and the faces are planed. Or leave the ring whole: bore Ø {bit} in the waste and thread a blade "
            "that comes loose at one end.",
            x=number(way.start[0], units),
            y=number(way.start[1], units),
            end_x=number(way.end[0], units),
            end_y=number(way.end[1], units),
            length=length_text(way.length, units),
            bit=bit,
        )
    return say(
        "Ring: bore Ø {bit} through the waste at x {x}, y {y}, thread the blade and cut the hole out from there; a "
        "band saw cannot: take a saw whose blade comes loose at one end.",
        bit=bit,
        x=number(way.start[0], units),
        y=number(way.start[1], units),
    )
