# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stepped stack in elevation, from the front and from the right: what a carver sees with a square held beside it.

Everything is what shows against the light: the outermost wood at each height, of the blanks and of the finished form.
At every glue line, on both sides, stand the step's outer corner (the wider blank's edge), its inner corner (where the
narrower blank stands on it or hangs over it) and the finished surface.
"""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.carving import Elevation, ElevationCorner, Spans
from freecad_stacklam.lamination.plan.layers import StackPlan

#: Sections of the form in each layer between which its outline is drawn straight.
PARTS = 8
#: The views and the coordinate of the stack that runs to the right in them.
VIEWS = (("front", 0), ("right", 1))


def elevations(stack: StackPlan, mesh: Mesh) -> tuple[Elevation, ...]:
    """The elevations of a stack from the front (x to the right) and from the right (y to the right), in its own frame.

    mesh: the form in the model.
    """
    heights = sorted({h for n in stack.layers for h in np.linspace(n.bottom, n.top, PARTS + 1).tolist()})
    slices = slice_surface(lying(mesh, stack.frame), mesh.triangles, mesh.twins, heights)
    sections = [shapely.union(a, b) for a, b in zip(slices.just_below, slices.just_above)]
    blanks = [blank_area(layer.without_tabs) for layer in stack.layers]
    return tuple(_elevation(stack, name, axis, heights, sections, blanks) for name, axis in VIEWS)


def _elevation(
    stack: StackPlan,
    name: str,
    axis: int,
    heights: list[float],
    sections: list[shapely.Geometry],
    blanks: list[MultiPolygon],
) -> Elevation:
    wood = tuple(spans(blank, axis) for blank in blanks)
    profile = tuple((h, spans(s, axis)) for h, s in zip(heights, sections) if not s.is_empty)
    corners = []
    for k, (lower, upper) in enumerate(zip(stack.layers[:-1], stack.layers[1:])):
        finished = spans(shapely.union(lower.finished_top, upper.finished_bottom), axis)
        for side, sign, end in (("left", -1.0, 0), ("right", 1.0, 1)):
            edges = [sign * wood[i][-end][end] for i in (k, k + 1)]
            surface = sign * finished[-end][end] if finished else None
            out, inner = max(edges), min(edges)
            corners.append(
                ElevationCorner(
                    lower.number, lower.top, side, sign * out, sign * inner, None if surface is None else out - surface,
                    None if surface is None else inner - surface,
                )
            )  # fmt: skip
    return Elevation(stack.name, name, wood, profile, tuple(corners))


def spans(area: shapely.Geometry, axis: int) -> Spans:
    """What the pieces of an area hide of a coordinate (0: x, 1: y): intervals apart from each other, ascending."""
    boxes = sorted((p.bounds[axis], p.bounds[axis + 2]) for p in shapely.get_parts(area) if p.area > 0)
    found: list[tuple[float, float]] = []
    for low, high in boxes:
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return tuple(found)
