# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether a piece tips: the moments about every edge of what it stands on, and in every direction.

Towards a direction the piece tips over the line square to it that just touches the support polygon. With b the way from
the centre of mass back to that line, e the way from the load's place back to it, and h the height at which the load
pushes, it stands while m·g·b + W·e ≥ F·h (statics; the loads are of the kind of EN 1022). What is negative on the left
tips. Between two edges both sides are sums of sines of the direction, so that the least ratio of all lies at an edge;
each load is moved to the worst place of its outline for each direction, and of a convex outline that is its farthest
point.

A floor that is out by `short`, or a foot that is short by it, lets the piece lean by that over the depth of the support
polygon. A soft floor lets the edge sink by `soft`: it leans by so much more, and the line over which it tips moves in
by as much, as if the floor gave way under the rim at 45° (an estimate).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import radians

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.standing import DIRECTIONS, Point, Tipping, TopFound
from freecad_stacklam.lamination.tolerances import COARSE, ROUNDING, TINY
from freecad_stacklam.lamination.usage.edges import inside_edge

Floats = NDArray[np.float64]

#: Standard gravity, m/s² (ISO 80000-3).
GRAVITY = 9.80665
#: A support polygon less deep than this does not let a piece lean any further, mm.
_LEAST_DEPTH = 1.0
#: Millimetres in a metre: moments are N·m.
_METRE = 1000.0


@dataclass(frozen=True, eq=False)
class Base:
    """What is tipped: corners of the support polygon (K × 2, convex), weight N, centre of mass in plan (2) and its
    height; by how much a foot or the floor is out, and how deep the floor lets an edge sink, mm."""

    corners: Floats
    weight: float
    centre: Floats
    height: float
    short: float = 0.0
    soft: float = 0.0


@dataclass(frozen=True, eq=False)
class Turned:
    """Moments, N·m, in each of K directions, and where the load stands then (K × 2)."""

    holding: Floats
    tipping: Floats
    places: Floats

    @property
    def ratios(self) -> Floats:
        """Holding over tipping, inf where nothing tips."""
        some = self.tipping > ROUNDING
        return np.where(some, self.holding / np.where(some, self.tipping, 1.0), np.inf)


def base_of(support: Polygon, weight: float, centre: Floats, short: float = 0.0, soft: float = 0.0) -> Base:
    """centre: x, y and height above the floor, mm; weight N."""
    corners = shapely.get_coordinates(shapely.geometry.polygon.orient(support).exterior)[:-1]
    return Base(corners, weight, centre[:2], float(centre[2]), short, soft)


def edge_directions(corners: Floats) -> Floats:
    """Outward directions of the edges of a convex polygon that runs to the left, degrees, K."""
    along = np.roll(corners, -1, axis=0) - corners
    return np.asarray(np.degrees(np.arctan2(-along[:, 0], along[:, 1])) % 360.0)


def _ways(directions: Floats) -> Floats:
    turns = np.radians(directions)
    return np.column_stack([np.cos(turns), np.sin(turns)])


def _line(base: Base, ways: Floats) -> tuple[Floats, Floats]:
    """How far out the line lies over which it tips, for each direction, and by how much the piece leans."""
    reach = base.corners @ ways.T
    out, depth = reach.max(axis=0), reach.max(axis=0) - reach.min(axis=0)
    return out - base.soft, (base.short + base.soft) / np.maximum(depth, _LEAST_DEPTH)


def moments(
    base: Base, places: Floats, height: float, down: float, push: float, directions: Floats, at: float | None = None
) -> Turned:
    """The moments in each direction (K, degrees), the load at the worst of `places` (P × 2) at `height`.

    at: the one direction of the push, degrees; None: it pushes the way in which the piece would tip.
    """
    ways = _ways(directions)
    out, lean = _line(base, ways)
    reach = places @ ways.T
    ties = reach >= reach.max(axis=0) - COARSE  # along an edge of the outline the middle of it
    worst = (ties.T @ places) / ties.sum(axis=0)[:, None]
    b = out - base.centre @ ways.T - lean * base.height
    e = out - reach.max(axis=0) - lean * height
    share = np.ones(len(directions)) if at is None else np.cos(np.radians(directions - at)).clip(min=0.0)
    holding = base.weight * b.clip(min=0.0) + down * e.clip(min=0.0)
    tipping = base.weight * (-b).clip(min=0.0) + down * (-e).clip(min=0.0) + push * height * share
    return Turned(holding / _METRE, tipping / _METRE, worst)


def wider_for(
    base: Base, direction: float, place: Point, height: float, down: float, push: float, wanted: float,
    share: float = 1.0,
) -> float:  # fmt: skip
    """By how much the line over which it tips must lie further out, mm, for a ratio `wanted` in a direction."""
    b, e = _arms(base, direction, place, height)
    turning = wanted * push * height * share

    def lack(more: float) -> float:
        """What is missing of the holding moment, N·mm; falls without a step as `more` grows."""
        parts = ((base.weight, b + more), (down, e + more))
        return turning - sum(force * arm if arm >= 0 else wanted * force * arm for force, arm in parts)

    return _root(lack, (0.0, -b, -e), turning / max(base.weight + down, TINY))


def inward_for(
    base: Base, direction: float, place: Point, height: float, down: float, push: float, wanted: float,
    share: float = 1.0,
) -> float | None:  # fmt: skip
    """By how much the load must stand further in for the same, mm; None where moving it does not help."""
    b, e = _arms(base, direction, place, height)
    if down <= 0 or b < 0:
        return None
    turning = wanted * push * height * share - base.weight * b

    def lack(more: float) -> float:
        arm = e + more
        return turning - (down * arm if arm >= 0 else wanted * down * arm)

    return _root(lack, (0.0, -e), abs(turning) / down)


def _arms(base: Base, direction: float, place: Point, height: float) -> tuple[float, float]:
    ways = _ways(np.array([direction]))
    out, lean = _line(base, ways)
    b = float((out - base.centre @ ways.T - lean * base.height)[0])
    e = float((out - np.asarray(place) @ ways.T - lean * height)[0])
    return b, e


def _root(lack: Callable[[float], float], bends: tuple[float, ...], far: float) -> float:
    """Where a falling function made of straight pieces, with bends where it is told, comes to 0; 0 where it is there
    already."""
    if lack(0.0) <= 0:
        return 0.0
    stops = sorted({max(bend, 0.0) for bend in bends})
    stops.append(stops[-1] + far + 1.0)
    for low, high in zip(stops, stops[1:]):
        if lack(high) <= 0:
            return float(low + (high - low) * lack(low) / (lack(low) - lack(high)))
    return float(stops[-1])


def places_on(load: LoadCase, top: TopFound) -> Floats:
    """Where on a top a load may stand so that it tips most: corners of the hull of those places, P × 2."""
    outline = Polygon(top.outline)
    if load.at is not None:
        return np.array([load.at[:2]])
    if load.place == "middle":
        return np.asarray(shapely.get_coordinates(outline.centroid))
    return np.asarray(shapely.get_coordinates(shapely.convex_hull(inside_edge(outline, load.inset))))


def tipping_of(base: Base, load: LoadCase, tops: tuple[TopFound, ...], floor: float, least: float) -> Tipping:
    """How a piece stands against a load at its worst. floor: its height in the model; least: the ratio asked for."""
    edges = edge_directions(base.corners)
    directions = np.concatenate([edges, np.array(DIRECTIONS)])
    plot = np.full(len(DIRECTIONS), np.inf)
    best: tuple[float, float, int, int, Turned, float] | None = None
    for number, top in enumerate(tops, 1):
        height = top.height if load.at is None else max(load.at[2] - floor, 0.0)
        found = moments(base, places_on(load, top), height, load.down, load.push, directions, load.direction)
        ratios = found.ratios
        plot = np.minimum(plot, ratios[len(edges) :])
        least_at = first_least(ratios)
        margin = float(found.holding[least_at] - found.tipping[least_at])
        if best is None or (float(ratios[least_at]), margin) < best[:2]:
            best = (float(ratios[least_at]), margin, number, least_at, found, height)
    assert best is not None
    ratio, _, number, i, found, height = best
    if not np.isfinite(ratio):  # nothing tips: the direction in which it holds least
        i = first_least(found.holding)
    direction = float(directions[i])
    place = (float(found.places[i, 0]), float(found.places[i, 1]))
    share = 1.0 if load.direction is None else max(float(np.cos(radians(direction - load.direction))), 0.0)
    start, end = edge_towards(base.corners, direction)
    asked = (base, direction, place, height, load.down, load.push, least, share)
    return Tipping(
        load.name, load.source, load.down, load.push, number, place, height, direction, start, end,
        float(found.holding[i]), float(found.tipping[i]), ratio if np.isfinite(ratio) else None, wider_for(*asked),
        inward_for(*asked), tuple(float(r) if np.isfinite(r) else None for r in plot),
    )  # fmt: skip


def edge_towards(corners: Floats, direction: float) -> tuple[Point, Point]:
    """The edge of a convex polygon over which it tips towards a direction; twice the corner where it is one."""
    way = _ways(np.array([direction]))[0]
    reach = corners @ way
    along = np.array([-way[1], way[0]])
    last = corners[reach >= reach.max() - _LEAST_DEPTH / 100]
    order = np.argsort(last @ along)
    ends = last[order[[0, -1]]]
    return (float(ends[0, 0]), float(ends[0, 1])), (float(ends[1, 0]), float(ends[1, 1]))


def first_least(values: Floats) -> int:
    """Which is the least; of those that are equal but for rounding the first, so that no arithmetic chooses."""
    return int(np.flatnonzero(values <= values.min() + ROUNDING)[0])


def insides(base: Base, directions: Floats) -> Floats:
    """How far the centre of mass stands inside the line over which the piece tips in each direction, mm."""
    ways = _ways(directions)
    return np.asarray((base.corners @ ways.T).max(axis=0) - base.centre @ ways.T)


def tip_angles(base: Base, directions: Floats) -> Floats:
    """The angle by which the empty piece is tilted in each direction when it tips, degrees: atan(b / h)."""
    return np.asarray(np.degrees(np.arctan2(insides(base, directions), max(base.height, TINY))))


def unloaded(base: Base) -> tuple[float, float, float]:
    """Least angle at which the empty piece tips, degrees, the direction, and how far its centre of mass stands inside
    the edge there, mm: that of the edge nearest to the centre. Negative where the centre stands outside."""
    edges = edge_directions(base.corners)
    inside = insides(base, edges)
    i = first_least(inside)
    return float(tip_angles(base, edges)[i]), float(edges[i]), float(inside[i])
