# SPDX-License-Identifier: LGPL-2.1-or-later

"""Contours of equal depth: where depth holes stand when all holes of one stop are to form a line.

Depths are known at the places of a grid. Each cell is halved into two triangles and the depth taken as flat over each,
so a contour is a chain of straight pieces that share their ends exactly. It only says where a hole is worth boring: how
deep that hole may go is asked again at its very place.
"""

from __future__ import annotations

from math import ceil, floor

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import SAME_HEIGHT, WHOLE

Floats = NDArray[np.float64]

#: A contour is sought this part of a step deeper than its stop, so that a hole there is not rounded to the stop before.
DEEPER = 0.1


def contours(places: Floats, depth: Floats, rough: Floats, step: float, least: float) -> list[tuple[float, Floats]]:
    """Lines along which the depth is just over a whole number of steps, as (stop depth, points), shallowest first.

    places: Q × 2, a full rectangular grid in plan. depth: Q, nan where no hole can be. rough: Q, heights of the rough
    surface: no contour crosses from one step of the stack to another. step: mm. least: shallower stops are left out.
    """
    triangles = _triangles(places)
    whole = np.isfinite(depth[triangles]).all(axis=1)
    triangles = triangles[whole]
    triangles = triangles[np.ptp(rough[triangles], axis=1) < SAME_HEIGHT] if len(triangles) else triangles
    if not len(triangles):
        return []
    found: list[tuple[float, Floats]] = []
    deepest = float(depth[triangles].max())
    for k in range(max(1, ceil(least / step - WHOLE)), floor(deepest / step + WHOLE) + 1):
        found += [(k * step, line) for line in _lines(places, depth, triangles, (k + DEEPER) * step)]
    return found


def spaced(line: Floats, pitch: float) -> Floats:
    """Points along a line (n × 2), evenly and at most `pitch` mm apart; its ends where it is open."""
    chain = shapely.LineString(line)
    parts = max(1, ceil(chain.length / pitch - WHOLE))
    count = parts if chain.is_ring else parts + 1
    at = np.arange(count) / parts
    return np.asarray(shapely.get_coordinates(shapely.line_interpolate_point(chain, at, normalized=True)))


def _triangles(places: Floats) -> NDArray[np.int64]:
    """Two triangles for each cell of the grid, as rows of its places."""
    columns, rows = len(np.unique(places[:, 0])), len(np.unique(places[:, 1]))
    index = np.arange(columns * rows).reshape(rows, columns)
    a, b, c, d = (part.ravel() for part in (index[:-1, :-1], index[:-1, 1:], index[1:, 1:], index[1:, :-1]))
    return np.concatenate([np.column_stack([a, b, c]), np.column_stack([a, c, d])])


def _lines(places: Floats, depth: Floats, triangles: NDArray[np.int64], level: float) -> list[Floats]:
    over = depth[triangles] >= level
    count = over.sum(axis=1)
    cut, over = triangles[(count == 1) | (count == 2)], over[(count == 1) | (count == 2)]
    if not len(cut):
        return []
    # The corner that stands alone on its side: both crossings lie on its edges.
    alone = np.where(over.sum(axis=1) == 1, over.argmax(axis=1), (~over).argmax(axis=1))
    row = np.arange(len(cut))
    tip = cut[row, alone]
    ends = [_crossing(places, depth, tip, cut[row, (alone + i) % 3], level) for i in (1, 2)]
    merged = shapely.line_merge(shapely.multilinestrings(np.stack(ends, axis=1)))
    return [shapely.get_coordinates(p) for p in shapely.get_parts(merged) if p.length > 0]


def _crossing(places: Floats, depth: Floats, one: NDArray[np.int64], other: NDArray[np.int64], level: float) -> Floats:
    """Where edges pass the level; neighbours ask from the same end, so that they find the very same point."""
    a, b = np.minimum(one, other), np.maximum(one, other)
    share = (level - depth[a]) / (depth[b] - depth[a])
    return np.asarray(places[a] + share[:, None] * (places[b] - places[a]))
