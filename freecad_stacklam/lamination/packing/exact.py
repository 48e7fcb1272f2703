# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cheapest boards for a few pieces, found by trying all: branch and bound over the sets that boards hold.

The hardest piece that is left goes onto a board of each kind in turn, with each of the largest sets of others that the
board holds beside it. What would cost more than the best found so far, reckoned by the area left, is not followed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.lot import Filled, Lot, rooms_of
from freecad_stacklam.lamination.packing.subsets import EVERY, Bands, fits_of, laid_on, largest, lessened
from freecad_stacklam.lamination.tolerances import SAVING

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Found:
    """Boards for the pieces, None where none cheaper than asked were found; whether none cheaper exist."""

    boards: tuple[Filled, ...] | None
    proven: bool


class _Way:
    """The pieces as one way of cutting sees them: the widest across its bands last."""

    def __init__(self, lot: Lot, across: bool, items: Sequence[int], kinds: Sequence[int]) -> None:
        self.lot = lot
        self.order = sorted(range(len(items)), key=lambda i: (lot.b[items[i]], lot.a[items[i]], items[i]))
        self.items = [items[i] for i in self.order]
        boards = [lot.sheets[k] for k in kinds]
        rooms = [r[2] - r[0] for board in boards for way in rooms_of(board, lot.kerf) for r in way]
        area = max(((board.a + lot.kerf) * (board.b + lot.kerf) for board in boards), default=0.0)
        # Crosscut first, a board's ends are cut off first in any case.
        self.bands = Bands(lot.a[self.items], lot.b[self.items], lot.kerf, np.array(rooms), area, whole=across)
        every = np.arange(1 << len(items))
        self.sets = np.zeros_like(every)  # of each set in the common order, its number in this one
        for place, i in enumerate(self.order):
            self.sets |= (every >> i & 1) << place


class Few:
    """A few pieces of lots that differ in how they are cut: what boards of every kind hold of them."""

    def __init__(
        self, lots: Mapping[bool, Lot], items: Sequence[int], kinds: Sequence[int], known: Sequence[Filled] = ()
    ) -> None:
        """items: numbers in the lots. kinds: of boards that may be used. known: fillings found otherwise, which are
        used where a board has knots."""
        lot = next(iter(lots.values()))
        self.lots = lots
        self.items = sorted(items, key=lambda i: (float(lot.a[i] * lot.b[i]), i))
        self.ways = {across: _Way(one, across, self.items, kinds) for across, one in lots.items()}
        self.bit = {item: 1 << n for n, item in enumerate(self.items)}
        self.area = np.zeros(1)  # of each set, mm², with a kerf on two sides of each piece
        for item in self.items:
            self.area = np.concatenate([self.area, self.area + (lot.a[item] + lot.kerf) * (lot.b[item] + lot.kerf)])
        self.known = [f for f in known if f.kind in kinds and any(p[0] in self.bit for p in f.places)]
        self.fits: dict[int, Bools] = {}
        self.exact = len(self.items) <= EVERY  # else not every length of bands is tried
        for kind in kinds:
            fits = np.zeros(1 << len(items), dtype=bool)
            for way in self.ways.values():
                fits |= fits_of(way.bands, way.lot.sheets[kind])[way.sets]
            if lot.sheets[kind].blocks:
                self.exact = False
                for filled in self.known:
                    if filled.kind == kind:
                        fits[self._held(filled)] = True
                fits = lessened(fits)
            self.fits[kind] = fits
        self.largest = {kind: largest(fits) for kind, fits in self.fits.items()}

    def _held(self, filled: Filled) -> int:
        return sum(self.bit[p[0]] for p in filled.places if p[0] in self.bit)

    def filled(self, kind: int, pieces: int) -> Filled:
        """A board of this kind with a set that fits it."""
        for across, way in self.ways.items():
            board = way.lot.sheets[kind]
            mine = int(way.sets[pieces])
            if fits_of(way.bands, board)[mine]:
                places = laid_on(way.bands, board, mine)
                return Filled(kind, across, tuple((way.items[i], a, b) for i, a, b in places))
        one = next(f for f in self.known if f.kind == kind and not pieces & ~self._held(f))
        kept = tuple(p for p in one.places if p[0] in self.bit and pieces & self.bit[p[0]])
        return Filled(kind, one.across, kept)


def cheapest_boards(few: Few, spare: Mapping[int, int], below: float, nodes: int) -> Found:
    """Boards for all the pieces that cost less than `below`. spare: how many of each kind there are, below 0 without
    end. nodes: so many branches are followed at most."""
    lot = next(iter(few.lots.values()))
    kinds = [k for k in few.fits if spare[k] and lot.sheets[k].cost < below]
    if not kinds:
        return Found(None, proven=True)
    cost = {k: lot.sheets[k].cost for k in kinds}
    density = min((cost[k] / ((lot.sheets[k].a + lot.kerf) * (lot.sheets[k].b + lot.kerf)) for k in kinds), default=0.0)
    floor = few.area * density
    least = min(cost.values(), default=0.0)
    with_bit = {k: [few.largest[k][(few.largest[k] >> t & 1) == 1] for t in range(len(few.items))] for k in kinds}
    best: list[tuple[int, int]] | None = None
    goal = below - SAVING * max(1.0, below)
    left = nodes

    def follow(pieces: int, spent: float, free: dict[int, int], taken: list[tuple[int, int]]) -> None:
        nonlocal best, goal, left
        for k in sorted(free, key=lambda k: cost[k]):
            if free[k] and few.fits[k][pieces]:
                if spent + cost[k] < goal:
                    best, goal = [*taken, (k, pieces)], spent + cost[k] - SAVING
                break
        if spent + max(float(floor[pieces]), 2 * least) >= goal or left <= 0:
            return
        top = pieces.bit_length() - 1
        branches: list[tuple[float, int, int]] = []
        for k in (k for k in kinds if free[k]):
            sets = np.unique(with_bit[k][top] & pieces)
            rest = pieces & ~sets
            sets, rest = sets[floor[rest] + spent + cost[k] < goal], rest[floor[rest] + spent + cost[k] < goal]
            # One board for all the rest: found at once.
            for other in sorted((o for o in kinds if free[o] - (o == k)), key=lambda o: cost[o]):
                if spent + cost[k] + cost[other] >= goal:
                    break
                ends = np.flatnonzero(few.fits[other][rest])
                if len(ends):
                    n = int(ends[0])
                    best = [*taken, (k, int(sets[n])), (other, int(rest[n]))]
                    goal = spent + cost[k] + cost[other] - SAVING
            branches += [(cost[k] + float(floor[r]), k, int(s)) for s, r in zip(sets, rest)]
        for _, k, held in sorted(branches):
            rest = pieces & ~held
            if spent + cost[k] + max(float(floor[rest]), 2 * least) >= goal:
                continue
            if left <= 0:
                return
            left -= 1
            follow(rest, spent + cost[k], {**free, k: free[k] - 1}, [*taken, (k, held)])

    if few.items:
        follow(len(few.area) - 1, 0.0, {k: spare[k] for k in kinds}, [])
    if best is None:
        return Found(None, left > 0 and few.exact)
    return Found(tuple(few.filled(k, held) for k, held in best), left > 0 and few.exact)


def fuller(few: Few, one: int, other: int) -> tuple[Filled, Filled] | None:
    """Two boards of these kinds that hold all the pieces, the first of them as full as can be; None where it cannot."""
    sets = few.largest[one]
    rest = (1 << len(few.items)) - 1 & ~sets
    able = few.fits[other][rest]
    if not able.any():
        return None
    n = int(np.argmax(np.where(able, few.area[sets], -1.0)))
    return few.filled(one, int(sets[n])), few.filled(other, int(rest[n]))
