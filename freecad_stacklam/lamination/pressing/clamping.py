# SPDX-License-Identifier: LGPL-2.1-or-later

"""The presses that are there put on one pile: which, how many, where, and what reaches its lines. mm, N, MPa."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import ceil, inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import Caul, ClampPlace, LinePressure
from freecad_stacklam.lamination.pressing.bell import Flags, Floats, Islands, LineCells, pressures, squares_on
from freecad_stacklam.lamination.pressing.cones import cones_down, cones_up, pad_discs
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.pressing.placing import Choices, nudged, place
from freecad_stacklam.lamination.pressing.seats import Seats, bore_seats, clamp_seats, top_seats
from freecad_stacklam.lamination.pressing.work import Work
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.wood.loadspread import cone_width

#: Between the rims of two pads, mm: room for the hand and the jaws (common practice, no source).
GAP = 5.0
#: Candidates for the middles of pads: about so many on the seats of one kind, and more where more pads are to sit.
CANDIDATES, FOR_EACH_PAD = 80, 6
#: A line is reached when the cones miss no more than this share of it; so often more pads are tried for it.
ENOUGH, MORE = 0.02, 2
#: Presses that push from above while the pile stands on the bench.
FROM_ABOVE = ("weight", "go-bar")


@dataclass(frozen=True, eq=False)
class Stand:
    """A kind of press with where its pads may sit on a pile."""

    press: PressSettings
    seats: Seats
    candidates: Floats

    @property
    def many(self) -> int:
        """How many of it may be used."""
        return min(self.press.count, len(self.candidates))

    @property
    def on_bench(self) -> bool:
        """Whether the bench bears the pile under it."""
        return self.press.kind in FROM_ABOVE

    def sits(self, places: Floats) -> Flags:
        """Whether a pad may have its middle at each of N places."""
        if self.press.kind == "rod":
            return np.zeros(len(places), dtype=np.bool_)
        return np.asarray(shapely.intersects_xy(self.seats.area, places[:, 0], places[:, 1]))


@dataclass(frozen=True, eq=False)
class Clamping:
    """One way of pressing a run. `asked` is how many pads were to be placed; `tightened` the share of their usual force
    that is used."""

    places: tuple[ClampPlace, ...]
    pressures: tuple[LinePressure, ...]
    cauls: tuple[Caul, ...]
    opening: float
    asked: int
    tightened: float = 1.0

    @property
    def short(self) -> float:
        """The least of mean over wanted, at most 1."""
        return min((min(1.0, p.mean / p.wanted[0]) if p.wanted[0] else 1.0 for p in self.pressures), default=0.0)

    @property
    def reached(self) -> float:
        """The least share of a line that is reached."""
        return min((p.reached for p in self.pressures), default=0.0)

    @property
    def worth(self) -> tuple[float, float, float]:
        """What one way is chosen by: force, reach, and evenness."""
        even = min((p.fifth / p.mean for p in self.pressures if p.mean), default=0.0)
        return round(self.short * self.reached, 2), round(self.reached, 2), even


def stands_for(pile: Sequence[Slab], presses: Sequence[PressSettings]) -> tuple[Stand, ...]:
    """The presses that find a seat on a pile (cauls counted in) and open wide enough for it: rods, whose place is
    given, before the others, the strongest first."""
    found = []
    for press in sorted(presses, key=lambda p: (p.kind != "rod", -p.force)):
        if press.kind == "vacuum":
            continue
        seats, candidates = _seats_of(pile, press)
        if not len(candidates) or (press.opening is not None and seats.opening > press.opening + ROUNDING):
            continue
        found.append(Stand(press, seats, candidates))
    return tuple(found)


def put_on(work: Work, pile: Sequence[Slab], cauls: Sequence[Caul], stands: Sequence[Stand]) -> Clamping | None:
    """The pads of all stands placed on a pile (the run, or the run between cauls): as many as the force wants of those
    that are owned, and more where the cones do not reach. None where none finds a seat."""
    if not stands:
        return None
    pads = _Pads(work, tuple(pile), tuple(stands))
    counts = _counts(stands, work.force, _to_cover(work, pile, stands[0].press.pad))
    best = pads.placed(counts, cauls)
    if len(best.places) < sum(counts) and len(stands) > 1:
        rest = _others(best, stands, work.force)
        if sum(rest) > len(best.places):
            found = pads.placed(rest, cauls)
            counts, best = (rest, found) if found.short > best.short else (counts, best)
    for _ in range(MORE):
        more = _more(counts, stands, best.reached)
        if best.reached >= 1.0 - ENOUGH or more == counts or len(best.places) < sum(counts):
            break
        counts = more
        found = pads.placed(counts, cauls)
        if found.reached > best.reached + ENOUGH / 2:
            best = found
    return best


def bagged(work: Work, press: PressSettings) -> Clamping:
    """The run in a vacuum bag: the air presses alike on every line, as far as the pump draws."""
    found = []
    for line, cells in zip(work.lines, work.told):
        even = np.full(len(cells.areas), press.air)
        found.append(line.pressed(press.air * line.interface.area, even, line.interface.contact, cells, work.table))
    x, y = work.lines[0].interface.middle
    force = press.air * max(line.interface.area for line in work.lines)
    bag = ClampPlace(press.name, (x, y), force, 0.0, work.run[0].bottom, work.run[-1].top)
    return Clamping((bag,), tuple(found), (), work.height, 1)


@dataclass(frozen=True, eq=False)
class _Pads:
    work: Work
    pile: tuple[Slab, ...]
    stands: tuple[Stand, ...]

    def adds(self, stand: Stand, places: Floats, every: Sequence[LineCells]) -> list[Floats]:
        """Pressure of one pad of a stand at each of N places on the cells of each new line, N × M, MPa, tightened as
        usual."""
        found = []
        for line, cells in zip(self.work.lines, every):
            if not stand.seats.low <= self._at(line.place) < stand.seats.high:
                found.append(np.zeros((len(places), len(cells.areas))))
                continue
            above, below = stand.seats.head - line.interface.height, line.interface.height - stand.seats.foot
            under = inf if stand.on_bench else below
            bears = self.islands.bears(places, self._at(line.place), cells)
            found.append(stand.press.force * pressures(places, cells, above, under, stand.press.pad, bears))
        return found

    def shares(self, stand: Stand, places: Floats) -> Floats:
        """The same for the search: shares of the pressure that each line wants, all lines side by side."""
        every = self.adds(stand, places, self.work.sought)
        least = [max(line.wanted[0], WHOLE) for line in self.work.lines]
        return np.concatenate([p / want for p, want in zip(every, least)], axis=1)

    def placed(self, counts: Sequence[int], cauls: Sequence[Caul]) -> Clamping:
        """So many pads of each stand where the least pressure is highest, and what reaches the lines."""
        choices = [
            Choices(s.candidates, s.press.pad, n, self.shares(s, s.candidates)) for s, n in zip(self.stands, counts)
        ]
        found = place(choices, self.work.weights, GAP)
        step = max((s.seats.area.area / len(s.candidates)) ** 0.5 for s in self.stands) / 2
        found = nudged(
            found,
            [s.press.pad for s in self.stands],
            lambda kind, places: self.shares(self.stands[kind], places),
            lambda kind, places: self.stands[kind].sits(places),
            self.work.weights,
            GAP,
            step,
        )
        return self.told(found.places, sum(counts), cauls)

    def told(self, places: Sequence[Floats], asked: int, cauls: Sequence[Caul]) -> Clamping:
        """The figures of pads in their places."""
        used = [(s, p) for s, p in zip(self.stands, places) if len(p)]
        over = [np.zeros(len(cells.areas)) for cells in self.work.told]
        forces = np.zeros(len(over))
        for stand, at in used:
            for i, pressure in enumerate(self.adds(stand, at, self.work.told)):
                over[i] = over[i] + pressure.sum(axis=0)
                forces[i] += pressure.sum(axis=0) @ self.work.told[i].areas
        tightened = self._tightened(forces)
        reached = self.reached([(s, pad_discs(map(tuple, at), s.press.pad)) for s, at in used])
        lines = tuple(
            line.pressed(tightened * force, tightened * pressure, cone, cells, self.work.table)
            for line, force, pressure, cone, cells in zip(self.work.lines, forces, over, reached, self.work.told)
        )
        pads = tuple(
            ClampPlace(s.press.name, (float(x), float(y)), tightened * s.press.force, s.press.pad, s.seats.foot,
                       s.seats.head)
            for s, at in used
            for x, y in at
        )  # fmt: skip
        opening = max((s.seats.opening for s, _ in used), default=self.pile[-1].top - self.pile[0].bottom)
        return Clamping(pads, lines, tuple(cauls), opening, asked, tightened)

    def reached(self, pads: Sequence[tuple[Stand, shapely.Geometry]]) -> list[MultiPolygon]:
        """What the cones of pads reach of each new line: pads of stands on the same slabs as one."""
        found: list[list[shapely.Geometry]] = [[] for _ in self.work.lines]
        for low, high, bench in sorted({(s.seats.low, s.seats.high, s.on_bench) for s, _ in pads}):
            own = [p for s, p in pads if (s.seats.low, s.seats.high, s.on_bench) == (low, high, bench)]
            part = self.pile[low : high + 1]
            area = shapely.union_all(own)
            downs = cones_down(part, area)
            ups = None if bench else cones_up(part, area)
            for i, line in enumerate(self.work.lines):
                at = self._at(line.place) - low
                if 0 <= at < len(downs):
                    found[i].append(downs[at] if ups is None else shapely.intersection(downs[at], ups[at]))
        return [areas_of(shapely.union_all(f)) for f in found]

    def _tightened(self, forces: NDArray[np.float64]) -> float:
        """Tightened less where a line would get more than its most, but not so that the line that wants most lacks."""
        lines = self.work.lines
        least = max((w.wanted[0] * w.interface.area / f for w, f in zip(lines, forces) if f > 0), default=1.0)
        most = min((w.wanted[1] * w.interface.area / f for w, f in zip(lines, forces) if f > 0), default=1.0)
        return min(1.0, max(least, most))

    def _at(self, place: int) -> int:
        """Place in the pile of a slab of the run: a caul may lie under it."""
        return place + (0 if self.pile[0].number else 1)

    @cached_property
    def islands(self) -> Islands:
        """Which islands hang together; cauls join all that they touch."""
        contacts = self.work.contacts
        if not self.pile[0].number:
            contacts = (areas_of(self.work.run[0].lower), *contacts)
        if not self.pile[-1].number:
            contacts = (*contacts, areas_of(self.work.run[-1].upper))
        return Islands(self.pile, contacts)


def _seats_of(pile: Sequence[Slab], press: PressSettings) -> tuple[Seats, Floats]:
    if press.kind == "rod":
        bores = np.array(bore_seats(pile, press.pad)).reshape(-1, 2)
        around = areas_of(shapely.union_all([shapely.Point(p).buffer(1.0) for p in bores])) if len(bores) else None
        whole = clamp_seats(pile, press.pad, None)
        return replace(whole, area=around or MultiPolygon()), bores
    seats = top_seats(pile, press.pad) if press.kind in FROM_ABOVE else clamp_seats(pile, press.pad, press.throat)
    return seats, candidates_on(seats.area, max(CANDIDATES, min(press.count * FOR_EACH_PAD, 2 * CANDIDATES)))


def candidates_on(area: MultiPolygon, count: int) -> Floats:
    """About `count` places all over an area, and places along its outline in the same steps: the rim is where a pad
    reaches farthest."""
    if area.is_empty:
        return np.zeros((0, 2))
    step = (max(area.area, 1.0) / count) ** 0.5
    pieces = squares_on(area, step)
    middles = shapely.centroid(pieces)
    outside = ~shapely.intersects(middles, area)
    middles[outside] = shapely.point_on_surface(pieces[outside])
    rims = shapely.get_parts(area.boundary).tolist()
    step = max(step, sum(r.length for r in rims) / count)
    rim = [r.interpolate(s) for r in rims for s in np.arange(0.0, r.length, r.length / max(4, ceil(r.length / step)))]
    return np.concatenate([shapely.get_coordinates(middles), shapely.get_coordinates(rim)])


def _counts(stands: Sequence[Stand], force: float, least: int) -> tuple[int, ...]:
    """How many of each, the first stands first, until their force is enough and there are at least so many."""
    found = []
    for stand in stands:
        many = min(stand.many, max(0, least, ceil(force / stand.press.force - WHOLE)))
        found.append(many)
        force -= many * stand.press.force
        least -= many
    return tuple(found)


def _others(way: Clamping, stands: Sequence[Stand], force: float) -> tuple[int, ...]:
    """As many of each as found room, and of those not yet all used what the force still wants."""
    there = [sum(place.press == stand.press.name for place in way.places) for stand in stands]
    force -= sum(many * stand.press.force for many, stand in zip(there, stands))
    found = []
    for many, stand in zip(there, stands):
        full = many and many == max(there)
        more = 0 if full else min(stand.many - many, max(0, ceil(force / stand.press.force - WHOLE)))
        force -= more * stand.press.force
        found.append(many + more)
    return tuple(found)


def _to_cover(work: Work, pile: Sequence[Slab], pad: float) -> int:
    """No fewer pads reach the largest line: a square as wide as each one's cone for each."""
    largest = max(work.lines, key=lambda line: line.interface.area).interface
    depth = min(pile[-1].top - largest.height, largest.height - pile[0].bottom)
    return ceil(largest.area / cone_width(pad, depth) ** 2)


def _more(counts: Sequence[int], stands: Sequence[Stand], reached: float) -> tuple[int, ...]:
    """As many more pads of what is left as a line wants of which these reach a share, and at least half as many."""
    left = max(2, sum(counts) // 2, ceil(sum(counts) * (1.2 / max(reached, 0.2) - 1.0)))
    found = []
    for count, stand in zip(counts, stands):
        extra = min(left, stand.many - count)
        found.append(count + extra)
        left -= extra
    return tuple(found)
