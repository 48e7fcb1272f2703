# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs: wood left on the blank of the top layer of a run, so that a pad finds a flat where the blank is too
small. They are sawn off after the glue-up. mm, mm².

A tab on a blank helps only where there is wood under it to press on; where the layers below are missing, it does not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.pressing.clamping import candidates_on
from freecad_stacklam.lamination.pressing.cones import pad_discs, reached
from freecad_stacklam.lamination.pressing.faces import Slab

#: Wood around the pad on a tab, mm, and radius of the tab's root on the blank, as a share of the pad's.
RIM, ROOT = 3.0, 1.0
#: No more tabs than these on one blank; places tried for each; and a tab must gain this share of the line.
MOST, TRIED, LEAST_GAIN = 6, 24, 0.01


@dataclass(frozen=True, eq=False)
class Tab:
    """What is left on the blank of a layer, one outline: `share` of the blank's area; `reached` the share of the line
    that is reached with it and the tabs before it."""

    layer: int
    side: str  # "top" or "bottom": the face that a pad then finds
    outline: Polygon
    area: float
    share: float
    reached: float


def tabs_for(run: Sequence[Slab], contact: MultiPolygon, line: int, pad: float, seats: MultiPolygon) -> tuple[Tab, ...]:
    """Tabs on the top blank of a run for a line (place of its lower slab in the run), best gain for its area first,
    until the line is reached or none gains; none where the wood is missing below.

    seats: where pads may sit without tabs; a tab lies where the bottom slab has a flat for the pad's fellow. A greedy
    choice, not proven least."""
    top = run[-1]
    below = shapely.buffer(run[0].lower, -pad / 2)
    pads = shapely.buffer(seats, pad / 2)
    now = areas_of(shapely.intersection(_cones(run, pads, line), contact))
    found: list[Tab] = []
    while len(found) < MOST and contact.area - now.area > LEAST_GAIN * contact.area:
        best: tuple[float, Polygon, MultiPolygon, Slab, shapely.Geometry] | None = None
        for at in _places(contact, now, below, top, pad):
            tab = _tab(at, top.blank, pad)
            if tab is None:
                continue
            wider = replace(top, blank=_with(top.blank, tab), upper=_with(top.upper, tab), lower=_with(top.lower, tab))
            more = shapely.union(pads, pad_discs([at], pad))
            cone = areas_of(shapely.intersection(_cones((*run[:-1], wider), more, line), contact))
            worth = (cone.area - now.area) / tab.area
            if cone.area - now.area > LEAST_GAIN * contact.area and (best is None or worth > best[0]):
                best = worth, tab, cone, wider, more
        if best is None:
            break
        _, tab, now, top, pads = best
        run = (*run[:-1], top)
        share = tab.area / (top.blank.area - sum(t.area for t in found) - tab.area)
        found.append(Tab(top.number, "top", tab, tab.area, share, now.area / contact.area))
    return tuple(found)


def _cones(run: Sequence[Slab], pads: shapely.Geometry, line: int) -> MultiPolygon:
    return reached(run, pads, pads)[line]


def _places(
    contact: MultiPolygon, now: MultiPolygon, below: shapely.Geometry, top: Slab, pad: float
) -> list[tuple[float, float]]:
    """Middles of pads for tabs: over what is missed or beside it, with a flat below, and not wholly on the blank."""
    missed = areas_of(shapely.difference(contact, now), 1.0)
    near = shapely.intersection(shapely.buffer(missed, pad / 2), below)
    bare = areas_of(shapely.difference(near, shapely.buffer(top.upper, -pad / 2)))
    found = candidates_on(bare, TRIED)
    if len(found) > TRIED:
        found = found[np.linspace(0, len(found) - 1, TRIED).astype(int)]
    return [(float(x), float(y)) for x, y in found]


def _tab(at: tuple[float, float], blank: MultiPolygon, pad: float) -> Polygon | None:
    """The hull of the pad with its rim and of a disc on the nearest point of the blank's outline, less the blank; its
    largest piece."""
    middle = shapely.Point(at)
    _, root = shapely.get_parts(shapely.get_point(shapely.shortest_line(middle, blank.boundary), [0, 1]))
    whole = shapely.convex_hull(shapely.union(middle.buffer(pad / 2 + RIM, 16), root.buffer(ROOT * pad / 2, 16)))
    pieces = areas_of(shapely.difference(whole, blank), 1.0)
    return max(pieces.geoms, key=lambda p: p.area, default=None)


def _with(area: MultiPolygon, tab: Polygon) -> MultiPolygon:
    return areas_of(shapely.union(area, tab))
