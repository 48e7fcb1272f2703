# SPDX-License-Identifier: LGPL-2.1-or-later

"""The blank: the shadow grown by the allowance, and drawn with as few lines and arcs as stay outside it.

Fitted outlines keep the drawing and the CAD model fast, and a saw follows an arc better than a thousand short chords.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.plan.outline import Loop, Outline, area, polygon_of, straight
from freecad_stacklam.lamination.tolerances import ARC_SAG, CORNER_SAG, FIT_TOLERANCE, ROUNDING

Floats = NDArray[np.float64]

#: A fitted blank stands at most about so many fit tolerances outside what it must cover.
FITTED = 3.0
#: Gaps narrower than twice this (mm) are closed: no saw blade turns in them.
SAW_GAP = 0.5
#: Holes in a blank smaller than this (mm²) are left as wood.
LEAST_HOLE = 10.0
#: An arc of more than about 200° is split: its chord says too little about it.
_MOST_BULGE = 1.2
#: An edge that would stand this many tolerances off its curve is no chord of a curve: it is drawn as it is.
_STRAIGHT = 2.5
#: Segments for a quarter circle where corners are rounded; CORNER_SAG follows from it.
_QUARTER = 24
#: How far outside the region the fit is made, in fit tolerances, tried in turn.
_WIDENINGS = (1.1, 1.4, 1.8, 2.5)


def grown(shadow: MultiPolygon, margin: float) -> MultiPolygon:
    """The shadow with `margin` mm of wood all round, gaps too narrow for a saw closed and tiny holes filled."""
    chords = max(CORNER_SAG, margin * CORNER_SAG / 10.0)
    region = shadow.buffer(margin + SAW_GAP + chords, quad_segs=_QUARTER).buffer(-SAW_GAP, quad_segs=_QUARTER)
    parts = [p for p in shapely.get_parts(region) if shapely.get_type_id(p) == 3 and not p.is_empty]
    return MultiPolygon([Polygon(p.exterior, [h for h in p.interiors if Polygon(h).area >= LEAST_HOLE]) for p in parts])


def without_holes(region: MultiPolygon) -> MultiPolygon:
    """The same islands with all their holes filled."""
    merged = shapely.union_all([Polygon(p.exterior) for p in region.geoms])
    return MultiPolygon([p for p in shapely.get_parts(merged) if not p.is_empty])


def fit_outside(region: MultiPolygon, tolerance: float = FIT_TOLERANCE) -> tuple[Outline, ...]:
    """Line-and-arc outlines that cover `region` and lie at most about 2 tolerances (mm) outside it."""
    wanted = region.buffer(ARC_SAG)
    for factor in _WIDENINGS:
        wide = region.buffer(factor * tolerance, quad_segs=_QUARTER)
        outlines = tuple(_fit_polygon(p, tolerance) for p in shapely.get_parts(wide))
        polygons = [polygon_of(o) for o in outlines]
        if all(p.is_valid for p in polygons) and _apart(polygons) and _covered(wanted, polygons):
            return outlines
    # Straight lines alone always work: the region itself, a little wider.
    wide = region.buffer(tolerance, quad_segs=_QUARTER).simplify(tolerance / 4)
    return tuple(straight(p) for p in shapely.get_parts(wide))


def _apart(polygons: list[Polygon]) -> bool:
    if len(polygons) < 2:
        return True
    one, other = shapely.STRtree(polygons).query(polygons, predicate="intersects")
    return not bool((one != other).any())


def _covered(wanted: shapely.Geometry, polygons: list[Polygon]) -> bool:
    if len(polygons) == 1:
        return bool(polygons[0].covers(wanted))
    return bool(MultiPolygon(polygons).covers(wanted))


def _fit_polygon(polygon: Polygon, tolerance: float) -> Outline:
    turned = shapely.geometry.polygon.orient(polygon)
    outer = fit_loop(shapely.get_coordinates(turned.exterior)[:-1], tolerance)
    holes = tuple(fit_loop(shapely.get_coordinates(h)[:-1], tolerance) for h in turned.interiors)
    outline = Outline(outer, holes)
    return outline if area(outline) > 0 else straight(turned)


def fit_loop(points: Floats, tolerance: float) -> Loop:
    """Lines and arcs within `tolerance` mm of a closed polyline (N × 2, the first point not repeated).

    Greedy: from each joint the longest line or arc that still fits. A full circle is found as a circle.
    """
    around = _circle(points, tolerance)
    if around is not None:
        return around
    points = _from_corner(_thinned(points, tolerance / 10))
    lines = _straight_edges(points, tolerance)
    if lines.any():
        first = int(np.flatnonzero(lines)[0])
        points, lines = np.roll(points, -first, axis=0), np.roll(lines, -first)
    closed = np.vstack([points, points[:1]])
    last = len(closed) - 1
    stops = [*np.flatnonzero(lines).tolist(), last]
    edges: list[tuple[float, float, float]] = []
    i = 0
    while i < last:
        if stops[0] == i:
            stops.pop(0)
            j, bulge = i + 1, 0.0
        else:
            j, bulge = _longest(closed, i, stops[0], tolerance)
        edges.append((float(closed[i, 0]), float(closed[i, 1]), bulge))
        i = j
    if len(edges) < 3 and all(e[2] == 0.0 for e in edges):
        return Loop(tuple((float(x), float(y), 0.0) for x, y in points))
    return Loop(tuple(edges))


def _thinned(points: Floats, tolerance: float) -> Floats:
    ring = shapely.linearrings(points)
    thin = shapely.get_coordinates(shapely.simplify(ring, tolerance))[:-1]
    return thin if len(thin) >= 3 else points


def _from_corner(points: Floats) -> Floats:
    """Start at the sharpest corner, where a joint belongs anyway."""
    before, after = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    sharp = np.abs(np.arctan2(turn, (before * after).sum(axis=1)))
    return np.roll(points, -int(sharp.argmax()), axis=0)


def _straight_edges(points: Floats, tolerance: float) -> NDArray[np.bool_]:
    """Which edges are straight in the form itself: as chords of a curve they would turn too sharply at an end for their
    length (a chord of length L between turns φ stands L·φ / 8 off its curve)."""
    ahead = np.roll(points, -1, axis=0) - points
    length = np.hypot(ahead[:, 0], ahead[:, 1])
    before = np.roll(ahead, 1, axis=0)
    cross = before[:, 0] * ahead[:, 1] - before[:, 1] * ahead[:, 0]
    turn = np.abs(np.arctan2(cross, (before * ahead).sum(axis=1)))
    return np.asarray(length * np.maximum(turn, np.roll(turn, -1)) / 8 > _STRAIGHT * tolerance)


def _circle(points: Floats, tolerance: float) -> Loop | None:
    """The whole loop as one circle, by least squares (Kåsa's linear form), when it fits."""
    if len(points) < 8:
        return None
    middle = points.mean(axis=0)
    local = points - middle
    system = np.column_stack([2.0 * local, np.ones(len(local))])
    solution, *_ = np.linalg.lstsq(system, (local**2).sum(axis=1), rcond=None)
    radius = float(np.sqrt(max(0.0, solution[2] + solution[0] ** 2 + solution[1] ** 2)))
    both = np.vstack([local, (local + np.roll(local, -1, axis=0)) / 2])
    if np.abs(np.hypot(both[:, 0] - solution[0], both[:, 1] - solution[1]) - radius).max() > tolerance:
        return None
    x, y = float(middle[0] + solution[0]), float(middle[1] + solution[1])
    nxt = np.roll(points, -1, axis=0)
    sign = 1.0 if float((points[:, 0] * nxt[:, 1] - points[:, 1] * nxt[:, 0]).sum()) > 0 else -1.0
    return Loop(((x + radius, y, sign), (x - radius, y, sign)))


def _longest(closed: Floats, i: int, last: int, tolerance: float) -> tuple[int, float]:
    """The furthest point that one line or arc from point i reaches, and its bulge."""
    good, bulge = i + 1, 0.0
    step = 2
    reach = last if i > 0 or last < len(closed) - 1 else last - 1
    bad = reach + 1
    while good < reach:
        j = min(i + step, reach)
        found = _edge(closed[i : j + 1], tolerance)
        if found is None:
            bad = j
            break
        good, bulge = j, found
        step *= 2
    while bad - good > 1:
        j = (good + bad) // 2
        found = _edge(closed[i : j + 1], tolerance)
        if found is None:
            bad = j
        else:
            good, bulge = j, found
    return good, bulge


def _edge(points: Floats, tolerance: float) -> float | None:
    """Bulge of the line (0) or arc from the first to the last point that passes all others within tolerance, else
    None."""
    chord = points[-1] - points[0]
    length = float(np.hypot(*chord))
    if length < ROUNDING:
        return None
    local = points - points[0]
    u = local @ chord / length
    v = (local[:, 1] * chord[0] - local[:, 0] * chord[1]) / length
    if np.abs(v).max() <= tolerance and (np.diff(u) > -tolerance).all():
        return 0.0
    u = np.concatenate([u, (u[1:] + u[:-1]) / 2])
    v = np.concatenate([v, (v[1:] + v[:-1]) / 2])
    # Circles through both ends have their centre at (length / 2, h): u² − u·length + v² = 2·v·h, h by least squares.
    h = float((v * (u * u - u * length + v * v)).sum() / (2.0 * (v * v).sum()))
    radius = float(np.hypot(length / 2, h))
    if np.abs(np.hypot(u - length / 2, v - h) - radius).max() > tolerance:
        return None
    side = -1.0 if v[np.abs(v).argmax()] > 0 else 1.0  # points left of the chord: the arc turns to the right
    # Half the arc's angle, seen from the centre: beyond a half circle the centre lies on the side of the arc.
    half = np.arctan2(length / 2, h * side)
    bulge = side * float(np.tan(half / 2))
    return bulge if abs(bulge) <= _MOST_BULGE else None
