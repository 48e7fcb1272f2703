# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rounds: waits for the glue, in each of which several set-ups may cure side by side.

No fast exact method is known, so bounds are told. Below: the longest chain of waits that no order avoids, and the
clamps that are owned. Above: an order laid into rounds, the set-ups with the longest chain before them first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from freecad_stacklam.lamination.gluing.clampsets import PressSet
from freecad_stacklam.lamination.gluing.limits import Bools, Floats, Shop, Terms, cauls_laid, set_up_seconds
from freecad_stacklam.lamination.gluing.order import MOST_EXACT, Order, cost_of, tree
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.joining.timeline import closing_seconds
from freecad_stacklam.lamination.tolerances import ROUNDING


@dataclass(frozen=True)
class Rounds:
    """`numbers`: the round of each set-up of the order, from 1. `least`: no order takes fewer. `other`: set-ups and
    rounds of another order that takes fewer rounds than this one; None where none was found."""

    numbers: tuple[int, ...]
    least: int
    other: tuple[int, int] | None = None

    @property
    def taken(self) -> int:
        """How many rounds this order takes."""
        return max(self.numbers, default=0)


def rounds_of(terms: Terms, shop: Shop, order: Order) -> Rounds:
    """The order in rounds, and what is known of any order's."""
    numbers = scheduled(terms, shop, order.runs)
    taken = max(numbers, default=0)
    if order.broken or taken <= 1 or terms.layers > MOST_EXACT:
        return Rounds(numbers, min(taken, 1))
    depths = _Depths(terms)
    least = max(depths.least, least_by_clamps(terms, shop))
    if least >= taken:
        return Rounds(numbers, taken)
    other = depths.runs()
    cost = cost_of(terms, other)
    if cost is not None and not cost[0]:
        fewer = max(scheduled(terms, shop, other))
        if fewer < taken:
            return Rounds(numbers, least, (len(other), fewer))
    return Rounds(numbers, least)


def scheduled(terms: Terms, shop: Shop, runs: Sequence[Run]) -> tuple[int, ...]:
    """The round of each set-up: each waits for its parts, and in each round the presses go to the set-ups with the
    longest chain after them first."""
    makes = {(run.a, run.b): i for i, run in enumerate(runs)}
    before = [[makes[p] for p in run.parts if p in makes] for run in runs]
    after = [0] * len(runs)
    for i in range(len(runs) - 1, -1, -1):
        for part in before[i]:
            after[part] = after[i] + 1
    numbers = [0] * len(runs)
    now = 0
    while not all(numbers):
        now += 1
        free = [press.count for press in shop.presses]
        ready = [i for i in range(len(runs)) if not numbers[i] and all(0 < numbers[p] < now for p in before[i])]
        begun = False
        for i in sorted(ready, key=lambda i: (-after[i], i)):
            used = _taken(terms, shop, runs[i], free)
            if used is None and not begun:
                used = [0] * len(free)  # it is pressed as well as it can be, and alone
                free = [0] * len(free)
            if used is not None:
                free = [f - u for f, u in zip(free, used)]
                numbers[i], begun = now, True
    return tuple(numbers)


def _taken(terms: Terms, shop: Shop, run: Run, free: Sequence[int]) -> list[int] | None:
    """How many of each press a set-up takes of those that are free; None where they do not do."""
    spread = [float(terms.seconds[i]) for i in run.lines]
    need = max(float(terms.need[i]) for i in run.lines)
    bears = min(float(terms.crush[i]) for i in run.lines)
    for s, of in enumerate(terms.sets):
        if not any(terms.usable[w, run.a, run.b] for w, way in enumerate(terms.ways) if way.of == s):
            continue
        if of.air is not None:
            enough = all(terms.level[s, i] <= of.owned for i in run.lines)
            used = [int(i == of.of[0]) for i in range(len(free))] if enough and free[of.of[0]] else None
        else:
            used = _strongest(shop, of, free, need, bears)
        if used is not None:
            closing = closing_seconds(shop.room, sum(used), cauls_laid(shop.room))
            if set_up_seconds(spread, closing, terms.start) <= terms.limit + ROUNDING:
                return used
    return None


def _strongest(shop: Shop, of: PressSet, free: Sequence[int], need: float, bears: float) -> list[int] | None:
    """The strongest presses that are free, until their force is enough."""
    used, force = [0] * len(free), 0.0
    for i in sorted(of.of, key=lambda i: -shop.presses[i].force):
        while used[i] < free[i] and (force < need - ROUNDING or not sum(used)):
            used[i] += 1
            force += shop.presses[i].force
    return used if sum(used) and need - ROUNDING <= force <= bears + ROUNDING else None


def least_by_clamps(terms: Terms, shop: Shop) -> int:
    """Rounds that the presses enforce. Lines that want t presses or more lie in set-ups of at most k of them each, by
    the clock, and ⌊owned / t⌋ of those cure side by side; the last set-up cures alone, for it holds all others."""
    owned = sum(press.count for press in shop.presses)
    least = terms.level.min(axis=0)
    bound = 1
    for t in sorted({int(count) for count in least}):
        closing = closing_seconds(shop.room, t, cauls_laid(shop.room))
        seconds = np.sort(terms.seconds[least >= t])
        room = terms.limit + terms.start - closing + ROUNDING
        together = max(1, int(np.searchsorted(np.cumsum(seconds), room, side="right")))
        set_ups, at_once = ceil(len(seconds) / together), max(1, owned // t)
        bound = max(bound, 1 + ceil((set_ups - 1) / at_once))
    return bound


class _Depths:
    """The longest chain of waits of each run, as short as it can be: the programme with the largest in place of the
    sum. `least` is the whole pile's, without regard to a chisel's reach."""

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        n = terms.layers
        self.depth = np.full((n, n), n, dtype=np.int64)
        np.fill_diagonal(self.depth, 0)
        closing = np.array([way.closing for way in terms.ways])
        self.room = terms.limit + terms.start + ROUNDING - closing
        self.tables: list[Floats] = []
        self.least = 0
        while self.depth[0, -1] == n:
            self.least += 1
            made = self.depth < self.least
            table = self._times(made)
            self.tables.append(table)
            fits = (table <= self.room) & np.moveaxis(terms.usable, 0, -1)
            good = fits.any(axis=2) & ~terms.over & (self.depth == n)
            good |= self._alone(made) & (self.depth == n)
            self.depth[good] = self.least
            if not good.any():
                self.least = 1
                break

    def _times(self, made: Bools) -> Floats:
        """Least spreading time of each run whose parts are all made already."""
        terms, n = self.terms, self.terms.layers
        table = np.full((n, n, len(terms.ways)), np.inf)
        extra = np.where(terms.short.T > 0, np.inf, terms.seconds[:, None])  # lines × ways
        lifted = made & ~terms.heavy
        whole = np.where(made[:, :, None], 0.0, np.inf)
        for length in range(2, n + 1):
            starts = np.arange(n - length + 1)
            ends = starts + length - 1
            for last in range(1, length):
                lines = ends - last
                rows = lifted[lines + 1, ends]
                if rows.any():
                    a, c, b = starts[rows], lines[rows], ends[rows]
                    before = np.minimum(table[a, c], whole[a, c])
                    table[a, b] = np.minimum(table[a, b], before + extra[c])
        return table

    def _alone(self, made: Bools) -> Bools:
        """Runs that one line joins, which no set-up closes within the clock."""
        n = self.terms.layers
        good = np.zeros((n, n), dtype=bool)
        for i in range(n - 1):
            if "clock" in self.terms.waived[i]:
                good[: i + 1, i + 1 :] |= (
                    made[: i + 1, i][:, None] & (made & ~self.terms.heavy)[i + 1, i + 1 :][None, :]
                )
        return good & ~self.terms.over

    def runs(self) -> tuple[Run, ...]:
        """An order with the shortest chain, which a chisel's reach may forbid; () where the search found none."""
        if self.depth[0, -1] == self.terms.layers:
            return ()
        return tree(self._last_lines, 0, self.terms.layers - 1)

    def _last_lines(self, a: int, b: int) -> tuple[int, ...]:
        terms, depth = self.terms, int(self.depth[a, b])
        table, made = self.tables[depth - 1], self.depth < depth
        for w in np.flatnonzero(terms.usable[:, a, b] & (table[a, b] <= self.room)).tolist():
            lines: list[int] = []
            c, left = b, float(table[a, b, w])
            while left > 0.0:
                for i in range(c - 1, a - 1, -1):
                    before = 0.0 if made[a, i] else float(table[a, i, w])
                    near = made[i + 1, c] and not terms.heavy[i + 1, c] and not terms.short[w, i]
                    if near and abs(min(before, float(table[a, i, w])) + terms.seconds[i] - left) < ROUNDING:
                        lines.insert(0, i)
                        c, left = i, left - float(terms.seconds[i])
                        left = 0.0 if left < ROUNDING else left
                        break
                else:
                    break
            if lines and left == 0.0:
                return tuple(lines)
        alone = (i for i in range(a, b) if made[a, i] and made[i + 1, b] and "clock" in terms.waived[i])
        return (next(i for i in alone if not terms.heavy[i + 1, b]),)
