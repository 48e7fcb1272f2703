# SPDX-License-Identifier: LGPL-2.1-or-later

"""Loads against a back rest become loads at points of it. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.nearest import Surface

Floats = NDArray[np.float64]

#: A back rises higher than this above what is sat on, and is leant on so far below its top; common practice, no source
#: (EN 1728 calls a back what supports higher than 100 mm above the loaded point of the seat).
LEAST_RISE, BELOW_TOP = 150.0, 100.0
#: What lies no further below the highest than this is the back's upper edge.
_EDGE = 60.0
#: Places across the back, from one end to the other: a back is weakest where one leans on its corner.
_ACROSS = (0.1, 0.5, 0.9)


def with_backs(cases: Sequence[LoadCase], meshes: Sequence[Mesh], seat: Floats) -> tuple[LoadCase, ...]:
    """The loads, those against a back at points of it, pushing away from the seat. meshes: of the piece, in the model.
    seat: points of what is sat on, S × 3. Where nothing rises high enough above the seat such loads are none."""
    if not any(case.place == "back" for case in cases):
        return tuple(cases)
    found = []
    points = back_points(meshes, seat)
    for case in cases:
        if case.place != "back":
            found.append(case)
            continue
        for at, direction in points:
            found.append(
                replace(case, place="point", at=at, direction=direction if case.direction is None else case.direction)
            )
    return tuple(found)


def back_points(meshes: Sequence[Mesh], seat: Floats) -> tuple[tuple[tuple[float, float, float], float], ...]:
    """Points on the surface of a back, and the direction away from the seat at them, degrees round from RIGHT."""
    vertices = np.concatenate([m.vertices for m in meshes])
    top, sat = float(vertices[:, 2].max()), float(np.median(seat[:, 2]))
    if top < sat + LEAST_RISE:
        return ()
    edge = vertices[vertices[:, 2] > top - _EDGE][:, :2]
    middle, centre = (edge.min(axis=0) + edge.max(axis=0)) / 2, seat[:, :2].mean(axis=0)
    away = middle - centre
    reach = float(np.linalg.norm(away))
    if reach < LEAST_RISE / 2:  # it rises in the middle: a post, no back
        return ()
    away /= reach
    across = np.array([-away[1], away[0]])
    along = (edge - middle) @ across
    height = max(top - BELOW_TOP, (top + sat) / 2)
    turn = float(np.degrees(np.arctan2(away[1], away[0]))) % 360.0
    # From the seat's side: the nearest surface is the face that is leant on.
    wanted = [
        np.array(
            [*(middle + across * (along.min() + share * np.ptp(along)) - away * float(np.ptp(edge @ away)) / 2), height]
        )
        for share in _ACROSS
    ]
    found = []
    for one in wanted:
        feet = [Surface(m.vertices, m.triangles).nearest(one[None, :]) for m in meshes]
        _, foot = min(feet, key=lambda of: float(of[0][0]))
        found.append(((float(foot[0][0]), float(foot[0][1]), float(foot[0][2])), turn))
    return tuple(found)
