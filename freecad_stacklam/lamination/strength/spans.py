# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sections between two supports, and strips of hollow walls.

A span: legs, or the sides of an opening, joined above. Between the middles of two neighbours the wood above them is a
beam on two supports: a load W that stands a from one and b from the other makes W·a·b/(a + b) under it (statics; ends
that are held firmly take half of it off). A wall: a ring bends at its rim as a strip does, over the breadth of the load
and 45° to each side; what the ring itself holds together is not counted, so the figure is high. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import SectionFinding
from freecad_stacklam.lamination.strength.across import PAD, Cuts
from freecad_stacklam.lamination.strength.composite import Piece
from freecad_stacklam.lamination.strength.examine import Acting, examine
from freecad_stacklam.lamination.strength.loads import AROUND, LEAST_ABOVE, Edges, Pushes
from freecad_stacklam.lamination.strength.members import Group, Level, Member
from freecad_stacklam.lamination.strength.planes import level_plane
from freecad_stacklam.lamination.tolerances import NO_AREA

Floats = NDArray[np.float64]

#: Places along a span, as parts of it.
STATIONS = (0.25, 0.5, 0.75)
#: A hole that takes less than this part of a member's hull makes no wall of it.
HOLLOW = 0.2
#: Every how manieth of the directions is looked at for walls.
STEP = 6


def examine_spans(piece: Piece, levels: Sequence[Level], loads: Sequence[LoadCase], way: str) -> list[SectionFinding]:
    """The worst section of what spans between neighbouring members that part just below it, under loads from above."""
    down = [load for load in loads if load.down > 0 and load.place != "point"]
    found = []
    for level, group in _partings(levels):
        middles = np.array([level.members[m].middle for m in group.members])
        for i, j in _neighbours(middles):
            worst = max(_between(piece, level, group, middles[i], middles[j], down, way), key=_use, default=None)
            if worst is not None:
                found.append(worst)
    return found


def _use(finding: SectionFinding) -> float:
    return max(finding.use, finding.tenon_use)


def _partings(levels: Sequence[Level]) -> Iterator[tuple[Level, Group]]:
    """The highest levels at which what hangs together above stands on several members."""
    for k, level in enumerate(levels):
        for g, group in enumerate(level.groups):
            several = len(group.members) > 1
            higher = levels[k + 1].groups if k + 1 < len(levels) else ()
            if several and not any(len(one.members) > 1 for one in higher if one.below == g):
                yield level, group


def _neighbours(middles: Floats) -> set[tuple[int, int]]:
    """Each with the one nearest to it."""
    apart = np.linalg.norm(middles[:, None] - middles[None, :], axis=2)
    np.fill_diagonal(apart, np.inf)
    return {(min(i, int(j)), max(i, int(j))) for i, j in enumerate(apart.argmin(axis=1))}


def _between(
    piece: Piece, level: Level, group: Group, one: Floats, two: Floats, loads: Sequence[LoadCase], way: str
) -> Iterator[SectionFinding]:
    length = float(np.linalg.norm(two - one))
    if length < PAD or not loads:
        return
    run = (two - one) / length
    start = float(run @ one)
    offsets = [start + share * length for share in STATIONS]
    cuts = Cuts(piece, run, offsets)
    for offset in offsets:
        plane = cuts.plane(offset)
        a = offset - start
        near = min(a, length - a)
        along = float(plane.axes[0][:2] @ one)
        areas = cuts.under(offset, along, near + PAD / 2, level.height, group.top + 1.0, group.top)
        if not areas:
            continue
        acting = []
        for load in loads:
            # The part beyond the cut, with the support's share W·a/l there, and the load on the cut itself.
            place = np.append(two, level.height)
            force = np.array([[0.0, 0.0, load.down * a / length]])
            acting.append(Acting(load, Pushes(place[None, :], force)))
        yield from examine("span", piece, areas, plane, acting, way)


def examine_walls(
    piece: Piece, levels: Sequence[Level], loads: Sequence[LoadCase], edges: Edges, way: str
) -> list[SectionFinding]:
    """The worst strip of every hollow member at every height, of all directions, under loads at the rim above it."""
    found = []
    edged = [load for load in loads if load.place in ("edge", "anywhere")]
    for level in levels:
        for group in level.groups:
            for number in group.members if len(group.members) == 1 else ():
                member = level.members[number]
                if edged and _hollow(member):
                    found += _strips(piece, level, group, member, edged, edges, way)
    return found


def _hollow(member: Member) -> bool:
    shape = member.coarse
    holes = sum(shapely.Polygon(ring).area for part in shapely.get_parts(shape).tolist() for ring in part.interiors)
    return bool(holes > HOLLOW * (shape.area + holes))


def _strips(
    piece: Piece, level: Level, group: Group, member: Member, loads: Sequence[LoadCase],
    edges: Edges, way: str,
) -> list[SectionFinding]:  # fmt: skip
    half = group.top - level.height + PAD / 2
    low_x, low_y, high_x, high_y = member.coarse.bounds
    if half > max(high_x - low_x, high_y - low_y) / 2:
        return []  # the whole ring is in it
    plane = level_plane(level.height)
    middle = np.array(member.coarse.centroid.coords[0])
    far = high_x - low_x + high_y - low_y
    best: dict[str, SectionFinding] = {}
    for i in range(0, len(AROUND), STEP):
        out = AROUND[i]
        acting = []
        for load in loads:
            edge = edges.of(group, load.inset)
            at = edge[int((edge[:, :2] @ out).argmax())]
            if at[2] < level.height + LEAST_ABOVE:
                continue
            acting.append(Acting(load, Pushes(at[None, :], np.array([[*(load.push * out), -load.down]]))))
        if not acting:
            continue
        at = acting[0].pushes.places[0, :2]
        side = np.array([-out[1], out[0]])
        across = side * float(side @ (at - middle))
        strip = shapely.Polygon(
            [middle + across + u * out + v * half * side for u, v in ((0.0, -1), (far, -1), (far, 1), (0.0, 1))]
        )
        areas = []
        for island in member.islands:
            parts = shapely.get_parts(shapely.intersection(island.area, strip)).tolist()
            parts = [p for p in parts if p.area > NO_AREA]
            if parts:
                outer = max(parts, key=lambda p: float((shapely.get_coordinates(p) @ out).max()))
                areas.append((island.stack, outer))
        for finding in examine("wall", piece, areas, plane, acting, way) if areas else []:
            if finding.load not in best or _use(finding) > _use(best[finding.load]):
                best[finding.load] = finding
    return list(best.values())
