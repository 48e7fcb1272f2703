# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs that would help: wood left on blanks of a run, so that a pad finds a flat where the blank is too small.
They are sawn off after the glue-up. mm, mm².

Each is a tab as the maker may ask for it, and laid out as it then would be. A tab on the top blank helps where there is
wood under it to press on; where that is missing, tabs on all blanks of a short run stand over each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import atan2, ceil, cos, degrees, radians, sin

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.layers.tabs import PASSES, edge_of, laid_out
from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.options.tomllines import toml_value
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import WasteTab
from freecad_stacklam.lamination.pressing.clamping import candidates_on
from freecad_stacklam.lamination.pressing.cones import cones_down, cones_up, pad_discs
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import TabSettings
from freecad_stacklam.lamination.tolerances import WHOLE

#: Wood around the pad on a tab, mm.
RIM = 3.0
#: No more tabs than these on one blank; places tried for each; and a tab must gain this share of the line.
MOST, TRIED, LEAST_GAIN = 6, 24, 0.01
#: Tabs on all blanks of a run are tried for so many layers at the most: each is one more to saw off.
COLUMN = 8
#: Options that are not written where they are as usual.
_LEFT_OUT = ("aside", "fillet")


def tabs_for(
    run: Sequence[Slab], contact: MultiPolygon, line: int, pad: float, seats: MultiPolygon
) -> tuple[WasteTab, ...]:
    """Tabs on the top blank of a run for a line (place of its lower slab in the run), best gain for its area first,
    until the line is reached or none gains; where none does because the wood is missing below, on all its blanks.

    seats: where pads may sit without tabs. A greedy choice, not proven least."""
    found = _found(run, contact, line, pad, seats, (run[-1].number,))
    if not found and len(run) <= COLUMN:
        found = _found(run, contact, line, pad, seats, tuple(slab.number for slab in run))
    return found


def option_line(options: Iterable[str]) -> str:
    """The line of the settings file that asks for tabs, each as it stands there once."""
    return f"tabs = [{', '.join(dict.fromkeys(options))}]"


def option_of(tab: TabSettings) -> str:
    """A tab as the settings file has it, without what is usual."""
    usual = TabSettings(tab.layers)
    facts = {
        row.key: row.kind.write(getattr(tab, row.name))
        for row in rows_of(TabSettings)
        if row.kind is not None and (row.name not in _LEFT_OUT or getattr(tab, row.name) != getattr(usual, row.name))
    }
    return toml_value(facts)


def _found(
    run: Sequence[Slab], contact: MultiPolygon, line: int, pad: float, seats: MultiPolygon, layers: tuple[int, ...]
) -> tuple[WasteTab, ...]:
    pads = shapely.buffer(seats, pad / 2)
    downs, ups = _cones(run, pads, line)
    start = _Tried(None, {}, tuple(run), downs, ups, contact)
    bare = {slab.number: _bare(slab) for slab in run if slab.number in layers}
    flat = shapely.buffer(run[0].lower, -pad / 2) if run[0].number not in layers else None
    now, found = start, list[WasteTab]()
    while len(found) < MOST * len(layers) and now.missed > LEAST_GAIN * now.contact.area:
        best: _Tried | None = None
        for at in _places(now, flat, pad):
            tried = _tried(now, line, at, pad, layers, bare)
            if tried is None or now.missed - tried.missed <= LEAST_GAIN * now.contact.area:
                continue
            if best is None or (now.missed - tried.missed) / tried.area > (now.missed - best.missed) / best.area:
                best = tried
        if best is None or best.tab is None:
            break
        share, option = 1.0 - best.missed / best.contact.area, option_of(best.tab)
        for number, waste in best.wastes.items():
            whole = next(slab for slab in run if slab.number == number).blank.area
            found.append(WasteTab(number, waste, waste.area, waste.area / whole, share, option))
        now = best
    return tuple(found)


@dataclass(frozen=True, eq=False)
class _Tried:
    """A run with one more tab: what it adds by layer, and what pads reach from above and below of a line's contact."""

    tab: TabSettings | None
    wastes: dict[int, MultiPolygon]
    run: tuple[Slab, ...]
    downs: shapely.Geometry
    ups: shapely.Geometry
    contact: MultiPolygon

    @property
    def area(self) -> float:
        """Of the tab, on all its blanks."""
        return float(sum(waste.area for waste in self.wastes.values()))

    @property
    def out_of_reach(self) -> MultiPolygon:
        """What the pads do not reach of the line."""
        cone = shapely.intersection(self.downs, self.ups)
        return areas_of(shapely.difference(self.contact, cone), 1.0)

    @property
    def missed(self) -> float:
        """Its area."""
        return float(self.out_of_reach.area)


def _tried(
    now: _Tried,
    line: int,
    at: tuple[float, float],
    pad: float,
    layers: tuple[int, ...],
    bare: dict[int, MultiPolygon],
) -> _Tried | None:
    """The run with a tab for a pad at a place. What several pads reach is what each reaches, together: so only the new
    one's cones are grown."""
    tab = _tab(at, bare[layers[-1]], pad, layers)
    try:
        wastes = {number: one.area for number, one in laid_out(tab, bare).items()}
    except Refusal:
        return None
    wider = tuple(_wider(slab, wastes[slab.number]) if slab.number in wastes else slab for slab in now.run)
    if any(_meets(slab, old, wastes, now.run) for slab, old in zip(wider, now.run)):
        return None
    more = _cones(wider, pad_discs([at], pad), line)
    downs, ups = (shapely.union(old, new) for old, new in zip((now.downs, now.ups), more))
    contact = areas_of(shapely.union(now.contact, shapely.intersection(wider[line].upper, wider[line + 1].lower)))
    return _Tried(tab, wastes, wider, downs, ups, contact)


def _meets(slab: Slab, before: Slab, wastes: dict[int, MultiPolygon], run: Sequence[Slab]) -> bool:
    """Whether a tab meets another of its blank, or lies over or under what is cut into the run."""
    waste = wastes.get(slab.number)
    if waste is None:
        return False
    if any(shapely.distance(waste, tab) < PASSES for tab in before.tabs):
        return True
    cuts = [plan for other in run for _, _, plan in other.cuts if other.number not in wastes]
    return any(shapely.intersects(waste, plan) for plan in cuts)


def _cones(run: Sequence[Slab], pads: shapely.Geometry, line: int) -> tuple[MultiPolygon, MultiPolygon]:
    """What pads reach of a line from above and from below."""
    return cones_down(run[line:], pads)[0], cones_up(run[: line + 2], pads)[-1]


def _places(now: _Tried, flat: shapely.Geometry | None, pad: float) -> list[tuple[float, float]]:
    """Middles of pads for tabs: over what is missed or beside it, not wholly on the top blank, and where the bottom
    blank has a flat for the pad's fellow, if that gets no tab itself."""
    near = shapely.buffer(now.out_of_reach, pad / 2)
    near = near if flat is None else shapely.intersection(near, flat)
    found = candidates_on(areas_of(shapely.difference(near, shapely.buffer(now.run[-1].upper, -pad / 2))), TRIED)
    if len(found) > TRIED:
        found = found[np.linspace(0, len(found) - 1, TRIED).astype(int)]
    return [(float(x), float(y)) for x, y in found]


def _tab(at: tuple[float, float], blank: MultiPolygon, pad: float, layers: tuple[int, ...]) -> TabSettings:
    """The tab that takes a pad with its rim at a place: square to the nearest outline of the blank, to whole degrees
    and millimetres."""
    middle = shapely.Point(at)
    _, root = shapely.get_coordinates(shapely.shortest_line(middle, blank.boundary))
    way = np.array(at) - root if not shapely.contains(blank, middle) else root - np.array(at)
    direction = float(round(degrees(atan2(way[1], way[0])))) % 360.0
    c, s = cos(radians(direction)), sin(radians(direction))
    aside = float(round(at[1] * c - at[0] * s))
    along = at[0] * c + at[1] * s
    width = float(ceil(pad + 2 * RIM - WHOLE))
    plain = TabSettings(layers, direction, width, 1.0, aside)
    beyond = _beyond(plain, blank)
    out = float(ceil(along + pad / 2 + RIM - beyond)) if beyond is not None else 1.0
    return replace(plain, out=max(1.0, out))


def _beyond(tab: TabSettings, blank: MultiPolygon) -> float | None:
    """How far outwards the blank's edge lies on the tab's middle line; None: the line passes beside it."""
    try:
        return edge_of(tab, blank, tab.layers[-1])
    except Refusal:
        return None


def _bare(slab: Slab) -> MultiPolygon:
    """A blank without the tabs that it has."""
    return areas_of(shapely.difference(slab.blank, shapely.union_all(list(slab.tabs)))) if slab.tabs else slab.blank


def _wider(slab: Slab, tab: MultiPolygon) -> Slab:
    blank, upper, lower = (areas_of(shapely.union(a, tab)) for a in (slab.blank, slab.upper, slab.lower))
    return replace(slab, blank=blank, upper=upper, lower=lower, tabs=(*slab.tabs, tab))
