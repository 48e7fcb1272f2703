# SPDX-License-Identifier: LGPL-2.1-or-later

"""As many layers as the plan has, each knowing the joints, the hollow and the pins that cut it.

An object's execute must not make or delete objects, so this is done when a document has been recomputed.
"""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.breathing import breathe
from freecad_stacklam.docobjects.base.family import (
    BELONGINGS,
    idle_because,
    in_use,
    joints_of,
    made_for,
    name_of_stack,
    settling,
)
from freecad_stacklam.docobjects.base.protocols import LayerObject, StackObject
from freecad_stacklam.docobjects.layer import Layer
from freecad_stacklam.objectkinds import kind_of


def match_layers(stack: StackObject) -> None:
    """Make the layers that the plan has and the tree has not, take away those above the top, and tell each its joints.

    Does nothing while the document is being read, undone or redone (those bring the layers back themselves), nor for a
    stack in error, whose layers stay as they were.
    """
    document = stack.Document
    if settling(document) or "Invalid" in stack.State or "Touched" in stack.State:
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
        breathe()
    ordered = [layers[number] for number in sorted(layers)]
    for name, found in (("Layers", ordered), ("Insides", _belongings(stack))):
        if _names(getattr(stack, name)) != _names(found):
            setattr(stack, name, found)


def _belongings(stack: StackObject) -> list[Any]:
    return [obj for kind in BELONGINGS for obj in made_for(stack, kind)]


def _wake(stack: StackObject, kind: str) -> bool:
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


def make_layer(stack: StackObject, number: int) -> LayerObject:
    """A new layer of `stack`, not yet drawn."""
    layer = stack.Document.addObject("Part::FeaturePython", "Layer")
    Layer(layer)
    layer.Stack = stack
    layer.Number = number
    layer.Label = f"{name_of_stack(stack)} layer {number}"
    return layer
