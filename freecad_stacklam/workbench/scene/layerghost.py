# SPDX-License-Identifier: LGPL-2.1-or-later

"""The layers of a stack as a ghost in the 3D view while the maker types: glue lines on the form, and round it the
stepped block of its blanks. Nothing of it belongs to the document.
"""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.family import BELONGINGS, made_for
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.stack import StackPreview
from freecad_stacklam.workbench.scene import apart, overlay
from freecad_stacklam.workbench.scene.ghost import ADDED, Colour
from freecad_stacklam.workbench.scene.layerlines import layer_lines

OWNER = "layers to be"
#: Part of the light that the block lets through, so that the form is seen in it.
_CLEAR = 0.75
#: The block's colour turned into that of its rims, seen on a light ground and on a dark one, and of the glue lines.
_RIM, _LINE = 1.3, 0.6
#: Width of a glue line, pixels.
_WIDE = 2.5


def show(source: Any, mesh: Mesh, found: StackPreview, stack: StackObject | None = None) -> None:
    """Show the layers of a preview over the form `source`, whose mesh it was made of, instead of those shown before.
    A stack whose layers are changed lets its form be seen in place of what it has now."""
    lines = layer_lines(mesh, found)
    nodes = [
        overlay.lines_node([line.tolist() for line in lines.glue_lines], _shade(_LINE), _WIDE),
        overlay.edges_node(lines.rims, _shade(_RIM)),
        overlay.walls_node(lines.faces, ADDED, _CLEAR),
    ]
    overlay.show(source.Document, nodes, OWNER)
    if stack is not None:
        made = [stack, *stack.Layers, *(one for kind in BELONGINGS for one in made_for(stack, kind))]
        apart.show(source.Document, {one.Name: None for one in made} | {source.Name: (0.0, 0.0, 0.0)}, OWNER)


def clear() -> None:
    """Take the ghost away, and let what is there be seen again; once more does no harm."""
    overlay.clear(OWNER)
    apart.clear(OWNER)


def _shade(part: float) -> Colour:
    red, green, blue = ADDED
    return part * red, part * green, part * blue
