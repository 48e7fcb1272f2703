"""One layer as it is drawn for the bench, full size, in the stack's frame: its lines, and the labels between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Point
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.labels import Label, Places
from freecad_stacklam.benchsheets.lettering import length_text, range_text, text_width
from freecad_stacklam.benchsheets.sheet import LARGE, NOTE, PLAIN, STRONG, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.strip import arrow
from freecad_stacklam.benchsheets.tiling import Tiling, turned
from freecad_stacklam.lamination.outline import Outline, area_polygon, polygon_of
from freecad_stacklam.lamination.plan import Cut, LayerPlan, StackPlan

#: Points nearer than this to the line through their neighbours are not drawn, mm.
DRAWN_TOLERANCE = 0.01
#: Centre lines run this far past the drawing, mm; arms of the axis cross.
PAST, CROSS = 3.0, 6.0


def rings(area: MultiPolygon | BaseGeometry) -> MultiLineString:
    """All boundary loops of an area as lines, thinned to DRAWN_TOLERANCE."""
    boundary = shapely.simplify(shapely.boundary(area), DRAWN_TOLERANCE)
    return MultiLineString([part for part in shapely.get_parts(boundary) if part.length > 0])


@dataclass(frozen=True)
class LayerDrawing:
    """The lines of one layer by pen, in the stack's frame. `needed` are those that a page must not leave out."""

    layer: LayerPlan
    above: LayerPlan | None
    wood: MultiPolygon  # the blank with its through cuts taken out
    lines: tuple[tuple[str, MultiLineString], ...]
    needed: MultiLineString

    @property
    def all_lines(self) -> MultiLineString:
        """Every line, whatever its pen."""
        return MultiLineString([part for _, lines in self.lines for part in lines.geoms])


def _cut_pen(cut: Cut, layer: LayerPlan) -> str:
    """A cut that opens on the upper face is seen; one that does not is hidden."""
    return "mortise" if cut.end >= layer.top - 1e-6 else "mortise hidden"


def draw_layer(stack: StackPlan, index: int) -> LayerDrawing:
    """The drawing of the stack's layer number index + 1."""
    layer = stack.layers[index]
    above = stack.layers[index + 1] if index + 1 < len(stack.layers) else None
    blank = area_polygon(layer.blank)
    lines: list[tuple[str, MultiLineString]] = [("cut", rings(blank))]
    if not layer.finished_top.is_empty:
        lines.append(("finished", rings(layer.finished_top)))
    if not layer.finished_bottom.is_empty:
        lines.append(("hidden", rings(layer.finished_bottom)))
    if above is not None:
        lines.append(("next", rings(area_polygon(above.blank))))
    wood: BaseGeometry = blank
    for cut in layer.cuts:
        ends: list[tuple[str, Outline]] = [(_cut_pen(cut, layer), cut.outline_end or cut.outline)]
        if cut.outline_end is not None:
            ends.append(("mortise hidden", cut.outline))
        for pen, outline in ends:
            lines.append((pen, rings(polygon_of(outline))))
        wood = wood.difference(polygon_of(cut.outline))
    cross = MultiLineString([[(-CROSS, 0), (CROSS, 0)], [(0, -CROSS), (0, CROSS)]])
    needed = MultiLineString([part for _, drawn in lines for part in drawn.geoms] + list(cross.geoms))
    x0, y0, x1, y1 = needed.bounds
    centre = MultiLineString([[(x0 - PAST, 0), (x1 + PAST, 0)], [(0, y0 - PAST), (0, y1 + PAST)]])
    ring = rings(Point(0, 0).buffer(3.0, 16))
    lines += [("centre", centre), ("fine", MultiLineString([*cross.geoms, *ring.geoms]))]
    whole = MultiPolygon([p for p in shapely.get_parts(wood) if p.geom_type == "Polygon"])
    return LayerDrawing(layer, above, whole, tuple(lines), needed)


def cut_words(cut: Cut, layer: LayerPlan, units: str) -> tuple[str, str]:
    """What a cut is and how deep it goes from which face."""
    depth = length_text(cut.end - cut.start, units)
    top, bottom = cut.end >= layer.top - 1e-6, cut.start <= layer.bottom + 1e-6
    what = f"{cut.kind} “{cut.joint}”" if cut.joint else cut.kind
    if top and bottom:
        return what, "through this layer"
    if top:
        return what, f"from the top, {depth} deep"
    if bottom:
        return what, f"from the bottom, {depth} deep"
    return what, f"closed, {range_text(cut.start - layer.bottom, cut.end - layer.bottom, units)} up"


def cuts_line(layer: LayerPlan, units: str) -> str:
    """All cuts in one line for the strip."""
    if not layer.cuts:
        return "no cuts in this layer"
    if len(layer.cuts) > 2:
        return f"{len(layer.cuts)} cuts, see the labels in the drawing"
    return ", ".join(" ".join(cut_words(c, layer, units)) for c in layer.cuts)


def _edge_point(blank: BaseGeometry, direction: tuple[float, float]) -> tuple[float, float]:
    """Where the line from the axis towards `direction` leaves the blank, or the blank's outermost point that way."""
    x0, y0, x1, y1 = blank.bounds
    reach = abs(x0) + abs(y0) + abs(x1) + abs(y1) + 1.0
    ray = LineString([(0.0, 0.0), (direction[0] * reach, direction[1] * reach)])
    crossing = shapely.get_coordinates(shapely.intersection(shapely.boundary(blank), ray))
    points = crossing if len(crossing) else shapely.get_coordinates(shapely.boundary(blank))
    best = points[np.argmax(points @ np.array(direction))]
    return float(best[0]), float(best[1])


def _edge_mark(at: tuple[float, float], degrees: float, filled: bool) -> Mark:
    """A triangle inside the edge, pointing out of it."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    corners = tuple((at[0] + c * a - s * b, at[1] + s * a + c * b) for a, b in ((-1.0, 0.0), (-8.0, 3.5), (-8.0, -3.5)))
    return FilledRegion((corners,)) if filled else Polyline(corners, "thin", closed=True)


def _lines_label(rows: Iterable[Text]) -> tuple[Mark, ...]:
    return tuple(rows)


def layer_labels(drawing: LayerDrawing, stack: StackPlan, tiling: Tiling, units: str) -> list[Label]:
    """Every label and mark of the layer, in the turned drawing's mm, each wholly inside one page and clear of the lines."""
    layer = drawing.layer
    turn = tiling.turn
    wood = turned(drawing.wood, turn)
    blank = turned(area_polygon(layer.blank), turn)
    places = Places(tiling, turned(drawing.all_lines, turn), wood)
    for name, stack_direction, filled in (("FRONT", (0.0, -1.0), True), ("RIGHT", (1.0, 0.0), False)):
        degrees = np.degrees(np.arctan2(stack_direction[1], stack_direction[0])) - turn
        direction = (float(np.cos(np.radians(degrees))), float(np.sin(np.radians(degrees))))
        at = _edge_point(blank, direction)
        places.fix(_edge_mark(at, float(degrees), filled))
        width = text_width(name, STRONG, bold=True)
        inward = (at[0] - direction[0] * 5.0, at[1] - direction[1] * 5.0)
        places.near(inward, width, STRONG, lambda x, y, n=name, h=STRONG: (Text((x, y), n, h, bold=True),))  # type: ignore[misc]
    for cut in layer.cuts:
        _label_cut(places, cut, layer, turn, units)
    places.near((0.0, 0.0), text_width("axis", PLAIN), PLAIN, lambda x, y: (Text((x, y), "axis", PLAIN),))
    for island in sorted(wood.geoms, key=lambda p: -p.area):
        _label_island(places, island, layer, stack)
        _grain_arrow(places, island, layer.grain - turn)
    return places.labels


def _label_cut(places: Places, cut: Cut, layer: LayerPlan, turn: float, units: str) -> None:
    what, depth = cut_words(cut, layer, units)
    width = max(text_width(what, PLAIN), text_width(depth, PLAIN))
    area = turned(polygon_of(cut.outline), turn)

    def rows(x: float, y: float) -> tuple[Mark, ...]:
        return Text((x, y + PLAIN * 1.6), what, PLAIN), Text((x, y), depth, PLAIN)

    places.beside(area, width, PLAIN * 2.6, rows)


def _label_island(places: Places, island: BaseGeometry, layer: LayerPlan, stack: StackPlan) -> None:
    """The layer's number, this face up, and the stack's name, on the wood where there is most room."""
    name = stack.name
    for height, words in ((10.0, STRONG), (LARGE, PLAIN), (STRONG, NOTE)):
        number = str(layer.number)
        first = text_width(number, height, bold=True) + 2.0
        width = first + max(text_width("THIS FACE UP", words, bold=True), text_width(name, words))

        def rows(
            x: float, y: float, number: str = number, height: float = height, words: float = words, first: float = first
        ) -> tuple[Mark, ...]:
            return (
                Text((x, y), number, height, bold=True),
                Text((x + first, y + words * 1.5), "THIS FACE UP", words, bold=True),
                Text((x + first, y), name, words),
            )

        if places.within(island, width, height, rows):
            return


def _grain_arrow(places: Places, island: BaseGeometry, degrees: float) -> None:
    """A two-headed arrow along the grain, and the word."""
    for length in (40.0, 24.0):
        c, s = abs(cos(radians(degrees))), abs(sin(radians(degrees)))
        word = text_width("grain", PLAIN)
        across, up = max(c * length + 2.0, word), s * length + 2.0

        def rows(
            x: float, y: float, length: float = length, across: float = across, up: float = up, word: float = word
        ) -> tuple[Mark, ...]:
            middle = x + across / 2
            return (
                *arrow((middle, y + PLAIN + 1.5 + up / 2), degrees, length, both=True),
                Text((middle - word / 2, y), "grain", PLAIN),
            )

        if places.within(island, across, up + PLAIN + 1.5, rows):
            return
