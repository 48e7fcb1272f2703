# SPDX-License-Identifier: LGPL-2.1-or-later

"""Meshes of tetrahedra for tests, without a mesher."""

from __future__ import annotations

import numpy as np

from freecad_stacklam.lamination.opinion.tetrahedra import EDGES, Tetrahedra


def boxes(count: int, height: float, width: float) -> Tetrahedra:
    """A square post as six tetrahedra a cube, for decks."""
    x = np.linspace(-width / 2, width / 2, count + 1)
    z = np.linspace(0, height, count + 1)
    grid = np.stack(np.meshgrid(x, x, z, indexing="ij"), axis=-1).reshape(-1, 3)
    n = count + 1
    step = np.array([n * n, n, 1])
    ways = [(0, 1, 2), (1, 2, 0), (2, 0, 1), (0, 2, 1), (2, 1, 0), (1, 0, 2)]
    tens = []
    for i, j, k in np.ndindex(count, count, count):
        first = int(np.array([i, j, k]) @ step)
        for number, way in enumerate(ways):
            chain = first + np.concatenate([[0], np.cumsum(step[list(way)])])
            tens.append(chain if number < 3 else chain[[0, 2, 1, 3]])
    corners = np.array(tens)
    middles = grid[corners[:, EDGES]].mean(axis=2).reshape(-1, 3)
    points, at = np.unique(np.round(np.concatenate([grid, middles]), 6), axis=0, return_inverse=True)
    at = at.ravel()
    return Tetrahedra(points, np.hstack([at[corners], at[len(grid) :].reshape(-1, 6)]))


def mesher_text(mesh: Tetrahedra) -> str:
    """The mesh as the mesher writes it, its last two points the other way."""
    nodes = [f"{n} {x:.9g} {y:.9g} {z:.9g}" for n, (x, y, z) in enumerate(mesh.points, 1)]
    order = [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]
    tens = [f"{n} 11 2 0 1 {' '.join(str(v + 1) for v in row[order])}" for n, row in enumerate(mesh.corners, 1)]
    return "\n".join(["$Nodes", str(len(nodes)), *nodes, "$EndNodes", "$Elements", str(len(tens)), *tens,
                      "$EndElements", ""])  # fmt: skip
