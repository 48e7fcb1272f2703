# SPDX-License-Identifier: LGPL-2.1-or-later

"""Values over a surface as black dots that grow with the value: read in black and white, and on a poor copy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, pi, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import text_box, text_width
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, Circle, FilledRegion, Mark, Text
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: From dot to dot, radii of the grades, and radius of the ring of a value below 0, page mm. The areas of the dots grow
#: about twofold from grade to grade, so that the eye tells neighbours apart.
PITCH = 2.6
RADII = (0.25, 0.45, 0.68, 0.92, 1.18)
BELOW = 0.5
#: A dot stands for the values within so many pitches of it.
REACH = 1.2
_CORNERS = 12


def on_grid(points: Floats, values: Floats, area: BaseGeometry) -> tuple[Floats, Floats]:
    """Places of dots inside an area of the page, and for each the greatest value near it. points: n × 2, page mm; a
    place with no value near it has no dot."""
    if area.is_empty or not len(points):
        return np.empty((0, 2)), np.empty(0)
    x0, y0, x1, y1 = area.bounds
    xs, ys = (np.arange(a + PITCH / 2, b, PITCH) for a, b in ((x0, x1), (y0, y1)))
    nodes = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    nodes = nodes[shapely.contains_xy(shapely.buffer(area, -BELOW), nodes[:, 0], nodes[:, 1])]
    if not len(nodes):
        return nodes, np.empty(0)
    far = np.hypot(nodes[:, None, 0] - points[None, :, 0], nodes[:, None, 1] - points[None, :, 1])
    nearest = far.min(axis=1)
    # All within half a pitch, and where points lie further apart than the dots the nearest one.
    near = far <= np.maximum(nearest, PITCH / 2)[:, None] + WIDER
    most = np.where(near, values[None, :], -np.inf).max(axis=1)
    spacing = _spacing(points)
    kept = nearest <= REACH * max(PITCH, spacing)
    return nodes[kept], most[kept]


#: What floats may add to a distance that is met, mm.
WIDER = 0.01


def _spacing(points: Floats) -> float:
    """About how far the points lie from one another, as if spread evenly over their box."""
    sides = np.ptp(points, axis=0)
    return float((max(sides[0], PITCH) * max(sides[1], PITCH) / len(points)) ** 0.5)


def grade(value: float, limits: Sequence[float]) -> int:
    """Which dot stands for a value: 0 below the first limit, 1 below the second, and so on; −1 below 0."""
    return -1 if value < 0 else int(np.searchsorted(limits, value, side="right"))


def dots(places: Floats, values: Floats, limits: Sequence[float], clear: BaseGeometry) -> list[Mark]:
    """The dots, none upon what is to be kept clear. limits: four of them, between the five grades."""
    loops: list[list[tuple[float, float]]] = []
    marks: list[Mark] = []
    shapely.prepare(clear)
    for (x, y), value in zip(places.tolist(), values.tolist()):
        which = grade(value, limits)
        radius = BELOW if which < 0 else RADII[which]
        if clear.intersects(shapely.Point(x, y).buffer(radius)):
            continue
        if which < 0:
            marks.append(Circle((x, y), BELOW, "fine"))
        else:
            loops.append(_round(x, y, radius))
    return [*marks, *([FilledRegion(tuple(loops))] if loops else [])]


def _round(x: float, y: float, radius: float) -> list[tuple[float, float]]:
    return [(x + radius * cos(2 * pi * k / _CORNERS), y + radius * sin(2 * pi * k / _CORNERS)) for k in range(_CORNERS)]


def steps_to(most: float) -> tuple[float, ...]:
    """Four round limits between five grades, evenly up to about the greatest value."""
    if most <= 0:
        return 1.0, 2.0, 3.0, 4.0
    power = 10.0 ** np.floor(np.log10(most / len(RADII)))
    step = next(m * power for m in (1.0, 2.0, 2.5, 5.0, 10.0) if len(RADII) * m * power >= most)
    return tuple(float(step * k) for k in range(1, len(RADII)))


def legend(x: float, y: float, limits: Sequence[float], written: Callable[[float], str], below: str = "") -> list[Mark]:
    """The dots with what they stand for, side by side from x on, their middles at y + 1. below: what a ring says, where
    there are any."""
    words = [say("to {limit}", limit=written(limits[0]))]
    words += [say("to {limit}", limit=written(v)) for v in limits[1:]]
    words.append(say("more"))
    marks: list[Mark] = []
    loops = []
    for radius, word in zip(RADII, words):
        loops.append(_round(x + radius, y + NOTE / 2, radius))
        marks.append(Text((x + 2 * radius + 0.9, y), word, NOTE))
        x += 2 * radius + 0.9 + text_width(word, NOTE) + 2.2
    marks.append(FilledRegion(tuple(loops)))
    if below:
        marks += [Circle((x + BELOW, y + NOTE / 2), BELOW, "fine"), Text((x + 2 * BELOW + 0.9, y), below, NOTE)]
    return marks


def kept_clear(marks: Sequence[Mark]) -> BaseGeometry:
    """What no dot may cover: the lettering, and the rings about places."""
    boxes: list[BaseGeometry] = [text_box(m, 0.3) for m in marks if isinstance(m, Text)]
    boxes += [shapely.Point(m.centre).buffer(m.radius + 0.3) for m in marks if isinstance(m, Circle)]
    return shapely.union_all(boxes) if boxes else shapely.Polygon()
