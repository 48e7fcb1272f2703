# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where the workbench leaves its view providers, so that objects made down here get theirs without knowing it.

The workbench registers one factory per kind of object (KINDS below) when it is opened. Without a
window, or before that, objects are made without; they get theirs when the workbench registers.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import FreeCAD

#: Class name of a proxy → kind of view.
KINDS = {
    "Stack": "stack", "Layer": "layer", "Joint": "joint", "Pins": "pins", "Hollow": "hollow", "Job": "job",
    "Shop": "shop", "Cutting": "cutting", "Carving": "carving", "GlueLines": "glue lines",
    "GlueUp": "glue-up", "GlueSet": "set-up", "Piece": "piece",
}  # fmt: skip
_factories: dict[str, Callable[[Any], Any]] = {}


def register(kind: str, factory: Callable[[Any], Any]) -> None:
    """Use `factory(view_object)` for objects of this kind, also for those in documents that are open already."""
    if kind not in KINDS.values():
        raise ValueError(f"no kind of object is called {kind}")
    _factories[kind] = factory
    if not FreeCAD.GuiUp:
        return
    for document in FreeCAD.listDocuments().values():
        for obj in document.Objects:
            if kind_of(obj) == kind:
                attach(obj, kind)


def kind_of(obj: Any) -> str:
    """One of KINDS' values; "" for everything that is not the workbench's own."""
    proxy = getattr(obj, "Proxy", None)
    if proxy is None or not type(proxy).__module__.startswith("freecad_stacklam.docobjects."):
        return ""
    return KINDS.get(type(proxy).__name__, "")


def attach(obj: Any, kind: str) -> None:
    """Give `obj` its view provider, if there is a window, a factory, and none attached yet."""
    if not FreeCAD.GuiUp or kind not in _factories:
        return
    view = getattr(obj, "ViewObject", None)
    if view is not None and not getattr(view, "Proxy", None):
        _factories[kind](view)
