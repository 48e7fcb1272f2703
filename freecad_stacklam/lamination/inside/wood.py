# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where the form is wood at every height of a slab: what a pin or a void may use without meeting the surface.

A place (x, y) is wood all the way from a to b when no air lies above or below it between a and b, so the region is
what the shadow of the air leaves free. The air is a large box with the form turned inside out in it; its shadow comes
from the same pass over the triangles as every layer's own.

Why an offset of this region is safe in space: a point of the surface whose height lies within [a, b] never lies inside
the region in plan, so what keeps d inside the region keeps d from that point; and what lies in [a + d, b − d] keeps d
from every point of the surface whose height lies outside [a, b].
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import areas_of, cut_plan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import SAME_HEIGHT

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_FACES = (
    (0, 2, 1), (0, 3, 2), (4, 5, 6), (4, 6, 7), (0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6),
    (3, 0, 4), (3, 4, 7),
)  # fmt: skip
#: Reversed, the edges of a triangle stand in this order.
_REVERSED = np.array([1, 0, 2])


class Inside:
    """Answers for many slabs of one form from one pass over its triangles.

    points: N × 3 of the mesh in the stack's frame, mm. heights: every height that a slab will start or end at.
    """

    def __init__(self, points: Floats, mesh: Mesh, heights: Sequence[float]) -> None:
        planes = _apart(heights)
        self._planes = np.array(planes)
        self._low, self._high = float(points[:, 2].min()), float(points[:, 2].max())
        air, triangles, twins, frame = _air(points, mesh, planes)
        shadows = slice_surface(air, triangles, twins, planes, sections=False).shadows
        self._wood = [areas_of(frame.difference(s)) for s in shadows]

    def region(self, start: float, end: float) -> MultiPolygon:
        """Where the form is wood at every height from `start` to `end`, both among the heights given, mm."""
        if start < self._low - SAME_HEIGHT or end > self._high + SAME_HEIGHT:
            return MultiPolygon()
        first = int(np.abs(self._planes - start).argmin())
        last = int(np.abs(self._planes - end).argmin())
        return areas_of(shapely.intersection_all(self._wood[first:last]))


def _apart(heights: Sequence[float]) -> list[float]:
    planes: list[float] = []
    for height in sorted(heights):
        if not planes or height - planes[-1] > SAME_HEIGHT:
            planes.append(float(height))
    return planes


def _air(points: Floats, mesh: Mesh, planes: Sequence[float]) -> tuple[Floats, Ints, Ints, Polygon]:
    """A box about the form with the form taken out: points, triangles, twins, and the box in plan."""
    low, high = np.floor(points.min(axis=0)) - 10.0, np.ceil(points.max(axis=0)) + 10.0
    low[2], high[2] = min(low[2], planes[0]) - 10.0, max(high[2], planes[-1]) + 10.0
    (x0, y0, z0), (x1, y1, z1) = low, high
    corners = np.array([(x, y, z) for z in (z0, z1) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))])
    box = gate(corners, np.array(_FACES))
    turned = mesh.triangles[:, ::-1]
    back = mesh.twins.reshape(-1, 3)[:, _REVERSED].ravel()
    back = 3 * (back // 3) + _REVERSED[back % 3]
    count = len(points)
    return (
        np.concatenate([points, box.vertices]),
        np.concatenate([turned, box.triangles + count]),
        np.concatenate([back, box.twins + 3 * len(turned)]),
        shapely.box(x0, y0, x1, y1),
    )


def inset(region: MultiPolygon, distance: float) -> MultiPolygon:
    """What lies at least `distance` mm inside the region."""
    return areas_of(region.buffer(-distance, quad_segs=24))


def kept_clear(shape: shapely.Geometry, distance: float) -> shapely.Geometry:
    """All within `distance` mm of the shape; the chords of its round corners lie outside the true circle."""
    return shape.buffer(distance / np.cos(np.pi / 64), quad_segs=16)


def cuts_between(stack: StackPlan, start: float, end: float, kinds: Sequence[str]) -> list[Polygon]:
    """Plans of all cuts of these kinds that reach into the heights from `start` to `end`, mm, the points of their bits
    counted in."""
    return [
        cut_plan(c)
        for layer in stack.layers
        for c in layer.cuts
        if c.kind in kinds and c.lowest < end and c.highest > start
    ]
