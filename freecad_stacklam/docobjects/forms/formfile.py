# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms from files. Each file is looked into first (wholefile), because the readers take what they can get."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import FreeCAD
import Mesh
import numpy as np
import Part
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.forms.form import InvalidSolid, final_objects, rough_extent, solids_of
from freecad_stacklam.docobjects.forms.trialread import refuse_unless_readable
from freecad_stacklam.formfiles.meshfiles import meshes_in_3mf
from freecad_stacklam.formfiles.objfile import meshes_in_obj
from freecad_stacklam.formfiles.plyfile import mesh_in_ply
from freecad_stacklam.formfiles.wholefile import KINDS, refuse_unless_whole
from freecad_stacklam.lamination.lengths import LENGTHS
from freecad_stacklam.lamination.options.kinds import printed
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

Found = list[tuple[str, Any]]

#: Kinds of file that do not say their unit, and the size in mm under which a form in one of them is not taken to be in
#: mm: no piece of furniture is so small, and one of 3 m in metres is.
_UNITLESS = (".stl", ".obj", ".ply", ".brep", ".brp")
LEAST_FORM = 4.0
#: Letters of a label that are kept.
_LONGEST_LABEL = 120

#: What the usual STEP writer calls a shape without a name; it says nothing of the form, so the file's name is taken.
UNNAMED = "Open CASCADE STEP translator"


def forms_in(path: str | Path, document: Document, unit: str = "") -> list[Any]:
    """Read the solids and closed meshes of a file into `document`; the new objects, labelled as in the file.

    unit: of a kind of file that does not say its own ("": mm, unless the forms would then be too small to be meant).

    Each becomes a Part::Feature or Mesh::Feature of its own, where it lay in the file's model, mm. The file itself is
    not changed. Of a .FCStd only finished shapes are taken: no shapes that others were built from, no stacks of ours.
    Raises Refusal for a file that is missing, cut off, of another kind, without a solid or with an invalid one;
    `document` is then as it was.
    """
    path = Path(path)
    refuse_unless_whole(path)
    kind = path.suffix.lower()
    if kind in _TRIED:
        refuse_unless_readable(path)
    reader = _READERS[kind]
    active = FreeCAD.ActiveDocument.Name if FreeCAD.ActiveDocument else ""
    try:
        with _quiet():
            found = reader(path)
    except Refusal:
        raise
    except Exception as problem:  # the readers raise whatever they like: OCCError, OSError, RuntimeError, Base errors
        raise Refusal(
            say("“{name}” could not be read as a {kind}: save or export it again.", name=path.name, kind=KINDS[kind])
        ) from problem
    finally:
        if active and active in FreeCAD.listDocuments():
            FreeCAD.setActiveDocument(active)
    if not found:
        raise Refusal(
            say(
                "“{name}” holds no solid: give a closed solid or a closed mesh; sew loose faces together first.",
                name=path.name,
            )
        )
    if kind not in _UNITLESS and unit:
        raise Refusal(say("“{name}” says its unit itself: leave --form-unit out.", name=path.name))
    if kind in _UNITLESS:
        found = [(label, _in_mm(form, unit or "mm")) for label, form in found]
        largest = max(rough_extent(form) for _, form in found)
        if not unit and largest < LEAST_FORM:
            raise Refusal(
                say(
                    "“{name}” would be {largest:.2g} mm large if its figures are mm, and it does not say "
                    "its unit: say it with --form-unit, as in --form-unit m.",
                    name=path.name,
                    largest=largest,
                )
            )
    return [_added(document, label, form) for label, form in _named_apart(found)]


def _in_mm(form: Any, unit: str) -> Any:
    scale = float(LENGTHS[unit])
    if scale == 1.0:
        return form
    if isinstance(form, Part.Shape):
        return form.scaled(scale)
    matrix = FreeCAD.Matrix()
    matrix.scale(scale, scale, scale)
    form.transform(matrix)
    return form


def unit_note(path: str | Path, unit: str = "") -> str:
    """What was taken for granted about the file's unit; empty where the file or the maker says it."""
    kind = Path(path).suffix.lower()
    if kind in _UNITLESS and not unit:
        return say("“{name}” does not say its unit: it was taken to be in mm.", name=Path(path).name)
    return ""


def find_partdesign() -> None:
    """Make PartDesign importable: without it FreeCAD opens a document and leaves its Bodies out.

    FreeCAD's own programs have its Mod folder on the path; a plain Python that imports FreeCAD has not.
    """
    home = Path(FreeCAD.getHomePath())
    places = [home / "Mod", home.parent / "Mod", home.parent.parent / "share" / "freecad" / "Mod"]
    if loaded := getattr(FreeCAD, "__file__", None):  # FreeCAD's own programs have the module built in
        places.append(Path(loaded).resolve().parent.parent / "Mod")
    for place in places:
        if (place / "PartDesign" / "__init__.py").is_file() and str(place) not in sys.path:
            sys.path.append(str(place))  # last: the folder also holds names such as Test that belong to others
            return


# --- the readers --------------------------------------------------------------------------------------------------


def _read_fcstd(path: Path) -> Found:
    find_partdesign()
    for document in FreeCAD.listDocuments().values():
        if document.FileName and Path(document.FileName).resolve() == path.resolve():
            return _finished(document)
    document = FreeCAD.openDocument(str(path), hidden=True)
    try:
        return _finished(document)
    finally:
        FreeCAD.closeDocument(document.Name)


def _finished(document: Document) -> Found:
    """The solids of the outermost finished objects; what has none (sketches, datums, sheets) is passed by."""
    inner = {child.Name for o in document.Objects if not _is_feature(o) for child in getattr(o, "Group", ())}
    bodies = [o for o in document.Objects if o.isDerivedFrom("PartDesign::Body")]
    inner |= {child.Name for body in bodies for child in body.Group}
    found: Found = []
    for obj in final_objects(document.Objects):
        if obj.Name not in inner and not obj.isDerivedFrom("App::OriginFeature"):
            found.extend(_solids_or_none(obj))
    return _named_apart(found)


def _is_feature(obj: Any) -> bool:
    return bool(obj.isDerivedFrom("Part::Feature") or obj.isDerivedFrom("Mesh::Feature"))


def _solids_or_none(obj: Any) -> Found:
    try:
        return [(label, form.copy()) for label, form in solids_of(obj)]
    except InvalidSolid:
        raise
    except Refusal:
        return []


def _read_step(path: Path) -> Found:
    import Import

    document = FreeCAD.newDocument("StackLamStep", hidden=True, temp=True)
    try:
        # Groups of links crash FreeCAD 0.20 on assemblies; plain parts carry the same labels and placements.
        Import.insert(str(path), document.Name, useLinkGroup=False)
        found = _finished(document)
        return _named_apart([(path.stem if label.startswith(UNNAMED) else label, form) for label, form in found])
    finally:
        FreeCAD.closeDocument(document.Name)


def _read_brep(path: Path) -> Found:
    shape = Part.Shape()
    shape.importBrep(str(path))
    return _through_document(path.stem, "Part::Feature", "Shape", shape)


def _read_mesh(path: Path) -> Found:
    return _through_document(path.stem, "Mesh::Feature", "Mesh", Mesh.Mesh(str(path)))


def _through_document(label: str, kind: str, name: str, value: Any) -> Found:
    document = FreeCAD.newDocument("StackLamForm", hidden=True, temp=True)
    try:
        obj = document.addObject(kind, "Form")
        obj.Label = label
        setattr(obj, name, value)
        return _solids_or_none(obj)
    finally:
        FreeCAD.closeDocument(document.Name)


def _read_obj(path: Path) -> Found:
    return _as_meshes(path, meshes_in_obj(path.read_text(encoding="utf-8", errors="replace")))


def _read_ply(path: Path) -> Found:
    corners = mesh_in_ply(path.read_bytes())
    return _as_meshes(path, [("", corners)] if len(corners) else [])


def _read_3mf(path: Path) -> Found:
    return _as_meshes(path, meshes_in_3mf(path))


def _as_meshes(path: Path, meshes: list[tuple[str, NDArray[np.float64]]]) -> Found:
    return _named_apart([(label or path.stem, Mesh.Mesh(corners.tolist())) for label, corners in meshes])


_READERS: dict[str, Callable[[Path], Found]] = {
    ".fcstd": _read_fcstd,
    ".step": _read_step,
    ".stp": _read_step,
    ".brep": _read_brep,
    ".brp": _read_brep,
    ".stl": _read_mesh,
    ".ply": _read_ply,
    ".obj": _read_obj,
    ".3mf": _read_3mf,
}


#: Kinds whose readers have been seen to crash.
_TRIED = (".step", ".stp", ".brep", ".brp")


def _named_apart(found: Found) -> Found:
    """The same with labels that print, are not endless and are each the only one."""
    taken: set[str] = set()
    result: Found = []
    for label, form in found:
        label = printed(" ".join(label.split()))[:_LONGEST_LABEL].strip() or "Form"
        name, number = label, 2
        while name in taken:
            name, number = f"{label} {number}", number + 1
        taken.add(name)
        result.append((name, form))
    return result


def _added(document: Document, label: str, form: Any) -> Any:
    if isinstance(form, Part.Shape):
        obj = document.addObject("Part::Feature", "Form")
        obj.Shape = form
    else:
        obj = document.addObject("Mesh::Feature", "Form")
        obj.Mesh = form
    obj.Label = label
    return obj


@contextmanager
def _quiet() -> Iterator[None]:
    """The readers print to the process's own output; a maker who asked for a plan gets one sentence, not their log."""
    sys.stdout.flush()
    sys.stderr.flush()
    kept = [os.dup(1), os.dup(2)]
    try:
        with open(os.devnull, "wb") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
            yield
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        for number, copy in enumerate(kept, 1):
            os.dup2(copy, number)
            os.close(copy)
