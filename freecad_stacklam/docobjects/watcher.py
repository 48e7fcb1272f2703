"""Keeps the tree in step: as many layers as the plan has, each knowing the joints that cut it.

An object's execute must not make or delete objects, so this is done when a document has been recomputed, inside the
same undo step, by an observer that FreeCAD calls with or without a window.
"""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.views import kind_of

_installed: list[Any] = []


class Watcher:
    """FreeCAD calls these by their names."""

    def slotRecomputedDocument(self, document: Any) -> None:
        """After every recompute of a whole document."""
        match_document(document)

    def slotChangedObject(self, obj: Any, name: str) -> None:
        """A form moves with what it sits in, without being recomputed itself."""
        if name == "Placement" and _is_container(obj) and not _settling(obj.Document):
            for stack in stacks_in(obj.Document):
                if stack.Form is not None and _sits_in(stack.Form, obj):
                    stack.touch()


def install() -> None:
    """Begin to watch all documents; once is enough."""
    if not _installed:
        _installed.append(Watcher())
        FreeCAD.addDocumentObserver(_installed[0])


def stacks_in(document: Any) -> list[Any]:
    """Every stack of a document, in the order they were made."""
    return [o for o in document.Objects if kind_of(o) == "stack"]


def joints_in(document: Any) -> list[Any]:
    """Every joint of a document, in the order they were made."""
    return [o for o in document.Objects if kind_of(o) == "joint"]


def match_document(document: Any) -> None:
    """Match the layers of every stack, and take away those whose stack was deleted."""
    if _settling(document):
        return
    for layer in [o for o in document.Objects if kind_of(o) == "layer" and o.Stack is None]:
        document.removeObject(layer.Name)
    for stack in stacks_in(document):
        match_layers(stack)


def match_layers(stack: Any) -> None:
    """Make the layers that the plan has and the tree has not, take away those above the top, and tell each its joints.

    Does nothing while the document is being read, undone or redone (those bring the layers back themselves), nor for a
    stack in error, whose layers stay as they were.
    """
    # Late: layers know the stack, which knows this room.
    from freecad_stacklam.docobjects.layer import make_layer

    document = stack.Document
    if _settling(document) or "Invalid" in stack.State or "Touched" in stack.State:
        return
    users = [o for o in stack.InList if o.Document is document or o.Document.Name == document.Name]
    layers: dict[int, Any] = {}
    spare = []
    for layer in sorted((o for o in users if kind_of(o) == "layer"), key=lambda o: o.ID):
        if layer.Number in layers or layer.Number > stack.LayerCount:
            spare.append(layer)
        else:
            layers[layer.Number] = layer
    for layer in spare:
        document.removeObject(layer.Name)
    joints = [o for o in joints_in(document) if any(s.Name == stack.Name for s in o.Stacks if s is not None)]
    names = [j.Name for j in joints]
    for number in range(1, stack.LayerCount + 1):
        new = number not in layers
        if new:
            layers[number] = make_layer(stack, number)
        layer = layers[number]
        other = [j.Name for j in layer.Joints] != names
        if other:
            layer.Joints = joints
        if new or other:
            layer.recompute()
            layer.purgeTouched()
    ordered = [layers[number] for number in sorted(layers)]
    if [o.Name for o in stack.Layers if o is not None] != [o.Name for o in ordered]:
        stack.Layers = ordered


def _settling(document: Any) -> bool:
    return bool(document.Restoring or document.Transacting)


def _is_container(obj: Any) -> bool:
    return bool(obj.hasExtension("App::GeoFeatureGroupExtension"))


def _sits_in(obj: Any, container: Any) -> bool:
    parent = obj.getParentGeoFeatureGroup()
    while parent is not None:
        if parent.Name == container.Name:
            return True
        parent = parent.getParentGeoFeatureGroup()
    return False
