# SPDX-License-Identifier: LGPL-2.1-or-later

"""How low a bit may go, against closed forms on a ball and a cone."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.carving.bitends import least_tips
from freecad_stacklam.lamination.carving.depthholes import point_length
from freecad_stacklam.lamination.tolerances import TIP_TOLERANCE


@pytest.mark.parametrize("angle", [118.0, 135.0, 180.0])
def test_tips_over_a_ball(angle):
    # Exact: the bit's end is convex; where the ball's slope is less than the point's, the tip is nearest to the ball:
    # z = √((R + leave)² − q²); where it is steeper, the shoulder is: √((R + leave)² − (q − r)²) − L.
    radius, bit, leave = 150.0, 4.0, 2.0
    mesh = solids.ball(radius)
    sag = radius - np.linalg.norm(mesh.vertices[mesh.triangles].mean(axis=1) - [0, 0, radius], axis=1).min()
    point = point_length("twist", 2 * bit, angle)
    q = np.array([0.0, 10.0, 40.0, 60.0, 90.0, 110.0, 130.0])
    found = least_tips(mesh.vertices - [0, 0, radius], mesh.triangles, np.column_stack([q, 0 * q]), bit, point, leave)
    reach = radius + leave
    tip = np.sqrt(reach**2 - q**2)
    shoulder = np.sqrt(reach**2 - np.maximum(q - bit, 0.0) ** 2) - point
    exact = np.maximum(tip, shoulder)
    slope = point / bit
    for at, z, wanted in zip(q, found, exact):
        # Where the cone's face is tangent to the ball, it is nearest: never less wood than by tip and shoulder.
        lean = at / np.sqrt(reach**2 - at**2)
        steep = 1.0 + lean
        assert z >= wanted - 2 * sag * steep
        if lean < 0.9 * slope or lean > 1.3 * slope + 0.05:
            assert z <= wanted + TIP_TOLERANCE + 1e-6


def test_tips_over_a_cone():
    # Exact: on a flank steeper than the bit's point the inner shoulder is nearest, square to the flank:
    # z = h(q − r) + leave / cos θ − L, with h the flank's height and θ its angle from level.
    radius, height, bit, leave = 200.0, 450.0, 5.0, 2.0
    mesh = solids.cone(radius, height)
    point = point_length("twist", 2 * bit)
    theta = np.arctan2(height, radius)
    q = np.array([30.0, 77.0, 120.0, 180.0])
    places = np.column_stack([q * np.cos(0.3), q * np.sin(0.3)])
    found = least_tips(mesh.vertices, mesh.triangles, places, bit, point, leave)
    exact = height * (1 - (q - bit) / radius) + leave / np.cos(theta) - point
    sag = height * (1 - np.cos(np.pi / 720))
    assert found == pytest.approx(exact, abs=sag + TIP_TOLERANCE + 1e-6)
