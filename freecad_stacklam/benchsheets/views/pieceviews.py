# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece as it is seen from the front, from the right and from above, and where a point of the model lies
on such a view."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lines import rings
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import Mark, Point, Polyline
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import ROUNDING

#: Coordinates of the model that a view shows across and up.
FRONT, RIGHT, ABOVE = (0, 2), (1, 2), (0, 1)


def seen(stack: StackPlan, way: tuple[int, int]) -> BaseGeometry:
    """What a stack covers of a view, in mm of the model: its form's silhouette where the plan has it, else what its
    layers reach. way: FRONT, RIGHT or ABOVE."""
    if way != ABOVE and stack.in_model:
        return stack.in_model[(FRONT, RIGHT).index(way)].silhouette
    parts = []
    upright = abs(abs(stack.frame[10]) - 1.0) < ROUNDING
    for layer in stack.layers:
        if way == ABOVE and upright:
            parts.append(shapely.transform(layer.shadow, lambda flat: _lifted(stack, flat, 0.0)[:, :2]))
            continue
        flat = shapely.get_coordinates(layer.shadow)
        ends = np.vstack([_lifted(stack, flat, z) for z in (layer.bottom, layer.top)])
        parts.append(shapely.MultiPoint(ends[:, list(way)]).convex_hull)
    return shapely.union_all(parts)


def _lifted(stack: StackPlan, flat, z: float):  # type: ignore[no-untyped-def]
    return to_model(stack.frame, np.column_stack([flat, np.full(len(flat), z)]))


@dataclass(frozen=True)
class PieceView:
    """One view on the page: `areas` of the stacks in mm of the model, its scale 1 to `n`, `low` the model's lower left
    corner of the view and `foot` where that lies on the page."""

    way: tuple[int, int]
    areas: tuple[BaseGeometry, ...]
    n: int
    low: Point
    foot: Point

    def at(self, point: Sequence[float]) -> Point:
        """Where a point of the model lies on the page, mm."""
        return self.laid(point[self.way[0]], point[self.way[1]])

    def laid(self, across: float, up: float) -> Point:
        """The same by what is across and up in the view."""
        return self.foot[0] + (across - self.low[0]) / self.n, self.foot[1] + (up - self.low[1]) / self.n

    def on_page(self) -> BaseGeometry:
        """All that the piece covers of the page."""
        return shapely.transform(shapely.union_all(self.areas), self._laid_all)

    def _laid_all(self, points):  # type: ignore[no-untyped-def]
        return (points - self.low) / self.n + self.foot

    def outlines(self, pen: str = "mortise") -> list[Mark]:
        """The edges of the stacks."""
        lines = [part for area in self.areas for part in rings(shapely.transform(area, self._laid_all)).geoms]
        return [Polyline(shapely.get_coordinates(line), pen) for line in lines]


def size_of(stacks: Sequence[StackPlan], way: tuple[int, int]) -> tuple[float, float]:
    """How wide and how high all stacks are in a view, mm of the model."""
    x0, y0, x1, y1 = shapely.total_bounds([seen(stack, way) for stack in stacks])
    return float(x1 - x0), float(y1 - y0)


def scale_for(sizes: Sequence[tuple[float, float]], width: float, height: float) -> int:
    """The largest scale, 1 to so many, at which each of the sizes fits into width × height."""
    room = width + ROUNDING, height + ROUNDING
    return next((n for n in SCALES if all(w / n <= room[0] and h / n <= room[1] for w, h in sizes)), SCALES[-1])


def view_of(stacks: Sequence[StackPlan], way: tuple[int, int], n: int, middle: float, foot: float) -> PieceView:
    """A view at 1:n, centred about `middle` and standing on `foot`, page mm."""
    areas = tuple(seen(stack, way) for stack in stacks)
    x0, y0, x1, _ = map(float, shapely.total_bounds(areas))
    return PieceView(way, areas, n, (x0, y0), (middle - (x1 - x0) / 2 / n, foot))
