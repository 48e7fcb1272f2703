# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stepped block of a stack that is not made yet, and its glue lines on the form, as lines and triangles in the
model: for pictures. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.frame import lying, to_model
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.stack import StackPreview

Floats = NDArray[np.float64]

#: How far an outline may be drawn from where it is, and a glue line in front of the form's surface, as parts of the
#: widest outline: less than a maker sees on a screen.
OFF, BEFORE = 0.001, 0.002


@dataclass(frozen=True)
class LayerLines:
    """In the model: rims, the edges of the blanks, (n, 2, 3); glue_lines, on the form, (n, 2, 3); faces, the walls and
    steps of the block, (n, 3, 3), counter-clockwise from outside."""

    rims: Floats
    glue_lines: Floats
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
    lines = _glue_lines(lying(mesh, found.frame), mesh.triangles, found.planes[1:-1], BEFORE * wide)
    return LayerLines(*(_in_model(found.frame, parts) for parts in (rims, [lines], faces)))


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


def _glue_lines(points: Floats, triangles: NDArray[np.int64], planes: Sequence[float], before: float) -> Floats:
    """Where triangles cross planes, (n, 2, 3), moved outwards by so much so that the surface does not hide them."""
    z = points[:, 2][triangles]
    low, high = z.min(axis=1), z.max(axis=1)
    found = [np.zeros((0, 2, 3))]
    for height in planes:
        cut = triangles[(low < height) & (high >= height)]
        corners = points[cut]
        above = corners[:, :, 2] >= height
        # From the corner that is alone on its side run the two edges that cross the plane.
        alone = np.where(above.sum(axis=1) == 1, above.argmax(axis=1), (~above).argmax(axis=1))
        rows = np.arange(len(cut))
        a, b, c = (corners[rows, (alone + n) % 3] for n in range(3))
        ends = [a + (b - a) * _share(a, b, height), a + (c - a) * _share(a, c, height)]
        normal = np.cross(b - a, c - a)
        length = np.linalg.norm(normal, axis=1, keepdims=True)
        out = np.divide(normal * before, length, out=np.zeros_like(normal), where=length > 0)
        found.append(np.stack(ends, axis=1) + out[:, None])
    return np.concatenate(found)


def _share(a: Floats, b: Floats, height: float) -> Floats:
    """Which part of the way from a to b lies at a height; they are on both sides of it."""
    share: Floats = ((height - a[:, 2]) / (b[:, 2] - a[:, 2]))[:, None]
    return share


def _in_model(frame: Sequence[float], parts: Sequence[Floats]) -> Floats:
    whole = np.concatenate(parts)
    return to_model(frame, whole.reshape(-1, 3)).reshape(whole.shape)
