# SPDX-License-Identifier: LGPL-2.1-or-later

"""What stands in for the document objects while a package is missing that they are computed with.

FreeCAD forgets the class of an object whose module does not load, and a document saved after that has lost its stacks
for good. So where numpy or shapely is missing, the module that a file names is a small one: its class has the right
name, keeps the object as it is, and refuses to compute it.
"""

from __future__ import annotations

import importlib.abc
import importlib.machinery
import sys
from collections.abc import Sequence
from types import ModuleType
from typing import Any

from freecad_stacklam.docobjects.base.refusing import refused
from freecad_stacklam.packages.looking import faults
from freecad_stacklam.packages.missing import PackagesMissing, require
from freecad_stacklam.packages.needs import PLANNING

_ROOM = "freecad_stacklam.docobjects"
#: Module → the class in it that users' files name.
CLASSES = {
    "carvingguide": "Carving", "cutting": "Cutting", "gluelines": "GlueLines", "glueset": "GlueSet", "glueup": "GlueUp",
    "hollow": "Hollow", "job": "Job", "joint": "Joint", "layer": "Layer", "piece": "Piece", "pins": "Pins",
    "shop": "Shop", "stack": "Stack",
}  # fmt: skip
#: Marks a module of ours that stands in for another.
_MARK = "stands_in"


class StandIn:
    """Keeps an object as it was saved. Subclasses bear the names that files know."""

    def execute(self, obj: Any) -> None:
        """Called by FreeCAD to recompute."""
        try:
            require(PLANNING, "cannot be computed")
        except PackagesMissing as missing:
            raise refused(obj.Label, str(missing)) from None

    # As docobjects.base.proxy has them: nothing but properties is kept.
    def dumps(self) -> None:
        return None

    def loads(self, state: Any) -> None:
        pass

    def __getstate__(self) -> None:
        return None

    def __setstate__(self, state: Any) -> None:
        pass


class _StandIns(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives Python the small modules, and looks for a missing package only when one of the large ones is asked for."""

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        room, _, module = name.rpartition(".")
        if room != _ROOM or module not in CLASSES or not faults(PLANNING):
            return None
        return importlib.machinery.ModuleSpec(name, self)

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        name = CLASSES[module.__name__.rpartition(".")[2]]
        setattr(module, _MARK, True)
        setattr(module, name, type(name, (StandIn,), {"__module__": module.__name__}))


def stand_in_where_needed() -> None:
    """From now on no object loses its class for want of a package; once is enough."""
    if not any(isinstance(finder, _StandIns) for finder in sys.meta_path):
        sys.meta_path.insert(0, _StandIns())


def stand_back() -> bool:
    """Let the real modules be loaded, now that the packages are there; whether any had been stood in for, so that open
    documents have to be opened again."""
    stood = [f"{_ROOM}.{name}" for name in CLASSES if hasattr(sys.modules.get(f"{_ROOM}.{name}"), _MARK)]
    for name in stood:
        del sys.modules[name]
        delattr(sys.modules[_ROOM], name.rpartition(".")[2])
    return bool(stood)
