# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cuts of one layer that come too near to each other: joints that collide, pins and hollows beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, zip_longest

import shapely

from freecad_stacklam.lamination.lengths import format_length, rounded_down
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

#: Wood between two cuts below which the maker is warned, mm (common practice, no source).
LEAST_APART = 10.0


@dataclass(frozen=True)
class Clash:
    """Two cuts by different hands in one stack and how much wood is between them (0: they meet), mm; `place`: in the
    middle of that, in the model."""

    stack: str
    layer: int
    one: str
    other: str
    apart: float
    place: Place


def clashes_in(stack: StackPlan, nearer_than: float = LEAST_APART) -> tuple[Clash, ...]:
    """The nearest place of every pair of cuts that are nearer than `nearer_than` mm, in plan and in height together,
    the points of their bits counted in."""
    nearest: dict[tuple[str, str], Clash] = {}
    for layer, above in zip_longest(stack.layers, stack.layers[1:]):
        for a, b in (*combinations(layer.cuts, 2), *_across(layer, above)):
            one, other = sorted((_name(a), _name(b)))
            if one == other:
                continue
            line = min((shapely.shortest_line(x, y) for x in _plans(a) for y in _plans(b)), key=shapely.length)
            flat = float(line.length)
            high = max(0.0, a.lowest - b.highest, b.lowest - a.highest)
            apart = float((flat**2 + high**2) ** 0.5)
            known = nearest.get((one, other))
            if apart < nearer_than and (known is None or apart < known.apart):
                place = in_model(stack.frame, (*_middle(line), _between(a, b)))
                nearest[one, other] = Clash(stack.name, layer.number, one, other, apart, place)
    return tuple(nearest.values())


def _middle(line: shapely.LineString) -> tuple[float, float]:
    middle = line.interpolate(0.5, normalized=True)
    return middle.x, middle.y


def _between(a: Cut, b: Cut) -> float:
    """A height that both cuts have, or half-way from the one to the other."""
    return (max(a.lowest, b.lowest) + min(a.highest, b.highest)) / 2


def _across(layer: LayerPlan, above: LayerPlan | None) -> Iterator[tuple[Cut, Cut]]:
    """Pairs of cuts of two layers where the point of a bit reaches from one layer into the other."""
    for a in layer.cuts:
        for b in above.cuts if above is not None else ():
            if a.highest > layer.top + ROUNDING or b.lowest < layer.top - ROUNDING:
                yield a, b


_CUTS = {"hollow": mark("a hollow"), "pin": mark("a pin"), "vent": mark("a vent")}


def _name(cut: Cut) -> str:
    if cut.kind == "mortise":
        return say("joint “{joint}”", joint=cut.joint)
    return say(_CUTS[cut.kind]) if cut.kind in _CUTS else f"a {cut.kind}"


def _plans(cut: Cut) -> Iterator[shapely.Polygon]:
    """The cut's plan; of a tilted one the ground it passes over."""
    first = polygon_of(cut.outline)
    if cut.outline_end is None:
        yield first
    else:
        yield shapely.union(first, polygon_of(cut.outline_end)).convex_hull


def clash_checks(plan: Plan, nearer_than: float = LEAST_APART) -> tuple[Check, ...]:
    """One check for each pair of cuts nearer than `nearer_than` mm: stop when they meet, else a caution."""
    found = []
    for stack in plan.stacks:
        for clash in clashes_in(stack, nearer_than):
            left = format_length(rounded_down(clash.apart, plan.units), plan.units)
            parts = {"layer": clash.layer, "stack": clash.stack, "other": clash.other}
            if clash.apart < ROUNDING:
                one = clash.one[0].upper() + clash.one[1:]
                says = say(
                    "{one} and {other} run into each other in layer {layer} of {stack}: move one of them.",
                    one=one,
                    **parts,
                )
            else:
                says = say(
                    "Only {left} of wood is left between {one} and {other} in layer {layer} of {stack}: move them "
                    "apart, or cut with care.",
                    left=left,
                    one=clash.one,
                    **parts,
                )
            found.append(
                Check(
                    say("{stack}: {one} and {other}", stack=clash.stack, one=clash.one, other=clash.other),
                    "stop" if clash.apart < ROUNDING else "caution",
                    clash.apart,
                    nearer_than,
                    "mm",
                    say("common practice, no source"),
                    says,
                    clash.place,
                )
            )
    return tuple(found)
