# SPDX-License-Identifier: LGPL-2.1-or-later

"""While a set-up of the glue-up is selected, its layers are seen alone; and what its picture leaves out."""

from __future__ import annotations

from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.family import stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.workbench.scene import apart

_OWNER = "selected set-up"
#: Kinds of objects that are drawn in or around the layers.
_AROUND = ("stack", "layer", "joint", "pins", "hollow", "carving", "glue lines")


def drawn_around(document: Document) -> set[str]:
    """The names of all objects that would hide layers, or tell nothing without the others: layers, what is cut into
    them, and the forms."""
    names = {o.Name for o in document.Objects if kind_of(o) in _AROUND}
    return names | {s.Form.Name for s in stacks_in(document) if s.Form is not None and s.Form.Document is document}


class _Observer:
    """FreeCAD calls these by their names when the selection changes."""

    def addSelection(self, *_: Any) -> None:
        _follow()

    def removeSelection(self, *_: Any) -> None:
        _follow()

    def setSelection(self, *_: Any) -> None:
        _follow()

    def clearSelection(self, *_: Any) -> None:
        _follow()


_observers: list[_Observer] = []


def install() -> None:
    """Begin to watch the selection; once is enough."""
    if not _observers:
        _observers.append(_Observer())
        FreeCADGui.Selection.addObserver(_observers[0])


def _follow() -> None:
    """Show what is selected. A panel that is open has the picture for itself."""
    document = FreeCAD.ActiveDocument
    chosen = [] if document is None else [o for o in FreeCADGui.Selection.getSelection() if kind_of(o) == "set-up"]
    seen = {layer.Name for one in chosen for layer in one.Layers} | {one.Joint.Name for one in chosen if one.Joint}
    if not seen or FreeCADGui.Control.activeDialog():
        apart.clear(_OWNER)
        return
    document = chosen[0].Document
    places: dict[str, apart.Triple | None] = dict.fromkeys(drawn_around(document) - seen)
    apart.show(document, places | dict.fromkeys(seen, (0.0, 0.0, 0.0)), _OWNER)
