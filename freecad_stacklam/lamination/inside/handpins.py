# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pins that the maker set by hand: kept where they are, and judged. Only what cannot be bored is refused."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import shapely
from shapely.geometry import Point

from freecad_stacklam.lamination.inside.pinlines import DEPTHS, Line, meets
from freecad_stacklam.lamination.inside.pinpatterns import Ground
from freecad_stacklam.lamination.joints.surfacecover import SurfaceCover
from freecad_stacklam.lamination.plan.areas import areas_of, cut_plan
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import figure, mark, say

#: By the kind of what else is cut out of a layer.
_INTO = {
    "hollow": mark("{pin} would be bored into a hollow: move it."),
    "pin": mark("{pin} would be bored into a pin: move it."),
    "vent": mark("{pin} would be bored into a vent: move it."),
}
#: Wood between two holes of one face, mm, below which boring the second breaks into the first.
_WALL = 2.0


def hand_pins(ground: Ground, lines: Sequence[Line], cover: SurfaceCover) -> list[PinPlan]:
    """The pins of the settings' `at`, each with the wood that is left over it: 0 where it breaks out of the form.

    A pin outside the form stands in waste wood. Raises Refusal where a place is on no glue line, not in the wood of
    both layers, or would be bored into a joint, a void or another pin.
    """
    by_number = {line.lower + 1: line for line in lines}
    made: list[PinPlan] = []
    for number, x, y in ground.settings.at:
        line = by_number.get(int(number))
        if line is None:
            raise Refusal(
                say(
                    "A pin is set by hand at glue line {line}, but {stack} has glue lines 1 to {last}.",
                    line=int(number),
                    stack=ground.stack.name,
                    last=len(lines),
                )
            )
        pin = _judged(ground, line, (x, y), cover)
        _refuse_clash(ground, line, pin, made)
        made.append(pin)
    return made


def _where(ground: Ground, line: Line, centre: tuple[float, float]) -> str:
    x, y = (f"{c:g}" for c in centre)
    return say(
        "The pin set by hand between layers {lower} and {upper} of {stack} at ({x}, {y}) mm",
        lower=line.lower + 1,
        upper=line.lower + 2,
        stack=ground.stack.name,
        x=figure(x),
        y=figure(y),
    )


def _judged(ground: Ground, line: Line, centre: tuple[float, float], cover: SurfaceCover) -> PinPlan:
    """As deep as leaves the margin, else as deep as leaves most."""
    hole = Point(centre).buffer(ground.fit.radius)
    both = areas_of(ground.areas[line.lower].intersection(ground.areas[line.lower + 1]))
    if not both.contains(hole):
        raise Refusal(
            say("{pin} is not in the wood of both layers: move it inwards.", pin=_where(ground, line, centre))
        )
    layers = ground.stack.layers[line.lower : line.lower + 2]
    form = shapely.union_all([layer.shadow for layer in layers])
    found: list[PinPlan] = []
    for part in DEPTHS:
        plain = PinPlan(
            line.lower + 1, centre, ground.settings.diameter, line.down * part, line.up * part, 0.0, by_hand=True
        )
        pin = ground.fit.fitted(plain)
        if not form.intersects(hole):
            return _with_cover(pin, float(form.distance(hole)), waste=True)
        low, high = line.height - pin.depth_down - pin.point, line.height + pin.depth_up + pin.point
        wood = ground.inside.region(low, high)
        if wood.contains(hole):
            found.append(_with_cover(pin, cover.of_pin(line.height, pin)))
            if found[-1].least_cover >= ground.settings.margin:
                break
        else:
            found.append(pin)
    return next((p for p in found if p.least_cover >= ground.settings.margin), max(found, key=lambda p: p.least_cover))


def _with_cover(pin: PinPlan, least: float, waste: bool = False) -> PinPlan:
    return replace(pin, least_cover=least, waste=waste)


def _refuse_clash(ground: Ground, line: Line, pin: PinPlan, made: Sequence[PinPlan]) -> None:
    where = _where(ground, line, pin.centre)
    hole = Point(pin.centre).buffer(ground.fit.radius)
    low, high = line.height - pin.depth_down - pin.point, line.height + pin.depth_up + pin.point
    for layer in ground.stack.layers:
        for cut in layer.cuts:
            if cut.lowest < high and cut.highest > low and cut_plan(cut).intersects(hole):
                if cut.kind == "mortise":
                    says = say(
                        "{pin} would be bored into the mortise of “{joint}”: move it.", pin=where, joint=cut.joint
                    )
                else:
                    says = say(_INTO.get(cut.kind, _INTO["hollow"]), pin=where)
                raise Refusal(says)
    for other in made:
        near = Point(other.centre).distance(Point(pin.centre)) < pin.radius_above + other.radius_above + _WALL
        same = other.interface == pin.interface
        next_to = abs(other.interface - pin.interface) == 1 and meets(
            ground.stack, line, other, pin.depth_down, pin.depth_up, ground.fit, 0.0
        )
        if near and (same or next_to):
            raise Refusal(
                say(
                    "{pin} would be bored into the one at ({x:g}, {y:g}) mm: move it.",
                    pin=where,
                    x=other.centre[0],
                    y=other.centre[1],
                )
            )
