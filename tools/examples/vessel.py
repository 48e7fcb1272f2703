# SPDX-License-Identifier: LGPL-2.1-or-later

"""The vessel: one solid with an open inside, so that most of its layers are rings. All lengths mm.

Five soft lobes turn as they rise from a plain foot and fade into a plain rim.
"""

from __future__ import annotations

from typing import Any

from examples.sculpted import closed, lobed, row, sculpted

HEIGHT = 243.0  # nine layers of 27 mm
FLOOR = 34.0
#: Outside from the foot up, over the rim, and inside down to the floor: height, mean radius, depth of the lobes as a
#: share of it, their turn in degrees.
NET = (
    (0.0, 82.0, 0.0, 0.0),
    (0.0, 90.0, 0.0, 0.0),
    (12.0, 93.0, 0.010, 4.0),
    (45.0, 110.0, 0.035, 12.0),
    (90.0, 128.0, 0.060, 24.0),
    (135.0, 130.0, 0.060, 36.0),
    (180.0, 112.0, 0.040, 48.0),
    (212.0, 96.0, 0.015, 56.0),
    (232.0, 98.0, 0.0, 60.0),
    (243.2, 103.0, 0.0, 60.0),
    (242.6, 90.0, 0.0, 60.0),
    (226.0, 78.0, 0.0, 60.0),
    (208.0, 78.0, 0.015, 56.0),
    (178.0, 93.0, 0.040, 48.0),
    (135.0, 111.0, 0.060, 36.0),
    (92.0, 108.0, 0.060, 24.0),
    (58.0, 86.0, 0.035, 12.0),
    (38.0, 60.0, 0.010, 4.0),
    (FLOOR, 34.0, 0.0, 0.0),
    (FLOOR, 20.0, 0.0, 0.0),
)


def vessel() -> Any:
    """The vessel, its foot at z = 0."""
    rows = [row(height, lobed(radius, 5, depth), turn=turn) for height, radius, depth, turn in NET]
    return closed(sculpted(rows, parts=4))


def forms() -> dict[str, Any]:
    """The solids by their labels."""
    return {"Vessel": vessel()}
