# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stack's own frame: z along the stacking axis, 0 at the bottom of layer 1, x and y from the datum."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import FRAME_ROUNDING, NO_DIRECTION
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]


def frame_for(vertices: Floats, axis: Sequence[float], datum: Sequence[float] = (0.0, 0.0, 0.0)) -> tuple[float, ...]:
    """The 4 × 4 matrix, row-major, that takes stack coordinates to model coordinates.

    vertices: N × 3 of the form in the model, mm. axis: the stacking direction, any length. datum: a point of the model
    through which the axis cross should run (the form's own origin); it is kept when it lies within the form's plan
    extents, otherwise the cross is put at the middle of them. The stack's x is the model's x where it can be (y for a
    form stacked along x), so that drawings lie the way the form was drawn. Raises Refusal when the axis has no length.
    """
    direction = np.asarray(axis, dtype=np.float64)
    length = float(np.linalg.norm(direction))
    if direction.shape != (3,) or not np.isfinite(length) or length < NO_DIRECTION:
        raise Refusal(say("The stacking axis has no length: pick a face or an edge, or give x, y or z."))
    z = direction / length
    z[np.abs(z) < FRAME_ROUNDING] = 0.0
    z /= np.linalg.norm(z)
    across = np.array([1.0, 0.0, 0.0]) if abs(z[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    x = across - z * (across @ z)
    x /= np.linalg.norm(x)
    y = np.cross(z, x)
    turn = np.stack([x, y, z])  # rows: model → stack
    local = vertices @ turn.T
    low, high = local.min(axis=0), local.max(axis=0)
    origin = turn @ np.asarray(datum, dtype=np.float64)
    if not ((low[:2] <= origin[:2]) & (origin[:2] <= high[:2])).all():
        origin = (low + high) / 2
    origin[2] = low[2]
    matrix = np.eye(4)
    matrix[:3, :3] = turn.T
    matrix[:3, 3] = turn.T @ origin
    matrix[np.abs(matrix) < FRAME_ROUNDING] = 0.0
    return tuple(float(v) for v in matrix.ravel())


def to_model(frame: Sequence[float], points: Floats) -> Floats:
    """Stack → model coordinates, N × 3."""
    m = np.asarray(frame, dtype=np.float64).reshape(4, 4)
    moved: Floats = np.asarray(points, dtype=np.float64) @ m[:3, :3].T + m[:3, 3]
    return moved


def to_stack(frame: Sequence[float], points: Floats) -> Floats:
    """Model → stack coordinates, N × 3."""
    m = np.asarray(frame, dtype=np.float64).reshape(4, 4)
    moved: Floats = (np.asarray(points, dtype=np.float64) - m[:3, 3]) @ m[:3, :3]
    return moved


@lru_cache(maxsize=16)
def lying(mesh: Mesh, frame: tuple[float, ...]) -> Floats:
    """The vertices of a form in a stack's frame, N × 3, mm: worked out once, and not to be written to."""
    points = to_stack(frame, mesh.vertices)
    points.flags.writeable = False
    return points


def direction_to_stack(frame: Sequence[float], direction: Sequence[float] | Floats) -> Floats:
    """Turn a direction of the model (3, or N × 3, of any length, which it keeps) into the stack's frame."""
    m = np.asarray(frame, dtype=np.float64).reshape(4, 4)
    return np.asarray(direction, dtype=np.float64) @ m[:3, :3]
