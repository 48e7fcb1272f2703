# SPDX-License-Identifier: LGPL-2.1-or-later

"""The triangles of a FreeCAD mesh as arrays, without a Python object for each point: two million take a third of a
second in place of two.

FreeCAD writes a mesh kernel to a file of its own kind (.bms), the same from 0.20 to 1.1: a mark, a version, 256 bytes
of text, the two counts, then points (3 × float32) and facets (3 corners and 3 neighbours, uint32). It holds the kernel
as it is, so the placement comes on top. A file that does not look like that is not read: the slow way is taken.
"""

from __future__ import annotations

import hashlib
import tempfile
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.memory import Memory

Arrays = tuple[NDArray[np.float64], NDArray[np.int64]]

_MARK = 0xA0B0C0D0
_VERSION = 0x00010000
_HEAD = 264
#: Meshes whose arrays are kept, raw: the gated mesh is kept elsewhere, and large ones fill the memory.
KEPT = 1
_kept: Memory[Arrays] = Memory(KEPT)


def clear() -> None:
    """Forget every array."""
    _kept.clear()


def key_of_mesh(mesh: Any) -> str:
    """A text that changes with the mesh and its place."""
    return _key(mesh, _written(mesh))


def mesh_topology(mesh: Any) -> Arrays:
    """Points (N × 3, mm, in the model) and facets (M × 3 numbers) of a Mesh.Mesh; read-only."""
    data = _written(mesh)
    return _kept.get(_key(mesh, data), lambda: _read(mesh, data))


def as_arrays(topology: tuple[list[Any], list[Any]]) -> Arrays:
    """FreeCAD's lists of vectors and of corner numbers as arrays."""
    points, corners = topology
    vertices = np.array([(p.x, p.y, p.z) for p in points], dtype=np.float64).reshape(-1, 3)
    return vertices, np.array(corners, dtype=np.int64).reshape(-1, 3)


def _written(mesh: Any) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "form.bms"
        mesh.write(str(path), "BMS")
        return path.read_bytes()


def _key(mesh: Any, data: bytes) -> str:
    digest = hashlib.sha256(data)
    digest.update(_matrix(mesh).tobytes())
    return digest.hexdigest() + "M"


def _matrix(mesh: Any) -> NDArray[np.float64]:
    return np.array(mesh.Placement.Matrix.A, dtype=np.float64).reshape(4, 4)


def _read(mesh: Any, data: bytes) -> Arrays:
    counts = np.frombuffer(data, "<u4", 2, _HEAD) if len(data) >= _HEAD + 8 else (0, 0)
    points, facets = int(counts[0]), int(counts[1])
    head = np.frombuffer(data, "<u4", 2) if len(data) >= 8 else (0, 0)
    after = _HEAD + 8 + 12 * points
    known = tuple(head) == (_MARK, _VERSION) and len(data) >= after + 24 * facets
    if not known or (points, facets) != (mesh.CountPoints, mesh.CountFacets):
        return as_arrays(mesh.Topology)
    local = np.frombuffer(data, "<f4", 3 * points, _HEAD + 8).reshape(-1, 3).astype(np.float64)
    corners = np.frombuffer(data, "<u4", 6 * facets, after).reshape(-1, 6)[:, :3].astype(np.int64)
    place = _matrix(mesh)
    if not np.array_equal(place, np.eye(4)):
        # Summed in the kernel's own order, so that no digit differs from what its lists say.
        x, y, z = local.T
        local = np.stack([r[0] * x + r[1] * y + r[2] * z + r[3] for r in place[:3]], axis=1)
    local.flags.writeable = corners.flags.writeable = False
    return local, corners
