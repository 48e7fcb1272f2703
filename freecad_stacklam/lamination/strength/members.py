# SPDX-License-Identifier: LGPL-2.1-or-later

"""What hangs together above and below every height of the piece, and so what each of its members has to carry.

The piece is cut at many heights of the model. What of a cut lies apart is a member of its own; members of neighbouring
heights that overlap in plan are one piece of wood. Of each height it is then known which members are joined above
(legs under a seat; the arms and the back of a chair are not), what of the plan they carry, and which reach the floor.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from freecad_stacklam.lamination.tolerances import NO_AREA

Floats = NDArray[np.float64]

#: What hangs together is judged, and loads are placed, on outlines thinned to this, mm.
THINNED = 0.3
#: Areas of two stacks nearer than this are glued to each other, mm: the clearance of a joint is less.
TOUCHING = 0.3
#: Wood whose lowest point is no higher than this above the floor stands on it, mm: feet are levelled.
ON_FLOOR = 5.0
#: Less wood than this is no member, mm²: the tip of a dome.
LEAST_MEMBER = 1.0


@dataclass(frozen=True, eq=False)
class Island:
    """One area of one stack (by its number) at a height, exact and thinned."""

    stack: int
    area: Polygon
    coarse: Polygon


@dataclass(frozen=True, eq=False)
class Member:
    """What hangs together at a height."""

    islands: tuple[Island, ...]
    coarse: shapely.Geometry

    @property
    def middle(self) -> Floats:
        """Of its area in plan, mm."""
        at = self.coarse.centroid
        return np.array([at.x, at.y])


@dataclass(frozen=True, eq=False)
class Group:
    """Members of one height that are joined above it. `shadow` is the plan of all they carry, `top` its height;
    `members` are those that reach the floor, `hanging` those that do not. `below`: which group of the next lower height
    it is part of, −1 for none."""

    members: tuple[int, ...]
    hanging: tuple[int, ...]
    shadow: shapely.Geometry
    top: float
    below: int = -1


@dataclass(frozen=True, eq=False)
class Level:
    """One height of the model, its members and their groups."""

    height: float
    members: tuple[Member, ...]
    groups: tuple[Group, ...] = ()


@dataclass(eq=False)
class _Joined:
    """Members that were found to hang together: a union-find with what they cover in plan."""

    parent: list[int] = field(default_factory=list)
    shadow: list[shapely.Geometry] = field(default_factory=list)
    top: list[float] = field(default_factory=list)

    def add(self, shadow: shapely.Geometry, top: float) -> int:
        self.parent.append(len(self.parent))
        self.shadow.append(shadow)
        self.top.append(top)
        return len(self.parent) - 1

    def root(self, i: int) -> int:
        while self.parent[i] != i:
            self.parent[i] = self.parent[self.parent[i]]
            i = self.parent[i]
        return i

    def join(self, i: int, j: int) -> None:
        i, j = self.root(i), self.root(j)
        if i == j:
            return
        self.parent[j] = i
        self.top[i] = max(self.top[i], self.top[j])
        self.shadow[i] = _both(self.shadow[i], self.shadow[j])


def _both(one: shapely.Geometry, other: shapely.Geometry) -> shapely.Geometry:
    if shapely.covers(one, other):
        return one
    if shapely.covers(other, one):
        return other
    return shapely.simplify(shapely.union(one, other), THINNED)


def levels_of(heights: Sequence[float], areas: Sequence[Sequence[shapely.Geometry]]) -> tuple[Level, ...]:
    """The piece at ascending `heights`, mm in the model. areas: of each height, what each stack has there (may be
    empty)."""
    bare = [Level(h, _members(of_stacks)) for h, of_stacks in zip(heights, areas, strict=True)]
    down = [_overlaps(a.members, b.members) for a, b in zip(bare[:-1], bare[1:])]
    stands = _grounded(bare, down)
    groups = _groups(bare, down, stands)
    return tuple(Level(one.height, one.members, of) for one, of in zip(bare, groups, strict=True))


def _members(of_stacks: Sequence[shapely.Geometry]) -> tuple[Member, ...]:
    islands = [
        Island(number, part, shapely.simplify(part, THINNED))
        for number, area in enumerate(of_stacks)
        for part in shapely.get_parts(area).tolist()
        if part.area > LEAST_MEMBER
    ]
    if len({i.stack for i in islands}) < 2:
        return tuple(Member((i,), i.coarse) for i in islands)
    shapes = np.array([i.coarse for i in islands], dtype=object)
    near = shapely.dwithin(shapes[:, None], shapes[None, :], TOUCHING)
    joined = _Joined()
    for island in islands:
        joined.add(island.coarse, 0.0)
    for i, j in np.argwhere(np.triu(near, 1)).tolist():
        if islands[i].stack != islands[j].stack:
            joined.join(i, j)
    found: dict[int, list[Island]] = {}
    for i, island in enumerate(islands):
        found.setdefault(joined.root(i), []).append(island)
    return tuple(Member(tuple(of), joined.shadow[root]) for root, of in found.items())


def _overlaps(below: Sequence[Member], above: Sequence[Member]) -> list[tuple[int, int]]:
    if not below or not above:
        return []
    if len(below) == len(above) == 1:
        return [(0, 0)] if below[0].coarse.intersects(above[0].coarse) else []
    one = np.array([m.coarse for m in below], dtype=object)
    two = np.array([m.coarse for m in above], dtype=object)
    return [(int(i), int(j)) for i, j in np.argwhere(shapely.intersects(one[:, None], two[None, :]))]


def _grounded(levels: Sequence[Level], down: Sequence[list[tuple[int, int]]]) -> list[list[bool]]:
    """Of each member, whether what hangs together at its height and below reaches the floor."""
    floor = next((one.height for one in levels if one.members), 0.0)
    joined = _Joined()
    none = Polygon()
    before: list[int] = []
    stands: list[list[bool]] = []
    for k, level in enumerate(levels):
        low = -level.height if level.height <= floor + ON_FLOOR else -np.inf
        here = [joined.add(none, low) for _ in level.members]  # the highest of −height is the lowest height
        for i, j in down[k - 1] if k else []:
            joined.join(before[i], here[j])
        stands.append([bool(np.isfinite(joined.top[joined.root(m)])) for m in here])
        before = here
    return stands


def _groups(
    levels: Sequence[Level], down: Sequence[list[tuple[int, int]]], stands: Sequence[list[bool]]
) -> list[tuple[Group, ...]]:
    joined = _Joined()
    after: list[int] = []
    nodes: list[int] = []  # one of each group of the level above
    found: list[tuple[Group, ...]] = []
    for k in range(len(levels) - 1, -1, -1):
        level = levels[k]
        here = [joined.add(m.coarse, level.height) for m in level.members]
        for i, j in down[k] if k < len(levels) - 1 else []:
            joined.join(after[j], here[i])
        by_root: dict[int, list[int]] = {}
        for m, node in enumerate(here):
            by_root.setdefault(joined.root(node), []).append(m)
        place = {root: i for i, root in enumerate(by_root)}
        if found:
            below = [place.get(joined.root(node), -1) for node in nodes]
            found[-1] = tuple(replace(g, below=i) for g, i in zip(found[-1], below, strict=True))
        nodes = list(by_root)
        found.append(
            tuple(
                Group(
                    tuple(m for m in of if stands[k][m]),
                    tuple(m for m in of if not stands[k][m]),
                    joined.shadow[root],
                    joined.top[root],
                )
                for root, of in by_root.items()
            )
        )
        after = here
    return found[::-1]


def feet_of(levels: Sequence[Level], level: int, group: Group) -> list[tuple[Floats, float, bool]]:
    """Where what stands under each of a group's members ends apart from the others: the middle of its plan there, the
    height, and whether that is the floor (else it joins another there: a rail, the sill of an opening)."""
    track = {m: {m} for m in group.members}
    ends: dict[int, tuple[int, set[int]]] = {}
    k = level
    while track:
        lower = levels[k - 1].members if k > 0 else ()
        below = {
            m: {i for i, one in enumerate(lower) if any(one.coarse.intersects(levels[k].members[j].coarse) for j in of)}
            for m, of in track.items()
        }
        for m, of in below.items():
            if not of or any(of & other for n, other in below.items() if n != m):
                ends[m] = k, track[m]
        track, k = {m: of for m, of in below.items() if m not in ends}, k - 1
    found = []
    for m in group.members:
        at, of = ends[m]
        shapes = [levels[at].members[j].coarse for j in of]
        weight = np.array([s.area for s in shapes]) + NO_AREA
        centres = np.array([[s.centroid.x, s.centroid.y] for s in shapes])
        found.append((weight @ centres / weight.sum(), levels[at].height, at == 0))
    return found
