# SPDX-License-Identifier: LGPL-2.1-or-later

"""Models that nobody of this project made, for tests: where they lie, how they are read, and whose they are.

Meshes are read without FreeCAD; B-rep solids need it. A model that is not there is an error that says what to install,
never a skip. Nothing of these files is copied into the project.

    vertices, triangles, source = load_mesh("pial_left")      # mm
    solids, source = load_brep("MODERN_Chair_1.brep")         # list of Part solids, mm
"""

from __future__ import annotations

import base64
import gzip
import importlib.util
import xml.etree.ElementTree as ElementTree
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

#: Largest extent that models of no particular size are scaled to, mm: a piece of furniture.
FURNITURE = 450.0

_OCCT = "Debian package occt-misc, /usr/share/opencascade/data"
_GMSH = "PyPI gmsh, share/doc/gmsh"
_PYVISTA = "PyPI pyvista, pyvista/examples"
_NILEARN = "PyPI nilearn, nilearn/datasets/data/fsaverage5"


@dataclass(frozen=True)
class Model:
    """One file. `scale` takes its unit to mm (0: largest extent becomes FURNITURE); `closed` is what is known of it."""

    path: str
    source: str
    scale: float = 1.0
    closed: bool = True


MESHES = {
    "nut": Model("nut.ply", _PYVISTA, 0.0),
    "sphere": Model("sphere.ply", _PYVISTA),
    "ant": Model("ant.ply", _PYVISTA, 0.0),
    "airplane": Model("airplane.ply", _PYVISTA, 0.0, closed=False),
    "t13_data": Model("tutorials/t13_data.stl", _GMSH, 0.0),
    "object": Model("examples/api/object.stl", _GMSH, 0.0),
    "aneurysm": Model("examples/api/aneurysm_data.stl", _GMSH, 0.0, closed=False),
    "terrain": Model("examples/api/terrain_stl_data.stl", _GMSH, 0.0, closed=False),
    "surface1": Model("examples/api/surface1.stl", _GMSH, 0.0, closed=False),
    "pial_left": Model("pial_left.gii.gz", _NILEARN),
    "white_left": Model("white_left.gii.gz", _NILEARN),
    "infl_left": Model("infl_left.gii.gz", _NILEARN),
    "sphere_left": Model("sphere_left.gii.gz", _NILEARN),
}

#: OCCT's furniture is drawn in cm.
BREPS = {
    "MODERN_Chair_1.brep": Model("occ/MODERN_Chair_1.brep", _OCCT, 10.0),
    "MODERN_Table_1.brep": Model("occ/MODERN_Table_1.brep", _OCCT, 10.0),
    "bottle.brep": Model("occ/bottle.brep", _OCCT),
    "Propeller.rle": Model("occ/Propeller.rle", _OCCT),
    "CrankArm.brep": Model("occ/CrankArm.brep", _OCCT),
    "Bottom.brep": Model("occ/Bottom.brep", _OCCT),
    "Top.brep": Model("occ/Top.brep", _OCCT),
    "hammer.brep": Model("occ/hammer.brep", _OCCT),
    "terrain.brep": Model("occ/terrain.brep", _OCCT),
    "wing.brep": Model("occ/wing.brep", _OCCT),
    "linkrods.step": Model("step/linkrods.step", _OCCT),
    "screw.step": Model("step/screw.step", _OCCT),
    "t20_data.step": Model("tutorials/t20_data.step", _GMSH),
    "as1-tu-203.stp": Model("examples/api/as1-tu-203.stp", _GMSH),
}


def model_path(name: str) -> Path:
    """Where the file of a model lies. Raises FileNotFoundError that says what to install."""
    model = MESHES.get(name) or BREPS[name]
    path = _folder(model.source) / model.path
    if not path.is_file():
        raise FileNotFoundError(f"{path} is missing: install {model.source.split(',')[0]}")
    return path


def _folder(source: str) -> Path:
    if source == _OCCT:
        return Path("/usr/share/opencascade/data")
    package, inside = {
        _GMSH: ("gmsh", "share/doc/gmsh"),
        _PYVISTA: ("pyvista", "examples"),
        _NILEARN: ("nilearn", "datasets/data/fsaverage5"),
    }[source]
    spec = importlib.util.find_spec(package)
    if spec is None or spec.origin is None:
        raise FileNotFoundError(f"{source} is missing: install it with pip install --no-deps {package}")
    origin = Path(spec.origin)
    return origin.parents[3] / inside if package == "gmsh" else origin.parent / inside


def load_mesh(name: str) -> tuple[NDArray[np.float64], NDArray[np.int64], str]:
    """Vertices (mm), triangles and the source of a mesh model, as stored: not welded, not mended."""
    model, path = MESHES[name], model_path(name)
    if path.name.endswith(".gii.gz"):
        vertices, triangles = _read_gifti(path)
    else:
        import trimesh

        mesh = trimesh.load(path, process=False, force="mesh")
        vertices, triangles = np.asarray(mesh.vertices, dtype=np.float64), np.asarray(mesh.faces, dtype=np.int64)
    scale = model.scale or FURNITURE / float(np.ptp(vertices, axis=0).max())
    return vertices * scale, triangles, f"{model.source}/{model.path}"


def load_brep(name: str) -> tuple[list[Any], str]:
    """The solids (Part shapes, mm) and the source of a B-rep model."""
    import Part

    model, path = BREPS[name], model_path(name)
    shape = Part.Shape()
    if path.suffix in (".step", ".stp"):
        shape.read(str(path))
    else:
        shape.importBrep(str(path))
    if model.scale != 1.0:
        shape.scale(model.scale)
    return list(shape.Solids), f"{model.source}/{model.path}"


def _read_gifti(path: Path) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """A GIFTI surface: XML whose arrays are base64 of zlib of plain numbers (GIFTI format specification 1.0)."""
    root = ElementTree.fromstring(gzip.decompress(path.read_bytes()))
    arrays: dict[str, NDArray[Any]] = {}
    for item in root.iter("DataArray"):
        kind = np.dtype({"NIFTI_TYPE_FLOAT32": "f4", "NIFTI_TYPE_INT32": "i4"}[item.attrib["DataType"]])
        order = "<" if item.attrib["Endian"] == "LittleEndian" else ">"
        assert item.attrib["Encoding"] == "GZipBase64Binary", item.attrib["Encoding"]
        data = zlib.decompress(base64.b64decode(item.findtext("Data") or ""))
        shape = int(item.attrib["Dim0"]), int(item.attrib["Dim1"])
        arrays[item.attrib["Intent"]] = np.frombuffer(data, kind.newbyteorder(order)).reshape(shape)
    return (
        arrays["NIFTI_INTENT_POINTSET"].astype(np.float64),
        arrays["NIFTI_INTENT_TRIANGLE"].astype(np.int64),
    )
