# SPDX-License-Identifier: LGPL-2.1-or-later

"""The table of offsets: at every glue line, how far it is to the finished surface and to the edge of the blank.

Rays run from a centre. Each piece of a section (island) has its own: the stack's axis cross where that lies inside the
piece's outline, holes counted in, otherwise the piece's own middle; the table says which. A ray that crosses a piece
several times is told by its outermost crossing, the others are listed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.carving import Offset
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import FORM_STEP, ROUNDING, WHOLE
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Pieces smaller than this, mm², are slivers of the mesh.
_SLIVER = 1.0


@dataclass(frozen=True, eq=False)
class _Plane:
    """A glue line or an end of the stack: the layers that meet there, their sections and blanks."""

    height: float
    below: LayerPlan | None
    above: LayerPlan | None
    blank_below: MultiPolygon | None
    blank_above: MultiPolygon | None

    def section(self, lower: bool) -> MultiPolygon:
        layer = self.below if lower else self.above
        if layer is None:
            return MultiPolygon()
        return layer.finished_top if lower else layer.finished_bottom


def offsets_by_azimuth(stack: StackPlan, azimuths: Sequence[float]) -> tuple[Offset, ...]:
    """Radii at every plane of the stack, piece by piece, for azimuths in degrees from the stack's x.

    A row is left out where the ray meets nothing of the piece. Raises Refusal when no azimuth is given.
    """
    if not azimuths:
        raise Refusal(say("A table of offsets needs at least one direction: give a step, as in 15°."))
    rows: list[Offset] = []
    for plane in _planes(stack):
        for number, pieces in enumerate(_pieces(plane), 1):
            centre, about = _centre(pieces)
            for azimuth in azimuths:
                found = _row(stack, plane, number, pieces, "azimuth", centre, about, azimuth, azimuth)
                if found is not None:
                    rows.append(found)
    return tuple(rows)


def offsets_by_station(stack: StackPlan, pitch: float, along: float = 0.0) -> tuple[Offset, ...]:
    """Half-breadths at every plane: from stations every `pitch` mm on a centre line through the axis cross, turned by
    `along` degrees from the stack's x, square to it to the left and to the right.

    Pieces are taken together: the outermost crossing counts. Raises Refusal for a pitch that is not above 0.
    """
    if not pitch > 0:
        raise Refusal(say("Stations {pitch} apart cannot be: give more than nothing.", pitch=size(pitch)))
    c, s = cos(along * pi / 180), sin(along * pi / 180)
    rows: list[Offset] = []
    for plane in _planes(stack):
        both = _whole(plane)
        spots = [shapely.get_coordinates(area) @ np.array([c, s]) for area in both if not area.is_empty]
        if not spots:
            continue
        low, high = (float(f([f(p) for p in spots])) for f in (np.min, np.max))
        for i in range(int(np.ceil(low / pitch - WHOLE)), int(np.floor(high / pitch + WHOLE)) + 1):
            centre = (i * pitch * c, i * pitch * s)
            for turn in (90.0, -90.0):
                found = _row(stack, plane, 1, both, "station", centre, "axis", i * pitch, along + turn)
                if found is not None:
                    rows.append(found)
    return tuple(rows)


def _planes(stack: StackPlan) -> list[_Plane]:
    blanks = [area_polygon(layer.without_tabs) for layer in stack.layers]
    count = len(stack.layers)
    return [
        _Plane(
            stack.layers[k].bottom if k < count else stack.layers[-1].top,
            stack.layers[k - 1] if k else None,
            stack.layers[k] if k < count else None,
            blanks[k - 1] if k else None,
            blanks[k] if k < count else None,
        )
        for k in range(count + 1)
    ]


def _whole(plane: _Plane) -> tuple[MultiPolygon, MultiPolygon]:
    return plane.section(True), plane.section(False)


def _pieces(plane: _Plane) -> list[tuple[MultiPolygon, MultiPolygon]]:
    """The pieces of a plane: islands of both faces that touch are one. Below and above, from the largest."""
    islands = [(p, side) for side, area in enumerate(_whole(plane)) for p in area.geoms if p.area > _SLIVER]
    groups: list[list[tuple[Polygon, int]]] = []
    for island in islands:
        touching = [g for g in groups if any(island[0].intersects(other) for other, _ in g)]
        groups = [g for g in groups if g not in touching] + [[island, *(p for g in touching for p in g)]]
    made = [tuple(MultiPolygon([p for p, s in g if s == side]) for side in (0, 1)) for g in groups]
    made.sort(key=lambda pair: -max(a.area for a in pair))
    return [(pair[0], pair[1]) for pair in made]


def _centre(pieces: tuple[MultiPolygon, MultiPolygon]) -> tuple[tuple[float, float], str]:
    filled = shapely.union_all([Polygon(p.exterior) for area in pieces for p in area.geoms])
    if filled.contains(shapely.Point(0.0, 0.0)):
        return (0.0, 0.0), "axis"
    middle = filled.centroid
    if not filled.contains(middle):
        middle = filled.representative_point()
    return (float(middle.x), float(middle.y)), "own centre"


def _row(
    stack: StackPlan,
    plane: _Plane,
    number: int,
    pieces: tuple[MultiPolygon, MultiPolygon],
    kind: str,
    centre: tuple[float, float],
    about: str,
    at: float,
    direction: float,
) -> Offset | None:
    heading = np.array([cos(direction * pi / 180), sin(direction * pi / 180)])
    crossings = [_crossings(area, centre, heading) for area in pieces]
    if not any(crossings):
        return None
    radii, edges = [], []
    notes: list[str] = []
    for lower, hits, blank in zip((True, False), crossings, (plane.blank_below, plane.blank_above)):
        radius = hits[-1] if hits else None
        edge = None
        if radius is not None and blank is not None:
            edge = next((r for r in _crossings(blank, centre, heading) if r >= radius - ROUNDING), None)
            others = [r for r in _crossings(plane.section(lower), centre, heading) if r > radius + ROUNDING]
            if kind == "azimuth" and edge is not None and others and others[0] < edge:
                edge = None
                notes.append(
                    say("the blank of the layer below runs on into another piece")
                    if lower
                    else say("the blank of the layer above runs on into another piece")
                )
        radii.append(radius)
        edges.append(edge)
    most = max(crossings, key=lambda hits: (len(hits), hits[-1] if hits else 0.0))
    if len(most) > 1:
        notes.insert(0, say("crosses the surface {count} times, the outermost counts", count=len(most)))
    if radii[0] is not None and radii[1] is not None and abs(radii[0] - radii[1]) > FORM_STEP:
        notes.append(say("the form has a step on this glue line"))
    return Offset(
        stack=stack.name,
        below=plane.below.number if plane.below else None,
        above=plane.above.number if plane.above else None,
        height=plane.height,
        piece=number,
        kind=kind,
        centre=centre,
        about=about,
        at=at,
        direction=direction % 360.0,
        radius_below=radii[0],
        radius_above=radii[1],
        edge_below=edges[0],
        edge_above=edges[1],
        inner=tuple(most[-2::-1]),
        note="; ".join(notes),
    )


def _crossings(area: MultiPolygon, centre: tuple[float, float], heading: Floats) -> list[float]:
    """Distances at which a ray crosses the boundary of an area, ascending, mm. A corner on the ray counts once where
    the boundary passes through it and not at all where it only touches."""
    hits: list[Floats] = []
    for polygon in area.geoms:
        for ring in (polygon.exterior, *polygon.interiors):
            points = shapely.get_coordinates(ring) - np.array(centre)
            side = heading[0] * points[:, 1] - heading[1] * points[:, 0]
            along = points @ heading
            left = side >= 0
            at = np.flatnonzero(left[1:] != left[:-1])
            share = side[at] / (side[at] - side[at + 1])
            hits.append(along[at] + share * (along[at + 1] - along[at]))
    if not hits:
        return []
    found = np.sort(np.concatenate(hits))
    return [float(r) for r in found[found > ROUNDING]]
