# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which planes or slabs each triangle or edge passes, written out pair by pair."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def pairs_of(first: Ints, last: Ints) -> tuple[Ints, Ints]:
    """Every pair of a row and a whole number from its first to its last, both N long: the rows and the numbers, K long,
    row by row. A row whose last comes before its first has none.

    >>> pairs_of(np.array([4, 9, 0]), np.array([5, 8, 0]))
    (array([0, 0, 2]), array([4, 5, 0]))
    """
    count = np.maximum(last - first + 1, 0)
    row = np.repeat(np.arange(len(count)), count)
    return row, first[row] + np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
