# SPDX-License-Identifier: LGPL-2.1-or-later

"""Triangles out of mesh files that FreeCAD's own readers do not do justice to.

3MF (3MF Core Specification 1.3: a ZIP archive with the model as XML): FreeCAD 0.20 has no reader for it, and the file
says its unit. Extensions of the standard are passed by.
"""

from __future__ import annotations

import zipfile
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: The units the standard allows, in mm.
UNITS = {"micron": 0.001, "millimeter": 1.0, "centimeter": 10.0, "inch": INCH, "foot": 12 * INCH, "meter": 1000.0}
_CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
_DEEPEST = 16
#: Most triangles and placed meshes of one file, and most bytes of its model: no form needs more, and a few lines that
#: refer to each other can ask for any number.
MOST_TRIANGLES, MOST_PLACED, MOST_BYTES = 20_000_000, 10_000, 1_000_000_000


def meshes_in_3mf(path: Path) -> list[tuple[str, NDArray[np.float64]]]:
    """Every mesh that the file's build places: its name ("" if it has none) and corners, triangles × 3 × 3, mm.

    Raises Refusal when the model cannot be understood.
    """
    with zipfile.ZipFile(path) as archive:
        names = [n for n in archive.namelist() if n.lower().lstrip("/").startswith("3d/") and n.endswith(".model")]
        names.sort(key=lambda n: (n.count("/"), n))
        if archive.getinfo(names[0]).file_size > MOST_BYTES:
            raise Refusal(
                say(
                    "“{name}” holds a model of more than {MOST_BYTES} GB: export it coarser.",
                    name=path.name,
                    MOST_BYTES=MOST_BYTES // 10**9,
                )
            )
        data = archive.read(names[0])
    try:
        root = ElementTree.fromstring(data)
        scale = UNITS[root.get("unit", "millimeter")]
        objects = {o.attrib["id"]: o for o in root.iter(f"{_CORE}object")}
        items = [item.attrib["objectid"] for item in root.iter(f"{_CORE}item")]
        _refuse_too_many(path.name, objects, items)
        found: list[tuple[str, NDArray[np.float64]]] = []
        for item in root.iter(f"{_CORE}item"):
            found.extend(_placed(objects, item.attrib["objectid"], _matrix(item.get("transform")), 0))
    except Refusal:
        raise
    except (ElementTree.ParseError, KeyError, ValueError, IndexError, TypeError, OverflowError) as problem:
        raise Refusal(
            say("“{name}” is not a 3MF file that can be understood: export it again.", name=path.name)
        ) from problem
    return [(name, corners * scale) for name, corners in found]


def _refuse_too_many(file: str, objects: dict[str, ElementTree.Element], items: list[str]) -> None:
    """Raise Refusal when the file places more than can be read, before anything is placed."""
    known: dict[str, tuple[int, int]] = {}

    def counted(number: str, depth: int) -> tuple[int, int]:
        if depth > _DEEPEST:
            raise ValueError("objects nested too deep")
        if number not in known:
            thing = objects[number]
            if thing.find(f"{_CORE}mesh") is not None:
                known[number] = 1, sum(1 for _ in thing.iter(f"{_CORE}triangle"))
            else:
                parts = [counted(c.attrib["objectid"], depth + 1) for c in thing.iter(f"{_CORE}component")]
                known[number] = sum(p[0] for p in parts), sum(p[1] for p in parts)
        return known[number]

    totals = [counted(number, 0) for number in items]
    meshes, triangles = sum(t[0] for t in totals), sum(t[1] for t in totals)
    if meshes > MOST_PLACED or triangles > MOST_TRIANGLES:
        raise Refusal(
            say(
                "“{file}” places {meshes} meshes of {triangles} triangles in all: give at most "
                "{MOST_PLACED} meshes and {MOST_TRIANGLES} million triangles.",
                file=file,
                meshes=meshes,
                triangles=triangles,
                MOST_PLACED=MOST_PLACED,
                MOST_TRIANGLES=MOST_TRIANGLES // 10**6,
            )
        )


def _placed(
    objects: dict[str, ElementTree.Element], number: str, place: NDArray[np.float64], depth: int
) -> list[tuple[str, NDArray[np.float64]]]:
    if depth > _DEEPEST:
        raise ValueError("objects nested too deep")
    thing = objects[number]
    mesh = thing.find(f"{_CORE}mesh")
    if mesh is None:
        parts = thing.iter(f"{_CORE}component")
        return [
            p
            for c in parts
            for p in _placed(objects, c.attrib["objectid"], _matrix(c.get("transform")) @ place, depth + 1)
        ]
    points = np.array([[float(v.attrib[k]) for k in "xyz"] for v in mesh.iter(f"{_CORE}vertex")])
    corners = np.array([[int(t.attrib[k]) for k in ("v1", "v2", "v3")] for t in mesh.iter(f"{_CORE}triangle")])
    if not len(corners):
        return []
    if corners.min() < 0:
        raise ValueError("negative index")
    moved = points @ place[:3, :3] + place[3, :3]
    if np.linalg.det(place[:3, :3]) < 0:
        corners = corners[:, ::-1]  # a mirror turns the triangles inside out
    return [(thing.get("name", ""), moved[corners])]


def _matrix(text: str | None) -> NDArray[np.float64]:
    """The standard's 4 × 3 matrix for row vectors, as 4 × 4."""
    place = np.eye(4)
    if text:
        place[:, :3] = np.array([float(n) for n in text.split()]).reshape(4, 3)
    return place
