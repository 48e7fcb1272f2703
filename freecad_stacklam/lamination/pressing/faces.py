# SPDX-License-Identifier: LGPL-2.1-or-later

"""The wood of a pile at any height: its layers, and cauls as one layer more, each less what is cut out of it there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.plan.areas import areas_of, cut_plan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon, polygon_of
from freecad_stacklam.lamination.tolerances import ARC_SAG, COARSE, ROUNDING

#: Wood thinner than this, mm, carries nothing aside.
FLAT = 0.5


def upper_face(layer: LayerPlan, sag: float = ARC_SAG) -> MultiPolygon:
    """The wood of a layer's upper face: its blank less the cuts that come out there, arcs sampled to `sag` mm."""
    taken = [polygon_of(c.outline_end or c.outline, sag) for c in layer.cuts if c.opens_top(layer)]
    return _less(area_polygon(layer.blank, sag), taken)


def lower_face(layer: LayerPlan, sag: float = ARC_SAG) -> MultiPolygon:
    """The wood of a layer's lower face: its blank less the cuts that come out there, arcs sampled to `sag` mm."""
    return _less(
        area_polygon(layer.blank, sag), [polygon_of(c.outline, sag) for c in layer.cuts if c.opens_bottom(layer)]
    )


@dataclass(frozen=True, eq=False)
class Slab:
    """A layer of a pile, or a caul (`number` 0), as it is pressed: heights and plan in mm, in the stack's frame.

    `cuts` are (from, to, plan): what is missing between two heights."""

    number: int
    bottom: float
    top: float
    blank: MultiPolygon
    upper: MultiPolygon
    lower: MultiPolygon
    cuts: tuple[tuple[float, float, Polygon], ...] = ()
    tabs: tuple[MultiPolygon, ...] = ()  # of waste, in the blank and its faces

    @property
    def thickness(self) -> float:
        """mm."""
        return self.top - self.bottom

    def wood(self, low: float, high: float) -> MultiPolygon:
        """What is whole between two heights."""
        return _less(
            self.blank, [plan for start, end, plan in self.cuts if start < high - ROUNDING and end > low + ROUNDING]
        )

    @cached_property
    def steps(self) -> tuple[tuple[float, MultiPolygon], ...]:
        """Its wood in thirds, and where a cut begins or ends between them in smaller steps: (thickness, what is whole),
        from the bottom."""
        ends = {self.bottom + i * self.thickness / 3 for i in range(1, 3)}
        ends |= {z for start, end, _ in self.cuts for z in (start, end)}
        heights = [self.bottom, *sorted(z for z in ends if self.bottom + FLAT < z < self.top - FLAT), self.top]
        return tuple((high - low, self.wood(low, high)) for low, high in zip(heights, heights[1:]))

    @cached_property
    def blocks(self) -> MultiPolygon:
        """Where a rod cannot go through: wood at any height of it."""
        bored = [p for start, end, p in self.cuts if start <= self.bottom + ROUNDING and end >= self.top - ROUNDING]
        return _less(self.blank, bored)


class _Whole(Slab):
    """A slab whose wood is seen at once, not in steps."""

    @cached_property
    def steps(self) -> tuple[tuple[float, MultiPolygon], ...]:
        """Its thickness, and what is whole all through."""
        return ((self.thickness, self.wood(self.bottom, self.top)),)


def in_one_step(slab: Slab) -> Slab:
    """A slab for estimates: a cone goes through it in one step, across any gap narrower than it is thick."""
    return _Whole(slab.number, slab.bottom, slab.top, slab.blank, slab.upper, slab.lower, slab.cuts)


def slab_of(layer: LayerPlan) -> Slab:
    """A layer as it is pressed; only measured, so its arcs are sampled coarsely."""
    cuts = tuple((c.start, c.end, cut_plan(c)) for c in layer.cuts)
    blank = area_polygon(layer.blank, COARSE)
    tabs = tuple(tab.area for tab in layer.tabs)
    upper, lower = upper_face(layer, COARSE), lower_face(layer, COARSE)
    return Slab(layer.number, layer.bottom, layer.top, blank, upper, lower, cuts, tabs)


def pile_of(stack: StackPlan, first: int, last: int) -> tuple[Slab, ...]:
    """Layers first..last (numbers from 1), from the bottom."""
    return tuple(slab_of(layer) for layer in stack.layers if first <= layer.number <= last)


def with_cauls(
    pile: Sequence[Slab], below: MultiPolygon | None, above: MultiPolygon | None, thickness: float
) -> tuple[Slab, ...]:
    """The pile between cauls of an outline, `thickness` mm; None: no caul on that side."""
    found = tuple(pile)
    if below is not None:
        found = (Slab(0, found[0].bottom - thickness, found[0].bottom, below, below, below), *found)
    if above is not None:
        found = (*found, Slab(0, found[-1].top, found[-1].top + thickness, above, above, above))
    return found


def _less(area: MultiPolygon, taken: Sequence[Polygon]) -> MultiPolygon:
    return areas_of(shapely.difference(area, shapely.union_all(taken))) if taken else area
