# SPDX-License-Identifier: LGPL-2.1-or-later

"""Movements of a lattice under forces: conjugate gradients in double precision, led by the grids of multigrid.py.

The leader works in single precision and is not quite symmetric, so the steps are those of the flexible kind.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.lattice import Lattice
from freecad_stacklam.lamination.elastic.multigrid import Multigrid, Operator, Stopped
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import COMPARED, SOLVED
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: More steps than this no sound piece takes: a square post four times as high as wide takes 12, of 25 times 17, of 75
#: times 100, to 1e-5 (measured).
MOST_STEPS = 250
#: Solved loads whose mixtures the next ones begin with: more would fill the memory and help little.
KNOWN = 24


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


class Known:
    """Loads that were solved on one lattice: their best mixture is where the next begins. One that stands where others
    stood, and pushes another way, then takes few steps or none."""

    def __init__(self) -> None:
        self._forces: list[Floats] = []
        self._moved: list[Floats] = []
        self._work = np.zeros((0, 0))

    def add(self, force: Floats, moved: Floats) -> None:
        """Keep one more, up to KNOWN."""
        if len(self._moved) >= KNOWN:
            return
        self._forces.append(force)
        self._moved.append(moved)
        work = np.array([[product(m, f) for f in self._forces] for m in self._moved[-1:]])[0]
        n = len(work) - 1
        both = np.zeros((n + 1, n + 1))
        both[:n, :n] = self._work
        both[n], both[:, n] = work, work
        self._work = both

    def start(self, force: Floats) -> Floats | None:
        """Movements that come nearest, in energy, to those of a load; None where nothing is known."""
        if not self._moved:
            return None
        scale = 1 / np.sqrt(np.diag(self._work))
        wanted = np.array([product(m, force) for m in self._moved]) * scale
        share = np.linalg.lstsq(self._work * scale[:, None] * scale, wanted, rcond=COMPARED)[0] * scale
        found = np.zeros_like(force)
        for part, moved in zip(share, self._moved):
            found += part * moved
        return found


class Solver:
    """One lattice made ready: every load on it is then one call. going: returns False to stop."""

    def __init__(self, lattice: Lattice, going: Callable[[], bool] = lambda: True) -> None:
        self.lattice = lattice
        self.operator = Operator(lattice)
        self._lead = Multigrid(lattice, going)

    def __call__(
        self, force: Floats, solved: float = SOLVED, going: Callable[[], bool] = lambda: True,
        start: Floats | None = None,
    ) -> Solution:  # fmt: skip
        """Movements for forces on the points, N × 3, N. start: movements to begin with. Raises Stopped when `going`
        says False within a step, and Refusal where the steps do not end."""
        moved, left = np.zeros_like(force), force.copy()
        goal = solved**2 * product(force, force)
        if start is not None:
            nearer = force - self.operator(start)
            if product(nearer, nearer) < product(force, force):
                moved, left = start.copy(), nearer
            if product(left, left) <= goal:
                return Solution(moved, 0, self._balance(force, moved))
        lead = self._lead(left, going).astype(np.float64)
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
            lead = self._lead(left, going).astype(np.float64)
            rate = product(left - before, lead) / before_it
            before_it = product(left, lead)
            step = lead + rate * step
        raise Refusal(
            say(
                "The deep check found no end, as the piece is too slender, or parts of it hang on a thread: thicken it "
                "there, or set the deep check to none and go by the sections."
            )
        )

    def _balance(self, force: Floats, moved: Floats) -> float:
        """Forces and moments that the floor does not answer, over those of the load (about the piece's middle)."""
        lattice = self.lattice
        back = -lattice.floor[:, None] * (moved @ lattice.firm)
        arm = lattice.points - lattice.points.mean(axis=0)
        size = float(np.abs(force).sum())
        reach = float(np.abs(np.cross(arm, force)).sum()) or 1.0
        missing = np.abs((force + back).sum(axis=0)).max() / size
        turning = np.abs(np.cross(arm, force + back).sum(axis=0)).max() / reach
        return float(max(missing, turning))
