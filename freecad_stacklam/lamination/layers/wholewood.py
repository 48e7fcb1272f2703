# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much wood a form is in each layer, where bodies that overlap each other are counted once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.crossing import bodies_of
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.volumes import slab_volumes
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.tolerances import COUNTED_TWICE, PLANE_SNAP
from freecad_stacklam.lamination.words import mark

Floats = NDArray[np.float64]

OVERLAP = mark("separate bodies of the mesh overlap and are stacked as one piece")
#: Sections are taken between the heights of the bodies' corners, or so many times in a layer where those are more.
MOST_PARTS = 24
#: Gauss's two points in a part from 0 to 1: they are exact where a section's area grows with the square of the height,
#: as it does between the corners of a body with flat faces.
_GAUSS = (0.5 - 0.5 / np.sqrt(3.0), 0.5 + 0.5 / np.sqrt(3.0))


class Wood(NamedTuple):
    """Volumes of the form between the planes and in all, mm³, and what is to be said of them."""

    slabs: tuple[float, ...]
    whole: float
    notes: tuple[str, ...]


def wood_in_slabs(mesh: Mesh, points: Floats, planes: Sequence[float]) -> Wood:
    """The wood between neighbouring planes. points: the mesh's, N × 3, in the stack's frame, mm.

    The closed sum over the triangles counts wood twice where bodies overlap; there the areas of the sections, which are
    filled once, are summed up over the height.
    """
    heights = _overlapping(mesh, points)
    slabs = slab_volumes(points, mesh.triangles, planes)
    if heights is None:
        return Wood(slabs, mesh.volume, mesh.notes)
    once = _summed(mesh, points, planes, heights)
    if sum(slabs) - sum(once) <= COUNTED_TWICE * sum(slabs):
        return Wood(slabs, mesh.volume, mesh.notes)
    return Wood(once, sum(once), mesh.notes if OVERLAP in mesh.notes else (*mesh.notes, OVERLAP))


def whole_wood(mesh: Mesh, points: Floats, planes: Sequence[float]) -> float:
    """The same of the whole form alone, mm³: nothing need be summed up where no bodies overlap."""
    return mesh.volume if _overlapping(mesh, points) is None else wood_in_slabs(mesh, points, planes).whole


def _overlapping(mesh: Mesh, points: Floats) -> Floats | None:
    """Heights of the corners of all bodies whose boxes overlap another's; None where no two do."""
    body = bodies_of(mesh)
    count = int(body.max()) + 1
    if count < 2:
        return None
    corners = points[mesh.triangles]
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    np.minimum.at(low, body, corners.min(axis=1))
    np.maximum.at(high, body, corners.max(axis=1))
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    one, other = shapely.STRtree(boxes).query(boxes)
    deep = np.minimum(high[one], high[other]) - np.maximum(low[one], low[other])
    meets = (one < other) & (deep > PLANE_SNAP).all(axis=1)
    if not meets.any():
        return None
    among = np.isin(body, np.concatenate([one[meets], other[meets]]))
    heights: Floats = np.unique(np.round(corners[among][:, :, 2], 3))
    return heights


def _summed(mesh: Mesh, points: Floats, planes: Sequence[float], corners: Floats) -> tuple[float, ...]:
    at: list[float] = []
    weights: list[float] = []
    slab: list[int] = []
    for k, (bottom, top) in enumerate(zip(planes[:-1], planes[1:])):
        between = corners[(corners > bottom + PLANE_SNAP) & (corners < top - PLANE_SNAP)]
        parts = np.concatenate([[bottom], between, [top]])
        if len(parts) > MOST_PARTS:
            parts = np.linspace(bottom, top, MOST_PARTS)
        for low, high in zip(parts[:-1], parts[1:]):
            at += [low + g * (high - low) for g in _GAUSS]
            weights += [(high - low) / 2] * 2
            slab += [k, k]
    sections = slice_surface(points, mesh.triangles, mesh.twins, at).just_above
    areas = np.array([section.area for section in sections])
    volumes = np.bincount(slab, np.array(weights) * areas, len(planes) - 1)
    return tuple(volumes.tolist())
