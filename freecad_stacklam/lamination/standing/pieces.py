# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which stacks stand as one piece: those that a joint holds together, and those that touch."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.nearest import Surface

Floats = NDArray[np.float64]

#: Forms nearer than this are one piece, mm: drawings leave so much between parts that are joined, a published chair
#: of four solids 3 mm.
TOUCH = 5.0
#: Places of a surface that are asked, besides its corners.
_ASKED = 1000
#: Steps of a sequence of two numbers that fills the square evenly (powers of the plastic number, 1.3247…).
_STEPS = (0.7548776662466927, 0.5698402909980532)


def pieces_of(joined: Sequence[Sequence[str]], meshes: Mapping[str, Mesh]) -> tuple[tuple[str, ...], ...]:
    """The names of the meshes, piece by piece, in the order given. joined: names that a joint holds together."""
    names = list(meshes)
    group = {name: i for i, name in enumerate(names)}

    def join(one: str, other: str) -> None:
        old, new = group[other], group[one]
        for name in names:
            if group[name] == old:
                group[name] = new

    for members in joined:
        known = [name for name in members if name in group]
        for other in known[1:]:
            join(known[0], other)
    for i, one in enumerate(names):
        for other in names[i + 1 :]:
            if group[one] != group[other] and touching(meshes[one], meshes[other]):
                join(one, other)
    return tuple(tuple(n for n in names if group[n] == g) for g in dict.fromkeys(group[n] for n in names))


def touching(one: Mesh, other: Mesh, apart: float = TOUCH) -> bool:
    """Whether two forms come nearer to each other than `apart` mm at some asked place."""
    low = np.maximum(one.vertices.min(axis=0), other.vertices.min(axis=0)) - apart
    high = np.minimum(one.vertices.max(axis=0), other.vertices.max(axis=0)) + apart
    if (low > high).any():
        return False
    for mesh, against in ((one, other), (other, one)):
        asked = _asked(mesh, low, high)
        if len(asked):
            within = np.full(len(asked), apart)
            if Surface(against.vertices, against.triangles).nearest(asked, within)[0].min() <= apart:
                return True
    return False


def _asked(mesh: Mesh, low: Floats, high: Floats) -> Floats:
    """Corners of a mesh and places spread over its faces by their area, those in a box, N × 3; no more than 2 000."""
    corners = mesh.vertices[mesh.triangles]
    inside = ((corners.max(axis=1) >= low) & (corners.min(axis=1) <= high)).all(axis=1)
    corners = corners[inside]
    if not len(corners):
        return np.empty((0, 3))
    area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    sums = np.cumsum(area)
    which = np.searchsorted(sums, (np.arange(_ASKED) + 0.5) / _ASKED * sums[-1]).clip(max=len(corners) - 1)
    u, v = (np.arange(_ASKED) * step % 1.0 for step in _STEPS)
    over = u + v > 1.0
    u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
    a, b, c = corners[which, 0], corners[which, 1], corners[which, 2]
    spread = a + u[:, None] * (b - a) + v[:, None] * (c - a)
    points = corners.reshape(-1, 3)
    points = np.vstack([points[:: max(1, len(points) // _ASKED)], spread])
    return np.asarray(points[((points >= low) & (points <= high)).all(axis=1)])
