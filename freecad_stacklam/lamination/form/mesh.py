# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form's surface as triangles, and the gate every form passes before anything is computed from it.

A mesh that passes is closed (every directed edge has its reverse), turned outwards (positive volume) and finite. What
can be mended without moving the surface by more than WELD_LIMIT is mended and said so; all else is refused with a
place.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from freecad_stacklam.lamination.lengths import LONGEST, size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import (
    GUARD,
    LARGE_FORM,
    MESH_DEFLECTION,
    NO_DIRECTION,
    NO_VOLUME,
    WELDS,
)
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Triangles taken at once where the corners of all would fill the memory.
_CHUNK = 250_000


@dataclass(frozen=True, eq=False)
class Mesh:
    """A closed, outward surface.

    `vertices` is N × 3 mm; `triangles` M × 3 indices, counter-clockwise seen from outside; `twins` 3M: half-edge
    3·t + i runs from corner i of triangle t to the next corner, and twins[h] is the half-edge that runs back. `guard`
    is the wood, mm, that blanks get beyond the allowance because the surface is not the exact form.
    """

    vertices: Floats
    triangles: Ints
    twins: Ints
    volume: float
    notes: tuple[str, ...] = field(default=())
    guard: float = GUARD


def deflection_for(size: float) -> float:
    """Deflection, mm, to ask of the tessellator for a form that is `size` mm large; to a ten-thousandth, so that the
    last bits of a size make no other mesh."""
    return round(MESH_DEFLECTION * max(1.0, size / LARGE_FORM), 4)


def guard_for(deflection: float) -> float:
    """Wood, mm, that pays for a mesh made with this deflection: the error was measured in parts of it."""
    return GUARD * max(1.0, deflection / MESH_DEFLECTION)


#: Vertices farther than this from the model's origin, mm, keep no hundredths in the numbers that files hold them in.
FARTHEST = 10 * LONGEST


def gate(vertices: ArrayLike, triangles: ArrayLike, welds: Sequence[float] = WELDS) -> Mesh:
    """Check raw triangles and return them as a Mesh.

    vertices: N × 3, mm. triangles: M × 3 vertex numbers. welds: distances, mm, at which vertices are welded, tried in
    turn until the surface is closed. Raises Refusal when the surface is not finite, has holes that
    welding does not close, is inside out, or encloses nothing.
    """
    points = np.ascontiguousarray(vertices, dtype=np.float64)
    corners = np.ascontiguousarray(triangles, dtype=np.int64)
    if points.ndim != 2 or points.shape[1] != 3 or corners.ndim != 2 or corners.shape[1] != 3 or len(corners) == 0:
        raise Refusal(say("The form has no surface to slice: select a solid or a closed mesh."))
    if corners.min() < 0 or corners.max() >= len(points):
        raise Refusal(
            say("The mesh names vertices that it does not have: export it again from the program that made it.")
        )
    used = np.zeros(len(points), dtype=bool)
    used[corners.ravel()] = True
    bad = used & ~np.isfinite(points).all(axis=1)
    if bad.any():
        raise Refusal(
            say(
                "The mesh has {count} vertices without a finite position (the first is vertex {number}): delete them "
                "or export the mesh again.",
                count=int(bad.sum()),
                number=int(np.flatnonzero(bad)[0]),
            )
        )
    points, corners = _drop_unused(points, corners, used)
    away, size = float(np.abs(points).max()), float(np.ptp(points, axis=0).max())
    if away > FARTHEST or size > LONGEST:
        raise Refusal(
            say(
                "The form is {size:.4g} m large, which is too far: look for a stray vertex, or check its unit.",
                size=size / 1000,
            )
            if size > LONGEST
            else say(
                "The form lies {away:.4g} m from the origin, which is too far: look for a stray vertex, or check its "
                "unit.",
                away=away / 1000,
            )
        )

    notes: list[str] = []
    best: tuple[Floats, Ints, Ints, Ints] | None = None
    for tolerance in welds:
        welded, faces, merged = _weld(points, corners, tolerance)
        twins, open_edges = _pair_edges(faces, len(welded))
        if len(open_edges):
            unique = _unique_triangles(faces)
            if len(unique) < len(faces):
                twins, open_edges = _pair_edges(unique, len(welded))
                if not len(open_edges):
                    notes.append(say("{count} triangles that stood twice were dropped", count=len(faces) - len(unique)))
                    faces = unique
        if not len(open_edges):
            if tolerance > 0 and merged:
                notes.append(say("{count} corners of the mesh that lay a hair apart were joined", count=merged))
            break
        if best is None or len(open_edges) < len(best[3]):
            best = (welded, faces, twins, open_edges)
    else:
        assert best is not None
        raise _open_refusal(best[0], best[3])

    volume = signed_volume(welded, faces)
    extent = float(np.ptp(welded, axis=0).max()) if len(welded) else 0.0
    if abs(volume) <= NO_VOLUME * max(extent, NO_DIRECTION) ** 3 or len(faces) < 4:
        raise Refusal(say("The mesh encloses no volume: it is flat or folded onto itself; select a solid body."))
    if volume < 0:
        raise Refusal(say("The mesh is inside out, its faces look inward: flip its normals and slice again."))
    for array in (welded, faces, twins):
        array.flags.writeable = False
    return Mesh(welded, faces, twins, volume, tuple(notes))


def _drop_unused(points: Floats, corners: Ints, used: NDArray[np.bool_]) -> tuple[Floats, Ints]:
    if used.all():
        return points, corners
    number = np.cumsum(used) - 1
    return points[used], number[corners]


def _weld(points: Floats, corners: Ints, tolerance: float) -> tuple[Floats, Ints, int]:
    """Merge vertices nearer than about `tolerance`; drop triangles that collapse. Returns points, triangles, merged."""
    labels = _same_rows(points)
    count = int(labels.max()) + 1
    if tolerance > 0:
        # Two grids, shifted by half a cell: neighbours that one grid parts, the other joins.
        for shift in (0.0, 0.5):
            cells = _same_rows(np.floor(points / (2 * tolerance) + shift))
            labels = _join(labels, cells)
    names, first, corner_of = np.unique(labels, return_index=True, return_inverse=True)
    faces = corner_of.reshape(-1)[corners]
    keep = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return points[first], np.ascontiguousarray(faces[keep]), count - len(names)


def _same_rows(rows: Floats) -> Ints:
    """Number the rows so that equal rows share a number."""
    order = np.lexsort((rows[:, 2], rows[:, 1], rows[:, 0]))
    ordered = rows[order]
    fresh = np.empty(len(rows), dtype=np.int64)
    fresh[0] = 0
    fresh[1:] = (ordered[1:] != ordered[:-1]).any(axis=1)
    labels = np.empty(len(rows), dtype=np.int64)
    labels[order] = np.cumsum(fresh)
    return labels


def _join(one: Ints, other: Ints) -> Ints:
    """Labels of the classes that two labellings make together."""
    labels = one
    while True:
        low = np.full(int(other.max()) + 1, len(labels) + int(labels.max()), dtype=np.int64)
        np.minimum.at(low, other, labels)
        joined = low[other]
        low = np.full(int(one.max()) + 1, len(labels) + int(labels.max()), dtype=np.int64)
        np.minimum.at(low, one, joined)
        joined = low[one]
        if np.array_equal(joined, labels):
            return labels
        labels = joined


def _unique_triangles(faces: Ints) -> Ints:
    """Drop triangles that stand twice, whichever corner they start from."""
    turn = faces.argmin(axis=1)
    rows = np.arange(len(faces))
    same = np.stack([faces[rows, turn], faces[rows, (turn + 1) % 3], faces[rows, (turn + 2) % 3]], axis=1)
    _, first = np.unique(same, axis=0, return_index=True)
    kept: Ints = faces[np.sort(first)]
    return kept


def _pair_edges(faces: Ints, vertex_count: int) -> tuple[Ints, Ints]:
    """Find each half-edge's twin. Returns (twins, open edges as K × 2 vertex numbers); with open edges the twins mean
    nothing."""
    start = faces.ravel()
    end = faces[:, (1, 2, 0)].ravel()
    twins = _plain_pairs(start, end, vertex_count)
    if twins is not None:
        return twins, np.empty((0, 2), dtype=np.int64)
    forward = start * vertex_count + end
    backward = end * vertex_count + start
    by_forward = np.argsort(forward, kind="stable")
    by_backward = np.argsort(backward, kind="stable")
    there, back = forward[by_forward], backward[by_backward]
    twins = np.empty(len(start), dtype=np.int64)
    if np.array_equal(there, back):
        twins[by_forward] = by_backward
        return twins, np.empty((0, 2), dtype=np.int64)
    keys, counts = np.unique(forward, return_counts=True)
    reverse = (keys % vertex_count) * vertex_count + keys // vertex_count
    at = np.minimum(np.searchsorted(keys, reverse), len(keys) - 1)
    matched = np.where(keys[at] == reverse, counts[at], 0)
    bad = keys[counts != matched]
    return twins, np.stack([bad // vertex_count, bad % vertex_count], axis=1)


def _plain_pairs(start: Ints, end: Ints, vertex_count: int) -> Ints | None:
    """The twins where every edge has one half-edge each way, as nearly always; else None."""
    edge = np.minimum(start, end)  # in place from here on: these arrays are the largest of all
    edge *= vertex_count
    edge += np.maximum(start, end)
    order = np.argsort(edge, kind="stable")
    edge = edge[order]
    if len(edge) % 2 or (edge[::2] != edge[1::2]).any() or (edge[1:-1:2] == edge[2::2]).any():
        return None
    one, other = order[::2], order[1::2]
    if (start[one] != end[other]).any():
        return None
    twins = np.empty(len(start), dtype=np.int64)
    twins[one], twins[other] = other, one
    return twins


def _open_refusal(points: Floats, edges: Ints) -> Refusal:
    x, y, z = points[edges[0]].mean(axis=0)
    return Refusal(
        say(
            "The mesh is not closed: {count} edges have no matching neighbour, the first near x {x}, y {y}, "
            "z {z}; close the holes, or make a solid of it, and slice again.",
            count=len(edges),
            x=size(x),
            y=size(y),
            z=size(z),
        )
    )


def signed_volume(points: Floats, faces: Ints) -> float:
    """Signed volume by the divergence theorem, mm³; taken about the middle, so that a far-off form loses no digits."""
    local = points - points.mean(axis=0)
    total = 0.0
    for at in range(0, len(faces), _CHUNK):
        a, b, c = (local[faces[at : at + _CHUNK, i]] for i in range(3))
        total += float(np.einsum("ij,ij->", a, np.cross(b, c)))
    return total / 6.0
