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
from freecad_stacklam.lamination.plan.gluing import WasteTab
from freecad_stacklam.lamination.pressing.clamping import candidates_on
from freecad_stacklam.lamination.pressing.cones import cones_down, cones_up, pad_discs
from freecad_stacklam.lamination.pressing.faces import Slab

#: Wood around the pad on a tab, mm, and radius of the tab's root on the blank, as a share of the pad's.
RIM, ROOT = 3.0, 1.0
#: No more tabs than these on one blank; places tried for each; and a tab must gain this share of the line.
MOST, TRIED, LEAST_GAIN = 6, 24, 0.01


def tabs_for(
    run: Sequence[Slab], contact: MultiPolygon, line: int, pad: float, seats: MultiPolygon
) -> tuple[WasteTab, ...]:
    """Tabs on the top blank of a run for a line (place of its lower slab in the run), best gain for its area first,
    until the line is reached or none gains; none where the wood is missing below.

    seats: where pads may sit without tabs; a tab lies where the bottom slab has a flat for the pad's fellow. A greedy
    choice, not proven least."""
    top = run[-1]
    flat = shapely.buffer(run[0].lower, -pad / 2)
    pads = shapely.buffer(seats, pad / 2)
    downs, ups = _cones(run, pads, line)
    now = areas_of(shapely.intersection(shapely.intersection(downs, ups), contact))
    found: list[WasteTab] = []
    while len(found) < MOST and contact.area - now.area > LEAST_GAIN * contact.area:
        best: _Tried | None = None
        for at in _places(contact, now, flat, top, pad):
            tried = _tried(run, line, at, pad, (downs, ups), contact)
            gain = tried.cone.area - now.area if tried else 0.0
            if tried and gain > LEAST_GAIN * contact.area:
                worth = gain / tried.tab.area
                if best is None or worth > (best.cone.area - now.area) / best.tab.area:
                    best = tried
        if best is None:
            break
        whole = top.blank.area - sum(t.area for t in found)
        downs, ups, now, top = best.downs, best.ups, best.cone, best.top
        run = (*run[:-1], top)
        share = now.area / contact.area
        found.append(WasteTab(top.number, MultiPolygon([best.tab]), best.tab.area, best.tab.area / whole, share))
    return tuple(found)


@dataclass(frozen=True, eq=False)
class _Tried:
    tab: Polygon
    top: Slab
    downs: shapely.Geometry
    ups: shapely.Geometry
    cone: MultiPolygon


def _tried(
    run: Sequence[Slab],
    line: int,
    at: tuple[float, float],
    pad: float,
    cones: tuple[shapely.Geometry, shapely.Geometry],
    contact: MultiPolygon,
) -> _Tried | None:
    """The run with a tab for a pad at a place. What several pads reach is what each reaches, together: so only the new
    one's cones are grown."""
    tab = _tab(at, run[-1].blank, pad)
    if tab is None:
        return None
    top = run[-1]
    wider = replace(top, blank=_with(top.blank, tab), upper=_with(top.upper, tab), lower=_with(top.lower, tab))
    more = _cones((*run[:-1], wider), pad_discs([at], pad), line)
    downs, ups = (shapely.union(old, new) for old, new in zip(cones, more))
    cone = areas_of(shapely.intersection(shapely.intersection(downs, ups), contact))
    return _Tried(tab, wider, downs, ups, cone)


def _cones(run: Sequence[Slab], pads: shapely.Geometry, line: int) -> tuple[MultiPolygon, MultiPolygon]:
    """What pads reach of a line from above and from below."""
    return cones_down(run[line:], pads)[0], cones_up(run[: line + 2], pads)[-1]


def _places(
    contact: MultiPolygon, now: MultiPolygon, flat: shapely.Geometry, top: Slab, pad: float
) -> list[tuple[float, float]]:
    """Middles of pads for tabs: over what is missed or beside it, with a flat below, and not wholly on the blank."""
    missed = areas_of(shapely.difference(contact, now), 1.0)
    near = shapely.intersection(shapely.buffer(missed, pad / 2), flat)
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
