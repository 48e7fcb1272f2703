# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blanks that are wider than the boards, made up of parallel staves along the grain, layer by layer from the bottom.

Where the seams lie is chosen in seams.py, for each island of a blank or, where islands lie inside or so near each other
that the staves of one would run over the other's wood, for the group of them; what could not be kept is reported.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

import shapely
from shapely import affinity
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.boards.seams import Island, Seam
from freecad_stacklam.lamination.boards.stock import stock_for
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.boards import SeamConflict, Stave
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import COARSE, STAVE_OVER

#: Grains further apart than this (degrees) cross, and their seams need no stagger.
PARALLEL = 3.0


@dataclass(frozen=True)
class StavePlan:
    """All staves of one stack, and the seams that could not be kept off something."""

    staves: tuple[Stave, ...]
    conflicts: tuple[SeamConflict, ...]


def plan_staves(stack: StackPlan, boards: Sequence[Board], shop: ShopSettings) -> StavePlan:
    """Cover every blank of a stack. `boards`: the rack; empty: staves up to the shop's greatest width."""
    staves: list[Stave] = []
    conflicts: list[SeamConflict] = []
    below: list[Seam] = []
    for layer in stack.layers:
        made, seams, bad = _layer(stack, layer, boards, shop, below)
        staves += made
        conflicts += bad
        below = seams
    return StavePlan(tuple(staves), tuple(conflicts))


def _layer(
    stack: StackPlan, layer: LayerPlan, boards: Sequence[Board], shop: ShopSettings, below: list[Seam]
) -> tuple[list[Stave], list[Seam], list[SeamConflict]]:
    who = f"{stack.name} {layer.number}"
    stock = stock_for(boards, layer.thickness, layer.species, shop, who)
    turned = affinity.rotate(area_polygon(layer.blank), -layer.grain, origin=(0.0, 0.0))
    off = [affinity.rotate(area_polygon((c.outline,), COARSE), -layer.grain, origin=(0.0, 0.0))
           for c in layer.cuts if c.kind != "hollow"]  # fmt: skip
    near = [s for s in below if _parallel(s[0], layer.grain)]
    strips: list[tuple[float, float, float, float, int]] = []
    seams: list[Seam] = []
    conflicts: list[SeamConflict] = []
    for group in groups_of(turned, shop.stave_trim + STAVE_OVER):
        cover = Island(group, off, near, stock, shop, who)
        places = cover.seams()
        strips += cover.strips(places)
        for place in places[1:-1]:
            low, high = cover.chord(place)
            seams.append((layer.grain, place, low, high))
            conflicts += [SeamConflict(stack.name, layer.number, place, says) for says in cover.faults(places, place)]
    staves = [
        Stave(
            id=f"{who} {letters(i).lower()}", stack=stack.name, layer=layer.number, region=_turned(strip, layer.grain),
            width=strip[3] - strip[2], length=strip[1] - strip[0], thickness=layer.thickness, grain=layer.grain,
            species=layer.species, glued_edges=strip[4], copies=stack.copies,
        )
        for i, strip in enumerate(strips)
    ]  # fmt: skip
    return staves, seams, conflicts


def groups_of(blank: MultiPolygon, margin: float) -> list[Polygon | MultiPolygon]:
    """The islands of a blank, from the lowest place across the grain up; those whose bounding boxes, grown by `margin`
    (mm), overlap are one, and so on until none do: then no stave of one runs over another's wood."""
    groups = [[p] for p in shapely.get_parts(blank) if p.area > 0]
    boxes = [shapely.box(*g[0].bounds).buffer(margin, join_style="mitre") for g in groups]
    joined = True
    while joined:
        joined = False
        for i in range(len(groups) - 1, 0, -1):
            met = next((k for k in range(i) if boxes[k].intersection(boxes[i]).area > 0), None)
            if met is not None:
                groups[met] += groups.pop(i)
                boxes[met] = shapely.envelope(boxes[met].union(boxes.pop(i)))
                joined = True
    made = [g[0] if len(g) == 1 else MultiPolygon(g) for g in groups]
    return sorted(made, key=lambda p: (p.bounds[1], p.bounds[0]))


def _parallel(one: float, other: float) -> bool:
    apart = abs(one - other) % 180.0
    return min(apart, 180.0 - apart) <= PARALLEL


def _turned(strip: tuple[float, float, float, float, int], grain: float) -> tuple[tuple[float, float], ...]:
    c, s = cos(grain * pi / 180), sin(grain * pi / 180)
    u0, u1, v0, v1, _ = strip
    return tuple((u * c - v * s, u * s + v * c) for u, v in ((u0, v0), (u1, v0), (u1, v1), (u0, v1)))
