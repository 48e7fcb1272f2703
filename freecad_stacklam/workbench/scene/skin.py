# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form's surface in small triangles, and what a map says of each: for colouring. Lengths mm.

Only for pictures: triangles are cut until they are small and need not meet edge to edge.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: No more triangles than this are drawn, whatever the spacing of a map.
MOST_TRIANGLES = 150_000
#: Points whose spacing is measured, and distances held at once.
_SAMPLED, _AT_ONCE = 200, 4_000_000


def spacing_of(points: Floats) -> float:
    """How far the points of a map usually lie from the next, mm; 0 of fewer than two."""
    if len(points) < 2:
        return 0.0
    chosen = points[:: max(1, len(points) // _SAMPLED)]
    apart = np.linalg.norm(chosen[:, None] - points[None], axis=2)
    apart[apart == 0] = np.inf
    return float(np.median(apart.min(axis=1)))


def finer(vertices: Floats, triangles: NDArray[np.int64], longest: float) -> Floats:
    """The corners of a mesh's triangles, (n, 3, 3), cut until no edge is longer than `longest` mm, or there are
    MOST_TRIANGLES."""
    done, left = [], np.asarray(vertices, dtype=np.float64)[triangles]
    count = len(left)
    while len(left):
        edges = np.linalg.norm(np.roll(left, -1, axis=1) - left, axis=2)
        long = edges.max(axis=1) > longest
        if count + long.sum() > MOST_TRIANGLES:
            long[:] = False
        done.append(left[~long])
        left, edges = left[long], edges[long]
        count += len(left)
        first = edges.argmax(axis=1)
        rows = np.arange(len(left))
        a, b, c = (left[rows, (first + n) % 3] for n in range(3))
        middle = (a + b) / 2
        left = np.concatenate([np.stack([a, middle, c], axis=1), np.stack([middle, b, c], axis=1)])
    return np.concatenate(done) if done else np.zeros((0, 3, 3))


def creases(vertices: Floats, triangles: NDArray[np.int64], degrees: float) -> Floats:
    """The edges of a closed mesh at which its surface turns by more than so many degrees: their ends, (n, 2, 3)."""
    corners = vertices[triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    normals = np.divide(normals, lengths, out=np.zeros_like(normals), where=lengths > 0)
    edges = np.sort(np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1)
    order = np.lexsort(edges.T)
    edges, owner = edges[order], np.tile(np.arange(len(triangles)), 3)[order]
    twice = np.flatnonzero((edges[1:] == edges[:-1]).all(axis=1))
    turn = (normals[owner[twice]] * normals[owner[twice + 1]]).sum(axis=1)
    ends: Floats = vertices[edges[twice[turn < np.cos(np.radians(degrees))]]]
    return ends


def values_at(places: Floats, points: Floats, values: Sequence[float], reach: float) -> Floats:
    """Of each place the value of the nearest point, NaN where none is within `reach` mm. Places within a third of it
    of one another are taken as one."""
    known = np.asarray(values, dtype=np.float64)
    if not len(points) or not len(places):
        return np.full(len(places), np.nan)
    cell = reach / 3
    _, first, which = np.unique(np.floor(places / cell), axis=0, return_index=True, return_inverse=True)
    asked = places[first]
    found = np.full(len(asked), np.nan)
    size = max(1, _AT_ONCE // len(points))
    middle = points.mean(axis=0)
    plain = (points - middle).astype(np.float32)  # half the time; who is nearest hangs on no more digits
    own = (plain**2).sum(axis=1)
    for start in range(0, len(asked), size):
        part = asked[start : start + size]
        apart = own - 2 * (part - middle).astype(np.float32) @ plain.T  # squares, less those of the places themselves
        nearest = apart.argmin(axis=1)
        near = np.linalg.norm(points[nearest] - part, axis=1) <= reach
        found[start : start + size][near] = known[nearest][near]
    return found[np.ravel(which)]
