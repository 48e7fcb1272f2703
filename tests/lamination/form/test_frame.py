# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stack's frame, against matrices worked by hand and moved points by trimesh."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.frame import direction_to_stack, frame_for, to_model, to_stack
from freecad_stacklam.lamination.refusal import Refusal

#: A box from (10, 20, 30) to (110, 80, 70).
CORNERS = np.array([(x, y, z) for x in (10.0, 110.0) for y in (20.0, 80.0) for z in (30.0, 70.0)])

directions = st.tuples(*[st.floats(-5, 5)] * 3).filter(lambda d: np.linalg.norm(d) > 0.1)


def matrix(axis: tuple[float, ...], datum: tuple[float, ...] = (0.0, 0.0, 0.0)) -> np.ndarray:
    return np.array(frame_for(CORNERS, axis, datum)).reshape(4, 4)


@pytest.mark.parametrize(
    ("axis", "x", "y"),
    [
        ((0, 0, 1), (1, 0, 0), (0, 1, 0)),
        ((0, 0, -7), (1, 0, 0), (0, -1, 0)),
        ((0, 2, 0), (1, 0, 0), (0, 0, -1)),
        ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
        ((-1, 0, 0), (0, 1, 0), (0, 0, -1)),
        ((0, 3, 4), (1, 0, 0), (0, 0.8, -0.6)),  # the 3-4-5 triangle
    ],
)
def test_directions_worked_by_hand(axis, x, y) -> None:
    """x is the model's x without its part along the axis (its y for an axis along x), y = z × x."""
    made = matrix(axis)
    assert made[:3, 0] == pytest.approx(x, abs=1e-12)
    assert made[:3, 1] == pytest.approx(y, abs=1e-12)
    assert made[:3, 2] == pytest.approx(np.array(axis) / np.linalg.norm(axis), abs=1e-12)


def test_the_origin_is_the_lowest_level_and_the_middle_or_the_datum() -> None:
    # the origin of the model lies outside the box's plan, so the cross is put in its middle: 60, 50; and at z = 30
    assert matrix((0, 0, 1))[:3, 3] == pytest.approx((60, 50, 30))
    assert matrix((0, 0, 1), (25, 35, -400))[:3, 3] == pytest.approx((25, 35, 30))
    # upside down: the lowest level is the box's top
    assert matrix((0, 0, -1), (25, 35, 0))[:3, 3] == pytest.approx((25, 35, 70))


@given(directions)
@settings(max_examples=40, deadline=None)
def test_a_frame_is_a_rigid_motion_that_stands_the_form_on_its_first_layer(axis) -> None:
    made = matrix(axis)
    turn = made[:3, :3]
    assert np.allclose(turn @ turn.T, np.eye(3), atol=1e-12)
    assert np.linalg.det(turn) == pytest.approx(1.0)
    local = to_stack(made.ravel(), CORNERS)
    assert local[:, 2].min() == pytest.approx(0.0, abs=1e-9)
    # the height is the extent along the axis, by projection
    along = CORNERS @ (np.array(axis) / np.linalg.norm(axis))
    assert local[:, 2].max() == pytest.approx(np.ptp(along), abs=1e-9)
    # the cross lies within the plan
    assert (local[:, :2].min(axis=0) <= 1e-9).all() and (local[:, :2].max(axis=0) >= -1e-9).all()


@given(directions, st.tuples(*[st.floats(-500, 500)] * 3))
@settings(max_examples=40, deadline=None)
def test_points_move_as_another_library_moves_them(axis, point) -> None:
    frame = frame_for(CORNERS, axis)
    by_trimesh = trimesh.transformations.transform_points
    points, made = np.array([point]), np.array(frame).reshape(4, 4)
    assert to_model(frame, points) == pytest.approx(by_trimesh(points, made), abs=1e-9)
    assert to_stack(frame, points) == pytest.approx(by_trimesh(points, np.linalg.inv(made)), abs=1e-9)
    assert to_stack(frame, to_model(frame, points)) == pytest.approx(points, abs=1e-9)
    turned = trimesh.transformations.transform_points(points, np.linalg.inv(made), translate=False)
    assert direction_to_stack(frame, point) == pytest.approx(turned[0], abs=1e-9)


@pytest.mark.parametrize("axis", [(0, 0, 0), (1e-12, 0, 0), (float("nan"), 0, 1), (float("inf"), 0, 1)])
def test_an_axis_without_length_is_refused(axis) -> None:
    with pytest.raises(Refusal, match="no length: pick a face or an edge"):
        frame_for(CORNERS, axis)
