# SPDX-License-Identifier: LGPL-2.1-or-later

"""Triangles out of mesh files that FreeCAD's own readers do not do justice to.

3MF (3MF Core Specification 1.3: a ZIP archive with the model as XML): FreeCAD 0.20 has no reader for it, and the file
says its unit. Extensions of the standard are passed by. OBJ with several named objects: FreeCAD makes one mesh of them.
"""

from __future__ import annotations

import zipfile
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal

#: The units the standard allows, in mm.
UNITS = {"micron": 0.001, "millimeter": 1.0, "centimeter": 10.0, "inch": INCH, "foot": 12 * INCH, "meter": 1000.0}
_CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"
_DEEPEST = 16


def meshes_in_3mf(path: Path) -> list[tuple[str, NDArray[np.float64]]]:
    """Every mesh that the file's build places: its name ("" if it has none) and corners, triangles × 3 × 3, mm.

    Raises Refusal when the model cannot be understood.
    """
    with zipfile.ZipFile(path) as archive:
        names = [n for n in archive.namelist() if n.lower().lstrip("/").startswith("3d/") and n.endswith(".model")]
        names.sort(key=lambda n: (n.count("/"), n))
        data = archive.read(names[0])
    try:
        root = ElementTree.fromstring(data)
        scale = UNITS[root.get("unit", "millimeter")]
        objects = {o.attrib["id"]: o for o in root.iter(f"{_CORE}object")}
        found: list[tuple[str, NDArray[np.float64]]] = []
        for item in root.iter(f"{_CORE}item"):
            found.extend(_placed(objects, item.attrib["objectid"], _matrix(item.get("transform")), 0))
    except (ElementTree.ParseError, KeyError, ValueError, IndexError, TypeError) as problem:
        raise Refusal(f"“{path.name}” is not a 3MF file that can be understood: export it again.") from problem
    return [(name, corners * scale) for name, corners in found]


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


def meshes_in_obj(text: str) -> list[tuple[str, NDArray[np.float64]]]:
    """Every named object of an OBJ file that has faces: its name and corners, triangles × 3 × 3, in the file's unit.

    Faces with more than three corners are cut into a fan. Raises Refusal when a face names a point that is not there.
    """
    points: list[list[float]] = []
    objects: dict[str, list[list[int]]] = {}
    faces = objects.setdefault("", [])
    try:
        for line in text.splitlines():
            words = line.split()
            if words[:1] == ["v"]:
                points.append([float(w) for w in words[1:4]])
            elif words[:1] == ["o"]:
                faces = objects.setdefault(" ".join(words[1:]), [])
            elif words[:1] == ["f"]:
                at = [int(w.split("/")[0]) for w in words[1:]]
                at = [n - 1 if n > 0 else len(points) + n for n in at]
                faces.extend([at[0], at[k], at[k + 1]] for k in range(1, len(at) - 1))
        place = np.array(points, dtype=np.float64).reshape(-1, 3)
        return [(name, place[np.array(corners)]) for name, corners in objects.items() if corners]
    except (ValueError, IndexError) as problem:
        raise Refusal("The OBJ file has a line that cannot be understood: export it again.") from problem
