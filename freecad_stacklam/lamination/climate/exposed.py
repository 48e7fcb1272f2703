# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which faces of a body's cells the air of the room reaches, and how much of a stepped face is true surface."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

#: Times a filled part is smoothed with its neighbours before its slope is read as the surface's direction.
SMOOTHED = 2


def room_air(wood: Flags) -> Flags:
    """Where air is that is joined to the room: what lies outside the grid is room. A closed void is not.

    Sweeps along the axes, there and back, until nothing is added: air behind a corner takes one round more.
    """
    air = np.pad(~wood, 1, constant_values=True)
    reached = np.zeros_like(air)
    for axis in range(3):
        faces = np.moveaxis(reached, axis, 0)
        faces[0] = faces[-1] = True
    found = 0
    while (count := int(np.count_nonzero(reached))) > found:
        found = count
        for axis in range(3):
            mine, free = np.moveaxis(reached, axis, 0), np.moveaxis(air, axis, 0)
            for i in range(1, len(mine)):
                mine[i] |= mine[i - 1] & free[i]
            for i in range(len(mine) - 2, -1, -1):
                mine[i] |= mine[i + 1] & free[i]
    return np.asarray(reached[1:-1, 1:-1, 1:-1])


def _smooth(part: Floats) -> Floats:
    """One pass of (1, 2, 1) / 4 along each axis; the grid's own faces are air beyond, so `part` must be padded."""
    for axis in range(3):
        line = np.moveaxis(part, axis, 0)
        inner = (line[:-2] + 2 * line[1:-1] + line[2:]) / 4
        part = part.copy()
        np.moveaxis(part, axis, 0)[1:-1] = inner
    return part


def true_share(filled: Floats, steps: tuple[float, float, float]) -> Floats:
    """Area of the true surface over that of the steps which stand for it: 1 / (|nx| + |ny| + |nz|), n the direction in
    which the smoothed filled part falls; 1 on a level or upright face, down to 0.577 on a slant. Shape of `filled`.

    A stepped face has |nx| + |ny| + |nz| times the area of the plane it stands for, whatever the size of the cells.
    """
    rim = SMOOTHED + 1
    part = np.pad(filled, rim)
    for _ in range(SMOOTHED):
        part = _smooth(part)
    total = np.zeros_like(part)
    square = np.zeros_like(part)
    for axis, step in enumerate(steps):
        slope = np.gradient(part, step, axis=axis)
        total += np.abs(slope)
        square += slope**2
    flat = total <= 0
    share = np.sqrt(square) / np.where(flat, 1.0, total)
    share[flat] = 1.0
    inside = (slice(rim, -rim),) * 3
    return np.asarray(share[inside])
