# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which load, of all that can stand anywhere on a piece, is worst, and what it breaks.

A few loads are solved to find the weak places; one influence map of each tells, for every load at every place and in
every direction, what it adds there; the worst of each is then solved itself. So some thirty solutions stand for
hundreds of loads.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.deep import SurfaceMap, WeakSpot
from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.stress.loads import Load, far_apart
from freecad_stacklam.lamination.stress.model import NEAR_LOAD, SAME_SPOT, Model
from freecad_stacklam.lamination.tolerances import RANKED
from freecad_stacklam.lamination.wood.strengths import duration_factor

Floats = NDArray[np.float64]

#: Places at which the first loads stand, weak spots whose maps are drawn, spots told, and points of a drawn map.
PROBES, MAPS, TOLD, DRAWN = 4, 6, 10, 3000
#: N that the drawn influence map is of.
DRAWN_FORCE = 100.0


@dataclass(frozen=True, eq=False)
class Scan:
    """`spots`, the worst first; `worst` loads in that order, each once; `surface`: the greatest index at each place;
    `balance`: the worst of all solutions; `solved`: how many; `whole`: whether there was time for all loads."""

    spots: tuple[WeakSpot, ...]
    worst: tuple[Load, ...]
    places: tuple[int, ...]
    surface: Floats
    balance: float
    solved: int
    whole: bool = True


class Seen:
    """What was solved so far on one model: the greatest index at every place, and of which load."""

    def __init__(self, model: Model, cases: Sequence[LoadCase]) -> None:
        self._model, self._cases = model, cases
        self.loads: list[Load] = []
        self.moved: list[Floats] = []
        self.found: list[tuple[Floats, NDArray[np.int64], Floats]] = []
        self.balance = 0.0
        self.solved = 0

    def solve(self, load: Load) -> None:
        """Solve a load that was not solved yet."""
        if load in self.loads:
            return
        moved, balance = self._model.solve(load)
        self.balance = max(self.balance, balance)
        self.solved += 1
        self.add(load, moved)

    def add(self, load: Load, moved: Floats) -> None:
        """Take a load whose movements are known."""
        found = self._model.index(moved, load, self._cases[load.case].lasting)
        self.loads.append(load)
        self.moved.append(moved)
        self.found.append(found)

    def peaks(self, most: int) -> list[tuple[int, int]]:
        """Places and loads of the greatest index, no two places nearer than SAME_SPOT, the worst first."""
        table = np.stack([f[0] for f in self.found])
        highest, which = table.max(axis=0), table.argmax(axis=0)
        left = highest.copy()
        chosen: list[tuple[int, int]] = []
        while len(chosen) < most and left.max(initial=0.0) > 0:
            place = int(left.argmax())
            chosen.append((place, int(which[place])))
            left[np.linalg.norm(self._model.points - self._model.points[place], axis=1) < SAME_SPOT] = 0.0
        return chosen


def scan(
    plan: Plan,
    model: Model,
    loads: Sequence[Load],
    cases: Sequence[LoadCase],
    told: Callable[[float], object],
    late: Callable[[], bool] = lambda: False,
) -> Scan:
    """Find the weak places of a model and their worst loads. told: hears the share done. late: whether the time is
    over, and what was found till then is wanted. Raises Stopped and Refusal as the solver does."""
    seen = Seen(model, cases)
    try:
        probes = _probes(loads, cases)
        for number, load in enumerate(probes):
            told(0.5 * number / len(probes))
            seen.solve(load)
        spots = seen.peaks(MAPS)
        for number, (place, which) in enumerate(spots):
            told(0.5 + 0.45 * number / len(spots))
            moved = model.influence(place, seen.moved[which], RANKED)
            seen.solved += 1
            seen.solve(_worst_for(model, place, moved, loads, cases))
    except Stopped:
        if not late() or not seen.found:
            raise
        return replace(told_of(plan, model, seen, cases), whole=False)
    return told_of(plan, model, seen, cases)


def told_of(plan: Plan, model: Model, seen: Seen, cases: Sequence[LoadCase]) -> Scan:
    """What was seen, as records."""
    peaks = seen.peaks(TOLD)
    spots = tuple(
        model.spot(plan, place, seen.loads[which], cases[seen.loads[which].case], seen.found[which])
        for place, which in peaks
    )
    worst = tuple(dict.fromkeys(seen.loads[which] for _, which in peaks))
    surface = np.stack([f[0] for f in seen.found]).max(axis=0)
    return Scan(spots, worst, tuple(place for place, _ in peaks), surface, seen.balance, seen.solved)


def _probes(loads: Sequence[Load], cases: Sequence[LoadCase]) -> list[Load]:
    """The first loads: of each case a few far apart, of cases that stand alike only the one that presses most."""
    strongest: dict[tuple[str, float, bool, bool], int] = {}
    for number, case in enumerate(cases):
        if not case.bends:
            continue
        key = (
            case.place if case.place != "point" else f"point {number}",
            case.inset,
            case.down > 0,
            case.push > 0,
        )
        before = strongest.get(key)
        if before is None or case.down + case.push > cases[before].down + cases[before].push:
            strongest[key] = number
    found = []
    for number in strongest.values():
        own = [load for load in loads if load.case == number]
        places = np.array([load.place for load in own])
        chosen = far_apart(np.unique(places, axis=0), PROBES)
        for place in np.unique(places, axis=0)[chosen]:
            there = [load for load in own if load.place == tuple(place)]
            found += there[:: max(1, len(there) // 2)][:2]
    return found


def _worst_for(model: Model, place: int, map_of: Floats, loads: Sequence[Load], cases: Sequence[LoadCase]) -> Load:
    """Of all loads the one that adds most to the index at a place; those too near to it do not count."""
    at = model.points[place]

    def adds(load: Load) -> float:
        if float(np.linalg.norm(at - np.array(load.place))) < NEAR_LOAD:
            return -np.inf
        return model.pads.work(map_of, load) / duration_factor(cases[load.case].lasting)

    return max(loads, key=adds)


def drawn_influence(model: Model, place: int, moved: Floats) -> SurfaceMap:
    """By how much the index at a place grows for every DRAWN_FORCE straight down at points of the surface that look
    up, under the load that moves the points so."""
    map_of = model.influence(place, moved)
    own = model.readings.places
    upward = np.flatnonzero((own.outward @ model.body.up > 0.3) & ~own.in_tenon)
    upward = upward[:: max(1, len(upward) // DRAWN + 1)] if len(upward) > DRAWN else upward
    corners = model.body.lattice.corners[own.brick[upward]]
    added = -DRAWN_FORCE * (map_of[corners].mean(axis=1) @ model.body.up)
    return surface_map(model.points[upward], added)


def surface_map(points: Floats, values: Floats) -> SurfaceMap:
    """Points and values as plain numbers, to a hundredth of a millimetre and four digits."""
    return SurfaceMap(
        tuple((round(float(x), 2), round(float(y), 2), round(float(z), 2)) for x, y, z in points),
        tuple(float(f"{v:.4g}") for v in values),
    )
