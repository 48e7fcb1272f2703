# SPDX-License-Identifier: LGPL-2.1-or-later

"""Faces with any number of corners into triangles, so that concave ones do not fold over their neighbours."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

Points = NDArray[np.float64]


def triangles_of(points: Points, face: Sequence[int]) -> list[tuple[int, int, int]]:
    """The triangles of a face, wound as it is; its corners are indices into `points` (N × 3).

    Concave faces are cut by a constrained Delaunay triangulation of their shadow along the mean normal (Newell), which
    keeps every edge of theirs, so that neighbours still fit. Holes tied in by a bridge, there and back, are kept.
    What crosses itself is cut into a fan: the mesh's own gate then says what is wrong.
    """
    if len(face) == 3:
        return [(face[0], face[1], face[2])]
    fan = [(face[0], face[k], face[k + 1]) for k in range(1, len(face) - 1)]
    flat = _flattened(points[list(face)])
    if flat is None or _is_convex(flat):
        return fan
    return _cut(flat, face) or fan


def _flattened(corners: Points) -> Points | None:
    """Corners in the plane square to their mean normal, counter-clockwise; None for what has no area."""
    corners = corners - corners[0]
    normal = np.cross(corners, np.roll(corners, -1, axis=0)).sum(axis=0)
    size = np.linalg.norm(normal)
    if not np.isfinite(size) or size == 0.0:
        return None
    normal = normal / size
    across = np.cross(normal, np.eye(3)[np.abs(normal).argmin()])
    across /= np.linalg.norm(across)
    return np.column_stack((corners @ across, corners @ np.cross(normal, across)))


def _is_convex(flat: Points) -> bool:
    """Does the outline turn left everywhere, and once round in all?"""
    ways = np.roll(flat, -1, axis=0) - flat
    after = np.roll(ways, -1, axis=0)
    turns = ways[:, 0] * after[:, 1] - ways[:, 1] * after[:, 0]
    if turns.min() <= 0.0:
        return False
    return bool(np.arctan2(turns, (ways * after).sum(axis=1)).sum() < 3 * np.pi)


def _cut(flat: Points, face: Sequence[int]) -> list[tuple[int, int, int]]:
    """Triangles of a concave outline; none where they do not fill it."""
    at = [(float(x), float(y)) for x, y in flat]
    corner = dict(zip(at, face))
    edges = Counter(zip(at, at[1:] + at[:1]))
    # A bridge to a hole is run there and back: it bounds nothing.
    lines = [edge for edge, count in edges.items() if count > edges.get(edge[::-1], 0) and edge[0] != edge[1]]
    area = shapely.build_area(shapely.multilinestrings([list(edge) for edge in lines]))
    wanted = 0.5 * float(np.sum(flat[:, 0] * np.roll(flat[:, 1], -1) - flat[:, 1] * np.roll(flat[:, 0], -1)))
    if area is None or area.is_empty or not area.is_valid or abs(area.area - wanted) > wanted * _LOST:
        return []
    found = []
    for piece in shapely.constrained_delaunay_triangles(area).geoms:
        ring = [(float(x), float(y)) for x, y in shapely.get_coordinates(piece)[:3]]
        if any(place not in corner for place in ring):
            return []
        (ax, ay), (bx, by), (cx, cy) = ring
        a, b, c = (corner[place] for place in ring)
        found.append((a, b, c) if (bx - ax) * (cy - ay) > (by - ay) * (cx - ax) else (a, c, b))
    return found


#: Share of a face's area that may be lost to rounding.
_LOST = float(np.sqrt(np.finfo(np.float64).eps))
