# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the force of one pad spreads in wood, by two rules: a bell for the pressure, a cone for what is reached. mm."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def bell_shape(apart2: Floats, depth: float) -> Floats:
    """Pressure beside the middle over that in the middle, `depth` under a point load and the square root of `apart2`
    beside it: (1 + r²/z²)^−2.5 (Boussinesq's half-space; any handbook of elasticity or of soils)."""
    return np.asarray((1.0 + apart2 / depth**2) ** -2.5)


def cone_width(pad: float, depth: float) -> float:
    """Width of what a pad reaches at a depth, by the rule of 45°: d + 2 h (common practice, no source)."""
    return pad + 2 * depth
