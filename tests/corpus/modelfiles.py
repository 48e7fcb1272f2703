# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every file of a form that lies in the packages the tests use already, read by the way that the command line takes.

What is not there is left out: packages differ from one system to the next, and the table says how many there were.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Any

import FreeCAD
import models
from chances import settings_for
from partforms import planned
from trial import Outcome, tried

from freecad_stacklam.docobjects.forms.formfile import LEAST_FORM, forms_in
from freecad_stacklam.docobjects.forms.plancache import clear, find_forms
from freecad_stacklam.lamination.lengths import LENGTHS
from freecad_stacklam.lamination.refusal import Refusal

_SURFACES = ("pial", "white", "infl", "sphere")
_KINDS = (".stl", ".ply", ".obj", ".step", ".stp", ".brep", ".rle", ".3mf", ".fcstd")
#: Where FreeCAD's own examples and its tests' files may lie.
_FREECAD = ("/usr/share/doc/freecad-common/examples", "/usr/share/freecad/examples", "/usr/share/freecad/Mod")


def files() -> dict[str, Path]:
    """Name → file of every model there is, the name with its package."""
    found: dict[str, Path] = {}
    for source, short in ((models._OCCT, "occt"), (models._GMSH, "gmsh"), (models._PYVISTA, "pyvista")):
        try:
            folder = models._folder(source)
        except FileNotFoundError:
            continue
        found |= {f"{short}/{p.relative_to(folder)}": p for p in sorted(folder.rglob("*")) if _usable(p)}
    folder = models._folder(models._NILEARN)
    for path in sorted(folder.glob("*.gii.gz")):
        if path.name.startswith(_SURFACES):
            found[f"nilearn/{path.name}"] = path
    for place in _FREECAD:
        if Path(place).is_dir():
            found |= {f"FreeCAD/{p.name}": p for p in sorted(Path(place).rglob("*")) if _usable(p)}
    return found


def _usable(path: Path) -> bool:
    return path.suffix.lower() in _KINDS and path.is_file()


def names() -> list[str]:
    """Names of all models that are there."""
    return list(files())


def model_outcome(name: str, seed: int, judge: bool) -> Outcome:
    """One file, planned: all that stands in it. Where it does not say its unit and would be tiny, it is read again in
    the unit that makes furniture of it."""
    path = files()[name]
    document = FreeCAD.newDocument("Corpus", hidden=True)
    try:
        with tempfile.TemporaryDirectory() as aside:
            readable = _readable(path, Path(aside))

            def plan() -> Any:
                objects = _read(readable, document)
                found = [one for obj in objects for one in find_forms(obj)]
                return planned(found, lambda box: settings_for(len(name) + seed, box))

            return tried(name.split("/")[0], name, plan, judge)
    finally:
        FreeCAD.closeDocument(document.Name)
        clear()


def _read(path: Path, document: Any) -> list[Any]:
    try:
        return list(forms_in(path, document))
    except Refusal as refusal:
        if "--form-unit" not in str(refusal):
            raise
        size = float(str(refusal).split("would be ")[1].split()[0])
        unit = min((u for u in LENGTHS if size * float(LENGTHS[u]) >= LEAST_FORM), key=lambda u: float(LENGTHS[u]))
        return list(forms_in(path, document, unit))


def _readable(path: Path, aside: Path) -> Path:
    """The file by a name that says what it is."""
    if path.suffix == ".rle":
        return Path(shutil.copy(path, aside / (path.stem + ".brep")))
    if path.suffix != ".gz":
        return path
    vertices, triangles = models._read_gifti(path)
    made = aside / (path.name.split(".gii")[0] + ".obj")
    lines = [f"v {x!r} {y!r} {z!r}" for x, y, z in vertices.tolist()]
    lines += [f"f {a + 1} {b + 1} {c + 1}" for a, b, c in triangles.tolist()]
    made.write_text("\n".join(lines) + "\n")
    return made
