# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which glue lines share one pattern of pins, so that one jig drills them all.

A pattern is shared where its places are free at every one of its glue lines and keep every layer the right way round
there, as if they had been found for that line alone. What is left gets patterns of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import isfinite

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Point, Polygon

from freecad_stacklam.lamination.inside.pinfit import PinFit
from freecad_stacklam.lamination.inside.pinlines import Free, Line, NoRoom, contacts_at, free_for, neighbours, piece_of
from freecad_stacklam.lamination.inside.pinplaces import AT_LEAST, Floats, Held, best_places
from freecad_stacklam.lamination.inside.wood import Inside
from freecad_stacklam.lamination.inside.wrongways import Ways
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.insides import Misfit, PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.words import say

#: A pattern is shared only while the play of its looser holes lets no edge of a layer swing by more than this, mm
#: (common practice: a third of an allowance of 3 mm).
PLAY = 1.0
#: Where so many glue lines do not share a pattern, this part of them is tried next.
_FEWER = 0.75


@dataclass(frozen=True, eq=False)
class Ground:
    """What pins of one stack are placed in: its layers' areas, and the wrong ways of each of their pieces."""

    stack: StackPlan
    inside: Inside
    areas: Sequence[MultiPolygon]
    ways: Sequence[Sequence[Ways]]
    settings: PinSettings
    fit: PinFit


@dataclass(eq=False)
class _Judged:
    """One glue line while its pins are placed: the pieces that meet there, and what judges them."""

    line: Line
    held: dict[tuple[int, int], Held] = field(default_factory=dict)
    pins: list[PinPlan] = field(default_factory=list)

    def judges(self, ground: Ground, contact: Polygon, near: Sequence[PinPlan]) -> list[tuple[int, int]]:
        """The keys of the two pieces that meet in a contact."""
        k = self.line.lower
        keys = [(k, piece_of(ground.areas[k], contact)), (k + 1, piece_of(ground.areas[k + 1], contact))]
        for layer, i in keys:
            if (layer, i) not in self.held:
                piece = ground.areas[layer].geoms[i]
                line = k if layer == k else k + 2  # of the layer's other face
                others = [p.centre for p in near if p.interface == line and piece.contains(Point(p.centre))]
                self.held[layer, i] = Held(
                    ground.ways[layer][i], np.array(others).reshape(-1, 2), np.empty((0, 2))
                )  # fmt: skip
        return keys

    def add(self, keys: Sequence[tuple[int, int]], places: Floats) -> None:
        for key in keys:
            self.held[key] = replace(self.held[key], pins=np.vstack([self.held[key].pins, places]))

    def misfit(self, wanted: float) -> Misfit:
        number = self.line.lower + 1
        worst = [(*h.worst(), k + 1) for (k, _), h in self.held.items()]
        distance, way, layer = min(worst, key=lambda w: w[0], default=(float("inf"), "", 0))
        if not isfinite(distance):
            return Misfit(number, None, wanted, "")
        return Misfit(number, distance, wanted, way, layer)


def place_pins(ground: Ground, lines: Sequence[Line], fixed: Sequence[PinPlan]) -> tuple[list[PinPlan], list[Misfit]]:
    """Pins at these glue lines, as few patterns as pass every judgement. fixed: pins that are there already.

    Where patterns that are shared would leave a layer less sure than one for each line, each line gets its own. Raises
    Refusal where a line has no place for its pins.
    """
    try:
        shared = _placed(ground, lines, fixed, share=True)
    except Refusal:
        return _placed(ground, lines, fixed, share=False)
    if all(m.held for m in shared[1]):
        return shared
    alone = _placed(ground, lines, fixed, share=False)
    return min((shared, alone), key=lambda found: sum(not m.held for m in found[1]))


def _placed(
    ground: Ground, lines: Sequence[Line], fixed: Sequence[PinPlan], share: bool
) -> tuple[list[PinPlan], list[Misfit]]:
    pins, misfits, left = list(fixed), [], list(lines)
    while left:
        group = _candidates(ground, left, pins) if share else left[:1]
        made = None
        while len(group) > 1:
            made = _try(ground, group, pins)
            if made is not None and all(one.misfit(ground.settings.misfit).held for one in made):
                break
            made, group = None, group[: max(1, int(len(group) * _FEWER))]
        if made is None:
            made = _try(ground, group, pins)
        if made is None:
            raise NoRoom(
                group[0].lower,
                say(
                    "{count} pins of {diameter} do not fit side by side between layers {lower} and {upper} of "
                    "{stack}: make them or their margin smaller.",
                    count=ground.settings.count,
                    diameter=size(ground.settings.diameter),
                    lower=group[0].lower + 1,
                    upper=group[0].lower + 2,
                    stack=ground.stack.name,
                ),
            )
        for one in made:
            pins += one.pins
            misfits.append(one.misfit(ground.settings.misfit))
        left = [line for line in left if line not in group]
    new = [p for p in pins if p not in fixed]
    return sorted(new, key=lambda p: p.interface), sorted(misfits, key=lambda m: m.interface)


def _frees(ground: Ground, line: Line, contacts: Sequence[Polygon], pins: Sequence[PinPlan]) -> list[Free]:
    near = neighbours(pins, line)
    return [free_for(ground.stack, line, c, ground.inside, near, ground.settings, ground.fit) for c in contacts]


def _candidates(ground: Ground, lines: Sequence[Line], pins: Sequence[PinPlan]) -> list[Line]:
    """The first line, and every other whose free places have room in common with it and with those before."""
    first = lines[0]
    contacts = contacts_at(ground.areas, first)
    found = _frees(ground, first, contacts, pins)
    common = [free.region for free in found]
    group, depths = [first], {first.lower: found}
    for line in lines[1:]:
        mine = _matched(contacts_at(ground.areas, line), contacts)
        if mine is None:
            continue
        frees = _frees(ground, line, mine, pins)
        if any(not _apart(ground, depths[k], k, frees, line.lower) for k in depths):
            continue
        both = [areas_of(a.intersection(b.region)) for a, b in zip(common, frees)]
        if all(_roomy(ground, line, region, contact) for region, contact in zip(both, mine)):
            group.append(line)
            common = both
            depths[line.lower] = frees
    return group


def _matched(mine: Sequence[Polygon], contacts: Sequence[Polygon]) -> list[Polygon] | None:
    """The contacts of one line in the order of another's, each over the other; None where they are not the same."""
    if len(mine) != len(contacts):
        return None
    order = [int(np.argmax([c.intersection(m).area for m in mine])) for c in contacts]
    return [mine[i] for i in order] if len(set(order)) == len(mine) else None


def _apart(ground: Ground, one: Sequence[Free], k: int, other: Sequence[Free], n: int) -> bool:
    """Whether pins over one another at two glue lines leave their margin between their holes."""
    if abs(k - n) != 1:
        return True
    (low, high) = (one, other) if k < n else (other, one)
    thickness = ground.stack.layers[max(k, n)].thickness
    taken = max(f.up for f in low) + max(f.down for f in high) + 2 * ground.fit.lead
    return taken + ground.settings.margin <= thickness


def _roomy(ground: Ground, line: Line, region: MultiPolygon, contact: Polygon) -> bool:
    """Whether places in the region could be far enough apart, also for the play of their holes."""
    if region.is_empty:
        return False
    x0, y0, x1, y1 = region.bounds
    spread = float(np.hypot(x1 - x0, y1 - y0))
    return spread >= AT_LEAST * ground.settings.diameter and _plays(ground, line, contact, spread)


def _plays(ground: Ground, line: Line, contact: Polygon, spread: float) -> bool:
    """Whether looser holes `spread` mm apart hold the edges of their pieces well enough: the layer turns by the
    looseness over the spread."""
    pieces = [ground.areas[k].geoms[piece_of(ground.areas[k], contact)] for k in (line.lower, line.lower + 1)]
    reach = max(float(shapely.minimum_bounding_radius(piece)) for piece in pieces)
    return (ground.fit.above.diameter - ground.settings.diameter) * reach <= PLAY * spread


def _try(ground: Ground, group: Sequence[Line], pins: Sequence[PinPlan]) -> list[_Judged] | None:
    """The same places at all lines of a group; None where they do not fit, or where several would hold too loosely."""
    settings = ground.settings
    judged = [_Judged(line) for line in group]
    first = contacts_at(ground.areas, group[0])
    matched = [_matched(contacts_at(ground.areas, line), first) for line in group]
    frees = [_frees(ground, line, mine or [], pins) for line, mine in zip(group, matched)]
    for i in range(len(first)):
        region = areas_of(shapely.intersection_all([free[i].region for free in frees]))
        if region.is_empty:
            return None
        keys = [one.judges(ground, (mine or [])[i], neighbours(pins, one.line)) for one, mine in zip(judged, matched)]
        judges = [one.held[key] for one, mine in zip(judged, keys) for key in mine]
        places = best_places(region, settings.count, settings.diameter, settings.misfit, judges)
        if places is None:
            return None
        spread = float(np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1)).max())
        for one, mine, free, own in zip(judged, keys, frees, matched):
            if len(group) > 1 and not _plays(ground, one.line, (own or [])[i], spread):
                return None
            one.add(mine, places)
            one.pins += [
                ground.fit.fitted(
                    PinPlan(one.line.lower + 1, (float(x), float(y)), settings.diameter, free[i].down, free[i].up, 0.0)
                )
                for x, y in places
            ]
    return judged


def set_by_hand(ground: Ground, line: Line, places: Sequence[tuple[float, float]], pins: Sequence[PinPlan]) -> Misfit:
    """How surely places that the maker chose keep the layers of a glue line the right way round. pins: all others."""
    judged = _Judged(line)
    for contact in contacts_at(ground.areas, line):
        keys = judged.judges(ground, contact, neighbours(pins, line))
        mine = [p for p in places if contact.contains(Point(p))]
        if mine:
            judged.add(keys, np.array(mine))
    return judged.misfit(ground.settings.misfit)
