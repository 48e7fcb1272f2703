# SPDX-License-Identifier: LGPL-2.1-or-later

"""Planes through the piece, and what of forms, layers, mortises and tenons is on them. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.spans import pairs_of
from freecad_stacklam.lamination.layers.loops import fill_all
from freecad_stacklam.lamination.tolerances import LEVEL, TINY

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

# For the code a0 + 2·a1 + 4·a2 of which corners lie above a plane: the edge, by its first corner, that rises through it
# and the edge that falls through it. The wood lies to the left of the way from the falling to the rising one.
_RISES = np.array([-1, 2, 0, 2, 1, 1, 0, -1])
_FALLS = np.array([-1, 0, 1, 1, 2, 0, 2, -1])

#: Wider than any piece, mm.
ENDLESS = 1e5
#: Points on a line to which a region is cut.
_EMPTY = Polygon()


@dataclass(frozen=True, eq=False)
class Plane:
    """`axes`: rows are its axes 1 and 2 and its normal in the model, right-handed; `origin`: a point of it."""

    origin: Floats
    axes: Floats

    @property
    def normal(self) -> Floats:
        """Its normal in the model."""
        normal: Floats = self.axes[2]
        return normal

    def local(self, points: Floats) -> Floats:
        """Model → plane coordinates, N × 3; the third is the distance from the plane."""
        moved: Floats = (points - self.origin) @ self.axes.T
        return moved

    def model(self, points: Floats) -> Floats:
        """Points of the plane, N × 2 → model, N × 3."""
        moved: Floats = self.origin + points @ self.axes[:2]
        return moved


def level_plane(height: float) -> Plane:
    """Level, axis 1 along the model's x."""
    return Plane(np.array([0.0, 0.0, height]), np.eye(3))


def upright_plane(direction: Floats, offset: float) -> Plane:
    """Upright, square to a level unit `direction`, `offset` mm along it from the model's origin; axis 2 is up."""
    normal = np.array([direction[0], direction[1], 0.0])
    up = np.array([0.0, 0.0, 1.0])
    return Plane(offset * normal, np.stack([np.cross(up, normal), up, normal]))


@dataclass(frozen=True, eq=False)
class Prism:
    """A plan between two heights of a frame of its own. `frame`: 4 × 4, takes it to the model."""

    frame: Floats
    plan: Polygon
    low: float
    high: float


def on_plane(prism: Prism, plane: Plane) -> shapely.Geometry:
    """Where a prism meets the plane, in the plane's coordinates. A prism that lies askew to it is taken by its hull,
    so that no hole is told too small."""
    turn, at = prism.frame[:3, :3], prism.frame[:3, 3]
    normal = turn.T @ plane.normal
    away = float(plane.normal @ (plane.origin - at))
    level = float(np.hypot(normal[0], normal[1]))
    if level < LEVEL:
        height = away / float(normal[2])
        if not prism.low < height < prism.high:
            return _EMPTY
        return shapely.transform(prism.plan, lambda xy: _to_plane(prism, plane, xy, height))
    if abs(float(normal[2])) < LEVEL:
        return _along(prism, plane, normal[:2], away)
    return _askew(prism, plane)


def _to_plane(prism: Prism, plane: Plane, xy: Floats, height: float) -> Floats:
    points = np.column_stack([xy, np.full(len(xy), height)])
    return plane.local(points @ prism.frame[:3, :3].T + prism.frame[:3, 3])[:, :2]


def _along(prism: Prism, plane: Plane, normal: Floats, away: float) -> shapely.Geometry:
    """The plane runs along the prism: rectangles over the pieces of a line."""
    unit = normal / np.linalg.norm(normal)
    foot, run = unit * away / float(np.linalg.norm(normal)), np.array([-unit[1], unit[0]])
    line = shapely.LineString([foot - 2 * ENDLESS * run, foot + 2 * ENDLESS * run])
    pieces = []
    for piece in shapely.get_parts(shapely.intersection(line, prism.plan)).tolist():
        if piece.geom_type != "LineString" or piece.length < TINY:
            continue
        ends = shapely.get_coordinates(piece)[[0, -1]]
        low, high = (_to_plane(prism, plane, ends, z) for z in (prism.low, prism.high))
        pieces.append(Polygon([*low, *high[::-1]]))
    return shapely.union_all(pieces) if pieces else _EMPTY


def _askew(prism: Prism, plane: Plane) -> shapely.Geometry:
    ring = shapely.get_coordinates(shapely.convex_hull(prism.plan))[:-1]
    ends = [
        plane.local(np.column_stack([ring, np.full(len(ring), z)]) @ prism.frame[:3, :3].T + prism.frame[:3, 3])
        for z in (prism.low, prism.high)
    ]
    edges = [(ends[0], ends[1])] + [(end, np.roll(end, -1, axis=0)) for end in ends]
    found = []
    for one, two in edges:
        passed = (one[:, 2] > 0) != (two[:, 2] > 0)
        if passed.any():
            a, b = one[passed], two[passed]
            share = (a[:, 2] / (a[:, 2] - b[:, 2]))[:, None]
            found.append((a + share * (b - a))[:, :2])
    if not found:
        return _EMPTY
    hull = shapely.convex_hull(shapely.multipoints(np.concatenate(found)))
    return hull if hull.geom_type == "Polygon" else _EMPTY


def areas_at(points: Floats, triangles: Ints, heights: Sequence[float] | Floats) -> tuple[MultiPolygon, ...]:
    """Sections of a closed surface just above each height, in the order given.

    points: N × 3, the third coordinate along the planes' normal, mm; triangles: M × 3, turned outwards. A corner at a
    height counts as below it, so every edge is passed by both its triangles or by neither, and all loops close.
    """
    wanted = np.asarray(heights, dtype=np.float64)
    order = np.argsort(wanted, kind="stable")
    planes = wanted[order]
    z = points[:, 2]
    over = np.searchsorted(planes, z, side="left")  # how many planes lie below each corner
    corner = over[triangles]
    low, high = corner.min(axis=1), corner.max(axis=1)
    passed = np.flatnonzero(high > low)
    row, plane = pairs_of(low[passed], high[passed] - 1)
    tri = passed[row]
    above = corner[tri] > plane[:, None]
    code = above[:, 0] + 2 * above[:, 1] + 4 * above[:, 2]
    at = planes[plane]
    start = _crossing(points, triangles, tri, _FALLS[code], at)
    end = _crossing(points, triangles, tri, _RISES[code], at)
    areas = fill_all(plane, start, end, len(planes))
    back = np.empty(len(order), dtype=np.int64)
    back[order] = np.arange(len(order))
    return tuple(areas[i] for i in back)


def _crossing(points: Floats, triangles: Ints, tri: Ints, edge: Ints, height: Floats) -> Floats:
    """Where the edges pass the heights. Both triangles of an edge get the very same point."""
    u, v = triangles[tri, edge], triangles[tri, (edge + 1) % 3]
    one, two = np.minimum(u, v), np.maximum(u, v)
    z = points[:, 2]
    t = ((height - z[one]) / (z[two] - z[one]))[:, None]
    at: Floats = points[one, :2] * (1.0 - t) + points[two, :2] * t
    return at
