# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Layer object: one layer of a stack as it is sawn, with its mortises, voids and pin holes, in its place."""

from __future__ import annotations

from typing import Any

import Part

from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.properties import Property, set_results
from freecad_stacklam.docobjects.base.protocols import LayerObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.forms.plancache import Same
from freecad_stacklam.docobjects.forms.shapes import layer_shape, placement_of, show
from freecad_stacklam.docobjects.reading.insides import plan_with_cuts
from freecad_stacklam.lamination.plan.layers import LayerPlan
from freecad_stacklam.lamination.words import mark

#: Layers that were drawn: those of a stack that stays as it is need not be cut again.
_shapes: Memory[Any] = Memory(200)


class Layer(Proxy):
    """One layer. It depends on its stack and on the joints, the hollow and the pins of that stack. The name of this
    class is written in users' files and never changes."""

    KIND = "layer"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Layer", mark("The stack that this layer belongs to")),
        Property("LinkListGlobal", "Joints", "Layer", mark("The joints of that stack"), hidden=True),
        Property("LinkGlobal", "Hollow", "Layer", mark("The hollow of that stack"), hidden=True),
        Property("LinkGlobal", "Pins", "Layer", mark("The pins of that stack"), hidden=True),
        Property("Integer", "Number", "Layer", mark("Number of the layer, from 1 at the bottom"), result=True),
        Property("Length", "Bottom", "Plan", mark("Height of its bottom in the stack"), result=True),
        Property("Length", "Top", "Plan", mark("Height of its top in the stack"), result=True),
        Property("Length", "Thickness", "Plan", mark("Thickness of its board"), result=True),
        Property("Area", "BlankArea", "Plan", mark("Area inside the cut line"), result=True),
        Property("Volume", "BlankVolume", "Plan", mark("Volume of the blank as sawn, before any mortise"), result=True),
        Property("Volume", "FinishedVolume", "Plan", mark("Volume of the form in this layer"), result=True),
        Property("String", "Species", "Plan", mark("The wood"), result=True),
        Property("Angle", "Grain", "Plan", mark("Direction of the grain, from the stack's x"), result=True),
    )

    def compute(self, obj: LayerObject) -> None:
        """Draw the layer. One above the top of its stack, or without a stack, is empty: the watcher takes it away."""
        if obj.Stack is None:
            obj.Shape = Part.Shape()
            return
        plan = plan_with_cuts(obj.Stack, obj.Joints, obj.Hollow, obj.Pins)
        if not 1 <= obj.Number <= len(plan.layers):
            obj.Shape = Part.Shape()
            return
        layer = plan.layers[obj.Number - 1]
        show(obj, _shapes.get(Same(layer), lambda: layer_shape(layer)), placement_of(plan.frame))
        set_results(obj, _figures(layer))


def _figures(layer: LayerPlan) -> dict[str, Any]:
    return {
        "Bottom": layer.bottom,
        "Top": layer.top,
        "Thickness": layer.thickness,
        "BlankArea": layer.blank_area,
        "BlankVolume": layer.blank_volume,
        "FinishedVolume": layer.finished_volume,
        "Species": layer.species,
        "Grain": layer.grain,
    }
