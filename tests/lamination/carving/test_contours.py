# SPDX-License-Identifier: LGPL-2.1-or-later

"""Contours of equal depth against circles and planes in closed form."""

from __future__ import annotations

import numpy as np
import pytest

from freecad_stacklam.lamination.carving.contours import DEEPER, contours, spaced


def grid(reach=100.0, pitch=10.0):
    x, y = np.meshgrid(*[np.arange(-reach, reach + 1, pitch)] * 2)
    return np.column_stack([x.ravel(), y.ravel()])


def test_contours_of_a_cone_are_circles():
    # Depth 20 − r / 5: the contour of (k + DEEPER) · 4 mm is the circle of radius 5 · (20 − that).
    places = grid()
    depth = 20.0 - np.hypot(*places.T) / 5
    found = contours(places, depth, np.zeros(len(places)), 4.0, 5.0)
    assert [d for d, _ in found] == [8.0, 12.0, 16.0]
    for stop, line in found:
        assert (line[0] == line[-1]).all()
        radius = 5 * (20.0 - stop - DEEPER * 4.0)
        # Chords of a cone over cells of 10 mm lie within 10² / (8 r) · 2 of the circle.
        assert np.hypot(*line.T) == pytest.approx(radius, abs=100 / (4 * radius) + 0.01)


def test_no_contour_crosses_a_step_or_a_gap():
    places = grid()
    depth = 10.0 + places[:, 0] / 20
    rough = np.where(places[:, 1] > 0, 45.0, 0.0)
    (upper, one), (lower, other) = contours(places, depth, rough, 10.0, 5.0)
    assert upper == lower == 10.0
    assert {(one[:, 1] > 0).all(), (other[:, 1] > 0).all()} == {True, False}
    # x at depth 11: 20 mm, on a plane exactly.
    assert np.concatenate([one, other])[:, 0] == pytest.approx(20.0)
    assert contours(places, np.full(len(places), np.nan), rough, 10.0, 5.0) == []


def test_points_are_spaced_evenly():
    # 95 mm at most 30 apart: four parts of 23.75.
    assert spaced(np.array([[0.0, 0.0], [95.0, 0.0]]), 30.0)[:, 0] == pytest.approx([0, 23.75, 47.5, 71.25, 95.0])
    ring = np.array([[0.0, 0.0], [30.0, 0.0], [30.0, 30.0], [0.0, 30.0], [0.0, 0.0]])
    assert len(spaced(ring, 30.0)) == 4
