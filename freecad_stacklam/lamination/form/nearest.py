# SPDX-License-Identifier: LGPL-2.1-or-later

"""The point of a surface that is nearest to a given point, for many points at once."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import ROUNDING, TINY_SQUARE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Points asked at a time, so that memory stays small.
_BATCH = 256


class Surface:
    """A surface that is asked many times. points: N × 3; triangles: M × 3, mm."""

    def __init__(self, points: Floats, triangles: Ints) -> None:
        self._points, self._corner = points, points[triangles]
        self._low, self._high = self._corner.min(axis=1), self._corner.max(axis=1)
        flat = np.column_stack([self._low[:, :2], self._high[:, :2]])
        self._tree = shapely.STRtree(shapely.box(*flat.T))

    def nearest(self, asked: Floats, within: Floats | None = None) -> tuple[Floats, Floats]:
        """Distance (Q) from each asked point (Q × 3) to the surface, and the nearest point on it (Q × 3), mm.

        within: Q, a distance in which surface is known to lie, inf where none is known.
        """
        bound = np.full(len(asked), np.inf) if within is None else within
        distance, foot = np.full(len(asked), np.inf), asked.copy()
        for first in range(0, len(asked), _BATCH):
            some = slice(first, first + _BATCH)
            distance[some], foot[some] = self._batch(asked[some], bound[some].copy())
        return distance, foot

    def _batch(self, asked: Floats, bound: Floats) -> tuple[Floats, Floats]:
        for i in np.flatnonzero(~np.isfinite(bound)):
            bound[i] = np.sqrt(((self._points - asked[i]) ** 2).sum(axis=1).min())
        reach = (bound + ROUNDING)[:, None]
        who, tri = self._tree.query(shapely.box(*(asked[:, :2] - reach).T, *(asked[:, :2] + reach).T))
        gap = np.maximum(np.maximum(self._low[tri] - asked[who], asked[who] - self._high[tri]), 0.0)
        near = (gap**2).sum(axis=1) <= reach[who, 0] ** 2
        who, tri = who[near], tri[near]
        found = nearest_in(self._corner[tri], asked[who])
        apart = np.sqrt(((found - asked[who]) ** 2).sum(axis=1))
        order = np.lexsort((apart, who))
        first = order[np.unique(who[order], return_index=True)[1]]
        distance, foot = np.full(len(asked), np.inf), asked.copy()
        distance[who[first]], foot[who[first]] = apart[first], found[first]
        return distance, foot


def nearest_in(corner: Floats, asked: Floats) -> Floats:
    """The point of each triangle (M × 3 × 3) nearest to the point asked of it (M × 3)."""
    a, b, c = corner[:, 0], corner[:, 1], corner[:, 2]
    normal = np.cross(b - a, c - a)
    square = np.maximum((normal**2).sum(axis=1), TINY_SQUARE)
    foot = asked - (((asked - a) * normal).sum(axis=1) / square)[:, None] * normal
    inside = np.ones(len(corner), dtype=bool)
    best: Floats = foot.copy()
    apart = np.full(len(corner), np.inf)
    for p, q in ((a, b), (b, c), (c, a)):
        edge = q - p
        inside &= (np.cross(edge, foot - p) * normal).sum(axis=1) >= 0
        share = np.clip(((asked - p) * edge).sum(axis=1) / np.maximum((edge**2).sum(axis=1), TINY_SQUARE), 0.0, 1.0)
        on = p + share[:, None] * edge
        off = ((asked - on) ** 2).sum(axis=1)
        closer = off < apart
        best[closer], apart[closer] = on[closer], off[closer]
    inside &= square > TINY_SQUARE
    best[inside] = foot[inside]
    return best
