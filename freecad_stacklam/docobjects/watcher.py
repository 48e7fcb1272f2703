# SPDX-License-Identifier: LGPL-2.1-or-later

"""Keeps the tree in step: as many layers as the plan has, each knowing the joints, the hollow and the pins that cut it.

An object's execute must not make or delete objects, so this is done when a document has been recomputed, inside the
same undo step, by an observer that FreeCAD calls with or without a window.
"""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.views import kind_of

_installed: list[Any] = []
#: What is made for one stack and goes with it, besides its layers.
BELONGINGS = ("hollow", "pins", "glue lines")
#: Such objects whose stack was deleted, by the name of their document.
_lost: dict[str, set[str]] = {}


class Watcher:
    """FreeCAD calls these by their names."""

    def slotRecomputedDocument(self, document: Any) -> None:
        """After every recompute of a whole document."""
        match_document(document)

    def slotDeletedObject(self, obj: Any) -> None:
        """What was made for a stack goes with it when the document is next recomputed."""
        if kind_of(obj) == "stack" and not _settling(obj.Document):
            names = {o.Name for kind in BELONGINGS for o in made_for(obj, kind)}
            _lost.setdefault(obj.Document.Name, set()).update(names)

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


def joints_of(stack: Any) -> list[Any]:
    """Every joint that runs through a stack, in the order they were made."""
    return [o for o in joints_in(stack.Document) if any(s.Name == stack.Name for s in o.Stacks if s is not None)]


def made_for(stack: Any, kind: str) -> list[Any]:
    """The objects of one kind of BELONGINGS of a stack, in the order they were made."""
    return [
        o for o in stack.Document.Objects if kind_of(o) == kind and o.Stack is not None and o.Stack.Name == stack.Name
    ]


def in_use(stack: Any, kind: str) -> Any:
    """The pins or the hollow that cut a stack's layers: the first that is not suppressed, or the first; None without
    any. A stack has no more than one of either; a copy is idle until it is given a stack of its own."""
    found = made_for(stack, kind)
    return next((o for o in found if not o.Suppressed), found[0] if found else None)


def idle_because(obj: Any) -> tuple[str, str] | None:
    """Why pins or a hollow do nothing, as a word and a sentence; None for those that do."""
    if obj.Suppressed:
        return "suppressed", f"“{obj.Label}” is suppressed: nothing is cut for it."
    if obj.Stack is None:
        return "idle", f"“{obj.Label}” has no stack: choose the one it is made for, or delete it."
    used = in_use(obj.Stack, kind_of(obj))
    if used is not None and used.Name != obj.Name:
        return "idle", f"“{used.Label}” is at work in the same stack: give “{obj.Label}” another, or delete it."
    return None


def match_document(document: Any) -> None:
    """Match the layers of every stack, and take away those whose stack was deleted."""
    if _settling(document):
        return
    lost = _lost.pop(document.Name, set())
    for obj in [o for o in document.Objects if kind_of(o) in ("layer", *BELONGINGS) and o.Stack is None]:
        if kind_of(obj) == "layer" or obj.Name in lost:
            document.removeObject(obj.Name)
    for stack in stacks_in(document):
        match_layers(stack)
    # Late: the cutting plan and the carving guide know the stacks, which know this room.
    from freecad_stacklam.docobjects.carvingguide import match_carving
    from freecad_stacklam.docobjects.cutting import match_cutting

    match_cutting(document)
    match_carving(document)


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
    joints, hollow, pins = joints_of(stack), in_use(stack, "hollow"), in_use(stack, "pins")
    changed = _wake(stack, "hollow") | _wake(stack, "pins")
    if hollow is not None and _tell(hollow, changed or _fresh(hollow), Joints=joints):
        changed = True
    if pins is not None and _tell(pins, changed or _fresh(pins), Joints=joints, Hollow=hollow):
        changed = True
    for number in range(1, stack.LayerCount + 1):
        new = number not in layers
        if new:
            layers[number] = make_layer(stack, number)
        _tell(layers[number], new or changed, Joints=joints, Hollow=hollow, Pins=pins)
    ordered = [layers[number] for number in sorted(layers)]
    for name, found in (("Layers", ordered), ("Insides", _belongings(stack))):
        if _names(getattr(stack, name)) != _names(found):
            setattr(stack, name, found)


def _belongings(stack: Any) -> list[Any]:
    return [obj for kind in BELONGINGS for obj in made_for(stack, kind)]


def _wake(stack: Any, kind: str) -> bool:
    """Let pins or a hollow begin or cease to work when another took or left the place; True when one did."""
    woken = False
    for obj in made_for(stack, kind):
        if "Invalid" not in obj.State and (idle_because(obj) is not None) != (obj.Verdict in ("suppressed", "idle")):
            _compute(obj)
            woken = True
    return woken


def _tell(obj: Any, anyway: bool, **links: Any) -> bool:
    """Give an object what it depends on, and let it compute when that is new, or `anyway`; True when it did."""
    new = anyway
    for name, wanted in links.items():
        if _names(getattr(obj, name)) != _names(wanted):
            setattr(obj, name, wanted)
            new = True
    if new:
        _compute(obj)
    return new


def _fresh(obj: Any) -> bool:
    """Whether an object was just made, and has not been computed yet."""
    return "Touched" in obj.State and "Invalid" not in obj.State


def _compute(obj: Any) -> None:
    """Compute unless something that the object depends on could not be; it then stays touched, as in a recompute."""
    if not any("Invalid" in o.State for o in obj.OutList):
        obj.recompute()
        if "Invalid" not in obj.State:
            obj.purgeTouched()


def _names(links: Any) -> list[str]:
    found = links if isinstance(links, list) else [links]
    return [o.Name for o in found if o is not None]


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
