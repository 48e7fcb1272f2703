# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the bundled examples are built with: nets of points into cubic surfaces, and these into solids. Lengths mm."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, pi, radians, sin
from typing import Any

import FreeCAD
import Part

Vector = FreeCAD.Vector
POINTS_ROUND = 24


def row(
    height: float, radius: Callable[[float], float], *, middle: tuple[float, float] = (0.0, 0.0), turn: float = 0.0
) -> list[Any]:
    """One level row of a net. radius: mm for an angle in radians; middle: where its centre lies; turn: degrees."""
    points = []
    for k in range(POINTS_ROUND):
        angle = 2 * pi * k / POINTS_ROUND
        r, way = radius(angle), angle + radians(turn)
        points.append(Vector(middle[0] + r * cos(way), middle[1] + r * sin(way), height))
    return points


def oval(along: float, across: float) -> Callable[[float], float]:
    """The radius of an ellipse with these half axes, mm, for an angle in radians."""
    return lambda angle: along * across / ((across * cos(angle)) ** 2 + (along * sin(angle)) ** 2) ** 0.5


def lobed(mean: float, lobes: int, depth: float) -> Callable[[float], float]:
    """A radius that swells so many times round; depth as a share of the mean."""
    return lambda angle: mean * (1 + depth * cos(lobes * angle))


def sculpted(rows: Sequence[list[Any]], parts: int, start: float = 0.5) -> list[Any]:
    """The faces of one cubic surface over a net of level rows, closed all round.

    Two rows at one height at an end make the surface leave its flat end level with it, which rounds the edge. parts:
    into how many faces it is cut upright, for several are meshed faster than one that runs all round; start: where the
    first begins, as a share of a part.
    """
    net = [list(column) for column in zip(*rows, strict=True)]
    spans = len(rows) - 3
    side = Part.BSplineSurface()
    side.buildFromPolesMultsKnots(
        net,
        [1] * (POINTS_ROUND + 1),
        [4] + [1] * (spans - 1) + [4],
        [float(k) for k in range(POINTS_ROUND + 1)],
        [float(k) for k in range(spans + 1)],
        True,
        False,
        3,
        3,
    )
    faces = []
    for k in range(parts):
        face = side.copy()
        face.segment((k + start) * POINTS_ROUND / parts, (k + start + 1) * POINTS_ROUND / parts, 0, spans)
        faces.append(face.toShape())
    return faces


def closed(faces: list[Any]) -> Any:
    """The solid between sculpted faces and the true planes over their level rims."""
    rims: dict[float, list[Any]] = {}
    for edge in (e for face in faces for e in face.Edges if not e.Degenerated):
        heights = [point.z for point in edge.discretize(Number=9)]
        if max(heights) - min(heights) < 1e-6:
            rims.setdefault(round(heights[0], 6), []).append(edge)
    flats = []
    for height, edges in rims.items():
        (ring,) = Part.sortEdges(edges)
        flats.append(Part.Face(Part.Plane(Vector(0, 0, height), Vector(0, 0, 1)), Part.Wire(ring)))
    shell = Part.Compound([*faces, *flats])
    shell.sewShape(1e-6)
    solid = Part.Solid(shell)
    solid.fix(1e-6, 1e-6, 1e-6)  # turns the flat faces outwards
    return solid
