# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stresses at places on the surface, each read by a straight-line fit over the wood of its own layer around it.

The stress of a single cell at a stepped surface is off by a fifth either way. A plane through those of all cells of the
layer about the place, each counted by how much of it is wood, is right within a few per cent in cells of a seventh of
a neck's width. A reading is then a sum over cells with fixed weights; turned round, it is the load whose movements are
its influence map. Lengths mm, stresses MPa.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.element import middle_strain
from freecad_stacklam.lamination.elastic.lattice import Lattice
from freecad_stacklam.lamination.stress.materials import Body
from freecad_stacklam.lamination.stress.samples import Places
from freecad_stacklam.lamination.tolerances import FIT_STIFFENER

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int64]

#: How far to each side the fit of a place reaches, mm, and at least in cells.
REACH, LEAST_REACH = 18.0, 2
#: Places fitted at once.
_SOME = 512


@dataclass(frozen=True, eq=False)
class Readings:
    """Which cells each place reads (`bricks`, with `weights`, from `starts` on), on one lattice. Places that can be
    read are those of `places`."""

    lattice: Lattice
    places: Places
    bricks: Ints
    weights: Singles
    starts: Ints
    forces: tuple[Floats, ...]  # of each lot: (24, 6) stresses in the middle for movements

    def stresses(self, moved: Floats) -> Floats:
        """P × 6 stresses at the places for movements of the points."""
        middle = np.empty((6, len(self.lattice.share)), dtype=np.float32)
        for lot, matrix in zip(self.lattice.lots, self.forces):
            some = slice(lot.first, lot.last)
            middle[:, some] = (moved[self.lattice.corners[some]].reshape(-1, 24) @ matrix).T
        found = np.empty((len(self.starts), 6))
        ends = np.append(self.starts[1:], len(self.bricks))
        for at in range(0, len(self.starts), _SOME):  # few at once, and one stress after the other: they stay at hand
            firsts = self.starts[at : at + _SOME]
            some = slice(int(firsts[0]), int(ends[at : at + _SOME][-1]))
            for number in range(6):
                parts = middle[number].take(self.bricks[some])
                parts *= self.weights[some]
                found[at : at + _SOME, number] = np.add.reduceat(parts, firsts - firsts[0])
        return found

    def load_of(self, place: int, parts: Floats) -> Floats:
        """The forces on the points, N × 3, whose movements are the influence map of a reading: of the sum of the six
        stresses at a place, each times its part. Moved points then read how much 1 N there adds to it."""
        end = self.starts[place + 1] if place + 1 < len(self.starts) else len(self.bricks)
        some = slice(int(self.starts[place]), int(end))
        found = np.zeros(self.lattice.points.shape)
        lots = np.array([lot.first for lot in self.lattice.lots])
        for brick, weight in zip(self.bricks[some], self.weights[some]):
            matrix = self.forces[int(np.searchsorted(lots, brick, side="right")) - 1]
            found[self.lattice.corners[brick]] += weight * (matrix @ parts).reshape(8, 3)
        return found


def readings_on(body: Body, places: Places) -> Readings:
    """Fit every place, over the bricks of its own layer or tenon."""
    lattice, group, level = body.lattice, body.group, body.level
    nz = len(lattice.heights) - 1
    reach = max(LEAST_REACH, round(REACH / lattice.size))
    numbers = {w: _number(lattice, group == w) for w in np.unique(group[places.brick])}
    bricks, weights, sizes = [], [], []
    middles = lattice.middles
    for at in range(0, len(places.brick), _SOME):
        chosen = slice(at, at + _SOME)
        own = places.brick[chosen]
        window, count = _windows(lattice, own, group, level, places.in_tenon[chosen], reach, nz, numbers)
        row = np.repeat(np.arange(len(own)), count)
        away = (middles[window] - places.points[chosen][row]) / lattice.size
        ones = np.column_stack([np.ones(len(away)), away])
        share = lattice.share[window]
        firsts = np.cumsum(count) - count
        square = np.add.reduceat((ones[:, :, None] * ones[:, None, :] * share[:, None, None]).reshape(-1, 16), firsts)
        square = square.reshape(-1, 4, 4)
        whole = square[:, 0, 0]
        for i in (1, 2, 3):
            square[:, i, i] += FIT_STIFFENER * whole
        value = np.linalg.solve(square, np.broadcast_to(np.eye(4)[:, :1], (len(own), 4, 1)))[:, :, 0]
        bricks.append(window)
        weights.append(((ones * value[row]).sum(axis=1) * share).astype(np.float32))
        sizes.append(count)
    size = np.concatenate(sizes)
    forces = tuple((lattice.woods[lot.wood].stiffness @ middle_strain(lattice.sides(lot))).T for lot in lattice.lots)
    return Readings(lattice, places, np.concatenate(bricks), np.concatenate(weights), np.cumsum(size) - size, forces)


def _number(lattice: Lattice, own: NDArray[np.bool_]) -> Ints:
    """The bricks of a group by their place in the grid, −1 elsewhere."""
    found = np.full((*lattice.count, len(lattice.heights) - 1), -1)
    which = np.flatnonzero(own)
    found[tuple(lattice.cell[which].T)] = which
    return found


def _windows(
    lattice: Lattice, own: Ints, group: Ints, level: NDArray[np.bool_], in_tenon: NDArray[np.bool_], reach: int,
    nz: int, numbers: dict[int, Ints],
) -> tuple[Ints, Ints]:  # fmt: skip
    """The bricks that each place reads, place by place, and how many."""
    window, count = [], np.zeros(len(own), dtype=np.int64)
    for place, brick in enumerate(own):
        i, j, k = lattice.cell[brick]
        number = numbers[group[brick]]
        if in_tenon[place]:  # all its section
            part = number[:, :, max(0, k - reach) : k + reach + 1]
        else:
            low, high = (0, nz) if level[brick] else (max(0, k - reach), k + reach + 1)
            part = number[max(0, i - reach) : i + reach + 1, max(0, j - reach) : j + reach + 1, low:high]
        found = part[part >= 0]
        window.append(found)
        count[place] = len(found)
    return np.concatenate(window), count
