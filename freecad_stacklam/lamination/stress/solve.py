# SPDX-License-Identifier: LGPL-2.1-or-later

"""Movements of a lattice under forces: conjugate gradients in double precision, led by the grids of multigrid.py.

The leader works in single precision and is not quite symmetric, so the steps are those of the flexible kind.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.lattice import Lattice
from freecad_stacklam.lamination.stress.multigrid import Multigrid, Operator
from freecad_stacklam.lamination.tolerances import SOLVED

Floats = NDArray[np.float64]

#: More steps than this no sound piece takes: a square post four times as high as wide takes 7, of 25 times 22, of 75
#: times 68 (measured).
MOST_STEPS = 150


@dataclass(frozen=True, eq=False)
class Solution:
    """`moved`: N × 3 mm of the lattice's points; `steps` it took; `balance`: how far the floor's forces are from the
    load, as a part of it, force by force and moment by moment."""

    moved: Floats
    steps: int
    balance: float


def product(one: Floats, other: Floats) -> float:
    """The sum of products. Not by the library's: on long arrays that wakes its threads, which then spin."""
    return float(np.einsum("ij,ij->", one, other))


class Stopped(Exception):
    """The maker stopped the check."""


class Solver:
    """One lattice made ready: every load on it is then one call. tell: returns False to stop."""

    def __init__(self, lattice: Lattice) -> None:
        self.lattice = lattice
        self.operator = Operator(lattice)
        self._lead = Multigrid(lattice)

    def __call__(self, force: Floats, solved: float = SOLVED, going: Callable[[], bool] = lambda: True) -> Solution:
        """Movements for forces on the points, N × 3, N. Raises Stopped when `going` says False between two steps, and
        Refusal where the steps do not end."""
        moved, left = np.zeros_like(force), force.copy()
        goal = solved**2 * product(force, force)
        lead = self._lead(left).astype(np.float64)
        step, before_it = lead, product(left, lead)
        for steps in range(1, MOST_STEPS + 1):
            if not going():
                raise Stopped
            answer = self.operator(step)
            length = before_it / product(step, answer)
            moved += length * step
            before, left = left, left - length * answer
            if product(left, left) <= goal:
                return Solution(moved, steps, self._balance(force, moved))
            lead = self._lead(left).astype(np.float64)
            rate = product(left - before, lead) / before_it
            before_it = product(left, lead)
            step = lead + rate * step
        raise Refusal(
            "The deep check found no end, as the piece is too slender, or parts of it hang on a thread: thicken it "
            "there, or set the deep check to none and go by the sections."
        )

    def _balance(self, force: Floats, moved: Floats) -> float:
        """Forces and moments that the floor does not answer, over those of the load (about the piece's middle)."""
        lattice = self.lattice
        back = -lattice.floor[:, None] * moved
        arm = lattice.points - lattice.points.mean(axis=0)
        size = float(np.abs(force).sum())
        reach = float(np.abs(np.cross(arm, force)).sum()) or 1.0
        missing = np.abs((force + back).sum(axis=0)).max() / size
        turning = np.abs(np.cross(arm, force + back).sum(axis=0)).max() / reach
        return float(max(missing, turning))
