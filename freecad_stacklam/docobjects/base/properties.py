# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the workbench's objects get their properties: each once, in a named group, results read-only."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from freecad_stacklam.lamination.words import say

_READ_ONLY, _HIDDEN, _OUTPUT = 1, 4, 8


@dataclass(frozen=True)
class Property:
    """One property of a document object. A `result` is written by execute and never by the maker; a `hidden` one is
    for the workbench alone. `first` is its value in a new object (None: FreeCAD's own). `text` and `unit`, of a plain
    figure that FreeCAD shows without one, are said when the object gets the property."""

    kind: str
    name: str
    group: str
    text: str
    first: Any = None
    result: bool = False
    hidden: bool = False
    unit: str = ""


def add_properties(obj: Any, wanted: Iterable[Property]) -> None:
    """Give `obj` the properties that it does not have yet; those it has keep their values."""
    there = set(obj.PropertiesList)
    for p in wanted:
        if p.name in there:
            continue
        # Output: writing a result must not make the object ask for another recompute.
        attributes = (_OUTPUT | _READ_ONLY if p.result else 0) | (_HIDDEN if p.hidden else 0)
        obj.addProperty(f"App::Property{p.kind}", p.name, p.group, _told(p), attributes, p.result, p.hidden)
        if p.first is not None:
            setattr(obj, p.name, p.first)


def _told(p: Property) -> str:
    return f"{say(p.text)} ({say(p.unit)})" if p.unit else say(p.text)


def set_results(obj: Any, values: Mapping[str, Any]) -> None:
    """Write several results, by the names of their properties."""
    for name, value in values.items():
        set_result(obj, name, value)


def set_result(obj: Any, name: str, value: Any) -> None:
    """Write a result only when it is another, so that an undo step holds what changed and nothing else."""
    old = getattr(obj, name)
    if getattr(old, "Value", old) != value:
        setattr(obj, name, value)
