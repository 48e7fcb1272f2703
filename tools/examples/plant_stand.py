# SPDX-License-Identifier: LGPL-2.1-or-later

"""The plant stand: two solids. All lengths mm.

A three-lobed pedestal turns as it rises from its foot, narrows to a neck and opens again under the top; the top is an
oval with a shallow dish. They meet in a flat seat, and a floating tenon on the z axis joins them.
"""

from __future__ import annotations

from math import cos
from typing import Any

import FreeCAD
import Part
from examples.sculpted import Vector, closed, row, sculpted

HEIGHT = 450.0  # of the pedestal: ten layers of 45 mm
#: The pedestal's net, row by row: height, mean radius, depth of the lobes as a share of it, their turn in degrees.
#: Two rows at one height make the side leave the flat end level with it, which rounds the edge.
PEDESTAL = (
    (0.0, 137.0, 0.235, 0.0),
    (0.0, 149.0, 0.235, 0.0),
    (16.0, 152.0, 0.240, 2.0),
    (62.0, 124.0, 0.240, 7.0),
    (116.0, 90.0, 0.215, 15.0),
    (182.0, 67.0, 0.150, 26.0),
    (252.0, 57.5, 0.085, 36.0),
    (318.0, 54.5, 0.060, 44.0),
    (378.0, 57.5, 0.050, 52.0),
    (428.0, 68.0, 0.045, 58.0),
    (446.0, 79.5, 0.040, 60.0),
    (HEIGHT, 81.5, 0.040, 60.0),
    (HEIGHT, 75.0, 0.040, 60.0),
)

LENGTH, WIDTH, THICKNESS, DISH = 420.0, 320.0, 50.0, 12.0
#: The top's profile from the edge of the seat round the rim to the middle of the dish: radius along the length, height.
SEAT = 116.0
PROFILE = (
    (SEAT, 0.0),
    (150.0, 4.5),
    (180.0, 14.5),
    (203.0, 28.0),
    (LENGTH / 2, 39.0),
    (205.5, 47.3),
    (195.0, THICKNESS),
    (181.0, 48.3),
    (150.0, 42.9),
    (105.0, 39.4),
    (50.0, 38.1),
    (0.0, THICKNESS - DISH),
)


def lobes(radius: float, depth: float) -> Any:
    """The radius of three lobes, a little pointed, for an angle in radians."""
    return lambda angle: radius * (1 + depth * cos(3 * angle) - 0.12 * depth * cos(6 * angle))


def pedestal() -> Any:
    """The pedestal, foot at z = 0: a face for each lobe, from valley to valley, and two flat faces."""
    rows = [row(height, lobes(radius, depth), turn=turn) for height, radius, depth, turn in PEDESTAL]
    return closed(sculpted(rows, parts=3))


def top() -> Any:
    """The top, its seat on the pedestal."""
    rim = Part.BSplineCurve()
    points = [Vector(r, 0, z) for r, z in PROFILE]
    rim.interpolate(Points=points, InitialTangent=Vector(1, 0, 0), FinalTangent=Vector(-1, 0, 0))
    middle, axis = Vector(0, 0, 0), Vector(0, 0, THICKNESS - DISH)
    outline = Part.Wire([Part.makeLine(middle, points[0]), rim.toShape(), Part.makeLine(axis, middle)])
    round_top = Part.Face(outline).revolve(middle, Vector(0, 0, 1), 360)
    squeeze = FreeCAD.Matrix()
    squeeze.A22 = WIDTH / LENGTH
    side = max(round_top.transformGeometry(squeeze).Faces, key=lambda face: face.Area)
    oval_top = closed([side])
    oval_top.translate(Vector(0, 0, HEIGHT))
    return oval_top


def forms() -> dict[str, Any]:
    """The solids by their labels."""
    return {"Pedestal": pedestal(), "Top": top()}
