# SPDX-License-Identifier: LGPL-2.1-or-later

"""Registration pins: dowels between neighbouring layers, placed so that no layer can slip, or be laid turned or over.

At each glue line every piece that meets another there gets its own pins, inside the form over their whole depth and
the margin beyond it, clear of joints, voids and the pins of the glue line below. Of all places for them those are taken
where the pins miss their holes by most in every wrong way of laying the layer (`wrongways`), and lie far apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import isfinite

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.inside.hollow import hollow_stack
from freecad_stacklam.lamination.inside.pinplaces import Held, best_places
from freecad_stacklam.lamination.inside.wood import Inside, cuts_between, inset, kept_clear
from freecad_stacklam.lamination.inside.wrongways import Ways, wrong_ways
from freecad_stacklam.lamination.joints.surfacecover import SurfaceCover
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area
from freecad_stacklam.lamination.plan.insides import Misfit, PinPlan
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD

Floats = NDArray[np.float64]

#: Parts of the asked depth that are tried in turn where the form is too thin for all of it.
_DEPTHS = (1.0, 0.75, 0.5)
#: Wood left under a stopped pin hole, mm: room for the bit's point.
_FLOOR = 3.0
#: Wood between a pin in the waste and the form, and the blank's wall, mm.
_WASTE_ROOM = 2.0
#: Contacts of two blanks smaller than this, mm², are slivers, not a place where pieces meet.
_CONTACT = 25.0


@dataclass(frozen=True, eq=False)
class _Interface:
    """A glue line: the piece of each layer, and the deepest holes its layers bear."""

    lower: int  # index of the lower layer
    height: float
    down: float
    up: float


def pin_stack(stack: StackPlan, mesh: Mesh, settings: PinSettings) -> StackPlan:
    """The same stack with pins at its glue lines, their holes cut in both layers, and how surely they hold.

    mesh: the form in the model. Joints and voids must be cut already: pins keep clear of them. Raises Refusal with the
    rule that forbids the pins where none can be placed.
    """
    layers = [replace(n, cuts=tuple(c for c in n.cuts if c.kind != "pin")) for n in stack.layers]
    stack = replace(stack, layers=tuple(layers), pins=(), misfits=())
    lines = [
        _Interface(k, a.top, min(settings.depth, a.thickness - _FLOOR), min(settings.depth, b.thickness - _FLOOR))
        for k, (a, b) in enumerate(zip(layers[:-1], layers[1:]))
    ]
    for line in lines:
        if min(line.down, line.up) < settings.depth * _DEPTHS[-1]:
            raise Refusal(
                f"A pin {settings.depth:g} mm deep comes through layer {line.lower + 1} or {line.lower + 2} of "
                f"{stack.name}: give a smaller depth."
            )
    points = lying(mesh, stack.frame)
    inside = Inside(points, mesh, [h for line in lines for h in _heights(line, settings)])
    cover = SurfaceCover(points, mesh.triangles)
    areas = [blank_area(layer.blank) for layer in layers]
    near = [[wrong_ways(p, settings.share) for p in area.geoms] for area in areas]
    pins: list[PinPlan] = []
    misfits: list[Misfit] = []
    for line in lines:
        below = [p for p in pins if p.interface == line.lower]
        if line.lower + 1 not in settings.skip:
            made, misfit = _pin_line(stack, line, inside, areas, near, below, settings)
            pins += [replace(p, least_cover=cover.of_pin(line.height, p)) for p in made]
            misfits.append(misfit)
        if settings.waste:
            pins += _waste_pins(stack, line, areas, [p for p in pins if abs(p.interface - line.lower) <= 1], settings)
    for pin in pins:
        hole, height = circle(pin.diameter, pin.centre), layers[pin.interface - 1].top
        for k, start, end in (
            (pin.interface - 1, height - pin.depth_down, height),
            (pin.interface, height, height + pin.depth_up),
        ):
            layers[k] = replace(layers[k], cuts=(*layers[k].cuts, Cut("pin", hole, start, end)))
    return replace(stack, layers=tuple(layers), pins=tuple(pins), misfits=tuple(misfits))


def _heights(line: _Interface, settings: PinSettings) -> list[float]:
    beyond = settings.margin + GUARD
    return [
        line.height,
        *(line.height - line.down * part - beyond for part in _DEPTHS),
        *(line.height + line.up * part + beyond for part in _DEPTHS),
    ]


def _pin_line(
    stack: StackPlan,
    line: _Interface,
    inside: Inside,
    areas: Sequence[MultiPolygon],
    near: Sequence[Sequence[Ways]],
    below: Sequence[PinPlan],
    settings: PinSettings,
) -> tuple[list[PinPlan], Misfit]:
    contacts = [p for p in areas_of(areas[line.lower].intersection(areas[line.lower + 1])).geoms if p.area > _CONTACT]
    made: list[PinPlan] = []
    held: dict[tuple[int, int], Held] = {}
    for contact in contacts:
        region, down, up = _free(stack, line, contact, inside, below, settings)
        pieces = [(k, _piece(areas[k], contact)) for k in (line.lower, line.lower + 1)]
        judges = []
        for k, i in pieces:
            if (k, i) not in held:
                piece = areas[k].geoms[i]
                others = [p.centre for p in below if k == line.lower and piece.contains(shapely.Point(p.centre))]
                held[k, i] = Held(near[k][i], np.array(others).reshape(-1, 2), np.empty((0, 2)))
            judges.append(held[k, i])
        places = best_places(region, settings.count, settings.diameter, settings.misfit, judges)
        if places is None:
            raise Refusal(
                f"{settings.count} pins of {settings.diameter:g} mm do not fit side by side between layers "
                f"{line.lower + 1} and {line.lower + 2} of {stack.name}: make them or their margin smaller."
            )
        for key in pieces:
            held[key] = replace(held[key], pins=np.vstack([held[key].pins, places]))
        made += [PinPlan(line.lower + 1, (float(x), float(y)), settings.diameter, down, up, 0.0) for x, y in places]
    worst = [(*h.worst(), k + 1) for (k, _), h in held.items()]
    distance, way, layer = min(worst, key=lambda w: w[0], default=(float("inf"), "", 0))
    if not isfinite(distance):
        return made, Misfit(line.lower + 1, None, settings.misfit, "")
    return made, Misfit(line.lower + 1, distance, settings.misfit, way, layer)


def _piece(area: MultiPolygon, contact: Polygon) -> int:
    """Number of the piece of a layer that a contact belongs to."""
    return int(np.argmax([p.intersection(contact).area for p in area.geoms]))


def _free(
    stack: StackPlan,
    line: _Interface,
    contact: Polygon,
    inside: Inside,
    below: Sequence[PinPlan],
    settings: PinSettings,
) -> tuple[MultiPolygon, float, float]:
    """Where pin centres may lie, and how deep the holes go down and up: the deepest for which there is a place."""
    radius, beyond = settings.diameter / 2, settings.margin + GUARD
    said = ""
    for parts in sorted(product(_DEPTHS, _DEPTHS), key=lambda p: -sum(p)):
        down, up = line.down * parts[0], line.up * parts[1]
        low, high = line.height - down - beyond, line.height + up + beyond
        wood = areas_of(inside.region(low, high).intersection(contact))
        roomy = inset(wood, radius + beyond)
        if roomy.is_empty:
            said = said or (
                f"the form is nowhere {settings.diameter + 2 * settings.margin:g} mm wide (a pin and its margins) over "
                f"their whole depth there"
            )
            continue
        cuts = cuts_between(stack, low, high, ("mortise", "hollow"))
        free = areas_of(roomy.difference(kept_clear(shapely.union_all(cuts), radius + settings.margin)))
        if free.is_empty:
            room = settings.diameter + 2 * settings.margin
            said = f"its joints and voids leave no strip of wood {room:g} mm wide (a pin and its margins) there"
            continue
        near = [p for p in below if p.depth_up + down + settings.margin > stack.layers[line.lower].thickness]
        if near:
            discs = [kept_clear(shapely.Point(p.centre), radius + p.diameter / 2 + settings.margin) for p in near]
            free = areas_of(free.difference(shapely.union_all(discs)))
        if free.is_empty:
            said = "the pins of the glue line below are in the way"
            continue
        return free, down, up
    raise Refusal(
        f"No pin of {settings.diameter:g} mm fits between layers {line.lower + 1} and {line.lower + 2} of "
        f"{stack.name}, because {said}: make the pins or their margin smaller, the wall of a hollow thicker, or leave "
        f"that glue line without (skip = [{line.lower + 1}])."
    )


def _waste_pins(
    stack: StackPlan,
    line: _Interface,
    areas: Sequence[MultiPolygon],
    others: Sequence[PinPlan],
    settings: PinSettings,
) -> list[PinPlan]:
    """Two pins as far apart as they can be, in wood of both blanks that lies wholly outside the form."""
    lower, upper = stack.layers[line.lower], stack.layers[line.lower + 1]
    radius = settings.diameter / 2
    blank = inset(areas_of(areas[line.lower].intersection(areas[line.lower + 1])), radius + _WASTE_ROOM)
    kept = [kept_clear(lower.shadow, radius + _WASTE_ROOM), kept_clear(upper.shadow, radius + _WASTE_ROOM)]
    kept += [kept_clear(shapely.Point(p.centre), radius + p.diameter / 2 + _WASTE_ROOM) for p in others]
    free = areas_of(blank.difference(shapely.union_all(kept)))
    places = best_places(free, 2, settings.diameter, 0.0, []) if not free.is_empty else None
    if places is None:
        return []
    form = shapely.union(lower.shadow, upper.shadow)
    return [
        PinPlan(
            line.lower + 1, (float(x), float(y)), settings.diameter, line.down, line.up,
            float(form.distance(shapely.Point(x, y))) - radius, waste=True,
        )
        for x, y in places
    ]  # fmt: skip


def finish_stack(stack: StackPlan, mesh: Mesh, settings: StackSettings) -> StackPlan:
    """Voids first, then the pins around them, as far as the settings ask for either; joints must be cut already.

    mesh: the form in the model. Raises Refusal, with nothing half made.
    """
    if settings.hollow is not None:
        stack = hollow_stack(stack, mesh, settings.hollow, settings.grain)
    if settings.pins is not None:
        stack = pin_stack(stack, mesh, settings.pins)
    return stack
