# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where the middle of a pad may sit: on flats above and below, within reach of the clamp's bar.

A clamp's bar stands outside the whole run, or in a hole that goes through it and lets the jaw through as well; jaws on
steps inside the run leave it only the layers between them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.tolerances import COARSE

#: A gap or a hole narrower than this, mm, takes no bar of a clamp (common practice, no source).
BAR = 30.0
#: A hole smaller than this, mm², takes no rod.
LEAST_BORE = 50.0
#: Room, mm, that a jaw on a step leaves to the wall beside it.
BESIDE = 3.0


@dataclass(frozen=True, eq=False)
class Seats:
    """Where a pad's middle may sit, the same above and below. The jaws are on the lower face of slab `low` and the
    upper face of slab `high`, places in the pile from 0, at heights `foot` and `head`."""

    area: MultiPolygon
    low: int
    high: int
    foot: float
    head: float

    @property
    def opening(self) -> float:
        """Between the jaws, mm."""
        return self.head - self.foot


def clamp_seats(pile: Sequence[Slab], pad: float, throat: float | None) -> Seats:
    """Seats on the outer faces of a pile for a clamp; throat None: it reaches everywhere."""
    flat = _over_wood(shapely.intersection(_shrunk(pile[0].lower, pad), _shrunk(pile[-1].upper, pad)), pile, pad)
    return _seats(pile, 0, len(pile) - 1, _within(flat, pile, throat))


def top_seats(pile: Sequence[Slab], pad: float) -> Seats:
    """Seats of what presses from above while the pile stands on the bench: a weight, a go-bar."""
    return _seats(pile, 0, len(pile) - 1, _over_wood(_shrunk(pile[-1].upper, pad), pile, pad))


def bores(pile: Sequence[Slab]) -> tuple[tuple[tuple[float, float], float], ...]:
    """Bores through the whole pile: the middle of each, and the diameter of the circle around it, mm."""
    solid = shapely.union_all([slab.blocks for slab in pile])
    covered = shapely.union_all([shapely.Polygon(p.exterior) for p in shapely.get_parts(solid).tolist()])
    holes = areas_of(shapely.difference(covered, solid), LEAST_BORE)
    return tuple(
        ((float(h.centroid.x), float(h.centroid.y)), 2 * float(shapely.minimum_bounding_radius(h)))
        for h in holes.geoms
        if shapely.contains(h, h.centroid)
    )


def bore_seats(pile: Sequence[Slab], pad: float) -> tuple[tuple[float, float], ...]:
    """Middles of the bores through the whole pile that take a rod whose washers, `pad` mm wide, bear on wood around
    them above and below."""
    found = []
    for middle, width in bores(pile):
        washer = shapely.Point(middle).buffer(pad / 2)
        if width < pad and all(shapely.intersects(washer, face) for face in (pile[0].lower, pile[-1].upper)):
            found.append(middle)
    return tuple(found)


def step_seats(pile: Sequence[Slab], pad: float, throat: float | None, line: int) -> tuple[Seats, ...]:
    """Seats for a line (place of its lower slab in the pile) with a jaw on a step of any layer of the run, above or
    below, the outer faces left out: only the layers between the jaws stand in the bar's way."""
    count = len(pile)
    upper = {i: _bare(pile[i].upper, pile[i + 1 :], pad) for i in range(line + 1, count)}
    lower = {i: _bare(pile[i].lower, pile[:i], pad) for i in range(line + 1)}
    found = []
    for low in range(line + 1):
        for high in range(line + 1, count):
            if (low, high) == (0, count - 1) or lower[low].is_empty or upper[high].is_empty:
                continue
            flat = shapely.intersection(lower[low], upper[high])
            seats = _seats(pile, low, high, _within(flat, pile[low : high + 1], throat))
            if not seats.area.is_empty:
                found.append(seats)
    return tuple(found)


def least_throat(pile: Sequence[Slab], pad: float) -> float | None:
    """The throat, mm, from which on a clamp finds a seat on the outer faces; None: no throat helps, no two flats are
    opposite each other."""
    flat = clamp_seats(pile, pad, None).area
    if flat.is_empty:
        return None
    whole = _closed(pile)
    ways = [float(shapely.distance(flat, _round_about(whole)))]
    for hole in _holes(whole):
        throat = float(shapely.distance(flat, hole))
        ways += [throat] if _lets_through(hole, throat) else []
    return min(ways)


def _seats(pile: Sequence[Slab], low: int, high: int, area: shapely.Geometry) -> Seats:
    return Seats(areas_of(area), low, high, pile[low].bottom, pile[high].top)


def _shrunk(flat: shapely.Geometry, pad: float) -> shapely.Geometry:
    return shapely.simplify(shapely.buffer(flat, -pad / 2), COARSE)


def _over_wood(flat: shapely.Geometry, pile: Sequence[Slab], pad: float) -> shapely.Geometry:
    """Of a flat on cauls what lies over the wood under them, or as near beside it as there is any, up to half a pad:
    farther out a pad would bend the caul and lift it off elsewhere."""
    borne = [face for caul, face in ((pile[-1], pile[-2].upper), (pile[0], pile[1].lower)) if not caul.number]
    found = flat
    for beside in (0.0, pad / 4, pad / 2):
        found = flat
        for face in borne:
            found = shapely.intersection(found, shapely.buffer(face, beside))
        if found.area > 0.0:
            break
    return found


def _bare(face: MultiPolygon, over: Sequence[Slab], pad: float) -> shapely.Geometry:
    """Where a pad fits on the part of a face that the slabs over it leave bare."""
    flat = _shrunk(face, pad)
    if not over:
        return flat
    return shapely.difference(flat, shapely.buffer(shapely.union_all([s.blank for s in over]), pad / 2 + BESIDE))


def _closed(pile: Sequence[Slab]) -> shapely.Geometry:
    """All slabs of a pile from above, with the gaps and holes that take no bar closed."""
    whole = shapely.union_all([s.blocks for s in pile])
    return shapely.buffer(shapely.buffer(whole, BAR / 2), -BAR / 2)


def _round_about(whole: shapely.Geometry) -> shapely.Geometry:
    """Outside an area, its holes left out."""
    filled = shapely.union_all([shapely.Polygon(p.exterior) for p in shapely.get_parts(whole).tolist()])
    x0, y0, x1, y1 = shapely.bounds(filled)
    return shapely.difference(shapely.box(x0 - BAR, y0 - BAR, x1 + BAR, y1 + BAR), filled)


def _holes(whole: shapely.Geometry) -> list[shapely.Polygon]:
    return [shapely.Polygon(ring) for p in shapely.get_parts(whole).tolist() for ring in p.interiors]


def _lets_through(hole: shapely.Polygon, throat: float) -> bool:
    """Whether a clamp's fixed jaw goes through a hole: it is as long as the throat, and the bar stands beside it."""
    return 2 * float(shapely.length(shapely.maximum_inscribed_circle(hole))) >= throat + BAR


def _within(flat: shapely.Geometry, pile: Sequence[Slab], throat: float | None) -> shapely.Geometry:
    if throat is None or flat.is_empty:
        return flat
    whole = _closed(pile)
    stands = [_round_about(whole), *(hole for hole in _holes(whole) if _lets_through(hole, throat))]
    return shapely.intersection(flat, shapely.buffer(shapely.union_all(stands), throat))
