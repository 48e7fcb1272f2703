# SPDX-License-Identifier: LGPL-2.1-or-later

"""Objects shown elsewhere, or not at all, for a while. Only the picture changes: no property of an object or of its
view does, and `clear` puts everything back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.protocols import Document

Triple = tuple[float, float, float]
#: No mode of drawing: the object is out of sight. And the mode that every shape has.
_NOTHING, _FIRST = -1, 0
_owner = ""


@dataclass(frozen=True)
class _Before:
    """How an object was seen: its mode of drawing, whether it was visible; and the node that moves it now, or None."""

    document: str
    name: str
    mode: int
    visible: bool
    node: Any


_shown: list[_Before] = []


def show(document: Document, places: Mapping[str, Triple | None], owner: str) -> None:
    """Show the objects with these names so far from their places, those with None not at all; instead of what was shown
    so before. `owner` tells whose picture it is."""
    from pivy import coin

    global _owner
    clear()
    _owner = owner
    for name, place in places.items():
        obj = document.getObject(name)
        view = None if obj is None else obj.ViewObject
        if view is None or not hasattr(view, "SwitchNode"):
            continue
        before = int(view.SwitchNode.whichChild.getValue())
        mark = getattr(getattr(view, "Proxy", None), "mark", None)
        if mark is not None:  # it tells of wood that is not where it was, or not in sight
            mark.hide()
        node = None
        if place is None:
            view.SwitchNode.whichChild.setValue(_NOTHING)
        else:
            if before == _NOTHING:
                view.SwitchNode.whichChild.setValue(_FIRST)
            if any(place):
                node = coin.SoTranslation()
                node.translation.setValue(*place)
                view.RootNode.insertChild(node, 0)
        _shown.append(_Before(document.Name, name, before, bool(view.Visibility), node))


def clear(owner: str = "") -> None:
    """Put everything back; with an owner only what it shows. Once more does no harm."""
    global _owner
    if owner and owner != _owner:
        return
    _owner = ""
    for was in _shown:
        there = was.document in FreeCAD.listDocuments()
        obj = FreeCAD.getDocument(was.document).getObject(was.name) if there else None
        view = None if obj is None else obj.ViewObject
        if view is None:
            continue
        if was.node is not None and view.RootNode.findChild(was.node) >= 0:
            view.RootNode.removeChild(was.node)
        mode = was.mode
        if bool(view.Visibility) != was.visible:  # shown or hidden by the maker meanwhile: that stays
            mode = _FIRST if view.Visibility else _NOTHING
        view.SwitchNode.whichChild.setValue(mode)
        mark = getattr(getattr(view, "Proxy", None), "mark", None)
        if mark is not None:
            mark.follow(obj)
    _shown.clear()
