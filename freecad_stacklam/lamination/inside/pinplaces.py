# SPDX-License-Identifier: LGPL-2.1-or-later

"""The best places for a few pins in a region: they miss their holes by enough in every wrong way, and lie far apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.inside.wrongways import Ways, misfits, turned_over_onto, way_name
from freecad_stacklam.lamination.tolerances import INSIDE_RIM
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Places tried on the rim of a region, and inside it.
_RIM, _WITHIN = 24, 14
#: Least distance between pins in diameters: wanted, and still bearable where there is no room.
_APART, AT_LEAST = 4.0, 2.0
#: Beyond so many times the misfit wanted more of it tells nobody more; pins far apart then hold a layer better. Below
#: that, what a millimetre between them counts beside a millimetre of misfit.
_ENOUGH, _SPREAD = 3.0, 0.25
#: Of the wrong ways of a round piece so many make the first choice; all of them then judge the best places found.
_FIRST, _BEST = 60, 12
#: The misfit wanted comes before everything else, with this part more in hand.
_IN_HAND = 1.2
_FREE = 1e4  # the misfit, mm, of pins that no wrong way tests


@dataclass(frozen=True, eq=False)
class Held:
    """What pins in one piece are judged by: its wrong ways, the pins of its other face that holes of a layer turned
    over would meet (Q × 2), and the pins that are placed in it already (P × 2)."""

    ways: Ways
    others: Floats
    pins: Floats

    def least(self, sets: Floats) -> Floats:
        """Least misfit over all wrong ways of A sets of pins more (A × P × 2), mm; infinite with no wrong way."""
        if len(self.pins):
            sets = np.concatenate([sets, np.broadcast_to(self.pins, (len(sets), *self.pins.shape))], axis=1)
        least: Floats = misfits(self.ways, sets).min(axis=0, initial=np.inf)
        if len(self.others):
            least = np.minimum(least, turned_over_onto(self.ways, sets, self.others).min(axis=0, initial=np.inf))
        return least

    def thinned(self) -> Held:
        """The same with fewer of the ways, where there are many."""
        every = (len(self.ways.turns) + len(self.ways.axes)) // _FIRST
        return replace(self, ways=self.ways.thinned(every)) if every > 1 else self

    def worst(self) -> tuple[float, str]:
        """Least misfit of the pins that are placed, mm, and the way it belongs to."""
        if not len(self.pins):
            return float("inf"), ""
        found = misfits(self.ways, self.pins[None])[:, 0]
        best = (float("inf"), "")
        if len(found):
            i = int(found.argmin())
            best = (float(found[i]), way_name(self.ways, i))
        if len(self.others) and len(self.ways.axes):
            over = turned_over_onto(self.ways, self.pins[None], self.others)[:, 0]
            i = int(over.argmin())
            if over[i] < best[0]:
                best = (
                    float(over[i]),
                    say("{way}, onto the pins below", way=way_name(self.ways, len(self.ways.turns) + i)),
                )
        return best


def best_places(
    region: MultiPolygon, count: int, diameter: float, wanted: float, judges: Sequence[Held]
) -> Floats | None:
    """`count` × 2 places in the region, whole millimetres where that costs nothing; None where they do not fit.

    One place more where so many leave less than the misfit wanted and another one helps: two pins in a round ring, say,
    always fit a layer turned over.
    """
    tried = _candidates(region)
    for apart in (_APART, AT_LEAST):
        sets = _pairs(tried, apart * diameter)
        if len(sets):
            break
    else:
        return None
    best = _choose(sets, judges, wanted)
    step = float(np.sqrt(region.area / len(tried)))
    for _ in range(3):
        best = _choose(_moved(best, step / 2, region, apart * diameter), judges, wanted)
        step /= 2
    while len(best) < count:
        more = _with_one_more(best, tried, AT_LEAST * diameter)
        if not len(more):
            return None
        best = _choose(more, judges, wanted)
    if _least(best, judges) < wanted:
        best = _helped(best, tried, AT_LEAST * diameter, judges, wanted)
    return _rounded(best, region, wanted, judges)


def _helped(best: Floats, tried: Floats, apart: float, judges: Sequence[Held], wanted: float) -> Floats:
    more = _with_one_more(best, tried, apart)
    if not len(more):
        return best
    helped = _choose(more, judges, wanted)
    return helped if _least(helped, judges) > 1.1 * _least(best, judges) else best


def _least(places: Floats, judges: Sequence[Held]) -> float:
    return min((float(judge.least(places[None])[0]) for judge in judges), default=np.inf)


def _with_one_more(best: Floats, tried: Floats, apart: float) -> Floats:
    far = np.hypot(*(tried[:, None] - best[None]).transpose(2, 0, 1)).min(axis=1)
    more = tried[far >= apart]
    return np.concatenate([np.broadcast_to(best, (len(more), *best.shape)), more[:, None]], axis=1)


def _candidates(region: MultiPolygon) -> Floats:
    """Places on the rim of every part of the region and on a grid inside it."""
    found = []
    whole = sum(p.exterior.length for p in region.geoms)
    for part in region.geoms:
        # A hair inside, so that a place on the rim is in the region by the arithmetic too.
        inner = part.buffer(-INSIDE_RIM)
        rings = [r for p in shapely.get_parts(inner) if not p.is_empty for r in (p.exterior, *p.interiors)]
        for ring in rings:
            n = max(3, round(_RIM * ring.length / whole))
            places = shapely.line_interpolate_point(ring, np.arange(n) / n, normalized=True)
            found.append(shapely.get_coordinates(places))
    x0, y0, x1, y1 = region.bounds
    step = max(np.sqrt((x1 - x0) * (y1 - y0) / _WITHIN), INSIDE_RIM)
    x, y = np.meshgrid(np.arange(x0 + step / 2, x1, step), np.arange(y0 + step / 2, y1, step))
    shapely.prepare(region)
    kept = shapely.contains_xy(region, x, y)
    found.append(np.stack([x[kept], y[kept]], axis=1))
    found.append(shapely.get_coordinates(shapely.point_on_surface(np.array(region.geoms))))
    return np.concatenate(found)


def _pairs(places: Floats, apart: float) -> Floats:
    i, j = np.triu_indices(len(places), 1)
    far = np.hypot(*(places[i] - places[j]).T) >= apart
    return np.stack([places[i[far]], places[j[far]]], axis=1)


def _choose(sets: Floats, judges: Sequence[Held], wanted: float) -> Floats:
    first = _scores(sets, [judge.thinned() for judge in judges], wanted)
    few = sets[np.argsort(-first, kind="stable")[:_BEST]]
    return np.asarray(few[int(_scores(few, judges, wanted).argmax())])


def _scores(sets: Floats, judges: Sequence[Held], wanted: float) -> Floats:
    least = np.full(len(sets), _FREE)
    for judge in judges:
        least = np.minimum(least, judge.least(sets))
    spread = np.hypot(*(sets[:, 0] - sets[:, -1]).T)
    return np.asarray(
        _FREE * np.minimum(least, _IN_HAND * wanted) + np.minimum(least, _ENOUGH * wanted) + _SPREAD * spread
    )


def _moved(pair: Floats, step: float, region: MultiPolygon, apart: float) -> Floats:
    """The pair, and every pair with one or both pins moved a step."""
    shifts = step * np.array([(i, j) for i in (0, -1, 1) for j in (0, -1, 1)], dtype=np.float64)
    one, other = ([p for p in place + shifts if region.contains(shapely.Point(p))] for place in pair)
    sets = np.array([(a, b) for a in one for b in other if np.hypot(*(a - b)) >= apart])
    return np.concatenate([pair[None], sets]) if len(sets) else pair[None]


def _rounded(places: Floats, region: MultiPolygon, wanted: float, judges: Sequence[Held]) -> Floats:
    """Whole millimetres are easier to set out: taken where they stay in the region and keep the misfit wanted."""
    shapely.prepare(region)
    for pin in range(len(places)):
        low = np.floor(places[pin])
        near = low + np.array([(0, 0), (1, 0), (0, 1), (1, 1)], dtype=np.float64)
        near = near[shapely.contains_xy(region, near[:, 0], near[:, 1])]
        sets = np.repeat(places[None], len(near), axis=0)
        sets[:, pin] = near + 0.0
        good = [a for a in sets if all(j.least(a[None])[0] >= min(wanted, j.least(places[None])[0]) for j in judges)]
        if good:
            places = min(good, key=lambda a: float(np.hypot(*(a[pin] - places[pin]))))
    return places
