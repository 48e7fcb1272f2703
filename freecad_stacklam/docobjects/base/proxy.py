# SPDX-License-Identifier: LGPL-2.1-or-later

"""What every proxy of the workbench's document objects has in common.

A proxy holds no state: everything is in the object's properties, so a file tells all, and copies and undo need no care.
"""

from __future__ import annotations

from typing import Any, ClassVar

from freecad_stacklam import objectkinds
from freecad_stacklam.docobjects.base.migration import CURRENT, migrate
from freecad_stacklam.docobjects.base.properties import Property, add_properties
from freecad_stacklam.docobjects.base.refusing import refused
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

_SCHEMA = Property("Integer", "SchemaVersion", "StackLam", mark("Version of these properties"), CURRENT, hidden=True)


class Proxy:
    """Base of Stack, Layer, Joint and Job. Subclasses name their properties and their kind of view."""

    KIND: ClassVar[str] = ""
    PROPERTIES: ClassVar[tuple[Property, ...]] = ()

    def __init__(self, obj: Any) -> None:
        obj.Proxy = self
        add_properties(obj, (*self.PROPERTIES, _SCHEMA))
        obj.setEditorMode("SchemaVersion", ["Hidden"])
        objectkinds.attach(obj, self.KIND)

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened."""
        migrate(obj, type(self).__name__)
        add_properties(obj, self.PROPERTIES)
        obj.setEditorMode("SchemaVersion", ["Hidden"])
        objectkinds.attach(obj, self.KIND)

    def execute(self, obj: Any) -> None:
        """Called by FreeCAD to recompute. A Refusal becomes the object's error: its sentence is shown when the maker
        points at the object in the tree, and in the report view, without the way to it."""
        try:
            if obj.SchemaVersion > CURRENT:
                raise Refusal(
                    say(
                        "“{label}” was made by a newer StackLam than this one: install the newest to change it.",
                        label=obj.Label,
                    )
                )
            self.compute(obj)
        except Refusal as refusal:
            raise refused(obj.Label, refusal.told(units_in(obj.Document))) from None

    def compute(self, obj: Any) -> None:
        """Bring the results and the shape up to date; writes to no other object. Raises Refusal."""

    # FreeCAD 0.20 asks for __getstate__ and __setstate__, 0.21 and later for dumps and loads.
    def dumps(self) -> None:
        """Nothing to keep: see the module's text."""
        return None

    def loads(self, state: Any) -> None:
        """Nothing was kept."""

    def __getstate__(self) -> None:
        return None

    def __setstate__(self, state: Any) -> None:
        pass
