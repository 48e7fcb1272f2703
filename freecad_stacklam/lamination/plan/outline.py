# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines of straight lines and arcs: what is drawn, sawn and measured.

A loop is a closed chain of points, each with the bulge of the edge that leaves it: tan(angle / 4) of the arc, positive
when the arc turns to the left, 0 for a straight line (the convention of DXF polylines). Outer loops run
counter-clockwise, holes clockwise, so the wood is always on the left.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import atan, cos, hypot, pi, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.tolerances import ARC_SAG, LEAST_TURN

Floats = NDArray[np.float64]

#: Loops whose points are kept.
MOST_SAMPLED = 512


@dataclass(frozen=True)
class Loop:
    """A closed loop. `points` are (x, y, bulge) in mm; the last point joins the first."""

    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True)
class Outline:
    """One island: an outer loop and the holes in it."""

    outer: Loop
    holes: tuple[Loop, ...] = ()


def rectangle(width: float, depth: float, centre: tuple[float, float] = (0.0, 0.0), turn: float = 0.0) -> Outline:
    """A rectangle about `centre`, `width` along x and `depth` along y before it is turned by `turn` degrees."""
    c, s = cos(turn * pi / 180), sin(turn * pi / 180)
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return Outline(
        Loop(
            tuple(
                (
                    centre[0] + (i * width * c - j * depth * s) / 2,
                    centre[1] + (i * width * s + j * depth * c) / 2,
                    0.0,
                )
                for i, j in corners
            )
        )
    )


def circle(diameter: float, centre: tuple[float, float] = (0.0, 0.0)) -> Outline:
    """A circle as two half-circle arcs."""
    r = diameter / 2
    return Outline(Loop(((centre[0] + r, centre[1], 1.0), (centre[0] - r, centre[1], 1.0))))


def arc_of(a: tuple[float, float, float], b: tuple[float, float, float]) -> tuple[float, float, float, float, float]:
    """Centre x, centre y, radius, start angle and signed sweep (radians, positive to the left) of the arc that leaves
    `a` for `b`. The bulge of `a` must not be 0."""
    bulge = a[2]
    dx, dy = b[0] - a[0], b[1] - a[1]
    # Distance from the middle of the chord to the centre, along the left normal, in chords.
    offset = (1.0 - bulge * bulge) / (4.0 * bulge)
    cx, cy = (a[0] + b[0]) / 2 - dy * offset, (a[1] + b[1]) / 2 + dx * offset
    radius = hypot(dx, dy) * (1.0 + bulge * bulge) / (4.0 * abs(bulge))
    return cx, cy, radius, float(np.arctan2(a[1] - cy, a[0] - cx)), 4.0 * atan(bulge)


def edges_of(loop: Loop) -> Iterable[tuple[tuple[float, float, float], tuple[float, float, float]]]:
    """Pairs of neighbouring points, the closing edge last."""
    return zip(loop.points, loop.points[1:] + loop.points[:1])


@lru_cache(maxsize=MOST_SAMPLED)
def sample(loop: Loop, sag: float = ARC_SAG) -> Floats:
    """The loop as points on it, N × 2, no arc further than `sag` mm from its chord; the first point is not repeated.
    Not to be written to: checks, sheets and files ask for the same ones."""
    pieces: list[Floats] = []
    for a, b in edges_of(loop):
        pieces.append(np.array([[a[0], a[1]]]))
        if a[2] != 0.0:
            cx, cy, radius, first, sweep = arc_of(a, b)
            step = 2.0 * np.arccos(max(0.0, 1.0 - sag / radius)) if radius > sag else pi / 4
            count = max(2, int(np.ceil(abs(sweep) / max(step, LEAST_TURN))))
            angles = first + sweep * np.arange(1, count) / count
            pieces.append(np.stack([cx + radius * np.cos(angles), cy + radius * np.sin(angles)], axis=1))
    points = np.concatenate(pieces)
    points.flags.writeable = False
    return points


def polygon_of(outline: Outline, sag: float = ARC_SAG) -> Polygon:
    """The outline as a shapely polygon, arcs sampled to `sag` mm."""
    return Polygon(sample(outline.outer, sag), [sample(h, sag) for h in outline.holes])


def area_polygon(outlines: Iterable[Outline], sag: float = ARC_SAG) -> MultiPolygon:
    """All islands as one shapely area."""
    return MultiPolygon([polygon_of(o, sag) for o in outlines])


def loop_area(loop: Loop) -> float:
    """Signed area inside a loop, mm², exact for its arcs."""
    total = 0.0
    for a, b in edges_of(loop):
        total += (a[0] * b[1] - b[0] * a[1]) / 2.0
        if a[2] != 0.0:
            radius = hypot(b[0] - a[0], b[1] - a[1]) * (1.0 + a[2] ** 2) / (4.0 * abs(a[2]))
            sweep = 4.0 * atan(a[2])
            total += radius * radius * (sweep - sin(sweep)) / 2.0
    return total


def area(outline: Outline) -> float:
    """Area of the wood, mm², exact for arcs."""
    return loop_area(outline.outer) + sum(loop_area(h) for h in outline.holes)


def extents(outlines: Iterable[Outline], turn: float = 0.0) -> tuple[float, float]:
    """Length along a direction turned by `turn` degrees from x, and width across it, of all islands together, mm."""
    points = np.concatenate([sample(o.outer) for o in outlines])
    c, s = cos(turn * pi / 180), sin(turn * pi / 180)
    along, across = points @ np.array([c, s]), points @ np.array([-s, c])
    return float(np.ptp(along)), float(np.ptp(across))


def straight(polygon: Polygon) -> Outline:
    """A shapely polygon as an outline of straight lines, wood on the left."""
    turned = shapely.geometry.polygon.orient(polygon)
    return Outline(_straight_loop(turned.exterior.coords), tuple(_straight_loop(h.coords) for h in turned.interiors))


def loops_of(area: MultiPolygon) -> tuple[Loop, ...]:
    """Every boundary of an area as a loop of straight lines, as it runs."""
    return tuple(
        _straight_loop(ring.coords)
        for polygon in shapely.get_parts(area).tolist()
        for ring in (polygon.exterior, *polygon.interiors)
    )


def _straight_loop(coordinates: Iterable[tuple[float, ...]]) -> Loop:
    return Loop(tuple((float(x), float(y), 0.0) for x, y, *_ in list(coordinates)[:-1]))
