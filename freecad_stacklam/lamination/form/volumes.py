# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much of the form lies in each layer, exactly for the mesh."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.spans import pairs_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def slab_volumes(points: Floats, triangles: Ints, planes: Sequence[float]) -> tuple[float, ...]:
    """Volume of a closed mesh between neighbouring planes, mm³.

    points: N × 3 in the stack's frame. The part below a height h is ∫ (min(top, h) − min(bottom, h)) over the plan, so
    it is the sum over triangles of ∫ min(z, h) with the sign of their projected area; for a linear z that integral is
    closed.
    """
    heights = np.asarray(planes, dtype=np.float64)
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    x, y = points[:, 0], points[:, 1]
    xa, ya = x[a], y[a]
    area = ((x[b] - xa) * (y[c] - ya) - (x[c] - xa) * (y[b] - ya)) / 2.0
    z = np.sort(points[:, 2][triangles], axis=1)
    # A triangle that lies under a plane counts with its mean height, one above it with the plane's, and only those
    # that pass through it need the integral. first: the first plane above the lowest corner; past: the first plane
    # that has the triangle under it.
    first = np.searchsorted(heights, z[:, 0], side="right")
    past = np.maximum(np.searchsorted(heights, z[:, 2]), first)  # one that lies flat on a plane is over it, once
    whole = np.bincount(past, area * z.mean(axis=1), len(heights) + 1)[:-1].cumsum()
    over = area.sum() - np.bincount(first, area, len(heights) + 1)[:-1].cumsum()
    row, plane = pairs_of(first, past - 1)
    cut = np.bincount(plane, area[row] * _mean_min(z[row], heights[plane]), len(heights))
    return tuple(np.diff(whole + heights * over + cut).tolist())


def _mean_min(z: Floats, h: Floats) -> Floats:
    """Mean of min(z, h) over each triangle; z: M × 3 sorted corner heights, h: M heights."""
    low, mid, high = z[:, 0], z[:, 1], z[:, 2]
    mean = z.mean(axis=1)
    tiny = np.finfo(float).tiny  # edges too short to have a square
    out = np.where(high <= h, mean, h)
    one = (high > h) & (mid <= h)  # one corner above: the mean of what sticks out is a small pyramid
    out[one] = mean[one] - (high[one] - h[one]) ** 3 / (3 * (high[one] - low[one]) * (high[one] - mid[one]) + tiny)
    two = (mid > h) & (low < h)  # one corner below
    out[two] = h[two] - (h[two] - low[two]) ** 3 / (3 * (high[two] - low[two]) * (mid[two] - low[two]) + tiny)
    return np.asarray(out)


def volume_middle(mesh: Mesh) -> NDArray[np.float64]:
    """Centre of gravity of a closed mesh, x, y, z in the model, mm.

    It is that of the tetrahedra that its triangles make with the origin, each counted with the sign of its volume.
    """
    corners = mesh.vertices[mesh.triangles]
    volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    return np.asarray((volumes[:, None] * corners.sum(axis=1)).sum(axis=0) / (4 * volumes.sum()))
