# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether a band-saw blade turns in the inner curves of the cut lines.

The charts that blade makers print differ; the larger radius counts. They are guidance for a new blade with its full
set, so the verdict is a caution: the saw's and the blade's own manuals come first.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, hypot, inf, pi, tan

from freecad_stacklam.lamination.lengths import INCH, format_length
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, arc_of, edges_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.tolerances import ROUNDING, SAME_BLADE, TURN_ROUNDING
from freecad_stacklam.lamination.words import mark, say

SOURCE = mark("band-saw blade charts of two makers, the larger radius; 1/4, 1/2 and 3/4 in agree in all charts seen")

#: Blade width and the least radius that it turns in, mm: the larger value where the charts differ.
BLADES = tuple(
    (width * INCH, radius * INCH)
    for width, radius in (
        (1 / 8, 3 / 16), (3 / 16, 3 / 8), (1 / 4, 5 / 8), (3 / 8, 1.5), (1 / 2, 2.5), (5 / 8, 4.0), (3 / 4, 5.5),
        (1.0, 7.625),
    )
)  # fmt: skip

#: A cut line that turns inwards by more than this at a point, degrees, is a corner and not a curve.
CORNER = 15.0


@dataclass(frozen=True)
class InnerCurve:
    """The tightest inner curve of a layer: radius mm (inf: none), its centre or place, and the number of inner corners
    that no blade turns in and that want relief cuts or a hole. `in_hole`: it belongs to a hole of the blank, which has
    no way in from outside."""

    radius: float
    place: tuple[float, float]
    corners: int
    in_hole: bool


def least_inner_curve(layer: LayerPlan) -> InnerCurve:
    """The smallest inner radius of a layer's cut lines, and its inner corners.

    Wood lies to the left of every loop, so an inner curve is one that turns to the right: a hollow in the outer line,
    or the round of a hole. Short straight chords that together turn to the right count by the radius they stand for.
    """
    best = InnerCurve(inf, (0.0, 0.0), 0, False)
    corners = 0
    for outline in layer.blank:
        for loop, in_hole in ((outline.outer, False), *((h, True) for h in outline.holes)):
            radius, place, sharp = _of_loop(loop)
            corners += sharp
            if radius < best.radius:
                best = InnerCurve(radius, place, 0, in_hole)
    return InnerCurve(best.radius, best.place, corners, best.in_hole)


def least_radius_of(blade: float) -> float:
    """The least radius that a blade of this width turns in, mm; between two widths of the chart that of the wider."""
    for width, radius in BLADES:
        if blade <= width + SAME_BLADE:
            return radius
    return BLADES[-1][1] * blade / BLADES[-1][0]


def widest_blade_for(radius: float) -> float | None:
    """The widest blade of the chart that turns in a radius, mm; None when none does."""
    return max((width for width, least in BLADES if least <= radius + ROUNDING), default=None)


def shop_saw_checks(plan: Plan, saw: BandSaw | None) -> tuple[Check, ...]:
    """The verdicts for the shop's band saw; none where no blade is named."""
    return () if saw is None or saw.blade is None else saw_checks(plan, saw.blade, saw.radius)


def saw_checks(plan: Plan, blade: float, radius: float | None = None) -> tuple[Check, ...]:
    """One verdict for each stack. blade: width, mm. radius: what it turns in at this saw, where the maker knows it."""
    source = say(SOURCE) if radius is None else say("the shop's own band-saw setting")
    limit = least_radius_of(blade) if radius is None else radius
    found = []
    for stack in plan.stacks:
        curves = [(least_inner_curve(layer), layer.number) for layer in stack.layers]
        curve, number = min(curves, key=lambda c: c[0].radius, default=(InnerCurve(inf, (0.0, 0.0), 0, False), 0))
        corners = sum(c.corners for c, _ in curves)
        at = None if curve.radius == inf else _in_layer(stack, number, curve.place)
        found.append(_check(stack.name, curve, number, corners, blade, limit, source, plan.units, at))
    return tuple(found)


def _check(
    name: str,
    curve: InnerCurve,
    layer: int,
    corners: int,
    blade: float,
    limit: float,
    source: str,
    units: str,
    at: Place | None,
) -> Check:
    def shown(mm: float) -> str:
        return format_length(mm, units)

    more = " " + say("{corners} inner corners want relief cuts or a bored hole.", corners=corners) if corners else ""
    if curve.radius == inf:
        verdict, says = "ok", say("The cut lines of {stack} have no inner curves.", stack=name) + more
    elif curve.radius >= limit:
        verdict = "ok"
        says = (
            say(
                "The tightest inner curve of {stack} has {radius} radius (layer {layer}), and a blade {blade} "
                "wide turns in {limit}.",
                stack=name,
                radius=shown(curve.radius),
                layer=layer,
                blade=shown(blade),
                limit=shown(limit),
            )
            + more
        )
    else:
        fits = widest_blade_for(curve.radius)
        way = (
            say("take a blade of {fits} or narrower", fits=shown(fits))
            if fits
            else say("bore the curve out or make relief cuts")
        )
        verdict = "caution"
        says = (
            say(
                "The tightest inner curve of {stack} has {radius} radius (layer {layer}); a blade {blade} wide "
                "turns in {limit}: {way}, and follow the manuals of saw and blade.",
                stack=name,
                radius=shown(curve.radius),
                layer=layer,
                blade=shown(blade),
                limit=shown(limit),
                way=way,
            )
            + more
        )
    if corners and verdict == "ok":
        verdict = "caution"
    figure = curve.radius if curve.radius < inf else 0.0
    return Check(
        say("{stack}: inner curves at the band saw", stack=name), verdict, figure, limit, "mm", source, says, at
    )


def _in_layer(stack: StackPlan, number: int, point: tuple[float, float]) -> Place:
    """A point of a layer, at half its height, in the model."""
    layer = stack.layers[number - 1]
    return in_model(stack.frame, (*point, (layer.bottom + layer.top) / 2))


def _of_loop(loop: Loop) -> tuple[float, tuple[float, float], int]:
    """Least inner radius of a loop, where, and the number of inner corners."""
    edges = list(edges_of(loop))
    best, place, sharp = inf, (0.0, 0.0), 0
    for a, b in edges:
        if a[2] < 0:
            cx, cy, radius, _, _ = arc_of(a, b)
            if radius < best:
                best, place = radius, (cx, cy)
    for (a, b), (_, c) in zip(edges, edges[1:] + edges[:1]):
        turn = _turn(_heading(a, b, at_end=True), _heading(b, c, at_end=False))
        if turn >= -TURN_ROUNDING:
            continue
        if turn < -CORNER * pi / 180:
            sharp += 1
        elif a[2] == 0.0 and b[2] == 0.0:
            chord = min(hypot(b[0] - a[0], b[1] - a[1]), hypot(c[0] - b[0], c[1] - b[1]))
            radius = chord / 2 / tan(-turn / 2)
            if radius < best:
                best, place = radius, (b[0], b[1])
    return best, place, sharp


def _heading(a: tuple[float, float, float], b: tuple[float, float, float], *, at_end: bool) -> float:
    """Direction of an edge at one of its ends: the chord's, turned by half the arc's angle (2·atan of its bulge)."""
    half = 2.0 * atan2(a[2], 1.0)
    return atan2(b[1] - a[1], b[0] - a[0]) + (half if at_end else -half)


def _turn(before: float, after: float) -> float:
    return (after - before + pi) % (2 * pi) - pi
