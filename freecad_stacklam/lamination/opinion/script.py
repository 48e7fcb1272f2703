# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the mesher is told: the solids of a piece, its hollows, its tenons, where woods meet, how fine. Lengths mm.

Everything is written in the model's coordinates.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Names of the files that the script reads and writes.
MESH = "mesh.msh"
#: Numbers of our own points, lines and surfaces begin here: those of the solids that are read are lower.
_FIRST = 1_000_000
#: Within this distance of the weak spot the mesh is finer, mm, by this part of the size elsewhere.
NEAR_SPOT, FINER = 60.0, 0.5
#: Corners of facets wider than this are edges of the form, degrees.
_EDGE = 40


@dataclass(frozen=True, eq=False)
class Prism:
    """What a flat outline (P × 3, in the model) sweeps along a vector."""

    outline: Floats
    along: Floats


@dataclass(frozen=True, eq=False)
class Job:
    """What is meshed: `solids` and `facets` name files of solids and of one closed surface of facets, of which one is
    empty; `voids` are taken out, `tenons` are parts of their own, `planes` (outlines P × 3) divide. `size`: of an
    element; `spot`: where it is finer."""

    size: float
    spot: tuple[float, float, float]
    solids: tuple[str, ...] = ()
    facets: str = ""
    voids: tuple[Prism, ...] = ()
    tenons: tuple[Prism, ...] = ()
    planes: tuple[Floats, ...] = field(default=())


def script_of(job: Job) -> str:
    """The script."""
    return "\n".join(
        [*(_of_facets(job) if job.facets else _of_solids(job)), *_sizes(job), "Mesh 3;", f'Save "{MESH}";', ""]
    )


def _of_facets(job: Job) -> list[str]:
    """One closed surface of facets, made smooth again between its edges."""
    return [
        f'Merge "{job.facets}";', f"ClassifySurfaces{{{_EDGE} * Pi / 180, 1, 1, Pi}};", "CreateGeometry;",
        "Surface Loop(1) = Surface{:};", "Volume(1) = {1};",
    ]  # fmt: skip


def _of_solids(job: Job) -> list[str]:
    lines = ['SetFactory("OpenCASCADE");', "wood() = {};", "voids() = {};", "parts() = {};", "planes() = {};"]
    for name in job.solids:
        lines += [f'read() = ShapeFromFile("{name}");', "wood() += read();"]
    number = _FIRST
    for prisms, to in ((job.voids, "voids"), (job.tenons, "parts")):
        for prism in prisms:
            lines += _face(prism.outline, number)
            lines += [f"swept() = Extrude {{{_at(prism.along)}}} {{ Surface{{{number}}}; }};", f"{to}() += swept(1);"]
            number += len(prism.outline)
    for plane in job.planes:
        lines += _face(plane, number)
        lines.append(f"planes() += {number};")
        number += len(plane)
    if job.voids:
        lines.append("wood() = BooleanDifference{ Volume{wood()}; Delete; }{ Volume{voids()}; Delete; };")
    tools = ("Volume{parts()}; " if job.tenons else "") + ("Surface{planes()}; " if job.planes else "")
    if tools or len(job.solids) > 1:
        lines.append(f"BooleanFragments{{ Volume{{wood()}}; Delete; }}{{ {tools}{'Delete; ' if tools else ''}}}")
    # What of the planes and of the faces that were swept bounds no wood is no part of the mesh.
    lines.append("Recursive Delete{ Surface{:}; }")
    return lines


def _face(outline: Floats, number: int) -> list[str]:
    """A flat face whose number, and its loop's, is that of its first point and line."""
    count = len(outline)
    lines = [f"Point({number + i}) = {{{_at(point)}}};" for i, point in enumerate(outline)]
    lines += [f"Line({number + i}) = {{{number + i}, {number + (i + 1) % count}}};" for i in range(count)]
    every = ", ".join(str(number + i) for i in range(count))
    return [*lines, f"Curve Loop({number}) = {{{every}}};", f"Plane Surface({number}) = {{{number}}};"]


def _sizes(job: Job) -> list[str]:
    x, y, z = job.spot
    ball = {"XCenter": x, "YCenter": y, "ZCenter": z, "Radius": NEAR_SPOT, "Thickness": NEAR_SPOT,
            "VIn": job.size * FINER, "VOut": job.size}  # fmt: skip
    return [
        "Field[1] = Ball;", *(f"Field[1].{name} = {value:.6g};" for name, value in ball.items()),
        "Background Field = 1;", "Mesh.MeshSizeExtendFromBoundary = 0;", "Mesh.MeshSizeFromPoints = 0;",
        "Mesh.MeshSizeFromCurvature = 0;", f"Mesh.MeshSizeMax = {job.size:.6g};", "Mesh.ElementOrder = 2;",
        "Mesh.MshFileVersion = 2.2;", "Mesh.SaveAll = 1;", "General.NumThreads = 1;",
    ]  # fmt: skip


def _at(point: Sequence[float] | Floats) -> str:
    return ", ".join(f"{float(v):.9g}" for v in point)


def stl_of(points: Floats, triangles: NDArray[np.int64]) -> str:
    """A closed surface as a text of facets."""
    corners = points[triangles]
    lines = ["solid form"]
    for facet in corners:
        lines.append("facet normal 0 0 0\nouter loop")
        lines += [f"vertex {x:.9g} {y:.9g} {z:.9g}" for x, y, z in facet]
        lines.append("endloop\nendfacet")
    return "\n".join([*lines, "endsolid form", ""])
