# SPDX-License-Identifier: LGPL-2.1-or-later

"""Least distance from many pins to one form's surface, each asked only of the triangles that can be nearest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.joints.boring import point_bodies
from freecad_stacklam.lamination.joints.cover import Cover, Cylinder, cover_of
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.tolerances import PIN_COVER_TOLERANCE, ROUNDING

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class SurfaceCover:
    """points: N × 3 of the mesh in the stack's frame, mm; triangles: T × 3."""

    def __init__(self, points: Floats, triangles: Ints) -> None:
        self._points, self._triangles = points, triangles
        a, b, c = (points[triangles[:, i]].T for i in range(3))
        self._low = np.minimum(np.minimum(a, b), c)  # 3 × T: whole rows are what numpy is quick with
        self._high = np.maximum(np.maximum(a, b), c)

    def of_pin(self, height: float, pin: PinPlan, tolerance: float = PIN_COVER_TOLERANCE) -> float:
        """Least wood between a pin at a glue line and the finished surface, mm; the pin must lie inside the form.

        tolerance: the distance is found to this, mm, and given that much short, so that it is never overstated.
        """
        return self.nearest(height, pin, tolerance).distance - tolerance

    def nearest(self, height: float, pin: PinPlan, tolerance: float = PIN_COVER_TOLERANCE) -> Cover:
        """How near a pin at a glue line comes to the finished surface, to `tolerance` mm, and with which of its points;
        the pin must lie inside the form."""
        bodies = pin_bodies(height, pin)
        start, end = min(b.start for b in bodies), max(b.end for b in bodies)
        radius = max(b.radius for b in bodies)
        centre = np.array(pin.centre)
        flat = np.maximum(np.hypot(*(self._points[:, :2] - centre).T) - radius, 0.0)
        z = self._points[:, 2]
        # The nearest triangle is no further than the nearest corner of the mesh.
        most = float(np.hypot(flat, np.maximum(np.maximum(start - z, z - end), 0.0)).min()) + ROUNDING
        # No place of the round box about all its bodies is further from them than this.
        most += pin.point + abs(pin.radius_above - pin.radius_below)
        middle, half = (*pin.centre, (start + end) / 2), (radius, radius, (end - start) / 2)
        near = np.ones(len(self._triangles), dtype=bool)
        for low, high, m, h in zip(self._low, self._high, middle, half):
            near &= (low <= m + h + most) & (high >= m - h - most)
        triangles = self._triangles[near]
        found = (cover_of(self._points, triangles, b, [], tolerance) for b in bodies)
        return min(found, key=lambda cover: cover.distance)


def pin_bodies(height: float, pin: PinPlan) -> list[Cylinder]:
    """What is bored for a pin at a glue line: the hole in each layer, and what the bits' points take out beyond."""
    low, high = height - pin.depth_down, height + pin.depth_up
    bodies = [
        Cylinder(pin.centre, pin.radius_below, low, height), Cylinder(pin.centre, pin.radius_above, height, high)
    ]  # fmt: skip
    if pin.point:
        at = np.array([pin.centre])
        for radius, bottom, down in ((pin.radius_below, low, True), (pin.radius_above, high, False)):
            bodies += point_bodies(Bit(2 * radius, pin.bit or "rim", point=pin.point), at, bottom, down)
    return bodies
