# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sections across what overhangs: the rim of a plate, an arm, a lip, the wall of a bowl seen from its foot.

What lies above a height reaches, in some direction, further out than what carries it there. Where it reaches furthest
over its support, upright planes are laid square to that direction: one on the outline of the support, others between it
and the load. A load at the edge does not bend the whole breadth of such a cut. It spreads at 45° to each side on its
way: a long plate fixed along one edge has half the load as moment per unit of length under it, P/2, and P·a over the
breadth 2·a is the same (from memory; a lower breadth is the safe side). So a cut is clipped to the breadth of the load
and twice the way to it, and of the pieces left the one under the load counts. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import SectionFinding
from freecad_stacklam.lamination.strength.along import BESIDE
from freecad_stacklam.lamination.strength.composite import Piece
from freecad_stacklam.lamination.strength.examine import Acting, examine
from freecad_stacklam.lamination.strength.loads import AROUND, Edges, Pushes
from freecad_stacklam.lamination.strength.members import TOUCHING, Group, Level
from freecad_stacklam.lamination.strength.planes import ENDLESS, Plane, areas_at, upright_plane
from freecad_stacklam.lamination.tolerances import NO_AREA

Floats = NDArray[np.float64]

#: Breadth over which a person or a pot presses, mm (common practice, no source).
PAD = 100.0
#: What overhangs by less than this, mm, is no arm.
LEAST_OVERHANG = 20.0
#: Planes between the support and the load, as parts of that way.
STATIONS = (0.0, 0.25, 0.5, 0.75)
#: Overhangs that differ by less than this, mm, are one: of those the highest support counts.
SAME_OVERHANG = 1.0
#: A load that lies more than this times as far out along another direction bends that way.
MUCH_FURTHER = 1.2
#: Every how manieth of the directions tried for loads is looked at here.
STEP = 3


@dataclass(frozen=True, eq=False)
class Overhang:
    """What reaches out in one level direction (unit, 2): the group and the height that carry it, how far the support
    reaches, `support`, and how far the top does, `reach`, mm along the direction from the model's origin."""

    direction: Floats
    group: Group
    height: float
    support: float
    reach: float


def overhangs(levels: Sequence[Level], step: int = STEP) -> list[Overhang]:
    """Where anything overhangs most, of each direction and of everything that hangs together."""
    ways = AROUND[::step]
    over: dict[tuple[int, int], tuple[Floats, Floats]] = {}
    for k, level in enumerate(levels):
        for g, group in enumerate(level.groups):
            if group.members:
                support = _support([level.members[m].coarse for m in group.members], ways)
                over[k, g] = support, _support([group.shadow], ways)
    above: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for k, g in over:
        below = k - 1, levels[k].groups[g].below
        above.setdefault(below, []).append((k, g))
    found = []
    for (k, g), (support, reach) in over.items():
        mine = reach - support
        below = k - 1, levels[k].groups[g].below
        lower = over[below][1] - over[below][0] if below in over else np.full(len(ways), -np.inf)
        higher = np.max([over[one][1] - over[one][0] for one in above.get((k, g), [])] or [np.zeros(len(ways))], axis=0)
        # The highest of equals: no higher one reaches as far, and no lower one further.
        peak = (mine > LEAST_OVERHANG) & (mine > higher + SAME_OVERHANG) & (lower <= mine + SAME_OVERHANG)
        for i in np.flatnonzero(peak).tolist():
            group = levels[k].groups[g]
            found.append(Overhang(ways[i], group, levels[k].height, float(support[i]), float(reach[i])))
    return found


def _support(shapes: Sequence[shapely.Geometry], ways: Floats) -> Floats:
    points = np.concatenate([shapely.get_coordinates(s) for s in shapes])
    found: Floats = (points @ ways.T).max(axis=0)
    return found


def examine_overhangs(
    piece: Piece, levels: Sequence[Level], loads: Sequence[LoadCase], edges: Edges, way: str
) -> list[SectionFinding]:
    """The worst section of every overhang under every load that may stand on it."""
    placed = _along_their_way([(one, at, of) for one in overhangs(levels) for at, of in _loads_on(one, loads, edges)])
    by_direction: dict[tuple[float, float], list[tuple[Overhang, Floats, list[LoadCase]]]] = {}
    for case in placed:
        by_direction.setdefault((float(case[0].direction[0]), float(case[0].direction[1])), []).append(case)
    found = []
    for direction, wanted in by_direction.items():
        cuts = Cuts(piece, np.array(direction), [s for one, at, _ in wanted for s in _stations(one, at)])
        for one, at, of in wanted:
            found += _examined(piece, cuts, one, at, of, way)
    return found


def _along_their_way(
    placed: Sequence[tuple[Overhang, Floats, list[LoadCase]]],
) -> list[tuple[Overhang, Floats, list[LoadCase]]]:
    """Without the cuts that pass an arm aslant: another direction has the load at the same place much further out, and
    the stress runs that way. Square to a slanting cut it is another one than Hankinson's formula speaks of."""
    if not placed:
        return []
    levers = np.array([float(one.direction @ at[:2]) - one.support for one, at, _ in placed])
    places = np.array([at for _, at, _ in placed])
    heights = np.array([one.height for one, *_ in placed])
    near = np.linalg.norm(places[:, None] - places[None, :], axis=2) < PAD
    names = np.array(["\n".join(sorted(load.name for load in loads)) for *_, loads in placed])
    near &= names[:, None] == names[None, :]
    near &= np.abs(heights[:, None] - heights[None, :]) < PAD
    longest = np.where(near, levers[None, :], 0.0).max(axis=1)
    return [case for case, lever, most in zip(placed, levers, longest, strict=True) if most <= MUCH_FURTHER * lever]


def _use(finding: SectionFinding) -> float:
    return max(finding.use, finding.tenon_use)


def _stations(one: Overhang, at: Floats) -> list[float]:
    reach = float(one.direction @ at[:2])
    return [one.support + BESIDE + share * (reach - one.support) for share in STATIONS]


def _loads_on(one: Overhang, loads: Sequence[LoadCase], edges: Edges) -> list[tuple[Floats, list[LoadCase]]]:
    """Places where loads stand furthest out on an overhang, and which do there."""
    found: dict[tuple[float, ...], list[LoadCase]] = {}
    for load in loads:
        if load.place == "middle":
            continue
        if load.place == "point":
            assert load.at is not None
            at = np.array(load.at)
            if at[2] < one.height or not shapely.dwithin(one.group.shadow, shapely.Point(at[:2]), 1.0):
                continue
        else:
            edge = edges.of(one.group, load.inset)
            at = edge[int((edge[:, :2] @ one.direction).argmax())]
            if at[2] < one.height:
                continue
        if float(one.direction @ at[:2]) > one.support + LEAST_OVERHANG / 2:
            found.setdefault(tuple(at.tolist()), []).append(load)
    return [(np.array(at), of) for at, of in found.items()]


class Cuts:
    """Upright planes square to one direction, all cut at once. offsets: mm along it from the model's origin."""

    def __init__(self, piece: Piece, direction: Floats, offsets: Sequence[float]) -> None:
        self.direction = direction
        axes = upright_plane(direction, 0.0).axes
        asked = sorted(set(offsets))
        self._of: dict[float, list[tuple[int, shapely.Geometry]]] = {s: [] for s in asked}
        for number, body in enumerate(piece.bodies):
            areas = areas_at(body.mesh.vertices @ axes.T, body.mesh.triangles, asked)
            for s, area in zip(asked, areas, strict=True):
                if not area.is_empty:
                    self._of[s].append((number, area))

    def plane(self, offset: float) -> Plane:
        """The plane, its axis 1 level and its axis 2 up."""
        return upright_plane(self.direction, offset)

    def under(
        self, offset: float, along: float, half: float, low: float, high: float, near: float
    ) -> list[tuple[int, shapely.Geometry]]:
        """What the plane cuts within `half` mm to each side of `along` and from `low` up to `high`, and hangs together
        with what lies at `along` nearest to the height `near`."""
        box = shapely.box(along - half, low, along + half, high)
        parts = [
            (number, part)
            for number, area in self._of[offset]
            for part in shapely.get_parts(shapely.intersection(area, box)).tolist()
            if part.area > NO_AREA
        ]
        line = shapely.LineString([(along, low), (along, high)])
        away = []
        for i, (_, part) in enumerate(parts):
            here = shapely.intersection(part, line)
            if not here.is_empty:
                away.append((max(here.bounds[1] - near, near - here.bounds[3], 0.0), i))
        if not away:
            return []
        chosen = [min(away)[1]]
        for i in range(len(parts)):
            if i not in chosen and any(
                parts[i][0] != parts[j][0] and parts[i][1].dwithin(parts[j][1], TOUCHING) for j in chosen
            ):
                chosen.append(i)
        return [parts[i] for i in chosen]


def _examined(
    piece: Piece, cuts: Cuts, one: Overhang, at: Floats, loads: Sequence[LoadCase], way: str
) -> list[SectionFinding]:
    """Of each load at one place the worst of the cuts between it and the support."""
    reach = float(one.direction @ at[:2])
    acting = []
    for load in loads:
        push = one.direction
        if load.direction is not None:
            push = np.array([np.cos(np.radians(load.direction)), np.sin(np.radians(load.direction))])
        acting.append(Acting(load, Pushes(at[None, :], np.array([[*(load.push * push), -load.down]]))))
    best: dict[str, SectionFinding] = {}
    for offset in _stations(one, at):
        plane = cuts.plane(offset)
        areas = cuts.under(
            offset, float(plane.axes[0] @ at), reach - offset + PAD / 2, -ENDLESS, one.group.top + 1.0, float(at[2])
        )
        for finding in examine("overhang", piece, areas, plane, acting, way) if areas else []:
            if finding.load not in best or _use(finding) > _use(best[finding.load]):
                best[finding.load] = finding
    return list(best.values())
