# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places at which stresses are read: on the form's surface, and on its tenons', each in a brick of its own.

Stresses are greatest at surfaces, and the surface is known far better than the steps of the cells: so the place is the
surface's, and the cells only say how the stress runs up to it. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.stress.materials import Body
from freecad_stacklam.lamination.voxels.fill import tenon_surface
from freecad_stacklam.lamination.voxels.grid import Voxels

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Places looked at along the side of a cell, of which one in each brick is kept.
DENSE = 2.5
#: How far under the surface a place's brick is looked for, in cells.
UNDER = (0.25, 0.5, 0.9)


@dataclass(frozen=True, eq=False)
class Places:
    """`points` (P × 3) in the piece's frame, on the surface, the `brick` (P) that each belongs to, the direction
    `outward` (P × 3) from the surface, and whether it is on a tenon, in its wood (`in_tenon`, P)."""

    points: Floats
    brick: Ints
    outward: Floats
    in_tenon: NDArray[np.bool_]


def spread(points: Floats, triangles: Ints, apart: float) -> tuple[Floats, Floats]:
    """Places on a surface about `apart` mm from each other, and the outward directions there, both S × 3. The same each
    time: one in every `apart`² of area, in the order of the triangles, at places that fill a triangle evenly."""
    a, b, c = (points[triangles[:, i]] for i in range(3))
    normal = np.cross(b - a, c - a)
    twice = np.linalg.norm(normal, axis=1)
    ends = np.cumsum(twice / 2) / apart**2
    number = np.arange(int(ends[-1]))
    face = np.searchsorted(ends, number + 0.5)
    # The additive recurrence of the plastic number, the root of x³ = x + 1, fills a square evenly.
    plastic = 1.32471795724474602596
    u, v = (number / plastic) % 1.0, (number / plastic**2) % 1.0
    over = u + v > 1
    u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
    place = a[face] + u[:, None] * (b - a)[face] + v[:, None] * (c - a)[face]
    return place, normal[face] / twice[face, None]


def places_on(plan: Plan, meshes: Mapping[str, Mesh], cells: Voxels, body: Body) -> Places:
    """One place in each brick at the surface of the forms, and one in each of a tenon's at the tenon's."""
    found = []
    for stack in plan.stacks:
        mesh = meshes[stack.name]
        found.append(_in_bricks(to_stack(cells.frame, mesh.vertices), mesh.triangles, cells, body, ~body.in_tenon))
    for joint in plan.joints if body.in_tenon.any() else ():
        points, triangles = tenon_surface(joint)
        found.append(_in_bricks(to_stack(cells.frame, points), triangles, cells, body, body.in_tenon))
    points, brick, outward = (np.concatenate([f[i] for f in found]) for i in range(3))
    _, first = np.unique(brick, return_index=True)
    return Places(points[first], brick[first], outward[first], body.in_tenon[brick[first]])


def _in_bricks(
    points: Floats, triangles: Ints, cells: Voxels, body: Body, wanted: NDArray[np.bool_]
) -> tuple[Floats, Ints, Floats]:
    """Places on a surface that have a brick, their bricks, and the outward directions."""
    place, outward = spread(points, triangles, cells.size / DENSE)
    number = np.full(cells.shape, -1)
    own = np.flatnonzero(wanted)
    number[tuple(body.lattice.cell[own].T)] = own
    brick = np.full(len(place), -1)
    for deep in UNDER:
        inner = place - outward * deep * cells.size
        at = np.column_stack([
            np.floor((inner[:, :2] - cells.origin[:2]) / cells.size).astype(int),
            np.searchsorted(cells.heights, inner[:, 2], side="right") - 1,
        ])  # fmt: skip
        inside = ((at >= 0) & (at < np.array(cells.shape))).all(axis=1) & (brick < 0)
        brick[inside] = number[tuple(at[inside].T)]
    there = brick >= 0
    return place[there], brick[there], outward[there]
