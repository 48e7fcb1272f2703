# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where two layers meet on a glue line, and the figures of that area. mm, mm², mm⁴."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import Interface
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.pressing.faces import lower_face, upper_face

Floats = NDArray[np.float64]
#: Wood that meets on less than this holds nothing, mm².
LEAST_CONTACT = 1.0


def interfaces_of(stack: StackPlan) -> tuple[Interface, ...]:
    """Every glue line of a stack, from the bottom. A line where nothing meets has no area and its middle at 0, 0."""
    return tuple(interface_of(below, above) for below, above in zip(stack.layers, stack.layers[1:]))


def interface_of(below: LayerPlan, above: LayerPlan) -> Interface:
    """Where two neighbouring layers meet: the lower one's upper face and the upper one's lower face, each less what is
    cut out of it there."""
    contact = areas_of(shapely.intersection(upper_face(below), lower_face(above)))
    area, middle, moments = figures_of(contact)
    return Interface(below.number, below.top, contact, area, middle, moments)


def figures_of(area: MultiPolygon) -> tuple[float, tuple[float, float], tuple[float, float, float]]:
    """Area, middle, and second moments about the middle (∫x², ∫y², ∫xy), exact for the polygon: sums over its edges by
    Green's theorem (the formulas of any handbook of mechanics for the properties of a polygon)."""
    total = np.zeros(6)
    origin = np.array(shapely.bounds(area)[:2]) if not area.is_empty else np.zeros(2)
    for polygon in shapely.get_parts(shapely.orient_polygons(area)).tolist():
        for ring in (polygon.exterior, *polygon.interiors):
            total += _edge_sums(np.asarray(ring.coords)[:, :2] - origin)
    size, x, y, xx, yy, xy = total
    if size <= 0.0:
        return 0.0, (0.0, 0.0), (0.0, 0.0, 0.0)
    mx, my = x / size, y / size
    moments = (float(xx - size * mx**2), float(yy - size * my**2), float(xy - size * mx * my))
    return float(size), (float(mx + origin[0]), float(my + origin[1])), moments


def _edge_sums(points: Floats) -> Floats:
    """Area, first and second moments about the origin inside a closed ring, negative for one that runs clockwise."""
    x, y, nx, ny = points[:-1, 0], points[:-1, 1], points[1:, 0], points[1:, 1]
    cross = x * ny - nx * y
    return np.array(
        [
            cross.sum() / 2,
            ((x + nx) * cross).sum() / 6,
            ((y + ny) * cross).sum() / 6,
            ((x * x + x * nx + nx * nx) * cross).sum() / 12,
            ((y * y + y * ny + ny * ny) * cross).sum() / 12,
            ((x * ny + 2 * x * y + 2 * nx * ny + nx * y) * cross).sum() / 24,
        ]
    )
