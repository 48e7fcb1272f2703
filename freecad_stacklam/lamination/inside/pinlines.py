# SPDX-License-Identifier: LGPL-2.1-or-later

"""Glue lines that are pinned: how deep their holes can be, and where the centres of their pins may lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.inside.pinfit import PinFit
from freecad_stacklam.lamination.inside.waysin import KERF_ROOM, kerfs_of
from freecad_stacklam.lamination.inside.wood import Inside, cuts_between, inset, kept_clear
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import say

#: Parts of the asked depth that are tried in turn where the form is too thin for all of it.
DEPTHS = (1.0, 0.75, 0.5)
#: Contacts of two blanks smaller than this, mm², are slivers, not a place where pieces meet.
_CONTACT = 25.0


@dataclass(frozen=True, eq=False)
class Line:
    """A glue line: the index of its lower layer, its height, and the deepest holes its layers bear, mm."""

    lower: int
    height: float
    down: float
    up: float


@dataclass(frozen=True, eq=False)
class Free:
    """Where pin centres may lie in one contact of two pieces, and how deep the holes go down and up, mm."""

    region: MultiPolygon
    down: float
    up: float


class NoRoom(Refusal):
    """No place for the pins of one glue line: that between layer `lower`, counted from 0, and the next."""

    def __init__(self, lower: int, says: str) -> None:
        super().__init__(says)
        self.lower = lower


def lines_of(stack: StackPlan, settings: PinSettings, fit: PinFit) -> list[Line]:
    """The glue lines of a stack from the bottom. Raises Refusal where a layer is too thin for any pin."""
    layers = stack.layers
    lines = [
        Line(k, a.top, min(settings.depth, a.thickness - fit.floor), min(settings.depth, b.thickness - fit.floor))
        for k, (a, b) in enumerate(zip(layers[:-1], layers[1:]))
    ]
    for line in lines:
        if min(line.down, line.up) < settings.depth * DEPTHS[-1]:
            raise Refusal(
                say(
                    "A pin {depth} deep comes through layer {lower} or {upper} of {stack}: give a smaller depth.",
                    depth=size(settings.depth),
                    lower=line.lower + 1,
                    upper=line.lower + 2,
                    stack=stack.name,
                )
            )
    return lines


def heights_of(line: Line, settings: PinSettings, fit: PinFit, guard: float) -> list[float]:
    """Every height that `free_for` and pins set by hand ask about. guard: the stack's."""
    beyond = fit.lead + settings.margin + guard
    return [
        line.height,
        *(line.height - line.down * part - more for part in DEPTHS for more in (beyond, fit.lead)),
        *(line.height + line.up * part + more for part in DEPTHS for more in (beyond, fit.lead)),
    ]


def contacts_at(areas: Sequence[MultiPolygon], line: Line) -> list[Polygon]:
    """Where pieces of the two layers meet."""
    both = areas[line.lower].intersection(areas[line.lower + 1])
    return [p for p in areas_of(both).geoms if p.area > _CONTACT]


def piece_of(area: MultiPolygon, contact: Polygon) -> int:
    """Number of the piece of a layer that a contact belongs to."""
    return int(np.argmax([p.intersection(contact).area for p in area.geoms]))


def neighbours(pins: Sequence[PinPlan], line: Line) -> list[PinPlan]:
    """The pins of the glue lines next to one."""
    return [p for p in pins if abs(p.interface - (line.lower + 1)) == 1]


def meets(stack: StackPlan, line: Line, other: PinPlan, down: float, up: float, fit: PinFit, apart: float) -> bool:
    """Whether holes so deep leave less than `apart` mm of wood, in height, to those of a pin at the next line."""
    if other.interface == line.lower:  # below: its upper hole comes towards ours
        taken, thickness = other.depth_up + down, stack.layers[line.lower].thickness
    else:
        taken, thickness = other.depth_down + up, stack.layers[line.lower + 1].thickness
    return taken + fit.lead + other.point + apart > thickness


def free_for(
    stack: StackPlan, line: Line, contact: Polygon, inside: Inside, near: Sequence[PinPlan], settings: PinSettings,
    fit: PinFit,
) -> Free:  # fmt: skip
    """Where pin centres may lie, and the deepest holes for which there is a place.

    near: pins at the glue lines above and below. Raises Refusal with the rule that forbids any place.
    """
    radius, beyond = fit.radius, settings.margin + stack.guard
    said = ""
    for parts in sorted(product(DEPTHS, DEPTHS), key=lambda p: -sum(p)):
        down, up = line.down * parts[0], line.up * parts[1]
        low, high = line.height - down - fit.lead - beyond, line.height + up + fit.lead + beyond
        roomy = inset(areas_of(inside.region(low, high).intersection(contact)), radius + beyond)
        room = settings.diameter + 2 * settings.margin
        if roomy.is_empty:
            said = said or (
                say(
                    "the form is nowhere {room} wide (a pin and its margins) over their whole depth there",
                    room=size(room),
                )
            )
            continue
        cuts = cuts_between(stack, low, high, ("mortise", "hollow"))
        kerfs = kerfs_of(stack, (line.lower + 1, line.lower + 2))
        closed = [
            kept_clear(shapely.union_all(cuts), radius + settings.margin),
            kept_clear(shapely.union_all(kerfs), radius + KERF_ROOM),
        ]
        free = areas_of(roomy.difference(shapely.union_all(closed)))
        if free.is_empty:
            said = (
                say(
                    "its joints, voids and the kerfs into them leave no strip of wood {room} wide (a pin and its "
                    "margins) there",
                    room=size(room),
                )
                if kerfs
                else say(
                    "its joints and voids leave no strip of wood {room} wide (a pin and its margins) there",
                    room=size(room),
                )
            )
            continue
        kept = [
            kept_clear(shapely.Point(p.centre), radius + p.radius_above + settings.margin)
            for p in near
            if meets(stack, line, p, down, up, fit, settings.margin)
        ]
        if kept:
            free = areas_of(free.difference(shapely.union_all(kept)))
        if free.is_empty:
            said = say("the pins of the next glue line are in the way")
            continue
        return Free(free, down, up)
    raise NoRoom(
        line.lower,
        say(
            "No pin of {diameter} fits between layers {lower} and {upper} of {stack}, because {reason}: make "
            "the pins or their margin smaller, the wall of a hollow thicker, or leave that glue line "
            "without, and set none on top of layer {lower}.",
            diameter=size(settings.diameter),
            lower=line.lower + 1,
            upper=line.lower + 2,
            stack=stack.name,
            reason=said,
        ),
    )
