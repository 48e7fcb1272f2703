# SPDX-License-Identifier: LGPL-2.1-or-later

"""Watches documents, so that layers, cutting plan and carving guide follow every recompute inside the same undo step.

FreeCAD calls an observer with or without a window. The package begins to watch when any of its objects is loaded.
"""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.family import BELONGINGS, joints_in, made_for, settling, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.woods import offer_woods
from freecad_stacklam.docobjects.making.naming import follow_label
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.packages.looking import faults
from freecad_stacklam.packages.needs import PLANNING

#: Properties, by the kind of their object, that say which bits holes are bored with, and how woods move.
_BORED_WITH = {("shop", "Rest"), ("shop", "DrillStroke"), ("job", "Units"), ("job", "Woods")}
_installed: list[Any] = []
#: Such objects whose stack was deleted, by the name of their document.
_lost: dict[str, set[str]] = {}
#: Objects that were made since their document was last matched, by its name.
_born: dict[str, set[str]] = {}
#: Labels that are being changed, by document and object.
_labels: dict[tuple[str, str], str] = {}
#: Names of the documents in which something changed since they were last matched: one just opened is as it was saved.
_stirred: set[str] = set()


class Watcher:
    """FreeCAD calls these by their names."""

    def slotRecomputedDocument(self, document: Document) -> None:
        """After every recompute of a whole document."""
        if document.Name in _stirred and not settling(document) and not faults(PLANNING):
            # Here, because all that can be computed comes with it, and a package that is missing must not keep the
            # commands away.
            from freecad_stacklam.docobjects.making.matching import match_document

            match_document(document, _lost.pop(document.Name, set()), _born.pop(document.Name, set()))
            _stirred.discard(document.Name)

    def slotRecomputedObject(self, obj: Any) -> None:
        """After an object was computed."""
        _stir(obj)

    def slotCreatedObject(self, obj: Any) -> None:
        """After an object was made."""
        _stir(obj)
        document = obj.Document
        if document is not None and not document.Transacting and (document.Importing or not document.Restoring):
            _born.setdefault(document.Name, set()).add(obj.Name)

    def slotDeletedDocument(self, document: Document) -> None:
        """Before a document is closed."""
        _stirred.discard(document.Name)
        _lost.pop(document.Name, None)
        _born.pop(document.Name, None)

    def slotDeletedObject(self, obj: Any) -> None:
        """What was made for a stack goes with it when the document is next recomputed."""
        _stir(obj)
        if kind_of(obj) == "stack" and not settling(obj.Document):
            names = {o.Name for kind in BELONGINGS for o in made_for(obj, kind)}
            _lost.setdefault(obj.Document.Name, set()).update(names)

    def slotBeforeChangeObject(self, obj: Any, name: str) -> None:
        """Before a property changes: a form's label may name a piece."""
        if name == "Label" and obj.Document is not None and not settling(obj.Document):
            _labels[obj.Document.Name, obj.Name] = obj.Label

    def slotChangedObject(self, obj: Any, name: str) -> None:
        """A form moves with what it sits in, without being recomputed itself; joints and pins are bored with the shop's
        bits, or with those that belong to the job's units, and link to neither; glue lines are told in those units."""
        _stir(obj)
        if name == "Label" and obj.Document is not None:
            old = _labels.pop((obj.Document.Name, obj.Name), "")
            if old and old != obj.Label and not kind_of(obj) and not settling(obj.Document):
                follow_label(obj, old)
        if (kind_of(obj), name) in _BORED_WITH and not settling(obj.Document):
            for bored in obj.Document.Objects:
                if kind_of(bored) in ("joint", "pins", "glue lines"):
                    bored.touch()
        if (kind_of(obj), name) == ("job", "Woods") and not settling(obj.Document):
            for one in (*stacks_in(obj.Document), *joints_in(obj.Document)):
                offer_woods(one)
        if name == "Placement" and _is_container(obj) and not settling(obj.Document):
            for stack in stacks_in(obj.Document):
                beside = None if stack.AxisFrom is None else stack.AxisFrom[0]
                if any(one is not None and _sits_in(one, obj) for one in (stack.Form, beside)):
                    stack.touch()


def install() -> None:
    """Begin to watch all documents; once is enough."""
    if not _installed:
        _installed.append(Watcher())
        FreeCAD.addDocumentObserver(_installed[0])


def _stir(obj: Any) -> None:
    """Remember that something changed in an object's document, unless that is being opened; what is pasted into it is
    read in the same way."""
    document = obj.Document
    if document is not None and (document.Importing or not document.Restoring):
        _stirred.add(document.Name)


def _is_container(obj: Any) -> bool:
    return bool(obj.hasExtension("App::GeoFeatureGroupExtension"))


def _sits_in(obj: Any, container: Any) -> bool:
    parent = obj.getParentGeoFeatureGroup()
    while parent is not None:
        if parent.Name == container.Name:
            return True
        parent = parent.getParentGeoFeatureGroup()
    return False
