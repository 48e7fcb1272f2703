# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cut line as laid out with straightedge and compass: its straights and arcs."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, hypot, radians, sin

from freecad_stacklam.benchsheets.drawing.lettering import Units, loose_bit_number, number
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import Loop, Outline, arc_of, edges_of, polygon_of
from freecad_stacklam.lamination.tolerances import SAME_ARC

Point = tuple[float, float]


@dataclass(frozen=True)
class Edge:
    """One straight (radius 0) or arc of a loop, mm and degrees; `sweep` is positive to the left. `whole`: a circle."""

    start: Point
    end: Point
    centre: Point = (0.0, 0.0)
    radius: float = 0.0
    first: float = 0.0
    sweep: float = 0.0
    whole: bool = False

    @property
    def middle(self) -> Point:
        """The point halfway along."""
        if not self.radius:
            return (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2
        angle = radians(self.first + self.sweep / 2)
        return self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle)

    @property
    def outward(self) -> Point:
        """Unit normal at the middle, away from the wood (which is on the left)."""
        if self.radius:
            x, y = self.middle
            side = 1.0 if self.sweep > 0 else -1.0
            return side * (x - self.centre[0]) / self.radius, side * (y - self.centre[1]) / self.radius
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        length = hypot(dx, dy) or 1.0
        return dy / length, -dx / length


def edges(loop: Loop) -> list[Edge]:
    """The loop's straights and arcs in order, each arc once: what a fit has split is put together again."""
    found: list[Edge] = []
    for a, b in edges_of(loop):
        if a[2] == 0.0:
            found.append(Edge((a[0], a[1]), (b[0], b[1])))
            continue
        x, y, radius, first, sweep = arc_of(a, b)
        found.append(Edge((a[0], a[1]), (b[0], b[1]), (x, y), radius, degrees(first), degrees(sweep)))
    joined: list[Edge] = []
    for edge in found:
        if joined and _same(joined[-1], edge):
            joined[-1] = _join(joined[-1], edge)
        else:
            joined.append(edge)
    if len(joined) > 1 and _same(joined[-1], joined[0]):
        joined[0] = _join(joined.pop(), joined[0])
    if len(joined) == 1 and joined[0].radius:
        one = joined[0]
        return [Edge(one.start, one.end, one.centre, one.radius, one.first, one.sweep, whole=True)]
    return joined


def _same(a: Edge, b: Edge) -> bool:
    return (
        bool(a.radius and b.radius)
        and (a.sweep > 0) == (b.sweep > 0)
        and hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1]) <= SAME_ARC
        and abs(a.radius - b.radius) <= SAME_ARC
    )


def _join(a: Edge, b: Edge) -> Edge:
    return Edge(a.start, b.end, a.centre, a.radius, a.first, a.sweep + b.sweep)


def size_words(outline: Outline, units: Units) -> str:
    """Ø of a circle, else the sides of a rectangle in its own directions, else what it measures along x and y."""
    found = edges(outline.outer)
    if len(found) == 1 and found[0].whole:
        return f"Ø {number(2 * found[0].radius, units)}"
    points = outline.outer.points
    if len(points) == 4 and all(p[2] == 0 for p in points):
        a, b = (hypot(points[i + 1][0] - points[i][0], points[i + 1][1] - points[i][1]) for i in (0, 1))
        return f"{number(a, units)} × {number(b, units)}"
    x0, y0, x1, y1 = polygon_of(outline).bounds
    return f"{number(x1 - x0, units)} × {number(y1 - y0, units)}"


def cut_size(cut: Cut, units: Units) -> str:
    """The size of a cut; a pin's hole by the bit that bores it, as the steps that bore it say."""
    found = edges(cut.outline.outer)
    if cut.kind == "pin" and len(found) == 1 and found[0].whole and not units.both:
        return f"Ø {loose_bit_number(2 * found[0].radius, units)}"
    return size_words(cut.outline, units)
