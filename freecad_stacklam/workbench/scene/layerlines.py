# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stepped block of a stack that is not made yet, and its glue lines on the form, as lines and triangles in the
model: for pictures. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.frame import lying, to_model
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.stack import StackPreview

Floats = NDArray[np.float64]

#: How far an outline may be drawn from where it is, as a part of the widest, and a glue line in front of the form's
#: surface, of the form's size: less than a maker sees on a screen.
OFF, BEFORE = 1 / 1000, 1 / 500
#: Ways of laying glue lines that are kept while a maker tries them.
MOST_LINES = 8


@dataclass(frozen=True)
class LayerLines:
    """In the model: rims, the edges of the blanks, (n, 2, 3); glue_lines, round the form, each (n, 3) and closed;
    faces, the walls and steps of the block, (n, 3, 3), counter-clockwise from outside."""

    rims: Floats
    glue_lines: tuple[Floats, ...]
    faces: Floats


def layer_lines(mesh: Mesh, found: StackPreview) -> LayerLines:
    """The picture of a preview. mesh: the form that the preview was made of."""
    left, front, right, back = shapely.total_bounds(found.regions)
    wide = float(max(right - left, back - front))
    regions = [_plainer(region, OFF * wide) for region in found.regions]
    rings = [_ends(region) for region in regions]
    rims, faces = [], []
    for ends, low, high in zip(rings, found.planes[:-1], found.planes[1:]):
        bottom, top = _at(ends, low), _at(ends, high)
        rims += [bottom, top]
        # Material lies to the left of a ring that goes round it, so this is seen from outside.
        faces += [
            np.stack([bottom[:, 0], bottom[:, 1], top[:, 1]], axis=1),
            np.stack([bottom[:, 0], top[:, 1], top[:, 0]], axis=1),
        ]
    nothing = MultiPolygon()
    for under, over, height in zip([nothing, *regions], [*regions, nothing], found.planes):
        faces.append(_flat(under, over, height))
        faces.append(_flat(over, under, height)[:, ::-1])
    lines = _glue_lines(mesh, found.frame, found.planes[1:-1])
    return LayerLines(_in_model(found.frame, rims), lines, _in_model(found.frame, faces))


def _plainer(region: MultiPolygon, off: float) -> MultiPolygon:
    """A region with fewer corners; the quick way of finding it may cross a thin neck."""
    plain = region.simplify(off, preserve_topology=False)
    return plain if plain.is_valid else plain.buffer(0)


def _ends(region: MultiPolygon) -> Floats:
    """The ends of every piece of a region's rings, (n, 2, 2), the region on their left."""
    turned = shapely.orient_polygons(region)
    rings = shapely.get_rings(shapely.get_parts(turned))
    points, ring = shapely.get_coordinates(rings, return_index=True)
    same = ring[1:] == ring[:-1]
    return np.stack([points[:-1], points[1:]], axis=1)[same]


def _at(flat: Floats, height: float) -> Floats:
    """Points of the plane, (…, 2), at a height."""
    return np.concatenate([flat, np.full((*flat.shape[:-1], 1), height)], axis=-1)


def _flat(region: MultiPolygon, without: MultiPolygon, height: float) -> Floats:
    """Triangles over what one region has and another has not, seen from above, (n, 3, 3)."""
    left = shapely.difference(region, without)
    pieces = shapely.get_parts(shapely.constrained_delaunay_triangles(left))
    if not len(pieces):
        return np.zeros((0, 3, 3))
    corners = shapely.get_coordinates(shapely.orient_polygons(pieces)).reshape(-1, 4, 2)[:, :3]
    return _at(corners, height)


@lru_cache(maxsize=MOST_LINES)
def _glue_lines(mesh: Mesh, frame: tuple[float, ...], planes: tuple[float, ...]) -> tuple[Floats, ...]:
    """Where a form crosses planes of its stack, as closed lines (n, 3) in the model, moved outwards so that the surface
    does not hide them. Worked out once: most options that a maker changes leave the glue lines where they are."""
    points, triangles = lying(mesh, frame), mesh.triangles
    z = points[:, 2][triangles]
    low, high = z.min(axis=1), z.max(axis=1)
    lifted = points + BEFORE * float(np.ptp(points, axis=0).max()) * _outwards(points, triangles)
    found: list[Floats] = []
    for height in planes:
        cut = triangles[(low < height) & (high >= height)]
        above = points[:, 2][cut] >= height
        # From the corner that is alone on its side run the two edges that cross the plane.
        alone = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
        rows = np.arange(len(cut))
        a, b, c = (cut[rows, (alone + n) % 3] for n in range(3))
        risen = above[rows, alone]  # round a surface seen from outside all pieces then run the same way
        first, last = np.where(risen, (b, c), (c, b))
        start, end = np.sort([a, first], axis=0), np.sort([a, last], axis=0)
        share = (height - points[:, 2][start[0]]) / (points[:, 2][start[1]] - points[:, 2][start[0]])
        at = lifted[start[0]] + (lifted[start[1]] - lifted[start[0]]) * share[:, None]
        found += [to_model(frame, at[loop]) for loop in _loops(start, end)]
    return tuple(found)


def _outwards(points: Floats, triangles: NDArray[np.int64]) -> Floats:
    """Of each corner of a mesh the direction away from it, as its triangles look, by their area; length 1 or 0."""
    a, b, c = (points[triangles[:, n]] for n in range(3))
    normals, whole = np.cross(b - a, c - a), np.zeros_like(points)
    for side in range(3):
        whole[:, side] = np.bincount(triangles.ravel(), np.repeat(normals[:, side], 3), len(points))
    length = np.linalg.norm(whole, axis=1, keepdims=True)
    out: Floats = np.divide(whole, length, out=np.zeros_like(whole), where=length > 0)
    return out


def _loops(start: NDArray[np.int64], end: NDArray[np.int64]) -> list[list[int]]:
    """Pieces, each from an edge of the mesh (two corners) to another, in their order round closed lines; the first
    piece of each stands at its end again."""
    starts, after = {edge: n for n, edge in enumerate(zip(*start.tolist()))}, list(zip(*end.tolist()))
    left, loops = dict.fromkeys(range(len(after))), []
    while left:
        n, loop = next(iter(left)), []
        while n in left:
            del left[n]
            loop.append(n)
            n = starts.get(after[n], -1)
        loops.append([*loop, loop[0]])
    return loops


def _in_model(frame: Sequence[float], parts: Sequence[Floats]) -> Floats:
    whole = np.concatenate(parts)
    return to_model(frame, whole.reshape(-1, 3)).reshape(whole.shape)
