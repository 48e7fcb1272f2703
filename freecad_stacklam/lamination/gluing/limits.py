# SPDX-License-Identifier: LGPL-2.1-or-later

"""What one set-up must keep: the clock, the clamps of its largest line, the crushing of its smallest, the opening, the
lift, the reach of a chisel. And what all of a pile's set-ups would be, as arrays that the order is searched on.

A run of layers is [a, b], counted from 0 at the bottom of the pile; line i lies between layers i and i + 1. Times s,
forces N, pressures MPa, lengths mm, masses kg.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import inf

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.gluing.clampsets import PressSet, press_set, sets_for, widest_for
from freecad_stacklam.lamination.gluing.pile import Pile, PileLine
from freecad_stacklam.lamination.joining.timeline import Spread, closing_seconds, pin_seconds, spread_seconds, timeline
from freecad_stacklam.lamination.plan.gluing import Clock
from freecad_stacklam.lamination.settings.glue import Glue, times_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING

#: A line pressed with less than each of these parts of what is wanted is so much worse pressed.
SHORT = (0.75, 0.5, 0.25)
Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Counts = NDArray[np.int64]
#: The lifting equation of NIOSH (Waters et al., Applications manual, 1994): a load constant of 23 kg, held 25 cm from
#: the body, less in proportion farther out; the hands at 20 cm + half the load's width.
LOAD, NEAR, BODY = 23.0, 250.0, 200.0


@dataclass(frozen=True)
class Shop:
    """All that a set-up is held to, besides the pile: the glue, the room, the presses, and how deep a chisel reaches
    into a mortise (None: nothing is said). `wanted`: least and most pressure of each line. `fits`: for each press, how
    many of its pads find room on each run [a, b], counted from 0 (empty: as many as are owned)."""

    glue: Glue
    room: GluingRoom
    presses: tuple[PressSettings, ...]
    wanted: tuple[tuple[float, float], ...]
    reach: float | None = None
    fits: tuple[tuple[tuple[int, ...], ...], ...] = ()

    def seats(self, of: PressSet, a: int, b: int) -> int:
        """How many presses of a set find room on a run, the strongest first: pads of several kinds share the seats."""
        if not self.fits:
            return of.owned
        left, count = 1.0, 0
        for i in sorted(of.of, key=lambda i: (-self.presses[i].force, i)):
            fits, here = self.fits[i][a][b], self.presses[i].count
            found = min(here, int(left * fits + ROUNDING))
            count, left = count + found, left - found / max(fits, 1)
            if found < here:
                break
        return count

    def with_room(self, of: tuple[int, ...], a: int, b: int) -> tuple[int, ...]:
        """Those of the presses at places `of` that find any room on a run; all where none does."""
        return tuple(i for i in of if not self.fits or self.fits[i][a][b] > 0) or of

    @property
    def cauls(self) -> float:
        """Height of both cauls together."""
        return 2 * self.room.caul_thickness


def lift_limit(room: GluingRoom, width: float) -> float:
    """What all hands lift of a part of a width, its narrower side: as the room says, or 23 kg × 25 cm over the distance
    of the hands from the body, which is 20 cm and half the width, for each person. Two carry twice (common practice;
    the equation itself is for one)."""
    one = LOAD * NEAR / max(NEAR, BODY + width / 2) if room.lift is None else room.lift
    return one * (1 + room.helpers)


@dataclass(frozen=True)
class Way:
    """One way of pressing: the first `count` of a set of presses. `closing` is how long they take with the cauls."""

    of: int  # the set, by its place in Terms.sets
    count: int
    closing: float


@dataclass(frozen=True)
class Terms:
    """A pile and a shop as arrays. Of lines: `seconds`, `need` (force wanted), `crush` (force borne, infinite where not
    known), `waived` (what it breaks in any set-up: names of limits). Of ways × lines: `short`, how many of the limits
    on force are broken. Of runs [a, b]: `usable` (ways × runs), `over` (no press opens wide enough; not of the whole
    pile), `heavy` (glued and not to be lifted), `rough` (glued and not to be re-faced or turned). `low` (line, a) and
    `high` (line, b): within reach from below in a run that begins at a, from above in one that ends at b. `level`: of
    sets × lines, how many presses it wants; one more than are owned where that is not enough. `room`: of sets × runs,
    how many of them find room. `missed`: of runs whose pads were looked at, how many limits each line of the pile
    breaks there because they do not reach it."""

    limit: float  # the clock, less nothing; the first line's beginning is before it
    start: float
    seconds: Floats
    need: Floats
    crush: Floats
    sets: tuple[PressSet, ...]
    ways: tuple[Way, ...]
    short: Counts
    usable: Bools
    over: Bools
    heavy: Bools
    rough: Bools
    low: Bools
    high: Bools
    level: Counts
    room: Counts
    waived: tuple[frozenset[str], ...]
    missed: Mapping[tuple[int, int], Counts] = field(default_factory=dict)

    @property
    def layers(self) -> int:
        """How many."""
        return len(self.over)

    def missed_by(self, a: int, b: int, lines: Sequence[int]) -> int:
        """Limits that lines break in the run [a, b] because its pads do not reach them."""
        found = self.missed.get((a, b))
        return 0 if found is None else int(found[list(lines)].sum())


@dataclass(frozen=True)
class Judged:
    """One set-up as it is best pressed: `broken` counts limits that are broken and could be kept in another."""

    broken: int
    way: Way
    seconds: float


def judge(terms: Terms, a: int, b: int, lines: Sequence[int]) -> Judged | None:
    """A set-up of the run [a, b] that spreads `lines`: with the fewest broken limits, then the soonest closed. None
    where it cannot be: a line beyond reach, or several lines that the clock does not allow."""
    return min(ways_for(terms, a, b, lines), key=lambda judged: (judged.broken, judged.seconds), default=None)


def ways_for(terms: Terms, a: int, b: int, lines: Sequence[int]) -> Iterator[Judged]:
    """Every way of pressing that set-up."""
    if not all(terms.low[i, a] or terms.high[i, b] for i in lines):
        return
    spread = [float(terms.seconds[i]) for i in lines]
    missed = terms.missed_by(a, b, lines)
    for w, way in enumerate(terms.ways):
        if not terms.usable[w, a, b]:
            continue
        seconds = set_up_seconds(spread, way.closing, terms.start)
        late = seconds > terms.limit + ROUNDING
        if late and len(lines) > 1:
            continue
        broken = int(terms.over[a, b]) + missed + sum(int(terms.short[w, i]) for i in lines)
        yield Judged(broken + int(late and "clock" not in terms.waived[lines[0]]), way, seconds)


def terms_of(pile: Pile, shop: Shop) -> Terms:
    """The arrays. What a line breaks in every set-up that closes it is waived: no order mends it, and it must not hide
    the others. So is the opening for the whole pile, which the last set-up of every order spans."""
    n = len(pile.layers)
    sets, ways, usable, over, room = _pressing(pile, shop)
    fewest = [min((w.count for w in ways if w.of == s), default=0) for s in range(len(sets))]
    needs = [low * line.area for line, (low, _) in zip(pile.lines, shop.wanted)]
    strengths = [pile.crush(line.lower) for line in pile.lines]
    crush = [inf if s is None else s * line.area for line, s in zip(pile.lines, strengths)]
    seconds = [line_seconds(shop.room, line, shop.glue.faces) for line in pile.lines]
    low, high = _reach(pile, shop)
    waived: list[set[str]] = [set() for _ in pile.lines]
    short = np.zeros((len(ways), max(n - 1, 0)), dtype=np.int64)
    limit = times_of(shop.glue, shop.room.temperature)[1]
    level = np.zeros((len(sets), max(n - 1, 0)), dtype=np.int64)
    for i, line in enumerate(pile.lines):
        few, soft = _forces(sets, ways, needs[i], crush[i], line.area, SHORT if shop.fits else ())
        here = [w for w in range(len(ways)) if usable[w, : i + 1, i + 1 :].any()]
        if all(few[w] for w in here):
            waived[i].add("clamps")
            # With as many as there are; where room is counted, with as many as find it.
            all_of = [way.count == (of.owned if of.air is None else 1) for way in ways for of in [sets[way.of]]]
            few = [0 if shop.fits or every else f for f, every in zip(few, all_of)]
        if all(few[w] or soft[w] for w in here):
            waived[i].add("crushing")
            soft = [False] * len(ways)
            crush[i] = inf
        if all(seconds[i] - shop.room.start + ways[w].closing > limit + ROUNDING or few[w] or soft[w] for w in here):
            waived[i].add("clock")
        if not (low[i, i] or high[i, i + 1]):
            waived[i].add("chisel")
            low[i, :] = True
        short[:, i] = np.add(few, soft)
        for s, of in enumerate(sets):
            enough = of.enough(needs[i], line.area) or "clamps" in waived[i]
            level[s, i] = of.count(needs[i]) if enough else of.owned + 1
            if shop.fits and "clamps" in waived[i]:
                level[s, i] = fewest[s]
    heavy, rough = _parts(pile, shop)
    return Terms(
        limit, shop.room.start, np.array(seconds), np.array(needs), np.array(crush), sets, ways, short, usable, over,
        heavy, rough, low, high, level, room, tuple(map(frozenset, waived)),
    )  # fmt: skip


def _forces(
    sets: Sequence[PressSet], ways: Sequence[Way], need: float, crush: float, area: float, parts: Sequence[float]
) -> tuple[list[int], list[bool]]:
    """For each way: how badly it presses a line with less than is wanted, and whether it crushes the wood. It is worse
    for each of the `parts` of the wanted force that it does not reach; without any, where more presses are there."""
    forces = [sets[w.of].force(w.count, area) for w in ways]
    worse = [
        sum(f < part * need for part in parts) if parts else w.count < sets[w.of].owned for w, f in zip(ways, forces)
    ]
    few = [(1 + int(more)) * (f < need - ROUNDING) for more, f in zip(worse, forces)]
    return few, [force > crush + ROUNDING for force in forces]


def _pressing(pile: Pile, shop: Shop) -> tuple[tuple[PressSet, ...], tuple[Way, ...], Bools, Bools, Counts]:
    """Sets of presses, ways of pressing, which way can be used on which run, where no press opens wide enough, and how
    many presses of each set find room on each run."""
    n = len(pile.layers)
    over = np.zeros((n, n), dtype=bool)
    runs: dict[tuple[int, ...], list[tuple[int, int]]] = {}
    for a in range(n):
        for b in range(a + 1, n):
            bored = pile.rod_fits(a + pile.first, b + pile.first)
            height = pile.height(a + pile.first, b + pile.first) + shop.cauls
            found = sets_for(shop.presses, height, bored)
            over[a, b] = bool(shop.presses) and not found
            roomy = dict.fromkeys(shop.with_room(of, a, b) for of in found)
            for of in roomy or (widest_for(shop.presses, bored)[0],):
                runs.setdefault(of, []).append((a, b))
    over[0, -1] = False
    sets = tuple(press_set(shop.presses, of) for of in runs)
    ways, usable, rooms = [], [], []
    for s, (together, where) in enumerate(zip(sets, runs.values())):
        counts = {together.count(low * line.area) for line, (low, _) in zip(pile.lines, shop.wanted)}
        room = np.zeros((n, n), dtype=np.int64)
        for a, b in where:
            room[a, b] = max(min(1, together.owned), shop.seats(together, a, b))
        rooms.append(room)
        for count in sorted(counts | {together.owned, *room[room > 0].tolist()} if together.air is None else {1}):
            ways.append(Way(s, count, closing_seconds(shop.room, count, cauls_laid(shop.room))))
            usable.append(room >= count)
    can = np.array(usable, dtype=bool).reshape(len(ways), n, n)
    return sets, tuple(ways), can, over, np.array(rooms, dtype=np.int64).reshape(len(sets), n, n)


def _reach(pile: Pile, shop: Shop) -> tuple[Bools, Bools]:
    n = len(pile.layers)
    low, high = np.ones((max(n - 1, 0), n), dtype=bool), np.ones((max(n - 1, 0), n), dtype=bool)
    if shop.reach is None or not pile.channels:
        return low, high
    for i, line in enumerate(pile.lines):
        for k, layer in enumerate(pile.layers):
            low[i, k] = k > i or pile.reach_below(line.lower, layer.number) <= shop.reach + ROUNDING
            high[i, k] = k <= i or pile.reach_above(line.lower, layer.number) <= shop.reach + ROUNDING
    return low, high


def _parts(pile: Pile, shop: Shop) -> tuple[Bools, Bools]:
    """Which glued runs are too heavy to be lifted, and which cannot be re-faced: too wide, or too heavy to be turned.
    Single layers are neither: no order makes them lighter."""
    n = len(pile.layers)
    heavy, rough = np.zeros((n, n), dtype=bool), np.zeros((n, n), dtype=bool)
    widest = shop.room.reface
    for a in range(n):
        mass, width = pile.layers[a].mass, pile.layers[a].width
        for b in range(a + 1, n):
            more = pile.layers[b].mass
            mass = None if mass is None or more is None else mass + more
            width = max(width, pile.layers[b].width)
            heavy[a, b] = mass is not None and mass > lift_limit(shop.room, width) + ROUNDING
            rough[a, b] = heavy[a, b] or widest is None or width > widest + ROUNDING
    return heavy, rough


# --- the clock: it runs from the first glue on a face. *Open time* binds each line by itself, from its spread to its
# contact; *assembly time* from the first glue to the last clamp. The upper caul is laid while the clock runs; the lower
# one lies there before. Times s, areas mm².


def contact_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """From the first glue on a line's face to its contact."""
    return spread_seconds(room, line.area, faces) + pin_seconds(room, line.pins) + room.place


def line_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """A whole line, from beginning it."""
    return room.start + contact_seconds(room, line, faces)


def cauls_laid(room: GluingRoom) -> int:
    """Cauls that are laid while the clock runs: the upper one, or none where none are used."""
    return 1 if room.caul_thickness > 0.0 else 0


def set_up_seconds(lines: Sequence[float], closing: float, start: float) -> float:
    """From the first glue to the last clamp: all lines with their beginnings, but the first's, which is before the
    clock. `lines` as line_seconds."""
    return sum(lines) - start + closing if lines else closing


def clock_of(glue: Glue, room: GluingRoom, lines: Sequence[PileLine], clamps: int, cauls: int | None = None) -> Clock:
    """The timeline of a set-up that spreads `lines` in their order. cauls: laid while the clock runs (None: as the room
    has them)."""
    spreads = [Spread(line.lower, line.area, line.pins) for line in lines]
    return timeline(glue, room, spreads, cauls_laid(room) if cauls is None else cauls, clamps)
