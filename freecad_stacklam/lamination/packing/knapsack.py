# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bounded knapsack by dynamic programming over whole cells, one numpy pass per step: what fits worth most."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import NO_WORTH

Floats = NDArray[np.float64]


class Knapsack:
    """Best worth for every room up to `cells`, after each thing that was added."""

    def __init__(self, cells: int) -> None:
        self.cells = cells
        self.rows: list[Floats] = [np.zeros(cells + 1)]
        self._steps: list[tuple[int, int, int, NDArray[np.bool_]]] = []

    @property
    def stop(self) -> int:
        """How many steps were made: the number of the row that holds what was added so far."""
        return len(self._steps)

    def add(self, key: int, weight: int, worth: float, many: int) -> None:
        """Allow up to `many` things of `weight` cells and `worth` each. Multiples 1, 2, 4 … and a rest are steps."""
        left, part = min(many, self.cells // weight), 1
        while left > 0:
            n = min(part, left)
            left -= n
            part *= 2
            w = n * weight
            now = self.rows[-1]
            more = now[: self.cells + 1 - w] + n * worth
            take = np.zeros(self.cells + 1, dtype=bool)
            take[w:] = more > now[w:] + NO_WORTH
            after = now.copy()
            np.maximum(after[w:], more, out=after[w:])
            self.rows.append(after)
            self._steps.append((key, n, w, take))

    def chosen(self, cell: int, stop: int | None = None) -> list[tuple[int, int]]:
        """(key, how many) of the best content of a room of `cell` cells, the last added first."""
        found = []
        for key, n, weight, take in reversed(self._steps[:stop]):
            if take[cell]:
                found.append((key, n))
                cell -= weight
        return found
