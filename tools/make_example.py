# SPDX-License-Identifier: LGPL-2.1-or-later

"""Builds the bundled example: a plant stand, as two solids in a FreeCAD document.

    PYTHONPATH=/usr/lib/freecad-python3/lib:/usr/share/freecad/Ext python3 tools/make_example.py [OUT.FCStd]

A three-lobed pedestal turns as it rises from its foot, narrows to a neck and opens again under the top; the top is an
oval with a shallow dish. They meet in a flat seat, and a floating tenon on the z axis joins them. Run it with the
oldest FreeCAD that is supported, so that every other one opens the file. All lengths mm.
"""

from __future__ import annotations

import sys
from math import cos, hypot, pi, radians, sin
from pathlib import Path
from typing import Any

import FreeCAD
import Part

Vector = FreeCAD.Vector

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
POINTS_ROUND = 24

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


def lobed_row(height: float, radius: float, lobe: float, turn: float) -> list[Any]:
    """One row of the pedestal's net, following the lobes as they turn."""
    row = []
    for k in range(POINTS_ROUND):
        wave = 2 * pi * k / POINTS_ROUND
        r = radius * (1 + lobe * cos(3 * wave) - 0.12 * lobe * cos(6 * wave))
        angle = wave + radians(turn)
        row.append(Vector(r * cos(angle), r * sin(angle), height))
    return row


def pedestal() -> Any:
    """The pedestal, foot at z = 0: one cubic surface, a face for each lobe, closed by two flat faces."""
    net = [list(column) for column in zip(*(lobed_row(*row) for row in PEDESTAL), strict=True)]
    spans = len(PEDESTAL) - 3
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
    lobes = []
    for k in range(3):
        # From valley to valley. Three faces are meshed four times faster than one that runs all round.
        lobe = side.copy()
        lobe.segment((k + 0.5) * POINTS_ROUND / 3, (k + 1.5) * POINTS_ROUND / 3, 0, spans)
        lobes.append(lobe.toShape())
    return closed(lobes)


def closed(sculpted: list[Any]) -> Any:
    """The solid between sculpted faces and the true planes over their level rims."""
    rims: dict[float, list[Any]] = {}
    for edge in (e for face in sculpted for e in face.Edges if not e.Degenerated):
        heights = [point.z for point in edge.discretize(Number=9)]
        if max(heights) - min(heights) < 1e-6:
            rims.setdefault(round(heights[0], 6), []).append(edge)
    flats = []
    for height, edges in rims.items():
        (ring,) = Part.sortEdges(edges)
        flats.append(Part.Face(Part.Plane(Vector(0, 0, height), Vector(0, 0, 1)), Part.Wire(ring)))
    shell = Part.Compound([*sculpted, *flats])
    shell.sewShape(1e-6)
    solid = Part.Solid(shell)
    solid.fix(1e-6, 1e-6, 1e-6)  # turns the flat faces outwards
    return solid


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
    sculpted = max(round_top.transformGeometry(squeeze).Faces, key=lambda face: face.Area)
    oval = closed([sculpted])
    oval.translate(Vector(0, 0, HEIGHT))
    return oval


def check(solid: Any, name: str) -> None:
    """Stop when the solid is not sound."""
    if not solid.isValid() or solid.ShapeType != "Solid" or solid.Volume <= 0:
        raise SystemExit(f"{name} is not a sound solid.")


def main(out: Path) -> None:
    """Build both solids, check them and write the document."""
    document = FreeCAD.newDocument("PlantStand")
    document.License = "LGPL-2.1-or-later"
    document.LicenseURL = "https://spdx.org/licenses/LGPL-2.1-or-later.html"
    for name, build in (("Pedestal", pedestal), ("Top", top)):
        solid = build()
        check(solid, name)
        document.addObject("Part::Feature", name).Shape = solid
    document.recompute()
    neck = min(hypot(p.x, p.y) for z in range(200, 400, 5) for p in neck_points(document.Pedestal.Shape, float(z)))
    out.parent.mkdir(parents=True, exist_ok=True)
    out.unlink(missing_ok=True)  # or FreeCAD would leave a backup beside it
    document.saveAs(str(out))
    size = out.stat().st_size / 1024
    print(f"{out.name}: {size:.0f} KiB, least radius of the neck {neck:.1f} mm")
    FreeCAD.closeDocument(document.Name)


def neck_points(shape: Any, height: float) -> list[Any]:
    """Points of the section at a height."""
    return [p for w in shape.slice(Vector(0, 0, 1), height) for p in w.discretize(Number=72)]


if __name__ == "__main__":
    default = Path(__file__).resolve().parent.parent / "freecad_stacklam" / "data" / "plant_stand.FCStd"
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else default)
