# SPDX-License-Identifier: LGPL-2.1-or-later

"""Solids meshed in a process of their own, so that the window goes on hearing.

The kernel meshes a curved face in a second or two, lets nothing else of Python run meanwhile, and hears no signal. So
where a thread beside the window asks, and the window has said which Python to use, another process does it: with the
same kernel, from the solid as the kernel writes it. So the mesh is the one that there will be when the document is
opened again; of a solid that was never written the kernel's own may differ by a corner or two.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import threading
import zipfile
from pathlib import Path
from typing import Any

import numpy as np
import Part
from numpy.typing import NDArray

from freecad_stacklam.docobjects.forms.form import QUICK_SURFACES, exact_points, keep_mesh, mesh_arrays, own_deflection
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say
from freecad_stacklam.timelimit import LONGEST

Meshed = tuple[tuple[NDArray[np.float64], NDArray[np.int64]], NDArray[np.float64]]

#: The Python that meshes, of the same version as the one that runs here; none: meshed where it is asked for.
python: list[str] = []
#: So many plain faces are meshed before another process has begun.
_FEW = 200
_SIMPLER = mark("simplify the solid, or give it as a closed mesh (STL, OBJ, PLY or 3MF)")
#: What the other Python runs; it leaves by itself where it finds no FreeCAD.
_THERE = (
    "import sys; from freecad_stacklam.find_freecad import make_importable; make_importable(); "
    "from freecad_stacklam.docobjects.forms.meshaside import mesh_there; mesh_there(*sys.argv[1:])"
)
#: The solid that goes over, and what comes back.
_SOLID, _MESH = "solid.bin", "mesh.npz"


def mesh_and_points(form: Any, label: str) -> Meshed:
    """`mesh_arrays` and `exact_points` of a shape. Raises Refusal, also where the kernel came to no end."""
    beside = threading.current_thread() is not threading.main_thread()
    found = _made_aside(form, label) if beside and python and not _is_quick(form) else None
    return (mesh_arrays(form), exact_points(form)) if found is None else found


def _is_quick(form: Any) -> bool:
    faces = form.Faces
    return len(faces) <= _FEW and all(isinstance(face.Surface, QUICK_SURFACES) for face in faces)


def _made_aside(form: Any, label: str) -> Meshed | None:
    """None where the other process could not be run, or refused: then it is done, or refused, here."""
    try:
        return _made_in_a_folder(form, label)
    except Refusal:  # which is a ValueError
        raise
    except (OSError, ValueError, EOFError, KeyError, zipfile.BadZipFile):  # no room, or what came back is cut off
        return None


def _made_in_a_folder(form: Any, label: str) -> Meshed | None:
    with tempfile.TemporaryDirectory() as folder:
        form.exportBinary(str(Path(folder) / _SOLID))
        environment = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
        command = [*python, "-c", _THERE, folder, repr(own_deflection(form))]
        try:
            done = subprocess.run(
                command, env=environment, timeout=LONGEST, stdin=subprocess.DEVNULL, capture_output=True
            )
        except subprocess.TimeoutExpired:
            raise Refusal(
                say(
                    "“{label}” takes FreeCAD's kernel more than {longest:g} s to mesh: {simpler}.",
                    label=label,
                    longest=LONGEST,
                    simpler=say(_SIMPLER),
                )
            ) from None
        except subprocess.SubprocessError:
            return None
        if done.returncode < 0:
            raise Refusal(
                say(
                    "“{label}” makes FreeCAD's kernel fail as it is meshed: {simpler}.",
                    label=label,
                    simpler=say(_SIMPLER),
                )
            )
        if done.returncode or not (Path(folder) / _MESH).is_file():
            return None
        with np.load(Path(folder) / _MESH) as told:
            vertices, triangles, exact = told["vertices"], told["triangles"], told["exact"]
    vertices.flags.writeable = triangles.flags.writeable = False
    keep_mesh(form, form.copy(), vertices, triangles)
    return (vertices, triangles), exact


def mesh_there(folder: str, deflection: str) -> None:
    """What the other process does: the solid in `folder` becomes the mesh in it. deflection: mm, as text."""
    form = Part.Shape()
    form.importBinary(str(Path(folder) / _SOLID))
    vertices, triangles = mesh_arrays(form, float(deflection))
    np.savez(Path(folder) / _MESH, vertices=vertices, triangles=triangles, exact=exact_points(form))
