# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stress at a place, by a straight-line fit over the wood of its own layer about it: as the deep check reads its
own cells, so that the two figures mean the same. Lengths mm, stresses MPa."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.stress.readings import LEAST_REACH, REACH
from freecad_stacklam.lamination.tolerances import FIT_STIFFENER

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def window(at: Floats, place: Floats, size: float, level: bool, in_tenon: bool) -> Bools:
    """Which of points N × 3 (of the place's own layer or tenon) a fit at `place` reads, where the deep check's cells
    are `size` wide. level: the layer lies level, and is read over its whole thickness."""
    half = (max(LEAST_REACH, round(REACH / size)) + 0.5) * size
    away = np.abs(at - place)
    if in_tenon:
        return np.asarray(away[:, 2] <= half)
    near = (away[:, :2] <= half).all(axis=1)
    return np.asarray(near if level else near & (away[:, 2] <= half))


def fitted(at: Floats, stress: Floats, wood: Floats, place: Floats, size: float) -> Floats:
    """(6,) the stress at a place of the plane through those at points (N × 6), each counted by its wood (N)."""
    ones = np.column_stack([np.ones(len(at)), (at - place) / size])
    square = (ones * wood[:, None]).T @ ones
    square[1:, 1:] += FIT_STIFFENER * square[0, 0] * np.eye(3)
    value = np.linalg.solve(square, np.eye(4)[0])
    return np.asarray(((ones @ value) * wood) @ stress)
