# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clamp plan to scale, from above: where pads sit, in the order in which they are tightened, and what they miss."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, MultiLineString, Point
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.lines import CROSS, HATCH, rings, zone
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, STRONG, Circle, Mark, Polyline, Text
from freecad_stacklam.benchsheets.gluing.picture import Box, Picture, fit_scale
from freecad_stacklam.benchsheets.gluing.runs import blank_of, face, parts_of, seat, stack_named, tightened
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, ClampPlace, SetUp
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark, say

#: Round a plan for the words on it, mm of paper.
ROUND = 8.0
#: Radius of a ring round a clamp's number, mm of paper; a pad drawn at least so large holds its own number.
RING = 2.6
#: Smaller patches out of reach are not hatched, mm² of paper.
SPECK = 6.0
#: Rings stand behind one another at most so many deep.
RINGS = 2
EDGE_LINES = mark(
    "Lines: wide = glue, the seams; narrow = staves and blank; long dashes = clamps across the seams, in the order "
    "of the numbers. x to the RIGHT, y away from the FRONT, from the cross."
)
PADS = mark(
    "Circles = pads, tightened in the order of the numbers. x to the RIGHT, y away from the FRONT, from the cross, "
    "the stack's axis."
)


class _Plan:
    """Marks of a plan while it is drawn: from the stack's frame onto the page at 1:n, `over` mm under the box's top."""

    def __init__(self, bounds: Sequence[float], box: Box, over: float = 1.0) -> None:
        x0, y0, x1, y1 = bounds
        beside = max(ROUND, over)
        wide, high = box[2] - box[0] - 2 * beside, box[3] - box[1] - beside - over
        self.n = fit_scale(x1 - x0, y1 - y0, wide, high)
        self.x = (box[0] + box[2]) / 2 - (x0 + x1) / 2 / self.n
        self.y = box[3] - over - y1 / self.n
        self.box = box
        self.marks: list[Mark] = []
        self.chains: list[BaseGeometry] = []
        self.inked: BaseGeometry = shapely.Polygon()

    def point(self, at: Sequence[float]) -> tuple[float, float]:
        return self.x + at[0] / self.n, self.y + at[1] / self.n

    def shape(self, geometry: BaseGeometry) -> BaseGeometry:
        """A shape of the stack on the page, valid there too: rounding makes parts that touch cross."""
        moved = shapely.transform(geometry, lambda xy: xy / self.n + (self.x, self.y))
        if shapely.is_valid(moved):
            return moved
        return shapely.make_valid(moved, method="structure", keep_collapsed=False)

    def draw(self, lines: BaseGeometry, pen: str) -> None:
        """Lines that already lie on the page."""
        for part in shapely.get_parts(lines):
            if part.length > 0.0:
                self.marks.append(Polyline(shapely.get_coordinates(part), pen))
                self.chains.append(part)

    def outline(self, area: BaseGeometry, pen: str) -> None:
        self.draw(rings(self.shape(area)), pen)

    def axis(self, places: Sequence[ClampPlace] = ()) -> None:
        """The cross from which places are measured, clear of the pads: shorter before one, round one that covers it."""
        x, y = self.point((0.0, 0.0))
        near = [(float(np.hypot(*p.at)) / self.n, p.pad / 2 / self.n) for p in places]
        inner = max((radius + 0.6 for away, radius in near if away <= radius + 1.0), default=0.0)
        outer = min([CROSS, *(away - radius - 0.6 for away, radius in near if away > radius + 1.0)])
        outer = max(outer, inner + 2.0) if inner else max(outer, 1.0)
        for u, v in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            arm = ((x + inner * u, y + inner * v), (x + outer * u, y + outer * v))
            self.marks.append(Polyline(arm, "thin"))
            self.chains.append(LineString(arm))

    def labelled(
        self,
        texts: Sequence[tuple[tuple[float, float], str, float]],
        inside: Sequence[tuple[BaseGeometry, str]] = (),
    ) -> tuple[Mark, ...]:
        """Every mark, words near the places where they belong (page point, words, height), and names inside areas."""
        x0, y0, x1, y1 = self.box
        places = Places([(x0, y0, x1, y1)], MultiLineString([c for c in self.chains if c.length > 0.0]), self.inked)
        for drawn in self.marks:
            if isinstance(drawn, Text):
                places.keep_off(drawn)
        for at, words, height in texts:
            width = text_width(words, height, bold=True)

            def rows(
                x: float,
                y: float,
                words: str = words,
                height: float = height,
                at: tuple[float, float] = at,
                width: float = width,
            ) -> tuple[Mark, ...]:
                box = shapely.box(x - 0.5, y - 0.5, x + width + 0.5, y + height + 0.5)
                line = shapely.shortest_line(box, Point(at))
                return Text((x, y), words, height, bold=True), Polyline(shapely.get_coordinates(line), "fine")

            places.near(at, width, height, rows)
        for area, name in inside:

            def named(x: float, y: float, name: str = name) -> tuple[Mark, ...]:
                return (Text((x, y), name, STRONG, bold=True),)

            places.beside(area, text_width(name, STRONG, bold=True), STRONG, named)
        return (*self.marks, *(m for label in places.labels for m in label.marks))


def clamp_plan(plan: Plan, set_up: SetUp, box: Box) -> Picture:
    """The clamp plan of a set-up at the top of a box of the page. Nothing where nothing is known."""
    stack = stack_named(plan, set_up.stack)
    if stack is None:
        return Picture()
    if set_up.kind == EDGES:
        return _edges(plan, stack, set_up, box)
    return _joint(plan, stack, set_up, box) if set_up.kind == JOINT else _faces(stack, set_up, box)


def _faces(stack: StackPlan, set_up: SetUp, box: Box) -> Picture:
    parts = parts_of(stack, set_up)
    layers = [layer for part in parts for layer in part.layers] or [
        layer for layer in stack.layers if layer.number in (set_up.first, set_up.last)
    ]
    if not layers:
        return Picture()
    upper, lower = face(layers[-1], True), face(layers[0], False)
    outlines = [blank_of(layers[-1]), blank_of(layers[0]), *(c.outline for c in set_up.cauls)]
    pads = [Point(p.at).buffer(p.pad / 2) for p in set_up.places]
    missed = shapely.union_all([p.missed for p in set_up.pressures])
    bounds = shapely.total_bounds([shape for shape in (*outlines, *pads, missed) if not shape.is_empty])
    drawn = _Plan(bounds, box)
    drawn.outline(lower, "hidden")
    drawn.outline(upper, "cut")
    flat = seat(parts) if parts else upper
    # An edge of the seat that is an edge of a face is drawn once.
    own = shapely.difference(rings(drawn.shape(flat)), shapely.buffer(rings(drawn.shape(upper)), 0.3))
    drawn.draw(own, "finished")
    for caul in set_up.cauls:
        drawn.outline(caul.outline, "thin")
    clear = shapely.difference(drawn.shape(missed), shapely.union_all([drawn.shape(pad.buffer(6.0)) for pad in pads]))
    wide = shapely.union_all([p for p in shapely.get_parts(clear) if p.geom_type == "Polygon" and p.area > SPECK])
    drawn.inked = shapely.difference(drawn.shape(upper), wide)
    for part in zone(wide, HATCH / 2).geoms if not wide.is_empty else ():
        drawn.marks.append(Polyline(shapely.get_coordinates(part), "little wood"))
        drawn.chains.append(part)
    drawn.axis(set_up.places)
    words = _pads(drawn, tightened(set_up))
    drawn.marks += _front(drawn, bounds)
    told = [say("wide = upper face of the run"), say("short dashes = its lower face")]
    told += [say("long dash, two dots = flat on both, where pads sit")] if own.length > 1.0 else []
    told += [say("narrow = cauls")] if set_up.cauls else []
    told += [say("hatched = out of reach of the pads")] if wide.area > 0.0 else []
    return Picture(
        drawn.labelled(words), drawn.n, say("Lines: {meanings}. {pads}", meanings="; ".join(told), pads=say(PADS))
    )


def _joint(plan: Plan, stack: StackPlan, set_up: SetUp, box: Box) -> Picture:
    """The stacks of a joint from above, in the frame of the first, and the pads on them."""
    back = np.linalg.inv(np.array(stack.frame).reshape(4, 4))
    outlines = []
    for other in (s for name in set_up.stacks if (s := stack_named(plan, name)) is not None):
        way = back @ np.array(other.frame).reshape(4, 4)
        flat = shapely.union_all([blank_of(layer) for layer in other.layers])
        outlines.append(shapely.transform(flat, lambda xy, way=way: xy @ way[:2, :2].T + way[:2, 3]))
    pads = [Point(p.at).buffer(p.pad / 2) for p in set_up.places]
    if not outlines:
        return Picture()
    bounds = shapely.total_bounds([*outlines, *pads])
    drawn = _Plan(bounds, box)
    for outline, pen in zip(reversed(outlines), ("cut", *("hidden",) * len(outlines))):
        drawn.outline(outline, pen)
    drawn.inked = drawn.shape(shapely.union_all(outlines))
    drawn.axis(set_up.places)
    words = _pads(drawn, tightened(set_up))
    drawn.marks += _front(drawn, bounds)
    return Picture(
        drawn.labelled(words),
        drawn.n,
        say("Lines: wide = the last stack; short dashes = the others. {pads}", pads=say(PADS)),
    )


def holds_number(radius: float) -> bool:
    """Whether a pad drawn with that radius, mm of paper, has room for its number."""
    return radius >= RING - 0.7


def _pads(drawn: _Plan, places: Sequence[ClampPlace]) -> list[tuple[tuple[float, float], str, float]]:
    """Draw pads with their numbers in them; numbers that have no room there, with the points they belong to."""
    left = []
    for i, place in enumerate(places, start=1):
        at, radius = drawn.point(place.at), place.pad / 2 / drawn.n
        drawn.marks.append(Circle(at, radius, "mortise"))
        drawn.chains.append(shapely.get_exterior_ring(Point(at).buffer(radius)))
        height = STRONG if radius >= 3.6 else PLAIN
        if holds_number(radius):
            height = height if radius >= RING else NOTE
            drawn.marks.append(Text((at[0], at[1] - height / 2), str(i), height, "centre", bold=True, fit=1.7 * radius))
        else:
            left.append((at, str(i), NOTE))
    return left


def _front(drawn: _Plan, bounds: Sequence[float]) -> list[Mark]:
    """FRONT below the plan, RIGHT beside it."""
    x0, y0, x1, _ = bounds
    below, beside = drawn.point(((x0 + x1) / 2, y0)), drawn.point((x1, 0.0))
    return [
        Text((below[0], below[1] - 3.4 - PLAIN), say("FRONT"), PLAIN, "centre", bold=True),
        Text((beside[0] + 3.4 + PLAIN, beside[1]), say("RIGHT"), PLAIN, "centre", turn=90.0, bold=True),
    ]


def _edges(plan: Plan, stack: StackPlan, set_up: SetUp, box: Box) -> Picture:
    """Staves edge to edge: glue on the seams, clamps across them."""
    staves = [s for s in (plan.boards.staves if plan.boards else ()) if s.id in set_up.staves]
    layer = next((layer for layer in stack.layers if layer.number == set_up.first), None)
    if not staves or layer is None:
        return Picture()
    regions = [shapely.Polygon(s.region) for s in staves]
    blank = blank_of(layer)
    c, s = cos(radians(staves[0].grain)), sin(radians(staves[0].grain))
    across = np.array([-s, c])
    spread = shapely.get_coordinates(shapely.MultiPolygon(regions)) @ across
    bars = [_bar(place, across, (float(spread.min()), float(spread.max()))) for place in tightened(set_up)]
    for deep in range(1, RINGS + 1):
        drawn = _Plan(shapely.total_bounds([blank, *regions, *bars]), box, deep * 2.2 * RING + 2.0)
        drawn.outline(blank, "thin")
        for region in regions:
            drawn.draw(shapely.get_exterior_ring(drawn.shape(region)), "thin")
        for seam in seams(staves):
            drawn.draw(drawn.shape(seam), "cut")
        if _rings(drawn, bars, across, deep):
            break
    drawn.axis()
    names = [stave.id.removeprefix(f"{stave.stack} {stave.layer}").strip() or stave.id for stave in staves]
    shapes = [drawn.shape(region) for region in regions]
    drawn.inked = shapely.union_all(shapes)
    return Picture(drawn.labelled([], list(zip(shapes, names))), drawn.n, say(EDGE_LINES))


def _bar(place: ClampPlace, across: NDArray[np.float64], panel: tuple[float, float]) -> LineString:
    """A clamp from jaw to jaw across the seams; where its places are not measured across, over the whole panel."""
    middle = float(np.dot(place.at, across))
    reach = (place.foot, place.head) if place.foot < middle < place.head else panel
    return LineString([np.asarray(place.at) + across * (v - middle) for v in reach])


def _rings(drawn: _Plan, bars: Sequence[LineString], across: NDArray[np.float64], deep: int) -> bool:
    """Draw clamps with their numbers in rings at their ends, above and below in turn, and further out, up to `deep`
    rings, where they stand close; whether all stand clear."""
    taken: list[BaseGeometry] = []
    clear = True
    along = np.array([across[1], -across[0]])
    turns = np.argsort([float(np.dot(bar.coords[0], along)) for bar in bars], kind="stable").tolist()
    for i, bar in enumerate(bars):
        ends = shapely.get_coordinates(drawn.shape(bar))
        out = across * (1.0 if turns.index(i) % 2 == 0 else -1.0)
        tip = ends[1] if out @ across > 0 else ends[0]
        centres = [tip + out * (2.0 + RING + step * 2.2 * RING) for step in range(deep)]
        spots = [Point(centre).buffer(RING + 0.2) for centre in centres]
        step = next((k for k, spot in enumerate(spots) if not any(spot.intersects(t) for t in taken)), None)
        clear, step = clear and step is not None, deep - 1 if step is None else step
        x, y = centres[step].tolist()
        taken.append(spots[step])
        start, end = (ends[0] - 2.0 * across).tolist(), (ends[1] + 2.0 * across).tolist()
        drawn.marks.append(Polyline((start, end), "mortise hidden"))
        drawn.chains.append(LineString((start, end)))
        if step:
            inner = (centres[step] - out * RING).tolist()
            drawn.marks.append(Polyline(((tip + 2.0 * out).tolist(), inner), "fine"))
        drawn.marks.append(Circle((x, y), RING, "thin"))
        drawn.marks.append(Text((x, y - PLAIN / 2), str(i + 1), PLAIN, "centre", bold=True, fit=1.7 * RING))
        drawn.chains.append(shapely.get_exterior_ring(spots[step]))
    return clear


def seams(staves: Sequence[Stave]) -> list[BaseGeometry]:
    """The edges that neighbouring staves share, in the stack's frame."""
    regions = [shapely.Polygon(s.region) for s in staves]
    found = []
    for i, first in enumerate(regions):
        for other in regions[i + 1 :]:
            shared = shapely.intersection(shapely.boundary(first), shapely.buffer(other, 0.5))
            found += [p for p in shapely.get_parts(shapely.line_merge(shared))
                      if p.geom_type == "LineString" and p.length > 1.0]  # fmt: skip
    return found
