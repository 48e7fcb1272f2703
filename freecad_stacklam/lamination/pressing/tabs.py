# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs that would help: wood left on blanks of a run, so that a pad finds a flat where the blank is too small.
They are sawn off after the glue-up. mm, mm².

Each is a tab as the maker may ask for it, and laid out as it then would be. A tab on the top blank helps where there is
wood under it to press on; where that is missing, tabs on all blanks of a short run stand over each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
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
from freecad_stacklam.lamination.tolerances import GRID, WHOLE

#: Wood around the pad on a tab, mm.
RIM = 3.0
#: No more tabs than these on one blank; places tried for each; and a tab must gain this share of the line.
MOST, TRIED, LEAST_GAIN = 6, 24, 0.01
#: Tabs on all blanks of a run are tried for so many layers at the most: each is one more to saw off.
COLUMN = 8
#: Of a pad so much may stand beside its flat, mm²: what whole degrees and millimetres leave.
SLIVER = 1.0
#: Options that are not written where they are as usual.
_LEFT_OUT = ("aside", "fillet")


def tabs_for(
    run: Sequence[Slab], contact: MultiPolygon, line: int, pad: float, seats: MultiPolygon
) -> tuple[WasteTab, ...]:
    """Tabs on the top blank of a run for a line (place of its lower slab in the run), best gain for its area first,
    until the line is reached or none gains; where none does because the wood is missing below, on all blanks of a short
    run that lack it.

    seats: where pads may sit without tabs. A greedy choice, not proven least."""
    pads = shapely.buffer(seats, pad / 2)
    start = _Tried(None, {}, tuple(run), *_cones(run, pads, line), contact)
    found = _found(start, line, pad, run[-1:])
    return found if found or len(run) > COLUMN else _found(start, line, pad, run)


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


def _found(start: _Tried, line: int, pad: float, on: Sequence[Slab]) -> tuple[WasteTab, ...]:
    """on: the slabs that may get tabs."""
    bare = {slab.number: _bare(slab) for slab in on}
    now, found, count = start, list[WasteTab](), 0
    while count < MOST and now.missed > LEAST_GAIN * now.contact.area:
        best: _Tried | None = None
        for at in _places(now, bare, pad):
            tried = _tried(now, line, at, pad, bare)
            if tried is None or now.missed - tried.missed <= LEAST_GAIN * now.contact.area:
                continue
            if best is None or (now.missed - tried.missed) / tried.area > (now.missed - best.missed) / best.area:
                best = tried
        if best is None or best.tab is None:
            break
        share, option = 1.0 - best.missed / best.contact.area, option_of(best.tab)
        for slab in start.run:
            if slab.number in best.wastes:
                waste = best.wastes[slab.number]
                part = waste.area / slab.blank.area
                found.append(WasteTab(slab.number, waste, waste.area, part, share, option))
        now, count = best, count + 1
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

    @cached_property
    def out_of_reach(self) -> MultiPolygon:
        """What the pads do not reach of the line."""
        cone = shapely.intersection(self.downs, self.ups)
        return areas_of(shapely.difference(self.contact, cone), 1.0)

    @cached_property
    def missed(self) -> float:
        """Its area."""
        return float(self.out_of_reach.area)


def _tried(now: _Tried, line: int, at: tuple[float, float], pad: float, bare: dict[int, MultiPolygon]) -> _Tried | None:
    """The run with a tab for a pad at a place, on those blanks that lack wood there. What several pads reach is what
    each reaches, together: so only the new one's cones are grown."""
    disc = pad_discs([at], pad)
    lacking = tuple(slab.number for slab in now.run if slab.number in bare and not _bears(slab.blank, disc))
    if not lacking:
        return None
    blanks = {number: bare[number] for number in lacking}
    try:
        tab = _tab(at, blanks, pad)
        wastes = {number: one.area for number, one in laid_out(tab, blanks).items()}
    except Refusal:
        return None
    wider = tuple(_wider(slab, wastes[slab.number]) if slab.number in wastes else slab for slab in now.run)
    if any(_meets(slab, wastes, now.run) for slab in now.run):
        return None
    if not _bears(wider[0].lower, disc) or not _bears(wider[-1].upper, disc):
        return None
    more = _cones(wider, disc, line)
    downs, ups = (shapely.union(old, new) for old, new in zip((now.downs, now.ups), more))
    contact = areas_of(shapely.union(now.contact, shapely.intersection(wider[line].upper, wider[line + 1].lower)))
    return _Tried(tab, wastes, wider, downs, ups, contact)


def _bears(face: MultiPolygon, disc: shapely.Geometry) -> bool:
    """Whether a pad sits flat."""
    return not areas_of(shapely.difference(disc, face), SLIVER).geoms


def _meets(slab: Slab, wastes: dict[int, MultiPolygon], run: Sequence[Slab]) -> bool:
    """Whether a tab meets another of its blank, or lies over or under what is cut into the run."""
    waste = wastes.get(slab.number)
    if waste is None:
        return False
    if any(shapely.distance(waste, tab) < PASSES for tab in slab.tabs):
        return True
    cuts = [plan for other in run for _, _, plan in other.cuts if other.number not in wastes]
    return any(shapely.intersects(waste, plan) for plan in cuts)


def _cones(run: Sequence[Slab], pads: shapely.Geometry, line: int) -> tuple[MultiPolygon, MultiPolygon]:
    """What pads reach of a line from above and from below."""
    return cones_down(run[line:], pads)[0], cones_up(run[: line + 2], pads)[-1]


def _places(now: _Tried, bare: dict[int, MultiPolygon], pad: float) -> list[tuple[float, float]]:
    """Middles of pads for tabs: over what is missed or beside it, where a pad has no seat yet, and on the flat of an
    outer blank that gets no tab."""
    near = shapely.buffer(now.out_of_reach, pad / 2)
    foot, head = (shapely.buffer(face, -pad / 2) for face in (now.run[0].lower, now.run[-1].upper))
    for slab, flat in ((now.run[0], foot), (now.run[-1], head)):
        near = near if slab.number in bare else shapely.intersection(near, flat)
    found = candidates_on(areas_of(shapely.difference(near, shapely.intersection(foot, head))), TRIED)
    if len(found) > TRIED:
        found = found[np.linspace(0, len(found) - 1, TRIED).astype(int)]
    return [(float(x), float(y)) for x, y in found]


def _tab(at: tuple[float, float], blanks: dict[int, MultiPolygon], pad: float) -> TabSettings:
    """The tab that takes a pad with its rim at a place: square to the nearest outline of the highest of the blanks, to
    whole degrees and millimetres. Raises Refusal where it finds none of them."""
    layers = tuple(sorted(blanks))
    blank, middle = blanks[layers[-1]], shapely.Point(at)
    root = shapely.get_coordinates(shapely.shortest_line(middle, blank.boundary))[1]
    way = root - np.array(at) if shapely.contains(blank, middle) else np.array(at) - root
    direction = float(round(degrees(atan2(way[1], way[0])))) % 360.0
    c, s = cos(radians(direction)), sin(radians(direction))
    aside = round(at[1] * c - at[0] * s) + 0.0
    tab = TabSettings(layers, direction, float(ceil(pad + 2 * RIM - WHOLE)), 1.0, aside)
    edge = max(edge_of(tab, blanks[number], number) for number in layers)
    return replace(tab, out=max(1.0, float(ceil(at[0] * c + at[1] * s + pad / 2 + RIM - edge))))


def _bare(slab: Slab) -> MultiPolygon:
    """A blank without the tabs that it has."""
    return (
        areas_of(shapely.difference(slab.blank, shapely.union_all(list(slab.tabs)), grid_size=GRID))
        if slab.tabs
        else slab.blank
    )


def _wider(slab: Slab, tab: MultiPolygon) -> Slab:
    blank, upper, lower = (
        areas_of(shapely.union(a, tab, grid_size=GRID)) for a in (slab.blank, slab.upper, slab.lower)
    )
    return replace(slab, blank=blank, upper=upper, lower=lower, tabs=(*slab.tabs, tab))
