# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a command does to the document is done by a line of Python, so that FreeCAD's macro recorder has it.

The lines call freecad_stacklam.api and are the whole of the change: a recorded macro does what the panels did.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import FreeCAD
import FreeCADGui

import __main__
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.settings.file import facts_of
from freecad_stacklam.lamination.settings.shop import ShopSettings

API = "freecad_stacklam.api"


def run(name: str, function: str, /, *things: Any, **named: Any) -> Any:
    """Call a function of the api by a line that is recorded; what it gives is called `name` there. Raises Refusal as
    the function does."""
    given = ", ".join([*map(written, things), *(f"{key}={written(value)}" for key, value in named.items())])
    for module in ("FreeCAD", API):
        FreeCADGui.addModule(module)
    FreeCADGui.doCommand(f"{name} = {API}.{function}({given})")
    return getattr(__main__, name)


def options_of(record: Record) -> dict[str, Any]:
    """The options of a record as the api takes them, without those that have their first values; of a shop also those
    that its maker gave."""
    rows = rows_of(type(record))
    asked = {row.name for row in rows if getattr(record, row.name) != row.first} | set(getattr(record, "given", ()))
    if isinstance(record, ShopSettings):
        record = replace(record, given=tuple(sorted(asked)))
    facts = facts_of(record)
    return {row.key: facts[row.key] for row in rows if row.name in asked and row.key in facts}


def written(value: Any) -> str:
    """A value as Python: objects of documents by their names, the rest as it is."""
    if hasattr(value, "Document") and hasattr(value, "Name"):
        return f"{_document(value.Document)}.getObject({value.Name!r})"
    if hasattr(value, "Objects") and hasattr(value, "FileName"):
        return _document(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key!r}: {written(part)}" for key, part in value.items()) + "}"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(map(written, value)) + "]"
    return repr(value)


def _document(document: Document) -> str:
    """The document a macro is run on; by its name where another one is at the front."""
    active = FreeCAD.ActiveDocument
    if active is not None and active.Name == document.Name:
        return "FreeCAD.ActiveDocument"
    return f"FreeCAD.getDocument({document.Name!r})"
