# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cauls: bars under two clamps, with their section and crown, and boards over the whole face. mm, N, MPa.

A bar that two clamps pull down at its ends and an even load w holds up bends by 5·w·L⁴ / (384·E·I) (simply supported
beam, even load; any handbook): planed to a crown of so much, it presses evenly when it is pulled straight.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, hypot

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import Caul, ClampPlace
from freecad_stacklam.lamination.pressing.bell import Floats, pressures, squares_on
from freecad_stacklam.lamination.pressing.clamping import GAP, Clamping
from freecad_stacklam.lamination.pressing.cones import reached
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.pressing.work import Work
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import COARSE, ROUNDING, WHOLE
from freecad_stacklam.lamination.wood.loadspread import cone_width

#: Stiffness of a caul of any usual hardwood along its grain, MPa (FPL-GTR-190 (2010), Table 5-3a: 8 to 14 GPa), and
#: what it may be bent to: a third of the strength in bending of the weaker ones (70 to 110 MPa).
STIFFNESS, BENDING = 11_000.0, 25.0
#: The most crown, as part of the length: 1 mm on 300 mm (common practice, no source).
MOST_CROWN = 1 / 300
#: Section of bars: never thinner than this, mm, and cut to whole steps.
THINNEST_BAR, STEP = 30.0, 5.0
#: The longest bar, drawn out on one side so that it does not tip, as a part of the wood that it spans.
MOST_LONGER = 1.4
#: Bars are cut to whole steps of this, mm, so that those of a set-up are alike.
CUT = 10.0


@dataclass(frozen=True)
class BarSection:
    """Width and thickness of a bar, and the crown to plane it to, mm."""

    width: float
    thickness: float
    crown: float


def bend(load: float, length: float, width: float, thickness: float, stiffness: float = STIFFNESS) -> float:
    """How far a bar under an even load (N on each mm) bends between its ends: 5·w·L⁴ / (384·E·I), mm."""
    return 5 * load * length**4 / (384 * stiffness * width * thickness**3 / 12)


def bar_section(length: float, force: float, width: float) -> BarSection:
    """The thinnest bar between two clamps of a `force` each, `length` apart, that neither bends by more than MOST_CROWN
    of its length nor is strained over BENDING (w·L²/8 over b·h²/6), in steps of STEP."""
    load = 2 * force / length
    by_bend = (5 * load * length**4 * 12 / (384 * STIFFNESS * width * MOST_CROWN * length)) ** (1 / 3)
    by_strength = (load * length**2 / 8 * 6 / (width * BENDING)) ** 0.5
    thickness = max(THINNEST_BAR, ceil(max(by_bend, by_strength) / STEP) * STEP)
    return BarSection(width, thickness, bend(load, length, width, thickness))


def full_caul(face: MultiPolygon) -> MultiPolygon:
    """The outline of a board over a whole face: its convex hull."""
    return areas_of(shapely.simplify(shapely.convex_hull(face), COARSE))


def board_cauls(pile: Sequence[Slab], thickness: float) -> tuple[Caul, Caul]:
    """Boards under and over a pile."""
    return (
        board_caul("bottom", full_caul(pile[0].lower), thickness),
        board_caul("top", full_caul(pile[-1].upper), thickness),
    )


def board_caul(side: str, outline: MultiPolygon, thickness: float) -> Caul:
    """A board of an outline; its length and width are those of the smallest rectangle around it."""
    long, short = sides_of(outline)
    return Caul(side, False, outline, long, short, thickness)


def sides_of(area: shapely.Geometry) -> tuple[float, float]:
    """Longer and shorter side of the smallest rectangle around an area."""
    ring = shapely.get_coordinates(shapely.minimum_rotated_rectangle(area))
    sides = sorted((float(shapely.distance(shapely.Point(a), shapely.Point(b))) for a, b in zip(ring[:2], ring[1:3])))
    return sides[1], sides[0]


def barred(work: Work, press: PressSettings) -> Clamping | None:
    """Pairs of bars across the run, each pair between two clamps that stand beside the wood: their throat does not
    matter. The bars lie across the longer side, in equal steps, lengthened on one side or left out where they would
    tip. None where there are no two clamps, or they do not open wide enough, or no bar lies steady."""
    whole = shapely.union_all([s.blank for s in work.run])
    flat = shapely.intersection(work.run[0].lower, work.run[-1].upper)
    if press.count < 2 or flat.is_empty:
        return None
    along, across = _directions(whole)
    low, high = _extent(flat, along)
    room = max(1, int((high - low + GAP) // (press.pad + GAP)))
    spread = cone_width(press.pad, min(work.run[0].thickness, work.run[-1].thickness))
    asked = max(ceil(work.force / (2 * press.force) - WHOLE), ceil((high - low) / spread))
    pairs = min(asked, press.count // 2, room)
    places = [low + (i + 0.5) * (high - low) / pairs for i in range(pairs)]
    strips = [strip for at in places if (strip := _strip(flat, whole, along, across, at, press.pad))]
    if not strips:
        return None
    longest = max(strip.length for strip in strips)
    section = bar_section(longest, press.force, press.pad)
    if press.opening is not None and work.height + 2 * section.thickness > press.opening + ROUNDING:
        return None
    return _figures(work, press, strips, section, 2 * min(asked, press.count // 2))


@dataclass(frozen=True, eq=False)
class _Strip:
    """A bar in plan: what it bears on, its outline, and the middles of the two pads at its ends."""

    bears: MultiPolygon
    outline: MultiPolygon
    ends: tuple[tuple[float, float], tuple[float, float]]

    @property
    def length(self) -> float:
        """Between its two pads, mm."""
        return hypot(self.ends[1][0] - self.ends[0][0], self.ends[1][1] - self.ends[0][1])


def _figures(work: Work, press: PressSettings, strips: Sequence[_Strip], section: BarSection, asked: int) -> Clamping:
    foot, head = work.run[0].bottom, work.run[-1].top
    area = shapely.union_all([strip.bears for strip in strips])
    cones = reached(work.run, area, area)
    found = []
    for line, cells in zip(work.lines, work.told):
        over = np.zeros(len(cells.areas))
        for strip in strips:
            points = shapely.get_coordinates(shapely.centroid(squares_on(strip.bears, press.pad / 2)))
            above, below = head - line.interface.height, line.interface.height - foot
            over += 2 * press.force * pressures(points, cells, above, below, press.pad).mean(axis=0)
        force = float(over @ cells.areas)
        found.append(line.pressed(force, over, cones[line.place], cells, work.table))
    pads = tuple(
        ClampPlace(press.name, end, press.force, press.pad, foot - section.thickness, head + section.thickness)
        for strip in strips
        for end in strip.ends
    )
    bars = tuple(
        Caul(side, True, s.outline, s.length + press.pad, section.width, section.thickness,
             bend(2 * press.force / s.length, s.length, section.width, section.thickness))
        for s in strips
        for side in ("bottom", "top")
    )  # fmt: skip
    return Clamping(pads, tuple(found), bars, work.height + 2 * section.thickness, asked)


def _directions(whole: shapely.Geometry) -> tuple[Floats, Floats]:
    """Unit vectors along the longer side of the smallest rectangle around an area, and across it."""
    ring = shapely.get_coordinates(shapely.minimum_rotated_rectangle(whole))
    sides = [ring[1] - ring[0], ring[2] - ring[1]]
    longer = max(sides, key=lambda s: float(np.hypot(*s)))
    along = longer / np.hypot(*longer)
    return along, np.array([-along[1], along[0]])


def _steady(bears: shapely.Geometry, across: Floats, middle: float) -> bool:
    """Whether two equal forces whose middle is there press a bar on all that it bears on: within the middle third of a
    strip nothing lifts (the core of a rectangle, any handbook); beside the wood the bar tips, and its clamp lets go."""
    low, high = _extent(bears, across)
    return abs(middle - (low + high) / 2) <= (high - low) / 6


def _extent(area: shapely.Geometry, direction: Floats) -> tuple[float, float]:
    along = shapely.get_coordinates(area) @ direction
    return float(along.min()), float(along.max())


def _strip(
    flat: shapely.Geometry, whole: shapely.Geometry, along: Floats, across: Floats, at: float, width: float
) -> _Strip | None:
    low, high = _extent(whole, across)
    middle = [at * along + low * across, at * along + high * across]
    band = shapely.buffer(shapely.LineString(middle), width / 2, cap_style="flat")
    bears = areas_of(shapely.intersection(band, flat))
    if bears.is_empty:
        return None
    low, high = _extent(shapely.intersection(band, whole), across)
    if not _steady(bears, across, (low + high) / 2):
        centre, wood = sum(_extent(bears, across)) / 2, high - low
        half = max(high - centre, centre - low)
        low, high = centre - half, centre + half
        if high - low > MOST_LONGER * wood:
            return None
    more = (ceil((high - low + 2 * width) / CUT - WHOLE) * CUT - (high - low + 2 * width)) / 2
    low, high = low - more, high + more
    ends = [at * along + (low - width / 2) * across, at * along + (high + width / 2) * across]
    outline = shapely.buffer(shapely.LineString(ends), width / 2, cap_style="square")
    first, last = ((float(x), float(y)) for x, y in ends)
    return _Strip(bears, areas_of(outline), (first, last))
