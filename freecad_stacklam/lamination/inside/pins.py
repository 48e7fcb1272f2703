# SPDX-License-Identifier: LGPL-2.1-or-later

"""Registration pins: dowels between neighbouring layers, placed so that no layer can slip, or be laid turned or over.

At each glue line every piece that meets another there gets its own pins, inside the form over their whole depth, their
bits' points and the margin beyond, clear of joints, voids and the pins of the next glue lines. Of all places for them
those are taken that serve most glue lines at once (`pinpatterns`), where the pins miss their holes by most in every
wrong way of laying the layer (`wrongways`), and lie far apart. Places that the maker chose are kept and judged.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import shapely

from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.inside.handpins import hand_pins
from freecad_stacklam.lamination.inside.hollow import hollow_stack
from freecad_stacklam.lamination.inside.pinfit import fit_of
from freecad_stacklam.lamination.inside.pinlines import Line, NoRoom, heights_of, lines_of
from freecad_stacklam.lamination.inside.pinpatterns import Ground, place_pins, set_by_hand
from freecad_stacklam.lamination.inside.pinplaces import best_places
from freecad_stacklam.lamination.inside.waysin import KERF_ROOM, kerfs_of
from freecad_stacklam.lamination.inside.wood import Inside, inset, kept_clear
from freecad_stacklam.lamination.inside.wrongways import wrong_ways
from freecad_stacklam.lamination.joints.surfacecover import SurfaceCover
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area
from freecad_stacklam.lamination.plan.insides import Misfit, PinPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, LeftOut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.words import say

#: Wood between a pin in the waste and the form, and the blank's wall, mm.
_WASTE_ROOM = 2.0


def pin_stack(stack: StackPlan, mesh: Mesh, settings: PinSettings, bits: Sequence[Bit] = ()) -> StackPlan:
    """The same stack with pins at its glue lines, their holes cut in both layers, and how surely they hold.

    mesh: the form in the model. bits: those of the shop. Joints and voids must be cut already: pins keep clear of them.
    Glue lines without room for theirs are left out, and said. Raises Refusal with the rule that forbids the pins where
    no line has room, or a place that the maker chose.
    """
    layers = [replace(n, cuts=tuple(c for c in n.cuts if c.kind != "pin")) for n in stack.layers]
    kept = tuple(one for one in stack.left_out if not one.what.startswith("pins"))
    stack = replace(stack, layers=tuple(layers), pins=(), misfits=(), left_out=kept)
    fit = fit_of(settings, bits)
    beyond = [n for n in settings.skip if n >= len(layers)]
    if beyond:
        raise Refusal(
            say(
                "“{stack}” has {count} layers, so there is no glue line on layer {layer} to leave without "
                "pins: strike it from the layers without.",
                stack=stack.name,
                count=len(layers),
                layer=beyond[0],
            )
        )
    lines = lines_of(stack, settings, fit)
    if not lines and settings.at:
        raise Refusal(
            say(
                "A pin is set by hand at glue line {line}, but {stack} is of one layer and has no glue line.",
                line=int(settings.at[0][0]),
                stack=stack.name,
            )
        )
    if not lines:
        return stack
    points = lying(mesh, stack.frame)
    inside = Inside(points, mesh, [h for line in lines for h in heights_of(line, settings, fit, stack.guard)])
    cover = SurfaceCover(points, mesh.triangles)
    areas = [blank_area(layer.without_tabs) for layer in layers]
    ways = [[wrong_ways(p, settings.share) for p in area.geoms] for area in areas]
    ground = Ground(stack, inside, areas, ways, settings, fit)
    chosen = hand_pins(ground, lines, cover)
    by_hand = {p.interface for p in chosen}
    todo = [n for n in lines if n.lower + 1 not in by_hand and n.lower + 1 not in settings.skip]
    made, misfits, bare = _as_many_lines(ground, todo, chosen)
    made = [replace(p, least_cover=cover.of_pin(layers[p.interface - 1].top, p)) for p in made]
    pins = sorted([*chosen, *made], key=lambda p: p.interface)
    for line in lines:
        if line.lower + 1 in by_hand:
            places = [p.centre for p in chosen if p.interface == line.lower + 1 and not p.waste]
            misfits.append(set_by_hand(ground, line, places, pins))
    if settings.waste:
        for line in lines:
            pins += _waste_pins(ground, line, [p for p in pins if abs(p.interface - line.lower - 1) <= 1])
    for pin in pins:
        height, k = layers[pin.interface - 1].top, pin.interface - 1
        low, high = circle(2 * pin.radius_below, pin.centre), circle(2 * pin.radius_above, pin.centre)
        layers[k] = _with(layers[k], Cut("pin", low, height - pin.depth_down, height, point_down=pin.point))
        layers[k + 1] = _with(layers[k + 1], Cut("pin", high, height, height + pin.depth_up, point_up=pin.point))
    return replace(
        stack, layers=tuple(layers), pins=tuple(sorted(pins, key=lambda p: p.interface)),
        misfits=tuple(sorted(misfits, key=lambda m: m.interface)), left_out=(*stack.left_out, *bare),
    )  # fmt: skip


def _as_many_lines(
    ground: Ground, lines: Sequence[Line], chosen: Sequence[PinPlan]
) -> tuple[list[PinPlan], list[Misfit], list[LeftOut]]:
    """Pins at all of these lines that have room for them, and what is left out. Raises Refusal where none has."""
    todo, bare, said = list(lines), [], ""
    while True:
        try:
            made, misfits = place_pins(ground, todo, chosen)
        except NoRoom as none:
            todo = [line for line in todo if line.lower != none.lower]
            if not todo and not chosen:
                raise
            bare.append(none.lower + 1)
            said = said or none.sentence
        else:
            return made, misfits, [LeftOut("pins of a glue line", _also(said, bare))] if bare else []


def _also(said: str, bare: Sequence[int]) -> str:
    """The first line's sentence, and the numbers of the others."""
    if len(bare) == 1:
        return said
    also = say("Nor do they fit at glue line {lines}.", lines=", ".join(map(str, bare[1:])))
    return f"{said} {also}"


def _with(layer: LayerPlan, cut: Cut) -> LayerPlan:
    return replace(layer, cuts=(*layer.cuts, cut))


def _waste_pins(ground: Ground, line: Line, others: Sequence[PinPlan]) -> list[PinPlan]:
    """Two pins as far apart as they can be, in wood of both blanks that lies wholly outside the form."""
    lower, upper = ground.stack.layers[line.lower], ground.stack.layers[line.lower + 1]
    settings, radius = ground.settings, ground.fit.radius
    blank = inset(areas_of(ground.areas[line.lower].intersection(ground.areas[line.lower + 1])), radius + _WASTE_ROOM)
    kept = [kept_clear(lower.shadow, radius + _WASTE_ROOM), kept_clear(upper.shadow, radius + _WASTE_ROOM)]
    kept += [kept_clear(shapely.Point(p.centre), radius + p.radius_above + _WASTE_ROOM) for p in others]
    kept += [kept_clear(kerf, radius + KERF_ROOM) for kerf in kerfs_of(ground.stack, (lower.number, upper.number))]
    free = areas_of(blank.difference(shapely.union_all(kept)))
    places = best_places(free, 2, settings.diameter, 0.0, []) if not free.is_empty else None
    if places is None:
        return []
    form = shapely.union(lower.shadow, upper.shadow)
    return [
        ground.fit.fitted(
            PinPlan(
                line.lower + 1, (float(x), float(y)), settings.diameter, line.down, line.up,
                float(form.distance(shapely.Point(x, y))) - radius, waste=True,
            )
        )
        for x, y in places
    ]  # fmt: skip


def finish_stack(
    stack: StackPlan,
    mesh: Mesh,
    settings: StackSettings,
    bits: Sequence[Bit] = (),
    units: str = "mm",
    hollowed: Callable[[StackPlan, Mesh, HollowSettings, float, str], StackPlan] = hollow_stack,
    pinned: Callable[[StackPlan, Mesh, PinSettings, Sequence[Bit]], StackPlan] = pin_stack,
) -> StackPlan:
    """Voids first, then the pins around them, as far as the settings ask for either; joints must be cut already.

    mesh: the form in the model; bits: those of the shop. hollowed, pinned: who makes the voids and the pins. What
    cannot be made is left out, and the plan says so.
    """
    hollow, pins = settings.hollow, settings.pins
    done = stack
    if hollow is not None:
        done = or_left_out(stack, "hollow", lambda: hollowed(stack, mesh, hollow, settings.grain, units))
    if pins is None:
        return done
    return or_left_out(done, "pins", lambda: pinned(done, mesh, pins, bits))


def or_left_out(stack: StackPlan, what: str, work: Callable[[], StackPlan]) -> StackPlan:
    """What `work` makes of the stack; the stack without it, and the sentence, where it is refused."""
    try:
        return work()
    except Refusal as refusal:
        return replace(stack, left_out=(*stack.left_out, LeftOut(what, refusal.sentence)))
