# SPDX-License-Identifier: LGPL-2.1-or-later

"""Looks at a document of FreeCAD for the guide. Cheap, because it is done several times a second."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.family import joints_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.names import file_name
from freecad_stacklam.lamination.tolerances import LEVEL
from freecad_stacklam.marks import is_ours
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.workbench.fields.fields import inches_are_shown
from freecad_stacklam.workbench.learning.seen import CONE, CYLINDER, FILLET, Pile, Seen, Solid

#: Properties that are sizes, of the kinds that the guide asks about.
SIZES = {CONE: ("Radius1", "Radius2", "Height", "Angle"), CYLINDER: ("Radius", "Height", "Angle")}
#: Solids that change another: which one.
BASES = {FILLET: FILLET, "Part::Chamfer": FILLET}

#: The last PDF that was looked into: its path, when it was written, and whether it is ours.
_judged: tuple[str, float, bool] = ("", 0.0, False)


def look(document: Document | None, table: str = "", followed: bool = False) -> Seen:
    """What the guide sees of a document; table, followed: as in Seen."""
    workbench = FreeCADGui.activeWorkbench().name()
    units = "in" if inches_are_shown() else "mm"
    if document is None:
        return Seen(units=units, workbench=workbench, panel=_panel_open())
    shown = [o for o in document.Objects if o.isDerivedFrom("Part::Feature") and not kind_of(o)]
    pdf = pdf_of(document)
    return Seen(
        title=document.Label,
        units=units,
        workbench=workbench,
        panel=_panel_open(),
        selected=tuple(o.Name for o in FreeCADGui.Selection.getSelection(document.Name)),
        solids=tuple(_solid(o) for o in shown),
        piles=tuple(_pile(stack) for stack in stacks_in(document)),
        joints=tuple((tuple(s.Name for s in j.Stacks if s is not None), _verdict(j)) for j in joints_in(document)),
        pins=tuple((o.Stack.Name, _verdict(o)) for o in document.Objects if kind_of(o) == "pins" and o.Stack),
        strange=sum(not kind_of(o) and o not in shown for o in document.Objects),
        saved=bool(document.FileName),
        table=table,
        drawings=_age(pdf, document),
        pdf=pdf.name,
        followed=followed,
    )


def pdf_of(document: Document) -> Path:
    """Where the drawings of a document go unless the maker says otherwise."""
    folder = Path(document.FileName).parent if document.FileName else Path.home()
    return folder / f"{file_name(document.Label, also=' ')} drawings.pdf"


def _panel_open() -> bool:
    return bool(FreeCADGui.Control.activeDialog())


def _solid(obj: Any) -> Solid:
    sizes = {name: float(getattr(obj, name).Value) for name in SIZES.get(obj.TypeId, ())}
    place = obj.Placement
    sizes |= {axis: float(getattr(place.Base, axis)) for axis in "xyz"}
    sizes["lean"] = 0.0 if abs(place.Rotation.multVec(FreeCAD.Vector(0, 0, 1)).z - 1) < LEVEL else 1.0
    base = getattr(obj, "Base", None) if obj.TypeId in BASES else None
    broken = "Invalid" in obj.State or (bool(base) and obj.Shape.isNull())
    kind = BASES.get(obj.TypeId, obj.TypeId)
    return Solid(obj.Name, obj.Label, kind, sizes, base.Name if base is not None else "", broken)


def _pile(stack: Any) -> Pile:
    form = stack.Form.Name if stack.Form is not None else ""
    verdict = "stop" if "Invalid" in stack.State else str(stack.Verdict)
    return Pile(stack.Name, stack.Label, form, float(stack.Stock.Value), verdict)


def _verdict(obj: Any) -> str:
    return "stop" if "Invalid" in obj.State else str(obj.Verdict)


def _age(pdf: Path, document: Any) -> str:
    """Whether drawings of ours lie there, and whether they are older than the document itself."""
    global _judged
    try:
        written = pdf.stat().st_mtime
    except OSError:
        return ""
    if _judged[:2] != (str(pdf), written):
        _judged = str(pdf), written, is_ours(pdf)
    if not _judged[2]:
        return ""
    return "old" if written < _begun(document) else "there"


def _begun(document: Any) -> float:
    """When a document was made, seconds since 1970; 0 where it does not say."""
    try:
        begun = datetime.fromisoformat(str(document.CreationDate))
    except ValueError:
        return 0.0
    return (begun if begun.tzinfo else begun.replace(tzinfo=UTC)).timestamp()
