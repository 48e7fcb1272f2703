# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a piece comes to rest on a level floor under its own weight.

It rests on that face of its convex hull which lies under its centre of mass. The height of the lower hull there is the
least of all weighted means of points, the weights 0 or more, that lie at the centre in plan; three points suffice. They
are found as the simplex method does: from three far ones on, the point that lies deepest under the plane of the three
takes the place of one of them, until none lies under it.
"""

from __future__ import annotations

from math import atan, degrees, hypot

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import FRAME_ROUNDING, ROUNDING

Floats = NDArray[np.float64]

#: The far points lie so many times the size of the piece away, in plan and in height.
_FAR = (10.0, 1000.0)
#: The centre is moved in plan by this part of ROUNDING, another in x and in y, so that it lies on no line of points.
_OFF = (0.61, 0.37)
#: More exchanges than any piece needs: each makes the height lower.
_MOST = 1000


def resting_plane(points: Floats, centre: Floats) -> tuple[float, float, float]:
    """The floor as the piece sees it when it rests: z = a·x + b·y + c, returned as (a, b, c).

    points: N × 3, mm, z up. centre: of mass, 3. A slope that is only rounding is 0.
    """
    plan = points[:, :2] - centre[:2]
    size = float(max(np.ptp(points, axis=0).max(), 1.0))
    turns = np.radians([90.0, 210.0, 330.0])
    far = _FAR[0] * size * np.column_stack([np.cos(turns), np.sin(turns)])
    plan = np.vstack([plan, far])
    heights = np.concatenate([points[:, 2] - points[:, 2].min(), np.full(3, _FAR[1] * size)])
    three = np.arange(len(points), len(plan))
    wanted = np.array([_OFF[0] * ROUNDING, _OFF[1] * ROUNDING, 1.0])
    for _ in range(_MOST):
        corners = np.column_stack([plan[three], np.ones(3)])
        plane = np.linalg.solve(corners, heights[three])
        over = heights - plan @ plane[:2] - plane[2]
        deepest = int(over.argmin())
        if over[deepest] >= -FRAME_ROUNDING * size:
            break
        share = np.linalg.solve(corners.T, np.array([*plan[deepest], 1.0]))
        weights = np.linalg.solve(corners.T, wanted)
        ways = np.full(3, np.inf)
        ways[share > 0] = weights[share > 0] / share[share > 0]
        three[int(ways.argmin())] = deepest
    a, b = (0.0 if abs(slope) * size < ROUNDING else float(slope) for slope in plane[:2])
    low = float((points[:, 2] - a * points[:, 0] - b * points[:, 1]).min())
    return a, b, low


def tilt_of(plane: tuple[float, float, float]) -> float:
    """Angle between the floor and the level of the model, degrees."""
    return degrees(atan(hypot(plane[0], plane[1])))


def over_floor(points: Floats, plane: tuple[float, float, float]) -> Floats:
    """The points with their heights above the floor, N × 3: as they stand, for tilts of a few degrees."""
    a, b, c = plane
    stood = points.copy()
    stood[:, 2] = points[:, 2] - a * points[:, 0] - b * points[:, 1] - c
    return stood
