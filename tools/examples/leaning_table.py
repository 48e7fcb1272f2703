# SPDX-License-Identifier: LGPL-2.1-or-later

"""The leaning table: a base that leans out of a broad foot, under a top like a pebble. All lengths mm.

The foot reaches under the middle of the top, so the lean is seen and not felt.
"""

from __future__ import annotations

from math import cos
from typing import Any

from examples.sculpted import closed, oval, row, sculpted

HEIGHT = 450.0  # of the base: ten layers of 45 mm
THICKNESS = 54.0  # of the top: two layers of 27 mm
#: The base row by row: height, middle along the lean, half its length and half its width, its turn in degrees.
BASE = (
    (0.0, 48.0, 170.0, 150.0, 0.0),
    (0.0, 48.0, 184.0, 164.0, 0.0),
    (14.0, 48.0, 190.0, 170.0, 2.0),
    (52.0, 41.0, 166.0, 148.0, 6.0),
    (105.0, 27.0, 126.0, 112.0, 14.0),
    (170.0, 22.0, 98.0, 88.0, 24.0),
    (240.0, 32.0, 84.0, 76.0, 34.0),
    (310.0, 48.0, 80.0, 72.0, 44.0),
    (375.0, 66.0, 86.0, 76.0, 52.0),
    (425.0, 80.0, 98.0, 86.0, 58.0),
    (446.0, 84.0, 106.0, 92.0, 60.0),
    (HEIGHT, 84.0, 108.0, 94.0, 60.0),
    (HEIGHT, 84.0, 100.0, 87.0, 60.0),
)
#: The top from the edge of its underside round the rim to its flat face: share of the outline, height.
RIM = (
    (0.60, 0.0),
    (0.68, 0.0),
    (0.84, 9.0),
    (0.96, 24.0),
    (1.005, 38.0),
    (1.0, 48.0),
    (0.975, THICKNESS),
    (0.93, THICKNESS),
)
LENGTH, WIDTH = 440.0, 370.0
MIDDLE = 52.0  # of the top, along the lean


def pebble(share: float) -> Any:
    """The top's outline, blunter at one end, for an angle in radians."""
    plain = oval(share * LENGTH / 2, share * WIDTH / 2)
    return lambda angle: plain(angle) * (1 + 0.035 * cos(angle + 0.6) + 0.02 * cos(3 * angle))


def base() -> Any:
    """The base, its foot at z = 0."""
    rows = [row(z, oval(along, across), middle=(x, 0.0), turn=turn) for z, x, along, across, turn in BASE]
    return closed(sculpted(rows, parts=3))


def top() -> Any:
    """The top, its underside on the base."""
    rows = [row(HEIGHT + z, pebble(share), middle=(MIDDLE, 0.0)) for share, z in RIM]
    return closed(sculpted(rows, parts=4))


def forms() -> dict[str, Any]:
    """The solids by their labels."""
    return {"Base": base(), "Top": top()}
