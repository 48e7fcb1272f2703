# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cells of a piece as bricks that share their corners: who meets whom, what stands on the floor, what floats.

A brick whose wood is partly layer and partly tenon stands twice, once in each wood, each with its share. Lengths mm,
forces N, stiffness N/mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.element import brick_stiffness
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import SAME_CELL
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Less wood than this part of a brick is left out: it carries nothing and makes the sum hard to solve.
LEAST_SHARE = 1 / 16
#: How many times stiffer the floor holds a corner than the brick above it does.
FLOOR = 1e3


@dataclass(frozen=True, eq=False)
class Wood:
    """One wood in one position: (6, 6) stiffness in the piece's frame, MPa, and its directions along the grain, and two
    square to it, as rows (3, 3)."""

    stiffness: Floats
    axes: Floats


@dataclass(frozen=True, eq=False)
class Lot:
    """Bricks of one wood and one height: their places `first` to `last` in the lattice's bricks, and one matrix."""

    wood: int
    height: float
    matrix: Floats
    first: int
    last: int


@dataclass(frozen=True, eq=False)
class Lattice:
    """Bricks over the cells of a piece.

    `corners` (B × 8) are the points at a brick's corners, `share` (B) how much of it is that wood, `cell` (B × 3) its
    place in the grid, `wood` (B) which of `woods` it is; bricks of one lot follow each other. `points` (N × 3) lie in
    the piece's frame, `place` (N × 3) in the grid of corners. `floor` (N): stiffness with which the floor holds each,
    times `firm` (3 × 3): as much in every direction where the piece is held fast.
    """

    size: float
    heights: Floats
    count: tuple[int, int]
    woods: tuple[Wood, ...]
    lots: tuple[Lot, ...]
    corners: Ints
    share: Floats
    cell: Ints
    wood: Ints
    points: Floats
    place: Ints
    floor: Floats
    firm: Floats = field(default_factory=lambda: np.eye(3))

    def sides(self, lot: Lot) -> tuple[float, float, float]:
        """Of the bricks of a lot, mm."""
        return self.size, self.size, lot.height

    @property
    def middles(self) -> Floats:
        """Of the bricks, in the piece's frame, B × 3."""
        return np.asarray((self.points[self.corners[:, 0]] + self.points[self.corners[:, 7]]) / 2)


def joined_to(wood: NDArray[np.bool_], seeds: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Which cells of wood are joined face to face, cell by cell, to those cells of `seeds` that are wood."""
    there = np.pad(wood, 1).ravel()
    shape = tuple(n + 2 for n in wood.shape)
    found = np.zeros(len(there), dtype=bool)
    front = np.flatnonzero(np.pad(seeds & wood, 1).ravel())
    steps = np.array([s for n in (shape[1] * shape[2], shape[2], 1) for s in (n, -n)])
    while len(front):
        found[front] = True
        near = (front[:, None] + steps).ravel()
        front = np.unique(near[there[near] & ~found[near]])
    return found.reshape(shape)[1:-1, 1:-1, 1:-1]


def lattice_of(
    origin: Floats,
    size: float,
    heights: Floats,
    woods: Sequence[Wood],
    shares: Sequence[Floats],
    which: Sequence[Ints],
    up: Floats,
) -> Lattice:
    """Bricks of cells that are joined to the floor.

    shares: parts of every cell (nx × ny × nz) in a wood whose place in `woods` stands in `which`; several, for cells of
    several woods. up: unit direction up in the piece's frame; the floor is level, and holds the corners that lie within
    half a cell of the lowest. Raises Refusal where nothing is left.
    """
    whole = np.sum(shares, axis=0)
    there = whole > LEAST_SHARE
    if not there.any():
        raise Refusal(say("The piece is thinner than the cells of the deep check: ask for more cells."))
    nx, ny, nz = whole.shape
    x = origin[0] + size * np.arange(nx + 1)
    y = origin[1] + size * np.arange(ny + 1)
    level = x[:, None, None] * up[0] + y[None, :, None] * up[1] + heights * up[2]
    low = np.min([level[i : nx + i, j : ny + j, k : nz + k] for i in (0, 1) for j in (0, 1) for k in (0, 1)], axis=0)
    lowest = float(low[there].min())
    there = joined_to(there, low <= lowest + size / 2)

    bricks = []
    for share, of in zip(shares, which):
        cell = np.argwhere(there & (share > 0))
        at = tuple(cell.T)
        bricks.append((cell, share[at], of[at]))
    cell = np.concatenate([b[0] for b in bricks])
    share, wood = np.concatenate([b[1] for b in bricks]), np.concatenate([b[2] for b in bricks])
    thick = np.diff(heights)
    tall, alike = np.unique(np.round(thick / SAME_CELL) * SAME_CELL, return_inverse=True)
    lot_of = wood * len(tall) + alike.ravel()[cell[:, 2]]
    order = np.lexsort((cell[:, 2], cell[:, 1], cell[:, 0], lot_of))
    cell, share, wood, lot_of = cell[order], share[order], wood[order], lot_of[order]

    corner = np.array([[a & 1, a >> 1 & 1, a >> 2] for a in range(8)])
    across = np.array([(ny + 1) * (nz + 1), nz + 1, 1])
    flat = cell @ across + (corner @ across)[:, None]  # 8 × B
    used, corners = np.unique(flat, return_inverse=True)
    corners = corners.reshape(flat.shape).T
    place = np.column_stack(np.unravel_index(used, (nx + 1, ny + 1, nz + 1)))
    points = np.column_stack([x[place[:, 0]], y[place[:, 1]], heights[place[:, 2]]])

    lots = []
    for number in np.unique(lot_of):
        first, last = np.searchsorted(lot_of, [number, number + 1])
        w, height = int(number) // len(tall), float(tall[number % len(tall)])
        matrix = brick_stiffness(woods[w].stiffness, (size, size, height))
        lots.append(Lot(w, height, matrix, int(first), int(last)))
    stiff = max(float(np.diag(lot.matrix).max()) for lot in lots)
    floor = np.where(points @ up <= lowest + size / 2, FLOOR * stiff, 0.0)
    return Lattice(
        size, heights, (nx, ny), tuple(woods), tuple(lots), np.ascontiguousarray(corners), share, cell, wood, points,
        place, floor,
    )  # fmt: skip
