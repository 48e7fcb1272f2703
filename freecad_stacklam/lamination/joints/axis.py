# SPDX-License-Identifier: LGPL-2.1-or-later

"""The section of a joint about its axis, and where its prism passes a height of a stack."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.outline import Loop, Outline, circle, rectangle, sample
from freecad_stacklam.lamination.tolerances import PARALLEL

Floats = NDArray[np.float64]


def section_outline(section: str, size: Sequence[float], relief: tuple[float, float] = (0.0, 0.0)) -> Outline:
    """The mortise's section about its axis; `relief` widens it at both walls along the first and second side, mm."""
    if section == "round":
        return circle(size[0])
    return rectangle(size[0] + 2 * relief[0], size[-1] + 2 * relief[1])


def convex_plan(outline: Outline) -> Floats:
    """A convex polygon around the section, counter-clockwise: itself, or for a circle the 48-gon that encloses it;
    K × 2, mm."""
    points = outline.outer.points
    if points[0][2] == 0.0:
        return np.array([p[:2] for p in points])
    centre = (np.array(points[0][:2]) + np.array(points[1][:2])) / 2
    radius = float(np.hypot(*(np.array(points[0][:2]) - centre))) / np.cos(np.pi / 48)
    angles = 2 * np.pi * np.arange(48) / 48
    corners: Floats = centre + radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    return corners


def outline_at(axis: JointAxis, frame: Sequence[float], outline: Outline, height: float) -> Outline:
    """Where the prism of `outline` along the axis passes a height of a stack: sheared when the axis is tilted.

    Straight sides stay straight. A round section becomes an ellipse, drawn in short chords within 0.005 mm.
    """
    origin = to_stack(frame, axis.point[None])[0]
    side, other, along = (direction_to_stack(frame, d) for d in (axis.side, axis.other, axis.along))
    if abs(along[2]) > 1.0 - PARALLEL:
        return _moved(outline, origin[:2], side[:2], other[:2])
    flat = sample(outline.outer)
    base = origin + flat[:, :1] * side + flat[:, 1:] * other
    at = base + ((height - base[:, 2]) / along[2])[:, None] * along
    points = at[:, :2]
    nxt = np.roll(points, -1, axis=0)
    if (points[:, 0] * nxt[:, 1] - points[:, 1] * nxt[:, 0]).sum() < 0:
        points = points[::-1]
    return Outline(Loop(tuple((float(x), float(y), 0.0) for x, y in points)))


def _moved(outline: Outline, origin: Floats, side: Floats, other: Floats) -> Outline:
    handed = 1.0 if side[0] * other[1] - side[1] * other[0] > 0 else -1.0
    points = [(*(origin + x * side + y * other), handed * b) for x, y, b in outline.outer.points]
    if handed < 0:
        # Turned over: walk the other way round, each bulge with the edge it now begins.
        points = [(x, y, -points[i - 1][2]) for i, (x, y, _) in enumerate(points)][::-1]
    return Outline(Loop(tuple((float(x), float(y), float(b)) for x, y, b in points)))
