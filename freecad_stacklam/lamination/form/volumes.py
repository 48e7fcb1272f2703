# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much of the form lies in each layer, exactly for the mesh."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def slab_volumes(points: Floats, triangles: Ints, planes: Sequence[float]) -> tuple[float, ...]:
    """Volume of a closed mesh between neighbouring planes, mm³.

    points: N × 3 in the stack's frame. The part below a height h is ∫ (min(top, h) − min(bottom, h)) over the plan, so
    it is the sum over triangles of ∫ min(z, h) with the sign of their projected area; for a linear z that integral is
    closed.
    """
    corner = points[triangles]
    z = np.sort(corner[:, :, 2], axis=1)
    ab, ac = corner[:, 1, :2] - corner[:, 0, :2], corner[:, 2, :2] - corner[:, 0, :2]
    area = (ab[:, 0] * ac[:, 1] - ab[:, 1] * ac[:, 0]) / 2.0
    below = np.array([float((area * _mean_min(z, h)).sum()) for h in planes])
    return tuple(np.diff(below).tolist())


def _mean_min(z: Floats, h: float) -> Floats:
    """Mean of min(z, h) over each triangle; z: M × 3 sorted corner heights."""
    low, mid, high = z[:, 0], z[:, 1], z[:, 2]
    mean = z.mean(axis=1)
    tiny = np.finfo(float).tiny  # edges too short to have a square
    out = np.where(high <= h, mean, h)
    one = (high > h) & (mid <= h)  # one corner above: the mean of what sticks out is a small pyramid
    out[one] = mean[one] - (high[one] - h) ** 3 / (3 * (high[one] - low[one]) * (high[one] - mid[one]) + tiny)
    two = (mid > h) & (low < h)  # one corner below
    out[two] = h - (h - low[two]) ** 3 / (3 * (high[two] - low[two]) * (mid[two] - low[two]) + tiny)
    return np.asarray(out)


def volume_middle(mesh: Mesh) -> NDArray[np.float64]:
    """Centre of gravity of a closed mesh, x, y, z in the model, mm.

    It is that of the tetrahedra that its triangles make with the origin, each counted with the sign of its volume.
    """
    corners = mesh.vertices[mesh.triangles]
    volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    return np.asarray((volumes[:, None] * corners.sum(axis=1)).sum(axis=0) / (4 * volumes.sum()))
