# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the form needs of each layer, and where it crosses each glue line: all layers in one pass over the triangles.

The shadow of the slab [a, b] is every (x, y) under or over which the form has material between a and b. Going up from
such a point one leaves the form through an up-facing surface inside the slab or is still inside at b. So the shadow is
the projection of the up-facing surface inside the slab, and the section at b. Its boundary, material on the left, is

1. the silhouette edges inside the slab, where an up-facing triangle meets one that is not;
2. the segments at a, just above it, of the up-facing triangles;
3. the segments at b, just below it, of all the others.

All other edges cancel. A vertex on a counts as below the slab and one on b as above it, so a flat step lying on a
glue line does not widen the neighbouring layer.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.spans import pairs_of
from freecad_stacklam.lamination.layers.loops import EMPTY, fill_all
from freecad_stacklam.lamination.tolerances import PLANE_SNAP

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

# For the code a0 + 2·a1 + 4·a2 of which corners lie above a plane: the edge (by its first corner) that rises through
# it, and the edge that falls through it. Edge i runs from corner i to corner i + 1.
_RISES = np.array([-1, 2, 0, 2, 1, 1, 0, -1])
_FALLS = np.array([-1, 0, 1, 1, 2, 0, 2, -1])


@dataclass(frozen=True)
class Slices:
    """What one pass yields for planes p0 < p1 < … < pn.

    shadows: n areas, slab i lies between planes i and i + 1. just_above, just_below: n + 1 sections at every plane.
    """

    planes: tuple[float, ...]
    shadows: tuple[MultiPolygon, ...]
    just_above: tuple[MultiPolygon, ...]
    just_below: tuple[MultiPolygon, ...]


@dataclass(frozen=True)
class _Chain:
    """Directed segments, each with the number of the plane side or slab it belongs to."""

    owner: Ints
    start: Floats
    end: Floats


def slice_surface(
    points: Floats,
    triangles: Ints,
    twins: Ints,
    planes: Sequence[float],
    *,
    sections: bool = True,
    wanted: NDArray[np.bool_] | None = None,
) -> Slices:
    """Shadows between the planes and sections at them.

    points: N × 3 in the stack's frame, mm; triangles, twins: as in Mesh. planes: ascending heights, mm. With
    sections=False only the shadows are made (the sections are then empty), which is what live figures need; wanted: n
    marks, the slabs whose shadows are to be made then, if not all of them (the others are then empty).
    """
    heights = np.asarray(planes, dtype=np.float64)
    slabs = len(heights) - 1
    z = _snapped(points[:, 2], heights)
    rank = _ranks(z, heights)
    facing = _facing(points, triangles, twins)
    up = facing.up
    corner_rank = rank[triangles]
    side, tri, code = _cut_triangles(corner_rank, heights)
    if wanted is None or sections:
        wanted = np.ones(slabs, dtype=bool)
    if not sections:
        needed = np.where(side % 2 == 1, up[tri], ~up[tri])
        # The slab over each plane for its upper side, the one under it for its lower side.
        needed &= np.concatenate([[False], wanted, [False]])[(side + 1) // 2]
        side, tri, code = side[needed], tri[needed], code[needed]
    start = _on_edge(points, z, triangles, tri, _FALLS[code], heights[side // 2])
    end = _on_edge(points, z, triangles, tri, _RISES[code], heights[side // 2])

    from_below = (side % 2 == 1) & up[tri] & (side < 2 * slabs)  # just above plane i: lower side of slab i
    at_top = (side % 2 == 0) & ~up[tri] & (side > 0)  # just below plane i + 1: upper side of slab i
    rim = _silhouette(points, z, facing, rank, heights, wanted)
    shadows = fill_all(
        np.concatenate([side[from_below] // 2, side[at_top] // 2 - 1, rim.owner]),
        np.concatenate([start[from_below], start[at_top], rim.start]),
        np.concatenate([end[from_below], end[at_top], rim.end]),
        slabs,
    )
    if not sections:
        none = (EMPTY,) * (slabs + 1)
        return Slices(tuple(heights.tolist()), shadows, none, none)

    # With no vertex on a plane both sides of it are the same section.
    on_plane = np.zeros(slabs + 1, dtype=bool)
    on_plane[np.unique(rank[(rank >= 0) & (rank % 2 == 0)]) // 2] = True
    wanted = (side % 2 == 0) | on_plane[side // 2]
    areas = fill_all(side[wanted], start[wanted], end[wanted], 2 * slabs + 2)
    below = areas[0::2]
    above = tuple(areas[2 * i + 1] if on_plane[i] else areas[2 * i] for i in range(slabs + 1))
    return Slices(tuple(heights.tolist()), shadows, above, below)


def _snapped(z: Floats, heights: Floats) -> Floats:
    nearest = np.searchsorted((heights[1:] + heights[:-1]) / 2, z)
    plane = heights[nearest]
    return np.where(np.abs(z - plane) <= PLANE_SNAP, plane, z)


def _ranks(z: Floats, heights: Floats) -> Ints:
    """2·i on plane i, 2·i + 1 between planes i and i + 1, −1 below all."""
    under = np.searchsorted(heights, z, side="left")
    on = heights[np.minimum(under, len(heights) - 1)] == z
    return np.where(on, 2 * under, 2 * under - 1)


@dataclass(frozen=True, eq=False)
class _Facing:
    """What of a surface looks up, and its silhouette: edges from up-facing triangles to others, from `tail` to
    `head`."""

    points: Floats
    triangles: Ints
    up: NDArray[np.bool_]
    tail: Ints
    head: Ints


#: The surfaces asked for last: a stack asks several times for the same one. They are told by being the very same
#: arrays, and only arrays that nobody can write to are kept.
_kept: deque[_Facing] = deque(maxlen=4)


def _facing(points: Floats, triangles: Ints, twins: Ints) -> _Facing:
    for known in _kept:
        if known.points is points and known.triangles is triangles:
            return known
    x, y = points[:, 0], points[:, 1]
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    xa, ya = x[a], y[a]
    up = np.asarray((x[b] - xa) * (y[c] - ya) > (x[c] - xa) * (y[b] - ya))
    edges = np.flatnonzero(np.repeat(up, 3) & ~up[twins // 3])
    found = _Facing(points, triangles, up, triangles.ravel()[edges], triangles[edges // 3, (edges % 3 + 1) % 3])
    if not points.flags.writeable and not triangles.flags.writeable:
        _kept.append(found)
    return found


def _cut_triangles(corner_rank: Ints, heights: Floats) -> tuple[Ints, Ints, Ints]:
    """Every pair of a plane's side and a triangle that passes it, and the code of the corners above. Side 2·i is just
    below plane i, 2·i + 1 just above."""
    low = np.minimum(np.minimum(corner_rank[:, 0], corner_rank[:, 1]), corner_rank[:, 2])
    high = np.maximum(np.maximum(corner_rank[:, 0], corner_rank[:, 1]), corner_rank[:, 2])
    first = np.maximum(low + 1, 0)
    last = np.minimum(high, 2 * len(heights) - 1)
    tri, side = pairs_of(first, last)
    above = corner_rank[tri] >= side[:, None]
    return side, tri, above[:, 0] + 2 * above[:, 1] + 4 * above[:, 2]


def _on_edge(points: Floats, z: Floats, triangles: Ints, tri: Ints, edge: Ints, plane: Floats) -> Floats:
    return _crossing(points, z, triangles[tri, edge], triangles[tri, (edge + 1) % 3], plane)


def _crossing(points: Floats, z: Floats, u: Ints, v: Ints, plane: Floats) -> Floats:
    """Where the edge u–v passes a height. Both triangles of an edge get the very same point: it is always taken from
    the lower vertex number."""
    one, two = np.minimum(u, v), np.maximum(u, v)
    t = ((plane - z[one]) / (z[two] - z[one]))[:, None]
    at: Floats = points[one, :2] * (1.0 - t) + points[two, :2] * t
    return at


def _silhouette(
    points: Floats, z: Floats, facing: _Facing, rank: Ints, heights: Floats, wanted: NDArray[np.bool_]
) -> _Chain:
    """The edges of the silhouette, each cut to the wanted slabs it passes."""
    u, v = facing.tail, facing.head
    ru, rv = rank[u], rank[v]
    low, high = np.minimum(ru, rv), np.maximum(ru, rv)
    first = np.maximum(low // 2, 0)  # slab i holds rank 2·i + 1
    last = np.minimum((high - 1) // 2, len(heights) - 2)
    row, slab = pairs_of(first, last)
    row, slab = row[wanted[slab]], slab[wanted[slab]]
    return _Chain(
        slab,
        _end_in_slab(points, z, u[row], v[row], ru[row], slab, heights),
        _end_in_slab(points, z, v[row], u[row], rv[row], slab, heights),
    )


def _end_in_slab(points: Floats, z: Floats, here: Ints, other: Ints, rank: Ints, slab: Ints, heights: Floats) -> Floats:
    """The end of an edge, or the point where the edge enters the slab if the end lies outside it."""
    out = points[here, :2].copy()
    below, above = rank < 2 * slab + 1, rank > 2 * slab + 1
    for outside, plane in ((below, slab), (above, slab + 1)):
        at = np.flatnonzero(outside)
        out[at] = _crossing(points, z, here[at], other[at], heights[plane[at]])
    return out
