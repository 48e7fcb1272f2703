# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the blade gets into a void, drawn where it is sawn or bored."""

from __future__ import annotations

import shapely
from shapely import MultiLineString, Point

from freecad_stacklam.benchsheets.drawing.lettering import Units, bit_text, text_width
from freecad_stacklam.benchsheets.drawing.lines import rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Mark, Text
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.lamination.plan.insides import WayIn
from freecad_stacklam.lamination.words import say

#: Half of what a kerf takes up where its words are put beside it, mm.
THIN = 1.0


def way_line(way: WayIn) -> MultiLineString:
    """The kerf by which the blade gets into a void, or the hole through which it is threaded."""
    if way.kind == "kerf":
        return MultiLineString([[way.start, way.end]])
    return rings(Point(way.start).buffer(way.bit / 2, 16))


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
