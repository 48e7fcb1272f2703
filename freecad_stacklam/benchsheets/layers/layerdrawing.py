# SPDX-License-Identifier: LGPL-2.1-or-later

"""One layer as it is drawn for the bench, full size, in the stack's frame: its lines, and the labels between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Point
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import Units, length_text, range_text, shortened, text_width
from freecad_stacklam.benchsheets.drawing.lines import CROSS, HATCH, OVERRUN, arrow, rings, rings_within, turned, zone
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.layers.compass import cut_size
from freecad_stacklam.benchsheets.layers.waysin import label_way, way_line, ways_of
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.strip import IN_STRIP
from freecad_stacklam.benchsheets.pages.tiling import Tiling
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.insides import WayIn
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, Outline, area_polygon, loops_of, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import SEAM_TOUCH
from freecad_stacklam.lamination.words import mark, say, say_many

#: A straight line from one point to another, mm.
Segment = tuple[tuple[float, float], tuple[float, float]]
#: How far from a tab the edge under it is still its own, mm: the fit of the cut line.
TAB_EDGE = 0.5
#: Pens of the hatch over zones of little wood, by the side of the face.
PENS_OF_THIN = {1: "little wood", -1: "little wood below"}


def seams_of(plan: Plan, stack: StackPlan, layer: LayerPlan) -> list[Segment]:
    """The glued edges between the staves of a layer, as lines in the stack's frame; none in a blank of one piece."""
    staves = [
        s for s in (plan.boards.staves if plan.boards else ()) if (s.stack, s.layer) == (stack.name, layer.number)
    ]
    regions = [shapely.Polygon(s.region) for s in staves]
    found: list[Segment] = []
    blank = area_polygon(layer.blank)
    for i, first in enumerate(regions):
        for other in regions[i + 1 :]:
            shared = shapely.intersection(shapely.boundary(first), shapely.buffer(other, SEAM_TOUCH))
            wood = shapely.intersection(shapely.line_merge(shared), blank)
            for part in shapely.get_parts(wood):
                if part.geom_type == "LineString" and part.length > 1.0:
                    ends = shapely.get_coordinates(part)
                    found.append((tuple(ends[0].tolist()), tuple(ends[-1].tolist())))
    return found


@dataclass(frozen=True)
class Trace:
    """One kind of line of a layer with its arcs, for what follows lines instead of drawing them: "cut", "finished top",
    "finished bottom", "mortise", "pin", "hollow". A cut that stops inside the layer is not `through`."""

    kind: str
    of: tuple[Outline, ...] | MultiPolygon
    through: bool = True

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Its loops; those of an area are straight from point to point."""
        if isinstance(self.of, MultiPolygon):
            return loops_of(self.of)
        return tuple(loop for outline in self.of for loop in (outline.outer, *outline.holes))


@dataclass(frozen=True)
class LayerDrawing:
    """The lines of one layer by pen, in the stack's frame. `needed` are those that a page must not leave out; `traces`
    and `seams` are the same lines as lines and arcs."""

    layer: LayerPlan
    above: LayerPlan | None
    blank: MultiPolygon
    wood: MultiPolygon  # the blank with its through cuts taken out
    lines: tuple[tuple[str, MultiLineString], ...]
    needed: MultiLineString
    whole: BaseGeometry  # the axis and the cuts nearest to it, which pages should not be joined across
    traces: tuple[Trace, ...] = ()
    seams: tuple[Segment, ...] = ()
    thin: tuple[tuple[str, MultiPolygon], ...] = ()  # zones of little wood, each with the pen of its hatch
    ways: tuple[WayIn, ...] = ()  # how the blade gets into voids and rings

    @property
    def all_lines(self) -> MultiLineString:
        """Every line, whatever its pen."""
        return MultiLineString([part for _, lines in self.lines for part in lines.geoms])

    def extents(self, grain: float) -> tuple[float, float]:
        """Length of the blank along the grain and width across it, mm."""
        x0, y0, x1, y1 = turned(self.blank, grain).bounds
        return x1 - x0, y1 - y0


def underside_pin(cut: Cut, layer: LayerPlan) -> bool:
    """Whether a cut is a pin hole in the lower face: sheets of the upper face leave it out, lest it be bored there."""
    return cut.kind == "pin" and cut.opens_bottom(layer) and not cut.opens_top(layer)


def shown_cuts(layer: LayerPlan) -> list[Cut]:
    """The cuts that sheets of the upper face show, in the order of their letters."""
    return [cut for cut in layer.cuts if not underside_pin(cut, layer)]


def _cut_pen(cut: Cut, layer: LayerPlan) -> str:
    """A cut that opens on the upper face is seen; one that does not is hidden."""
    return "mortise" if cut.opens_top(layer) else "mortise hidden"


def draw_layers(plan: Plan, stack: StackPlan) -> list[LayerDrawing]:
    """The drawings of all layers, from the bottom."""
    blanks = [area_polygon(layer.blank) for layer in stack.layers]
    edges = [rings(blank) for blank in blanks]
    return [_draw(plan, stack, i, blanks[i], edges) for i in range(len(blanks))]


def _draw(plan: Plan, stack: StackPlan, index: int, blank: MultiPolygon, edges: list[MultiLineString]) -> LayerDrawing:
    layer = stack.layers[index]
    above = stack.layers[index + 1] if index + 1 < len(stack.layers) else None
    lines: list[tuple[str, MultiLineString]] = [("cut", edges[index])]
    traces = [Trace("cut", layer.blank)]
    # Where the form ends inside this layer: show how far it reaches.
    top = layer.shadow if layer.finished_top.is_empty else layer.finished_top
    for kind, pen, area in (
        ("finished top", "finished", top),
        ("finished bottom", "hidden", layer.finished_bottom),
    ):
        if not area.is_empty:
            lines.append((pen, rings(area)))
            traces.append(Trace(kind, area))
    # The next layer's edge is a line to glue to, and only on the wood: the outermost line is the one to saw.
    glued = rings_within(edges[index + 1], blank) if above is not None else None
    if glued is not None and not glued.is_empty:
        lines.append(("next", glued))
    wood: BaseGeometry = blank
    for cut in shown_cuts(layer):
        ends: list[tuple[str, Outline]] = [(_cut_pen(cut, layer), cut.outline_end or cut.outline)]
        if cut.outline_end is not None:
            ends.append(("mortise hidden", cut.outline))
        for pen, outline in ends:
            lines.append((pen, rings(polygon_of(outline))))
            traces.append(Trace(cut.kind, (outline,), cut.goes_through(layer)))
        wood = wood.difference(polygon_of(cut.outline))
    ways = ways_of(stack, layer)
    lines += [("mortise", way_line(way)) for way in ways]
    lines += [("fine", cross_at(Point(way.start))) for way in ways if way.kind != "kerf"]
    # Where a tab comes off: the blank's own edge under it.
    for tab in layer.tabs:
        off = rings_within(rings(area_polygon(layer.without_tabs)), tab.area.buffer(TAB_EDGE))
        lines.append(("tab", off))
    seams = seams_of(plan, stack, layer)
    if seams:
        lines.append(("seam", MultiLineString([list(ends) for ends in seams])))
    cross = MultiLineString([[(-CROSS, 0), (CROSS, 0)], [(0, -CROSS), (0, CROSS)]])
    needed = MultiLineString([part for _, drawn in lines for part in drawn.geoms] + list(cross.geoms))
    x0, y0, x1, y1 = needed.bounds
    centre = MultiLineString([[(x0 - OVERRUN, 0), (x1 + OVERRUN, 0)], [(0, y0 - OVERRUN), (0, y1 + OVERRUN)]])
    ring = rings(Point(0, 0).buffer(3.0, 16))
    pricked = [c.centroid for c in (polygon_of(c.outline) for c in shown_cuts(layer) if c.kind == "pin")]
    middles = [cross_at(at) for at in pricked]
    thin = tuple((PENS_OF_THIN[part.side], part.area) for part in layer.thin)
    lines += [(pen, zone(area, HATCH, pen == PENS_OF_THIN[-1])) for pen, area in thin]
    lines += [("centre", centre), ("fine", MultiLineString([*cross.geoms, *ring.geoms]))]
    lines += [("fine", middle) for middle in middles]
    whole = MultiPolygon([p for p in shapely.get_parts(wood) if p.geom_type == "Polygon"])
    near = [polygon_of(cut.outline) for cut in layer.cuts if cut.kind == "mortise"]
    together = shapely.union_all([Point(0, 0), *near[:1]])
    return LayerDrawing(
        layer, above, blank, whole, tuple(lines), needed, together, tuple(traces), tuple(seams), thin, ways
    )


def cross_at(at: Point, arm: float = 2.0) -> MultiLineString:
    """A small cross where a hole's centre is pricked."""
    return MultiLineString([[(at.x - arm, at.y), (at.x + arm, at.y)], [(at.x, at.y - arm), (at.x, at.y + arm)]])


def cut_words(cut: Cut, layer: LayerPlan, units: Units) -> tuple[str, str]:
    """What a cut is and how deep it goes from which face."""
    depth = length_text(cut.end - cut.start, units)
    top, bottom = cut.opens_top(layer), cut.opens_bottom(layer)
    kind = shown(cut.kind)
    what = say("{kind} “{joint}”", kind=kind, joint=cut.joint) if cut.joint else kind
    if top and bottom:
        return what, say("through this layer")
    if top:
        return what, say("from the top, {depth} deep", depth=depth)
    if bottom:
        return what, say("from the UNDERSIDE, {depth} deep", depth=depth)
    return what, say(
        "closed, {heights} up", heights=range_text(cut.start - layer.bottom, cut.end - layer.bottom, units)
    )


def cuts_line(layer: LayerPlan, units: Units) -> str:
    """All cuts in one line for the strip."""
    cuts = shown_cuts(layer)
    below = say("UNDERSIDE pins: see layer sheet") if len(cuts) < len(layer.cuts) else ""
    if not cuts:
        return below or say("no cuts in this layer")
    count = len(cuts)
    short = (
        say_many("{count} cut here; pins in the UNDERSIDE", "{count} cuts here; pins in the UNDERSIDE", count)
        if below
        else say_many(
            "{count} cut, letters as on the layer sheet", "{count} cuts, letters as on the layer sheet", count
        )
    )
    said = ", ".join(" ".join(cut_words(c, layer, units)) for c in cuts)
    said = f"{said}; {below}" if below else said
    # What is bored from below must never be cut off by the strip's end.
    return said if len(cuts) <= (1 if below else 2) and text_width(said, PLAIN) <= IN_STRIP else short


def _edge_point(
    island: BaseGeometry, start: tuple[float, float], direction: tuple[float, float]
) -> tuple[float, float]:
    """Where the line from `start` leaves the island in a direction, or the island's outermost point that way."""
    x0, y0, x1, y1 = island.bounds
    reach = abs(x0) + abs(y0) + abs(x1) + abs(y1) + 1.0
    ray = LineString([start, (start[0] + direction[0] * reach, start[1] + direction[1] * reach)])
    crossing = shapely.get_coordinates(shapely.intersection(shapely.boundary(island), ray))
    points = crossing if len(crossing) else shapely.get_coordinates(shapely.boundary(island))
    best = points[np.argmax(points @ np.array(direction))]
    return float(best[0]), float(best[1])


def edge_mark(
    island: BaseGeometry, start: tuple[float, float], degrees: float, filled: bool, size: float = 1.0
) -> tuple[tuple[float, float], Polyline | FilledRegion]:
    """A triangle inside the edge that a ray from `start` meets, pointing out of it; and where that is."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    at = _edge_point(island, start, (c, s))
    corners = tuple(
        (at[0] + size * (c * a - s * b), at[1] + size * (s * a + c * b))
        for a, b in ((-1.0, 0.0), (-8.0, 3.5), (-8.0, -3.5))
    )
    return at, FilledRegion((corners,)) if filled else Polyline(corners, "thin", closed=True)


def layer_labels(drawing: LayerDrawing, stack: StackPlan, tiling: Tiling, units: Units) -> Places:
    """Every label and mark of the layer, in the turned drawing's mm, each on one page and clear of the lines."""
    layer = drawing.layer
    turn = tiling.turn
    wood = turned(drawing.wood, turn)
    blank = turned(drawing.blank, turn)
    places = Places.on_tiles(tiling, turned(drawing.all_lines, turn), wood)
    islands = sorted(wood.geoms, key=lambda p: -p.area)
    for island in islands if len(islands) > 1 else [blank]:
        start = (0.0, 0.0) if len(islands) == 1 else (island.centroid.x, island.centroid.y)
        direction_marks(places, island, start, turn)
    for i, cut in enumerate(shown_cuts(layer)):
        _label_cut(places, cut, letters(i), layer, turn, units)
    for tab in layer.tabs:
        label_tab(places, turned(tab.area, turn))
    for way in drawing.ways:
        label_way(places, way, turn, units)
    places.near((0.0, 0.0), text_width(say("axis"), PLAIN), PLAIN, lambda x, y: (Text((x, y), say("axis"), PLAIN),))
    for i, island in enumerate(islands):
        letter = letters(i).lower() if len(islands) > 1 else ""
        label_island(places, island, f"{layer.number}{letter}", stack.name)
        grain_arrow(places, island, layer.grain - turn)
    return places


def _label_cut(places: Places, cut: Cut, letter: str, layer: LayerPlan, turn: float, units: Units) -> None:
    """What the cut is and how deep; where that finds no room, the letter under which the layer sheet has it."""
    what, depth = cut_words(cut, layer, units)
    what = f"{letter}: {what}" if cut.kind == "mortise" else f"{letter}: {what} {cut_size(cut, units)}"
    width = max(text_width(what, PLAIN), text_width(depth, PLAIN))
    area = turned(polygon_of(cut.outline), turn)

    def rows(x: float, y: float) -> tuple[Mark, ...]:
        return Text((x, y + PLAIN * 1.6), what, PLAIN), Text((x, y), depth, PLAIN)

    def alone(x: float, y: float) -> tuple[Mark, ...]:
        return (Text((x, y), letter, STRONG, bold=True),)

    least = text_width(letter, STRONG, bold=True)
    if not places.beside(area, width, PLAIN * 2.6, rows) and not places.beside(area, least, STRONG, alone):
        at = area.representative_point()
        places.near((at.x, at.y), least, STRONG, alone)


def label_tab(places: Places, area: BaseGeometry) -> None:
    """That a tab is waste: on it in lines as short as it is wide, or beside it with a leader, so that no word of waste
    stands on wood that stays without pointing off it. area: the tab's, in the drawing's mm."""
    waste, saw = say("tab: waste"), say("saw off after gluing")
    for size in (PLAIN, NOTE):
        for words in ((waste, saw), (waste, say("saw off"), say("after gluing"))):
            width, height = max(text_width(word, size, bold=True) for word in words), size * (1.5 * len(words) - 0.5)

            def rows(x: float, y: float, size: float = size, words: tuple[str, ...] = words) -> tuple[Mark, ...]:
                up = [(len(words) - 1 - i) * size * 1.5 for i in range(len(words))]
                return tuple(Text((x, y + dy), word, size, bold=True) for dy, word in zip(up, words))

            if any(places.within(part, width, height, rows) for part in shapely.get_parts(area)):
                return
    if not places.beside(area, width, height, rows):
        at = shapely.centroid(area)
        places.near((at.x, at.y), width, height, rows)


def direction_marks(
    places: Places, island: BaseGeometry, start: tuple[float, float], turn: float, right: float = 0.0
) -> None:
    """FRONT and RIGHT at the edges of an island: with the face that is up they show a layer turned or flipped. right:
    degrees at which RIGHT lies on the drawing, 180 on one of the underside."""
    for name, stack_degrees in ((mark("FRONT"), -90.0), (mark("RIGHT"), right)):
        degrees = stack_degrees - turn
        direction = (cos(radians(degrees)), sin(radians(degrees)))
        at, triangle = edge_mark(island, start, degrees, name == "FRONT")
        places.fix(triangle)
        inward = (at[0] - direction[0] * 5.0, at[1] - direction[1] * 5.0)

        words = say(name)

        def rows(x: float, y: float, words: str = words) -> tuple[Mark, ...]:
            return (Text((x, y), words, STRONG, bold=True),)

        places.near(inward, text_width(words, STRONG, bold=True), STRONG, rows)


def label_island(
    places: Places,
    island: BaseGeometry,
    number: str,
    name: str,
    sizes: Sequence[tuple[float, float]] = ((10.0, STRONG), (LARGE, PLAIN), (STRONG, NOTE)),
    face: str = mark("THIS FACE UP"),
) -> None:
    """The layer's number, which face is up, and the stack's name: on the wood, or beside it when there is no room."""
    face = say(face)
    name = shortened(name, STRONG, 60.0, squeeze=1.0)
    for height, words in sizes:
        first = text_width(number, height, bold=True) + 2.0
        width = first + max(text_width(face, words, bold=True), text_width(name, words))

        def rows(
            x: float, y: float, height: float = height, words: float = words, first: float = first
        ) -> tuple[Mark, ...]:
            return (
                Text((x, y), number, height, bold=True),
                Text((x + first, y + words * 1.5), face, words, bold=True),
                Text((x + first, y), name, words),
            )

        if places.within(island, width, height, rows):
            return
    at = island.representative_point()
    places.near((at.x, at.y), width, height, rows)


def grain_arrow(places: Places, island: BaseGeometry, degrees: float, lengths: Sequence[float] = (40.0, 24.0)) -> None:
    """A two-headed arrow along the grain, and the word: on the wood, or beside it when there is no room."""
    for length in lengths:
        c, s = abs(cos(radians(degrees))), abs(sin(radians(degrees)))
        word = text_width(say("grain"), PLAIN)
        across, up = max(c * length + 2.0, word), s * length + 2.0

        def rows(
            x: float, y: float, length: float = length, across: float = across, up: float = up, word: float = word
        ) -> tuple[Mark, ...]:
            middle = x + across / 2
            return (
                *arrow((middle, y + PLAIN + 1.5 + up / 2), degrees, length, both=True),
                Text((middle - word / 2, y), say("grain"), PLAIN),
            )

        if places.within(island, across, up + PLAIN + 1.5, rows):
            return
    at = island.representative_point()
    places.near((at.x, at.y), across, up + PLAIN + 1.5, rows)
