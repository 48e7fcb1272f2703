# SPDX-License-Identifier: LGPL-2.1-or-later

"""From bricks to bricks twice as large: their matrices, and how their points move those of the finer ones.

Heights are halved where they are, equal or not, so that a body that only turns is seen as such on every grid.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.lattice import Lattice

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int64]

_CORNER = np.array([[a & 1, a >> 1 & 1, a >> 2] for a in range(8)])
#: Matrices multiplied at once, so that memory stays small.
_SOME = 4096


@dataclass(frozen=True, eq=False)
class Bricks:
    """Bricks with a matrix each: `cell` (B × 3) in their grid, whose planes lie at `heights`; `place` (N × 3) of their
    points in the grid of corners, `corners` (B × 8) which points a brick has."""

    cell: Ints
    matrix: Singles
    heights: Floats
    place: Ints
    corners: Ints


@dataclass(frozen=True, eq=False)
class Between:
    """From the points of a coarse grid to those of the next finer one, and back. Sorted by fine point."""

    columns: Ints
    weights: Singles
    starts: Ints
    back: Ints
    back_rows: Ints
    back_starts: Ints

    def finer(self, coarse: Singles) -> Singles:
        """Movements of the coarse points, interpolated; N × 3."""
        return np.asarray(np.add.reduceat(coarse.take(self.columns, axis=0) * self.weights, self.starts, axis=0))

    def coarser(self, fine: Singles) -> Singles:
        """Forces on the fine points, handed to the coarse ones; N × 3."""
        parts = fine.take(self.back_rows, axis=0) * self.weights.take(self.back, axis=0)
        return np.asarray(np.add.reduceat(parts, self.back_starts, axis=0))


def halved(heights: Floats) -> tuple[Floats, Floats]:
    """Every second height, one more beyond the last where there is no partner; and where between two of them the one
    left out lies, 0 to 1."""
    whole = heights if len(heights) % 2 else np.append(heights, 2 * heights[-1] - heights[-2])
    kept = whole[::2]
    return kept, (whole[1::2] - kept[:-1]) / np.diff(kept)


def first_coarse(lattice: Lattice) -> Bricks:
    """Bricks twice as large as the lattice's, the floor counted in."""
    heights, split = halved(lattice.heights)
    cell, parent = np.unique(lattice.cell // 2, axis=0, return_inverse=True)
    parent = parent.ravel()
    matrix = np.zeros((len(cell), 24, 24), dtype=np.float32)
    for lot in lattice.lots:
        some = slice(lot.first, lot.last)
        for which, spread in _positions(lattice.cell[some], split):
            own = (spread.T @ lot.matrix @ spread).astype(np.float32)
            share = lattice.share[some][which].astype(np.float32)
            matrix[parent[some][which]] += share[:, None, None] * own
    held = np.flatnonzero(lattice.floor)
    flat = lattice.corners.ravel()
    order = np.argsort(flat, kind="stable")
    first = order[np.searchsorted(flat[order], held)]
    for corner in range(8):
        at = first[first % 8 == corner] // 8
        stiff = lattice.floor[held[first % 8 == corner]].astype(np.float32)
        for which, spread in _positions(lattice.cell[at], split):
            row = spread[3 * corner : 3 * corner + 3]
            matrix[parent[at][which]] += stiff[which, None, None] * (row.T @ lattice.firm @ row).astype(np.float32)
    return _bricks(cell, matrix, heights)


def next_coarse(fine: Bricks) -> Bricks:
    """Bricks twice as large again."""
    heights, split = halved(fine.heights)
    cell, parent = np.unique(fine.cell // 2, axis=0, return_inverse=True)
    parent = parent.ravel()
    matrix = np.zeros((len(cell), 24, 24), dtype=np.float32)
    for which, spread in _positions(fine.cell, split):
        spread = spread.astype(np.float32)
        for at in range(0, len(which), _SOME):
            some = which[at : at + _SOME]
            matrix[parent[some]] += spread.T @ (fine.matrix[some] @ spread)
    return _bricks(cell, matrix, heights)


def _positions(cell: Ints, split: Floats) -> Iterator[tuple[Ints, Floats]]:
    """Bricks that lie alike in their coarser ones, and (24, 24) how its corners move theirs."""
    at = split[cell[:, 2] // 2]
    kinds, kind = np.unique(np.round(at, 9), return_inverse=True)
    number = kind.ravel() * 8 + (cell % 2) @ np.array([1, 2, 4])
    for one in np.unique(number):
        child, middle = _CORNER[one % 8], float(kinds[one // 8])
        along = (child + _CORNER) / 2.0
        along[:, 2] = np.array([0.0, middle, 1.0])[child[2] + _CORNER[:, 2]]
        near = np.where(_CORNER[None], along[:, None], 1 - along[:, None]).prod(axis=2)
        yield np.flatnonzero(number == one), np.kron(near, np.eye(3))


def _bricks(cell: Ints, matrix: Singles, heights: Floats) -> Bricks:
    size = cell.max(axis=0) + 2
    flat = np.ravel_multi_index(tuple((cell[:, None] + _CORNER).transpose(2, 0, 1)), tuple(size))
    used, corners = np.unique(flat, return_inverse=True)
    place = np.column_stack(np.unravel_index(used, tuple(size)))
    return Bricks(cell, matrix, heights, place, corners.reshape(flat.shape))


def numbered(place: Ints) -> Ints:
    """The numbers of points by their place in the grid, −1 where there is none; with a rim of −1 all round."""
    found = np.full(tuple(place.max(axis=0) + 3), -1)
    found[tuple((place + 1).T)] = np.arange(len(place))
    return found


def between(place: Ints, heights: Floats, coarse: Bricks) -> Between:
    """How the coarse points move the points at `place` of a grid with planes at `heights`."""
    _, split = halved(heights)
    number = numbered(coarse.place)
    odd = (place % 2).astype(bool)
    high = np.where(odd, 0.5, 0.0)
    high[:, 2] = np.where(odd[:, 2], split[np.minimum(place[:, 2] // 2, len(split) - 1)], 0.0)
    weights = np.where(_CORNER[None], high[:, None], 1 - high[:, None]).prod(axis=2)  # N × 8
    target = place[:, None] // 2 + _CORNER + 1
    target = np.minimum(target, np.array(number.shape) - 1)
    columns = number[tuple(target.transpose(2, 0, 1))]
    used = weights > 0
    rows = np.repeat(np.arange(len(place)), used.sum(axis=1))
    columns, flat = columns[used], weights[used].astype(np.float32)[:, None]
    back = np.argsort(columns, kind="stable")
    return Between(
        columns, flat, np.searchsorted(rows, np.arange(len(place))), back, rows[back],
        np.searchsorted(columns[back], np.arange(len(coarse.place))),
    )  # fmt: skip
