# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the saw's blade gets into a void or into a ring: through a hole bored in the waste, or by a kerf along the grain.

A band saw's blade is a ring and must come in from the edge. It comes along the grain, where the kerf closes again side
grain on side grain, as strong as a seam between staves; across it, end grain would have to be glued. A blade with a
loose end is threaded through a hole that lies wholly in the wood that falls out. Both are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from math import cos, hypot, pi, sin

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.lamination.inside.wood import inset
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area, cut_plan
from freecad_stacklam.lamination.plan.insides import WayIn
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.tolerances import NO_AREA

#: A way in along the grain, as the settings name it.
KERF = "kerf"
#: A hole for the blade keeps this far inside the line of its void, mm, so that no trace of it stays.
OFF_LINE = 2.0
#: Wood left between a kerf and a hole beside it, mm: a kerf that is glued again holds like a seam, and a hole on it
#: would open it (common practice, no source).
KERF_ROOM = 3.0
#: Places across a void at which a kerf is tried.
TRIED = 41


def ways_in(stack: StackPlan, settings: HollowSettings) -> tuple[WayIn, ...]:
    """One way in for every void of every layer; a void whose kerf finds no free path is entered by a hole.

    stack: with its voids cut. The place is in the stack's frame.
    """
    found = []
    for layer in stack.layers:
        for cut in _voids(layer, settings.vent):
            void, wood = polygon_of(cut.outline), blank_area(layer.blank)
            others = [cut_plan(c).buffer(settings.margin) for c in layer.cuts if c is not cut and c.kind != "pin"]
            way = _kerf(layer, void, wood, others, settings.margin / 100) if settings.way_in == KERF else None
            found.append(way or _hole(layer, void, settings))
    return tuple(found)


def ring_ways(layer: LayerPlan, asked: HollowSettings | None = None) -> tuple[WayIn, ...]:
    """One way in for every hole of a layer's blank, where the form itself is open: a kerf clear of joints and pins, or
    a hole in the waste where there is none. In the stack's frame.

    asked: of its way in and its bit; left out, as hollows begin with.
    """
    settings = asked or HollowSettings()
    joints = [cut_plan(c).buffer(settings.margin) for c in layer.cuts if c.kind != "pin"]
    pins = [cut_plan(c).buffer(KERF_ROOM) for c in layer.cuts if c.kind == "pin"]
    found = []
    for ring in blank_area(layer.blank).geoms:
        for hole in (Polygon(interior) for interior in ring.interiors):
            way = None
            if settings.way_in == KERF:
                way = _kerf(layer, hole, ring, [*joints, *pins], settings.margin / 100)
            found.append(way or _hole(layer, hole, settings))
    return tuple(found)


def kerfs_of(stack: StackPlan, layers: Collection[int]) -> list[shapely.LineString]:
    """The kerfs by which the blade comes into the voids of layers, by their numbers; in the stack's frame."""
    ways = stack.hollow.ways_in if stack.hollow is not None else ()
    return [shapely.LineString([w.start, w.end]) for w in ways if w.kind == KERF and w.layer in layers]


def _voids(layer: LayerPlan, vent: float) -> list[Cut]:
    """The voids of a layer without the vents bored through it."""
    circle = pi * (vent / 2) ** 2 * 1.01
    return [c for c in layer.cuts if c.kind == "hollow" and cut_plan(c).area > circle]


def _kerf(
    layer: LayerPlan, void: Polygon, wood: BaseGeometry, others: Sequence[BaseGeometry], shorter: float
) -> WayIn | None:
    """The shortest straight path along the grain from a void to the blank's edge, through wood that is clear of others;
    shorter: by how much another must be so to be taken, mm."""
    closed = shapely.union_all(others) if others else Polygon()
    along = np.array([cos(layer.grain * pi / 180), sin(layer.grain * pi / 180)])
    across = np.array([-along[1], along[0]])
    spread = shapely.get_coordinates(void) @ across
    middle = np.array([void.centroid.x, void.centroid.y])
    far = hypot(wood.bounds[2] - wood.bounds[0], wood.bounds[3] - wood.bounds[1]) + 1.0
    best: shapely.LineString | None = None
    # Not at the void's very sides, where the kerf would run along its line.
    for at in np.linspace(spread.min(), spread.max(), TRIED + 2)[1:-1]:
        foot = middle + across * (at - middle @ across)
        for sense in (1.0, -1.0):
            ray = shapely.LineString([foot - sense * far * along, foot + sense * far * along])
            inside = shapely.get_coordinates(ray.intersection(void))
            out = inside[np.argmax(inside @ along * sense)]
            path = shapely.LineString([out, out + sense * far * along]).intersection(wood)
            parts = [p for p in shapely.get_parts(path) if p.length > 0 and p.distance(shapely.Point(out)) < OFF_LINE]
            # In several pieces the path would leave the blank and come in again.
            if len(parts) != 1 or len(shapely.get_parts(path)) != 1 or parts[0].intersects(closed):
                continue
            if best is None or parts[0].length < best.length - shorter:
                best = parts[0]
    if best is None:
        return None
    ends = sorted(shapely.get_coordinates(best).tolist(), key=lambda p: -shapely.Point(p).distance(void))
    (x0, y0), (x1, y1) = ends[0], ends[-1]
    return WayIn(layer.number, KERF, (x0, y0), (x1, y1), 0.0, float(void.exterior.length))


def _hole(layer: LayerPlan, void: Polygon, settings: HollowSettings) -> WayIn:
    """A hole in the waste, near the void's line where the grain leaves it."""
    free = areas_of(inset(areas_of(void), settings.way_in_bit / 2 + OFF_LINE))
    along = np.array([cos(layer.grain * pi / 180), sin(layer.grain * pi / 180)])
    if free.area > NO_AREA:
        points = shapely.get_coordinates(free)
        place = points[np.argmax(points @ along)]
    else:
        place = np.array([void.representative_point().x, void.representative_point().y])
    at = (float(place[0]), float(place[1]))
    return WayIn(layer.number, "bored hole", at, at, settings.way_in_bit, float(void.exterior.length))
