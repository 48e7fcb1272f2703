# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint's own frame, against rotations by trimesh."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.plan.jointaxis import joint_axis

directions = st.tuples(*[st.floats(-3, 3)] * 3).filter(lambda d: np.linalg.norm(d) > 0.1)


@given(directions, st.floats(-400, 400), st.tuples(*[st.floats(-300, 300)] * 3))
@settings(max_examples=30, deadline=None)
def test_the_frame_of_a_joint_turns_as_another_library_turns_it(direction, turn, point):
    still, turned = joint_axis(point, direction), joint_axis(point, direction, turn)
    for frame in (still, turned):
        sides = np.stack([frame.side, frame.other, frame.along])
        assert sides @ sides.T == pytest.approx(np.eye(3), abs=1e-12)
        assert np.linalg.det(sides) == pytest.approx(1.0)  # right-handed
    matrix = trimesh.transformations.rotation_matrix(np.radians(turn), direction)[:3, :3]
    assert turned.side == pytest.approx(matrix @ still.side, abs=1e-9)
    places = np.array([[3.0, -4.0, 5.0], [0.0, 0.0, 7.0]])
    assert turned.local(turned.model(places)) == pytest.approx(places, abs=1e-9)
    assert turned.model(places)[1] == pytest.approx(np.array(point) + 7.0 * turned.along, abs=1e-9)


@pytest.mark.parametrize(
    ("direction", "side", "other"),
    [((0, 0, 2), (1, 0, 0), (0, 1, 0)), ((0, 0, -1), (1, 0, 0), (0, -1, 0)), ((5, 0, 0), (0, 1, 0), (0, 0, 1)),
     ((0, 1, 0), (1, 0, 0), (0, 0, -1))],
)  # fmt: skip
def test_the_first_side_lies_along_the_models_x(direction, side, other):
    """By hand: x as seen along the axis, y for an axis along x; the other side is along × side."""
    frame = joint_axis((0, 0, 0), direction)
    assert frame.side == pytest.approx(side)
    assert frame.other == pytest.approx(other)
