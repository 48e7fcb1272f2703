# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cut line by offsets from the two centre lines, for a batten; and by compass, where few arcs hold it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain
from math import ceil, floor

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon

from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, length_text, number
from freecad_stacklam.benchsheets.layers.compass import Edge, edges
from freecad_stacklam.benchsheets.pages.blocks import Block
from freecad_stacklam.lamination.layers.fitting import fit_outside
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.plan.outline import Outline, area_polygon, sample
from freecad_stacklam.lamination.tolerances import ROUNDING, SAME_LINE
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]

#: From station to station where the maker does not say: on a rule in mm and in inches.
STEP_MM, STEP_IN = 20.0, 0.75 * INCH
#: A cut line of more straights and arcs than this is not laid out by compass.
MOST_ARCS = 8
#: A station has two figures in its row, or four where most stations have more than two; more go on in the next row.
ACROSS = (2, 4)
#: The parts of the tolerance that a fit with fewer arcs is tried at: a fit may stand out about twice what it is given.
_TRIED = (0.45, 0.35, 0.25)


@dataclass(frozen=True)
class Station:
    """A straight line across the layer, `at` mm from a centre line, and where the cut line crosses it, rising, mm."""

    at: float
    crossings: tuple[float, ...]


def step_of(step: float, units: Units) -> float:
    """The maker's step between stations, mm, or the usual one for the rule that is used (step 0)."""
    return step or (STEP_IN if in_inches(units) else STEP_MM)


def stations(area: MultiPolygon, step: float, across: int, steep: bool = False) -> tuple[Station, ...]:
    """Where the edge of an area crosses the lines at every multiple of `step` mm from a centre line.

    across: 0 for stations along x, their crossings in y; 1 for stations along y. steep: only crossings where the edge
    runs steeper than 45° to the other centre line, those that the other table of stations finds badly.
    """
    rings = [shapely.get_coordinates(ring) for ring in shapely.get_rings(shapely.get_parts(area)).tolist()]
    a = np.vstack([ring[:-1] for ring in rings])[:, [across, 1 - across]]
    b = np.vstack([ring[1:] for ring in rings])[:, [across, 1 - across]]
    low, high = ceil(a[:, 0].min() / step - ROUNDING), floor(a[:, 0].max() / step + ROUNDING)
    if steep:
        kept = np.abs(b[:, 0] - a[:, 0]) > np.abs(b[:, 1] - a[:, 1])
        a, b = a[kept], b[kept]
    found = []
    for at in (k * step for k in range(low, high + 1)):
        hit = (a[:, 0] <= at) != (b[:, 0] <= at)
        p, q = a[hit], b[hit]
        levels = np.sort(p[:, 1] + (at - p[:, 0]) * (q[:, 1] - p[:, 1]) / (q[:, 0] - p[:, 0]))
        gaps = np.diff(levels, prepend=-np.inf, append=np.inf)
        apart = (gaps[:-1] > SAME_LINE) & (gaps[1:] > SAME_LINE)  # not where it only touches
        if apart.any():
            found.append(Station(at, tuple(levels[apart].tolist())))
    return tuple(found)


def _rows(found: Sequence[Station], units: Units, width: int) -> list[tuple[str, ...]]:
    rows = []
    for station in found:
        words = [number(v, units) for v in station.crossings]
        for i in range(0, len(words), width):
            part = words[i : i + width]
            first = number(station.at, units) if i == 0 else "″"
            rows.append((first, *part, *[""] * (width - len(part))))
    return rows


def _heads(along: str, other: str, width: int) -> tuple[str, ...]:
    return (say("at {axis}", axis=along), f"{other} =", *[""] * (width - 1))


def offset_blocks(area: MultiPolygon, step: float, units: Units) -> list[Block]:
    """The tables of offsets: side by side where the line crosses each station only twice, else one under the other."""
    one = replace(units, both=False)
    tables = []
    for along, other, across, steep in (("x", "y", 0, False), ("y", "x", 1, True)):
        found = stations(area, step, across, steep)
        many = sum(len(s.crossings) > ACROSS[0] for s in found)
        width = ACROSS[1] if 2 * many > len(found) else ACROSS[0]
        tables.append((_heads(along, other, width), _rows(found, one, width)))
    every = length_text(step, one)
    (heads, rows), (more_heads, more) = tables
    if len(heads) == len(more_heads) == ACROSS[0] + 1:
        blank, more_blank = ("",) * len(heads), ("",) * len(more_heads)
        count = max(len(rows), len(more))
        rows += [blank] * (count - len(rows))
        more += [more_blank] * (count - len(more))
        both = (*heads, "", *more_heads)
        shares = tuple(0.25 if i == len(heads) else 1.0 for i in range(len(both)))
        joined = tuple((*row, "", *other) for row, other in zip(rows, more, strict=True))
        return [
            Block(
                say("Cut line every {step} from the centre lines", step=every),
                both,
                shares,
                (False,) * len(both),
                joined,
            )
        ]
    titles = mark("Cut line every {step} along x"), mark("Cut line every {step} along y, where it is steep")
    return [
        Block(say(title, step=every), h, (1.0,) * len(h), (False,) * len(h), tuple(r))
        for title, (h, r) in zip(titles, tables, strict=True)
        if r
    ]


def extremes(area: MultiPolygon, units: Units) -> str:
    """Where the cut line reaches furthest, in a sentence: the batten turns there."""
    points = shapely.get_coordinates(area)
    words = []
    for side, axis, pick in (
        (mark("left {x}, {y}"), 0, np.argmin),
        (mark("right {x}, {y}"), 0, np.argmax),
        (mark("front {x}, {y}"), 1, np.argmin),
        (mark("back {x}, {y}"), 1, np.argmax),
    ):
        x, y = points[int(pick(points[:, axis]))].tolist()
        words.append(say(side, x=number(x, units), y=number(y, units)))
    return say("Furthest points (x, y): {places}.", places="; ".join(words))


def compass_line(blank: Sequence[Outline], within: float) -> tuple[Outline, ...] | None:
    """The cut line in at most MOST_ARCS straights and arcs, none inside it and none more than `within` mm outside it;
    None where it takes more."""
    if _count(blank) <= MOST_ARCS:
        return tuple(blank)
    if within <= 0.0:
        return None
    region = area_polygon(blank)
    shapely.prepare(region)
    for part in _TRIED:
        drawn = fit_outside(region, part * within)
        if _count(drawn) > MOST_ARCS:
            continue
        points = np.vstack([sample(loop) for outline in drawn for loop in (outline.outer, *outline.holes)])
        off = shapely.distance(region, shapely.points(points)).max()
        if off <= within and area_polygon(drawn).covers(region):
            return drawn
    return None


def arcs_of(outlines: Sequence[Outline]) -> list[Edge]:
    """Every straight and arc of the outlines, loop by loop."""
    return list(chain.from_iterable(edges(loop) for o in outlines for loop in (o.outer, *o.holes)))


def _count(outlines: Sequence[Outline]) -> int:
    return len(arcs_of(outlines))


def arc_block(outlines: Sequence[Outline], wood: MultiPolygon, units: Units) -> Block:
    """The arcs in their order: centre, radius, and where each ends and the next begins. A radius is in brackets when
    its centre lies off the wood."""
    rows: list[tuple[str, ...]] = []
    number_of = 0
    off = False
    for loop in (loop for o in outlines for loop in (o.outer, *o.holes)):
        found = edges(loop)
        if not found[0].whole:
            x, y = found[0].start
            rows.append(("", say("start"), "", "", number(x, units), number(y, units)))
        for edge in found:
            number_of += 1
            ends = ("", "") if edge.whole else (number(edge.end[0], units), number(edge.end[1], units))
            if not edge.radius:
                rows.append((str(number_of), say("straight"), "", "", *ends))
                continue
            centre = (number(edge.centre[0], units), number(edge.centre[1], units))
            radius = number(edge.radius, units)
            outside = not shapely.covers(wood, shapely.Point(edge.centre))
            off = off or outside
            rows.append((str(number_of), *centre, f"({radius})" if outside else radius, *ends))
    return Block(
        say(mark("Cut line by compass; (R): its centre lies off the wood") if off else mark("Cut line by compass")),
        (say("no."), say("centre x"), "y", "R", say("ends at x"), "y"),
        (8.0, 18.0, 15.0, 16.0, 18.0, 15.0),
        (True, False, False, False, False, False),
        tuple(rows),
    )
