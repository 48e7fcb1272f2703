# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms that the benchmarks are timed on, made up for them. FreeCAD's forms need FreeCAD."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from freecad_stacklam.lamination.form.mesh import Mesh, gate


def lobed(around: int, up: int) -> Mesh:
    """A closed three-lobed pedestal, 450 mm high, of 2·around·(up + 1) triangles: undercut at its neck, twisted."""
    t = np.linspace(0.0, 1.0, up + 1)
    a = 2 * np.pi * np.arange(around) / around
    radius = 60 + 90 * (2 * t - 1) ** 2 + 12 * np.sin(9 * t)
    grid = radius[:, None] * (1 + 0.18 * np.cos(3 * (a[None, :] + 0.7 * t[:, None])))
    ring = np.stack([grid * np.cos(a), grid * np.sin(a), np.broadcast_to(450 * t[:, None], grid.shape)], axis=-1)
    points = np.vstack([ring.reshape(-1, 3), [0, 0, 0], [0, 0, 450]])
    i, k = np.meshgrid(np.arange(around), np.arange(up), indexing="xy")
    j = (i + 1) % around
    p, q, r, s = k * around + i, k * around + j, (k + 1) * around + i, (k + 1) * around + j
    side = np.concatenate([np.stack([p, q, s], -1).reshape(-1, 3), np.stack([p, s, r], -1).reshape(-1, 3)])
    first = np.arange(around)
    after = (first + 1) % around
    bottom = np.stack([np.full(around, len(points) - 2), after, first], axis=1)
    top = np.stack([np.full(around, len(points) - 1), up * around + first, up * around + after], axis=1)
    return gate(points, np.vstack([side, bottom, top]))


def write_stl(mesh: Mesh, path: Path) -> None:
    """The mesh as a binary STL file: 80 bytes, a count, and 50 bytes a triangle."""
    record = np.zeros(len(mesh.triangles), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])
    record["corners"] = mesh.vertices[mesh.triangles]
    path.write_bytes(b"lobed".ljust(80) + np.uint32(len(record)).tobytes() + record.tobytes())


def armchair() -> Any:
    """A carved armchair in one piece, 930 mm high, as a Part solid: four legs, two arms with rails, a dished seat."""
    import Part
    from FreeCAD import Vector

    def limb(radii, heights, wide, deep, x=0.0, y=0.0, lobes=0.0, corners=9):
        turns = np.linspace(0, 2 * np.pi, corners, endpoint=False)
        wires = []
        for radius, z in zip(radii, heights):
            r = radius * (1 + lobes * np.cos(3 * turns + z / 200))
            curve = Part.BSplineCurve()
            points = zip(x + wide * r * np.cos(turns), y + deep * r * np.sin(turns))
            curve.interpolate([Vector(px, py, z) for px, py in points], PeriodicFlag=True)
            wires.append(Part.Wire(curve.toShape()))
        return Part.makeLoft(wires, True)

    seat = limb([200, 240, 260, 250], [360, 400, 450, 480], 1.1, 1.0, lobes=0.05, corners=12)
    parts = [limb([30, 38, 50, 60], [0, 150, 300, 400], 1, 1, x, y, 0.1) for x in (-190, 190) for y in (-160, 160)]
    parts += [limb([90, 100, 80, 55], [440, 600, 780, 930], 2.4, 0.5, 0, 170, 0.04, 12)]
    for side in (-1, 1):
        parts += [limb([40, 36, 42, 45], [430, 520, 600, 660], 1, 1.2, side * 220, -60, 0.08)]
        parts += [limb([60, 62, 60], [630, 660, 700], 0.9, 3.4, side * 215, 50, 0.03, 12)]
    dish = Part.makeSphere(900, Vector(0, -20, 1360)).common(Part.makeCylinder(190, 80, Vector(0, -40, 445)))
    return seat.fuse(parts).cut(dish).Solids[0]
