# SPDX-License-Identifier: LGPL-2.1-or-later

"""Resting planes against scipy's convex hull (Qhull) and against feet whose plane is reckoned by hand."""

from __future__ import annotations

from math import atan, degrees

import numpy as np
import pytest

from freecad_stacklam.lamination.standing.resting import over_floor, resting_plane, tilt_of

FEET = np.array([[150.0, 150, 0], [-150, 150, 0], [-150, -150, 0], [150, -150, 0]])
TOP = np.array([[200.0, 200, 450], [-200, 200, 450], [-200, -200, 450], [200, -200, 450]])


def test_even_feet_stand_level() -> None:
    plane = resting_plane(np.vstack([FEET, TOP]), np.array([10.0, -20.0, 300.0]))
    assert plane == (0.0, 0.0, 0.0)


@pytest.mark.parametrize("centre", [(20.0, -40.0), (-30.0, 5.0)])
def test_on_a_short_foot_it_rests_on_three_of_the_four_or_rocks_to_the_others(centre: tuple[float, float]) -> None:
    # Foot 1 is short by 3. With the weight on the side of foot 3, the three others carry it level; on its own side it
    # leans onto it about the line from 2 to 4: then 1, 2 and 4 touch, and 3, as far from that line, hangs by 3.
    feet = FEET.copy()
    feet[0, 2] = 3.0
    points = np.vstack([feet, TOP])
    plane = resting_plane(points, np.array([*centre, 300.0]))
    stood = over_floor(points, plane)[:4, 2]
    assert stood.min() == pytest.approx(0.0, abs=1e-9)
    assert plane[:2] == pytest.approx((0.0, 0.0), abs=1e-12)
    own = resting_plane(points, np.array([20.0, 20.0, 300.0]))
    stood = over_floor(points, own)[:4, 2]
    assert stood == pytest.approx([0.0, 0.0, 3.0, 0.0], abs=1e-9)
    assert tilt_of(own) == pytest.approx(degrees(atan(3.0 / (150.0 * 2**0.5))))  # 3 over half a diagonal


def test_it_lies_on_the_face_of_the_hull_under_its_weight_as_qhull_finds_it() -> None:
    scipy_spatial = pytest.importorskip("scipy.spatial")
    rng = np.random.default_rng(4)
    for _ in range(20):
        points = rng.normal(size=(200, 3)) * [200, 150, 300]
        centre = points.mean(axis=0)
        plane = resting_plane(points, centre)
        hull = scipy_spatial.ConvexHull(points)
        lower = hull.equations[hull.equations[:, 2] < 0]
        at = -(lower[:, 0] * centre[0] + lower[:, 1] * centre[1] + lower[:, 3]) / lower[:, 2]
        best = lower[at.argmax()]  # of all lower faces the highest there is the hull
        assert plane[:2] == pytest.approx((-best[0] / best[2], -best[1] / best[2]), rel=1e-6)
        assert (over_floor(points, plane)[:, 2] > -1e-9).all()
