# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a set-up glues, as shapes: its layers and parts, where they meet, where pads sit, the triangle on its edge.

All in the stack's frame, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import hypot

import shapely
from shapely import LineString, MultiLineString, MultiPolygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.lamination.plan.gluing import JOINT, LAYERS, ClampPlace, SetUp
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, area_polygon, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import say


@dataclass(frozen=True)
class Part:
    """Layers that go into a set-up as one piece, the lowest first."""

    layers: tuple[LayerPlan, ...]

    @property
    def name(self) -> str:
        """“4”, or “1 to 3” of what is glued already."""
        first, last = self.layers[0].number, self.layers[-1].number
        return str(first) if first == last else say("{first} to {last}", first=first, last=last)


def stack_named(plan: Plan, name: str) -> StackPlan | None:
    """The stack of that name; None where the plan has none."""
    return next((stack for stack in plan.stacks if stack.name == name), None)


def parts_of(stack: StackPlan, set_up: SetUp) -> tuple[Part, ...]:
    """The parts that a set-up of layers lays on each other, from the bottom."""
    by_number = {layer.number: layer for layer in stack.layers}
    wanted = [[by_number[n] for n in range(a, b + 1) if n in by_number] for a, b in set_up.joins]
    return tuple(Part(tuple(layers)) for layers in wanted if layers)


def foot_of(plan: Plan, set_up: SetUp) -> float:
    """The height in its stack of the lowest that a set-up moves; 0 of a joint, which moves whole stacks."""
    stack = stack_named(plan, set_up.stack)
    if stack is None or set_up.kind == JOINT:
        return 0.0
    return min((layer.bottom for layer in stack.layers if layer.number >= set_up.first), default=0.0)


def inner_jaw(stack: StackPlan | None, set_up: SetUp, place: ClampPlace) -> str:
    """The layers that a pad's jaws sit on where they are not the outermost of the run: “jaws on 3 and 7”."""
    layers = [layer for layer in stack.layers if set_up.first <= layer.number <= set_up.last] if stack else []
    if not layers or set_up.kind != LAYERS:
        return ""
    low = min(layers, key=lambda layer: abs(layer.bottom - place.foot))
    high = min(layers, key=lambda layer: abs(layer.top - place.head))
    outer = low is layers[0] and high is layers[-1]
    return "" if outer else say("jaws on {low} and {high}", low=low.number, high=high.number)


@lru_cache(maxsize=512)
def _polygons(blank: tuple[Outline, ...]) -> MultiPolygon:
    return area_polygon(blank)  # a set-up's pictures ask for the same blanks over and over


def blank_of(layer: LayerPlan) -> MultiPolygon:
    """A layer's blank as it is sawn."""
    return _polygons(layer.blank)


def _islands(shape: BaseGeometry) -> MultiPolygon:
    return MultiPolygon([p for p in shapely.get_parts(shape) if p.geom_type == "Polygon" and p.area > 0.0])


def _open(layer: LayerPlan, upper: bool) -> BaseGeometry:
    """What is cut out of a face of a layer."""
    cuts = [c for c in layer.cuts if (c.opens_top(layer) if upper else c.opens_bottom(layer))]
    return shapely.union_all([polygon_of(cut.outline) for cut in cuts])


def face(layer: LayerPlan, upper: bool) -> MultiPolygon:
    """The wood of a layer's upper or lower face: its blank less what is cut into that face."""
    return _islands(shapely.difference(blank_of(layer), _open(layer, upper)))


def meeting(below: LayerPlan, above: LayerPlan) -> tuple[MultiPolygon, MultiPolygon]:
    """Where two neighbouring layers touch, and what of the place where their blanks lie on each other is kept free:
    mortises, pins and voids of either."""
    both = shapely.intersection(blank_of(below), blank_of(above))
    cuts = shapely.union(_open(below, True), _open(above, False))
    return _islands(shapely.difference(both, cuts)), _islands(shapely.intersection(both, cuts))


def seat(parts: Sequence[Part]) -> MultiPolygon:
    """Where pads find wood above and below: what the run's lowest and highest faces have in common."""
    return _islands(shapely.intersection(face(parts[0].layers[0], False), face(parts[-1].layers[-1], True)))


def tightened(set_up: SetUp) -> tuple[ClampPlace, ...]:
    """The pads in the order in which they are tightened: from the middle outwards, each time the one that is farthest
    from the last among those equally near, so that the run is drawn down evenly and glue runs to the rim (common
    practice, no source)."""
    if not set_up.places:
        return ()
    count = len(set_up.places)
    middle = (sum(p.at[0] for p in set_up.places) / count, sum(p.at[1] for p in set_up.places) / count)
    left = list(set_up.places)
    order: list[ClampPlace] = []
    while left:
        nearest = min(hypot(p.at[0] - middle[0], p.at[1] - middle[1]) for p in left)
        ring = [p for p in left if hypot(p.at[0] - middle[0], p.at[1] - middle[1]) <= nearest + p.pad / 2]
        last = order[-1].at if order else middle
        chosen = max(ring, key=lambda p: (round(hypot(p.at[0] - last[0], p.at[1] - last[1]), 3), p.at))
        order.append(chosen)
        left.remove(chosen)
    return tuple(order)


def intervals(area: BaseGeometry) -> list[tuple[float, float]]:
    """What islands cover from left to right, as separate intervals."""
    found: list[list[float]] = []
    for low, _, high, _ in sorted(p.bounds for p in shapely.get_parts(area) if not p.is_empty):
        if found and low <= found[-1][1]:
            found[-1][1] = max(found[-1][1], high)
        else:
            found.append([low, high])
    return [(low, high) for low, high in found]


def triangle(stack: StackPlan) -> MultiLineString:
    """The cabinetmaker's triangle struck across the FRONT edges of the whole dry stack, its point up: x and height.

    It stands where the layers have wood in common, so every layer bears a part that fits only its neighbours; where
    they have none in common, over the widest of the lowest layer.
    """
    common: BaseGeometry | None = None
    for layer in stack.layers:
        line = shapely.union_all([LineString([(a, 0.0), (b, 0.0)]) for a, b in intervals(blank_of(layer))])
        common = line if common is None else shapely.intersection(common, line)
    if common is None:
        return MultiLineString()
    spans = [part.bounds for part in shapely.get_parts(common) if part.length > 0.0]
    if not spans:
        spans = [(a, 0.0, b, 0.0) for a, b in intervals(blank_of(stack.layers[0]))]
    left, _, right, _ = max(spans, key=lambda span: span[2] - span[0])
    middle, half, top = (left + right) / 2, 0.36 * (right - left), stack.height
    foot = 0.04 * top
    return MultiLineString(
        [[(middle - half, foot), (middle, 0.97 * top)], [(middle + half, foot), (middle, 0.97 * top)],
         [(middle - half, foot), (middle + half, foot)]]
    )  # fmt: skip
