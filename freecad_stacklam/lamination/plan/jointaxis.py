# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint's own frame: its axis is the third direction, its section lies in the first two. All members share it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class JointAxis:
    """A point and three unit directions in the model: `side` along the section's first side, `other`, and `along`."""

    point: Floats
    side: Floats
    other: Floats
    along: Floats

    def local(self, points: Floats) -> Floats:
        """Model → joint coordinates, N × 3: along the sides, and along the axis from the point."""
        return np.asarray((points - self.point) @ np.stack([self.side, self.other, self.along]).T)

    def model(self, points: Floats) -> Floats:
        """Joint → model coordinates, N × 3."""
        return np.asarray(self.point + points @ np.stack([self.side, self.other, self.along]))


def joint_axis(point: Sequence[float], direction: Sequence[float], turn: float = 0.0) -> JointAxis:
    """The frame of a joint. With turn 0 the first side lies along the model's x as seen along the axis (along its y for
    an axis near x); `turn` turns it to the left about the direction, degrees."""
    along = np.asarray(direction, dtype=np.float64)
    along = along / np.linalg.norm(along)
    across = np.array([1.0, 0.0, 0.0]) if abs(along[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    side = across - along * (across @ along)
    side = side / np.linalg.norm(side)
    other = np.cross(along, side)
    c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    return JointAxis(np.asarray(point, dtype=np.float64), c * side + s * other, c * other - s * side, along)
