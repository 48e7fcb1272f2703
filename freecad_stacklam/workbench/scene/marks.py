# SPDX-License-Identifier: LGPL-2.1-or-later

"""Marks in the 3D view at the place where least wood is left of a stack, or over a joint, a pin or a void; around a
stack's thin zones, lines along their rims.

A mark shows while its object is selected, and always while the verdict on that wood is caution or stop; never while
the object is hidden.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.workbench.fields.fields import shown_length
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.scene.ghost import Spot, lines_node, mark_node

#: Kind of object → the property that holds its least cover.
COVERS = {"stack": "WoodLeft", "joint": "LeastCover", "pins": "LeastCover", "hollow": "LeastWall"}
#: What a change of which property moves or words a mark.
WATCHED = ("CoverPlace", "LeastCover", "LeastWall", "WoodLeft", "ThinRims", "CoverVerdict", "Verdict", "Placement")


class CoverMark:
    """The mark of one object, hung under its view."""

    def __init__(self, view: Any) -> None:
        from pivy import coin

        self.switch = coin.SoSwitch()
        view.RootNode.addChild(self.switch)

    def follow(self, obj: Any) -> None:
        """Put the mark where the object says, with its words, and show it when it should."""
        self.switch.removeAllChildren()
        # A stack's own verdict is on its proof: without a least wood it has nothing to mark.
        other = "" if kind_of(obj) == "stack" else getattr(obj, "Verdict", "")
        verdict = getattr(obj, "CoverVerdict", "") or other
        wanted = verdict in ("ok", "caution", "stop") and obj.ViewObject.Visibility
        if wanted and (verdict != "ok" or is_selected(obj)):
            # What hangs under a view moves with the object.
            placed = getattr(obj, "Placement", None)  # a stack has none
            place = obj.CoverPlace if placed is None else placed.inverse().multVec(obj.CoverPlace)
            cover = getattr(obj, COVERS[kind_of(obj)]).Value
            words = words_over_form(cover) if kind_of(obj) == "stack" else words_for(cover)
            self.switch.addChild(mark_node(Spot((place.x, place.y, place.z), words, verdict)))
            rims = [tuple(end) for end in getattr(obj, "ThinRims", ())]
            if rims:
                self.switch.addChild(lines_node(rims, verdict))
        self.switch.whichChild.setValue(-3 if self.shown else -1)

    def hide(self) -> None:
        """Out of sight until it follows again."""
        self.switch.whichChild.setValue(-1)

    @property
    def shown(self) -> bool:
        """Whether the mark is in sight."""
        return bool(self.switch.getNumChildren())


def words_for(cover: float) -> str:
    """What is written beside a mark."""
    return (
        translate("StackLam", "{} of wood").format(shown_length(cover))
        if cover > 0
        else translate("StackLam", "breaks out {}").format(shown_length(-cover))
    )


def words_over_form(cover: float) -> str:
    """What is written beside the mark of a stack: its wood lies outside the form, not around a joint or a pin."""
    return (
        translate("StackLam", "{} of wood over the form").format(shown_length(cover)) if cover > 0 else words_for(cover)
    )


def is_selected(obj: Any) -> bool:
    """Whether the object, or anything of it, is selected."""
    return any(item.Object.Name == obj.Name for item in FreeCADGui.Selection.getSelectionEx(obj.Document.Name))


class _Observer:
    """FreeCAD calls these by their names when the selection changes."""

    def addSelection(self, document: str, name: str, *_: Any) -> None:
        _follow(document, name)

    def removeSelection(self, document: str, name: str, *_: Any) -> None:
        _follow(document, name)

    def setSelection(self, document: str) -> None:
        _follow_all(document)

    def clearSelection(self, document: str) -> None:
        _follow_all(document)


_observers: list[_Observer] = []


def install() -> None:
    """Begin to watch the selection; once is enough."""
    if not _observers:
        _observers.append(_Observer())
        FreeCADGui.Selection.addObserver(_observers[0])


def _follow(document: str, name: str) -> None:
    if document in FreeCAD.listDocuments():
        obj = FreeCAD.getDocument(document).getObject(name)
        mark = getattr(getattr(getattr(obj, "ViewObject", None), "Proxy", None), "mark", None)
        if mark is not None and kind_of(obj) in COVERS:
            mark.follow(obj)


def _follow_all(document: str) -> None:
    names = [document] if document in FreeCAD.listDocuments() else list(FreeCAD.listDocuments())
    for name in names:
        for obj in FreeCAD.getDocument(name).Objects:
            if kind_of(obj) in COVERS:
                _follow(name, obj.Name)
