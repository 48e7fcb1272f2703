# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lines that many sheets draw: the loops of an area, a drawing as it lies on the page, arrows."""

from __future__ import annotations

from math import ceil, cos, floor, radians, sin, sqrt

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiLineString, MultiPolygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.sheet import FilledRegion, Mark, Polyline
from freecad_stacklam.lamination.tolerances import DRAWN_TOLERANCE, SAME_LINE

#: Centre lines run this far past the drawing, mm; arms of the axis cross.
OVERRUN, CROSS = 3.0, 6.0
#: From stroke to stroke of a hatch on the page, and height of its sample in a legend, mm.
HATCH, HATCH_SAMPLE = 2.5, 2.4


def rings(area: MultiPolygon | BaseGeometry, tolerance: float = DRAWN_TOLERANCE) -> MultiLineString:
    """All boundary loops of an area as lines, thinned to `tolerance` mm."""
    boundary = shapely.simplify(shapely.boundary(area), tolerance)
    return MultiLineString([part for part in shapely.get_parts(boundary) if part.length > 0])


def rings_within(lines: MultiLineString, area: BaseGeometry) -> MultiLineString:
    """The parts of the lines that lie inside an area and not along its edge."""
    inside = shapely.intersection(lines, shapely.buffer(area, -SAME_LINE))
    return MultiLineString([p for p in shapely.get_parts(inside) if p.geom_type == "LineString" and not p.is_empty])


def turned(geometry: BaseGeometry, turn: float) -> BaseGeometry:
    """The drawing as it lies on the page: turned by -turn degrees about the stack's axis."""
    if turn == 0.0:
        return geometry
    c, s = cos(radians(turn)), sin(radians(turn))
    matrix = np.array([[c, -s], [s, c]])
    return shapely.transform(geometry, lambda xy: xy @ matrix)


def hatched(area: BaseGeometry, spacing: float, falling: bool = False) -> MultiLineString:
    """Slanting strokes over an area, `spacing` mm apart; `falling`: the other way."""
    if area.is_empty:
        return MultiLineString()
    way = -1.0 if falling else 1.0
    x0, y0, x1, y1 = area.bounds
    low, high = sorted((way * x0, way * x1))
    step = spacing * sqrt(2.0)
    first, last = ceil((y0 - high) / step), floor((y1 - low) / step)
    strokes = [((x0, way * x0 + i * step), (x1, way * x1 + i * step)) for i in range(first, last + 1)]
    inside = shapely.get_parts(shapely.intersection(MultiLineString(strokes), area))
    return MultiLineString([part for part in inside if part.geom_type == "LineString" and part.length > 0])


def zone(area: BaseGeometry, spacing: float, falling: bool = False) -> MultiLineString:
    """The edge of an area and its hatch, so that a narrow one is seen too."""
    return MultiLineString([*rings(area).geoms, *hatched(area, spacing, falling).geoms])


def sample(pen: str, at: tuple[float, float], length: float) -> list[Mark]:
    """A short piece of a kind of line, for a legend: from `at` to the right; of a hatch its strokes."""
    x, y = at
    if not pen.startswith("little wood"):
        return [Polyline(((x, y), (x + length, y)), pen)]
    box = shapely.box(x, y - HATCH_SAMPLE / 2, x + length, y + HATCH_SAMPLE / 2)
    strokes = hatched(box, HATCH_SAMPLE / 2, pen == "little wood below")
    return [Polyline(tuple(part.coords), pen) for part in strokes.geoms]


def clipped(lines: BaseGeometry, window: tuple[float, float, float, float]) -> list[NDArray[np.float64]]:
    """The chains of `lines` inside the window, each as an (n, 2) array in the drawing's mm."""
    inside = shapely.clip_by_rect(lines, *window)
    return [
        shapely.get_coordinates(part) for part in shapely.get_parts(inside) if shapely.get_num_coordinates(part) > 1
    ]


def arrow(at: tuple[float, float], direction: float, length: float, both: bool = False) -> list[Mark]:
    """An arrow of that length centred at `at`, pointing to `direction` degrees; `both`: a head on each end."""
    c, s = cos(radians(direction)), sin(radians(direction))
    half, head, wing = length / 2, 3.0, 1.0

    def point(along: float, across: float) -> tuple[float, float]:
        return at[0] + c * along - s * across, at[1] + s * along + c * across

    marks: list[Mark] = [Polyline((point(-half, 0.0), point(half, 0.0)), "thin")]
    for end in (half, -half) if both else (half,):
        back = end - head if end > 0 else end + head
        marks.append(FilledRegion(((point(end, 0.0), point(back, wing), point(back, -wing)),)))
    return marks
