# SPDX-License-Identifier: LGPL-2.1-or-later

"""A body of bricks on coarser and coarser grids, so that a load is solved in about a dozen steps.

Every coarse brick is two by two by two finer ones, with the stiffness that those have together when their corners move
as the coarse brick's do (Galerkin). On each grid the error that it can show is smoothed by Chebyshev's polynomials with
the 3 × 3 blocks of the points themselves; the coarsest is solved outright. All of it in single precision: it only
points the way, the steps outside (solve.py) are exact.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.coarser import Between, Bricks, between, first_coarse, next_coarse, numbered
from freecad_stacklam.lamination.elastic.element import CORNERS
from freecad_stacklam.lamination.elastic.lattice import Lattice

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int64]
#: Of either precision.
Numbers = NDArray[Any]

#: Bricks multiplied at once: small enough that the library's threads stay asleep, which is quicker on a busy machine.
CHUNK = 448
#: Smoothing steps before and after each coarser grid: with three, loads take a fifth fewer steps, each a third longer.
SMOOTHING = 2
#: The part of the spectrum that is left to the coarser grid, and how much its end may be underrated.
LEFT, OVER = 0.1, 1.1
#: Steps in which the largest eigenvalue is sought.
_POWER = 12
#: Unknowns that are solved outright.
COARSEST = 1200


class Stopped(Exception):
    """The maker stopped the check, or its time is over."""


def _always() -> bool:
    return True


class Operator:
    """Forces for movements of the points, brick by brick, without a matrix of the whole; in either precision."""

    def __init__(self, lattice: Lattice, kind: type = np.float64) -> None:
        self._kind = kind
        self._corners = lattice.corners.astype(np.int32)
        self._lots: list[tuple[int, int, Numbers]] = [
            (lot.first, lot.last, lot.matrix.astype(kind)) for lot in lattice.lots
        ]
        self._share: Numbers = lattice.share.astype(kind)[:, None]
        self._held = np.flatnonzero(lattice.floor)
        self._hold: Numbers = (lattice.floor[self._held, None, None] * lattice.firm).astype(kind)
        flat = self._corners.ravel()
        self._order = np.argsort(flat, kind="stable").astype(np.int32)
        self._starts = np.searchsorted(flat[self._order], np.arange(len(lattice.points)))
        self._force: Numbers = np.empty((len(flat) // 8, 24), dtype=kind)

    def __call__(self, moved: Numbers) -> Numbers:
        """N × 3 movements → N × 3 forces."""
        for first, last, matrix in self._lots:
            for at in range(first, last, CHUNK):
                some = slice(at, min(at + CHUNK, last))
                own = moved.take(self._corners[some], axis=0).reshape(-1, 24)
                own *= self._share[some]
                np.matmul(own, matrix, out=self._force[some])
        parts = self._force.reshape(-1, 3).take(self._order, axis=0)
        found = np.add.reduceat(parts, self._starts, axis=0)
        found[self._held] += np.einsum("nij,nj->ni", self._hold, moved[self._held])
        return found

    def blocks(self) -> Numbers:
        """The 3 × 3 of every point with itself, N × 3 × 3."""
        flat: Numbers = np.empty((len(self._share), 8, 3, 3), dtype=self._kind)
        for first, last, matrix in self._lots:
            own = np.stack([matrix[3 * a : 3 * a + 3, 3 * a : 3 * a + 3] for a in range(8)])
            flat[first:last] = self._share[first:last, :, None, None] * own
        found = np.add.reduceat(flat.reshape(-1, 9)[self._order], self._starts, axis=0).reshape(-1, 3, 3)
        found[self._held] += self._hold
        return found


@dataclass(frozen=True, eq=False)
class Coarse:
    """A coarse grid: each point's 27 neighbours (itself among them) and the 3 × 81 with them; −1 stands for none."""

    near: Ints
    matrix: Singles

    def __call__(self, moved: Singles) -> Singles:
        """N × 3 movements → N × 3 forces."""
        padded = np.vstack([moved, np.zeros((1, 3), dtype=np.float32)])
        found = np.empty_like(moved)
        for at in range(0, len(moved), 16 * CHUNK):
            some = slice(at, at + 16 * CHUNK)
            own = padded.take(self.near[some], axis=0).reshape(-1, 81, 1)
            found[some] = np.matmul(self.matrix[some], own)[:, :, 0]
        return found

    def blocks(self) -> Singles:
        """The 3 × 3 of every point with itself."""
        return self.matrix.reshape(-1, 3, 27, 3)[:, :, 13]

    def dense(self) -> Floats:
        """All of it as one square matrix."""
        n = len(self.near)
        whole = np.zeros((n, 3, n + 1, 3))
        rows = np.repeat(np.arange(n), 27)
        parts = self.matrix.reshape(n, 3, 27, 3).transpose(0, 2, 1, 3).reshape(-1, 3, 3)
        whole[rows, :, self.near.ravel(), :] = parts
        return np.asarray(whole[:, :, :n].reshape(3 * n, 3 * n))


def coarse_of(bricks: Bricks) -> Coarse:
    """The matrix of bricks, point by point."""
    number = numbered(bricks.place)
    steps = np.array([[i, j, k] for i in (0, 1, 2) for j in (0, 1, 2) for k in (0, 1, 2)])
    near = number[tuple((bricks.place[:, None] + steps).transpose(2, 0, 1))]
    matrix = np.zeros((len(near), 3, 27, 3), dtype=np.float32)
    for a in range(8):
        for b in range(8):
            step = int((CORNERS[b] - CORNERS[a]) @ [9, 3, 1]) // 2 + 13
            matrix[bricks.corners[:, a], :, step, :] += bricks.matrix[:, 3 * a : 3 * a + 3, 3 * b : 3 * b + 3]
    return Coarse(near, matrix.reshape(-1, 3, 81))


class Smoother:
    """Chebyshev's polynomial of an operator scaled by its own 3 × 3 blocks."""

    def __init__(self, operator: Operator | Coarse) -> None:
        self._operator = operator
        blocks = operator.blocks().astype(np.float64)
        self._inverse = np.linalg.inv(blocks).astype(np.float32)
        guess = np.random.default_rng(1).standard_normal((len(blocks), 3)).astype(np.float32)
        largest = 1.0
        for _ in range(_POWER):
            guess = self._scaled(operator(guess))
            largest = float(np.sqrt(np.einsum("ij,ij->", guess, guess)))
            guess /= np.float32(largest)
        high = OVER * largest
        self._middle, self._half = (1 + LEFT) * high / 2, (1 - LEFT) * high / 2

    def _scaled(self, force: Numbers) -> Numbers:
        return np.asarray(np.einsum("nij,nj->ni", self._inverse, force))

    def __call__(self, force: Singles, moved: Singles | None) -> Singles:
        """Better movements for these forces, from `moved`, or from none."""
        left = force if moved is None else force - self._operator(moved)
        sigma = self._middle / self._half
        rho = 1 / sigma
        step = self._scaled(left) * np.float32(1 / self._middle)
        found = step if moved is None else moved + step
        for _ in range(SMOOTHING - 1):
            left = left - self._operator(step)
            following = 1 / (2 * sigma - rho)
            step = np.float32(following * rho) * step + np.float32(2 * following / self._half) * self._scaled(left)
            found = found + step
            rho = following
        return np.asarray(found, dtype=np.float32)


class Multigrid:
    """All grids of a lattice; called with forces, it gives movements near to the true ones. going: says False to stop,
    by Stopped; it is asked between any two things that take long."""

    def __init__(self, lattice: Lattice, going: Callable[[], bool] = _always) -> None:
        operator: Operator | Coarse = Operator(lattice, np.float32)
        self._levels: list[tuple[Smoother, Operator | Coarse, Between]] = []
        place, heights, bricks = lattice.place, lattice.heights, first_coarse(lattice)
        while True:
            if not going():
                raise Stopped
            level = coarse_of(bricks)
            self._levels.append((Smoother(operator), operator, between(place, heights, bricks)))
            if 3 * len(bricks.place) <= COARSEST or len(bricks.cell) <= 8:
                break
            operator, place, heights = level, bricks.place, bricks.heights
            bricks = next_coarse(bricks)
        dense = level.dense()
        scale = 1 / np.sqrt(np.maximum(np.diag(dense), np.finfo(np.float64).tiny))
        eigen, vectors = np.linalg.eigh(dense * scale[:, None] * scale)
        kept = eigen > eigen[-1] * np.finfo(np.float32).eps
        inverse = (vectors[:, kept] / eigen[kept]) @ vectors[:, kept].T
        self._last = (inverse * scale[:, None] * scale).astype(np.float32)

    def __call__(self, force: Numbers, going: Callable[[], bool] = _always) -> Singles:
        """One V-cycle."""
        size = float(np.sqrt(np.einsum("ij,ij->", force, force))) or 1.0
        return self._cycle(0, (force / size).astype(np.float32), going) * np.float32(size)

    def _cycle(self, depth: int, force: Singles, going: Callable[[], bool]) -> Singles:
        if depth == len(self._levels):
            # Not by the library's product: it would wake its threads, which then spin through all that follows.
            return np.asarray(np.einsum("ij,j->i", self._last, force.ravel())).reshape(-1, 3)
        smooth, operator, between = self._levels[depth]
        moved = smooth(force, None)
        if depth == 0 and not going():
            raise Stopped
        left = force - operator(moved)
        moved = moved + between.finer(self._cycle(depth + 1, between.coarser(left), going))
        if depth == 0 and not going():
            raise Stopped
        return smooth(force, moved)
