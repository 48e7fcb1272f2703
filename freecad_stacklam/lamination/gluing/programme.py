# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fewest set-ups that make each run of a pile, by the shortest spreading time of every beginning of a run.

A run is [a, b], counted from 0; line i lies between layers i and i + 1. Times s. See `order`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from freecad_stacklam.lamination.gluing.limits import Bools, Counts, Floats, Terms
from freecad_stacklam.lamination.tolerances import ROUNDING

#: Cost of what cannot be made.
NEVER = -1


@dataclass(frozen=True)
class Run:
    """A set-up: the run [a, b], its lines, and what broke at least (as limits.judge)."""

    a: int
    b: int
    lines: tuple[int, ...]

    @property
    def parts(self) -> tuple[tuple[int, int], ...]:
        """What is laid together, from the bottom."""
        ends = [*self.lines, self.b]
        return tuple(zip([self.a, *(i + 1 for i in self.lines)], ends))


class Programme:
    """The tables of one pile. A cost is one number: broken limits × `stride` + set-ups. `cost[a, b]` of a run, NEVER
    where it cannot be made below `most`. `low[a, c, q, w]`: least spreading time of a run that begins at layer a, when
    its parts up to layer c are laid, cost q together, and way w will press; `high` the same from c up to the run's end.

    most_broken, most_set_ups: how far costs are looked at; step: what a set-up costs, 1, or 0 where only broken limits
    count."""

    def __init__(self, terms: Terms, most_broken: int, most_set_ups: int, step: int = 1) -> None:
        self.terms, self.step = terms, step
        self.most_set_ups = most_set_ups if step else 0
        # Room between two numbers of broken limits, so that a sum of two never runs from one into the other.
        self.stride = 1 if not step else (2 * most_set_ups + 2 if most_broken else most_set_ups + 1)
        self.most = most_broken * self.stride + self.most_set_ups + 1
        n, ways = terms.layers, len(terms.ways)
        self.cost: Counts = np.full((n, n), NEVER, dtype=np.int64)
        self.low = np.full((n, n, self.most + 1, ways), np.inf)
        self.reaches = not bool(terms.low.all())
        # From above, and without regard to reach: only where something must be reached.
        self.high = np.full_like(self.low, np.inf) if self.reaches else self.low
        self.free = np.full_like(self.low, np.inf) if self.reaches else self.low
        self.closing = np.array([way.closing for way in terms.ways])
        self.alone = self._lone()
        #: Runs whose own lines are not all reached, by their length: these have tables of their own.
        self.marked: dict[int, list[int]] = {}
        for a, b in sorted(run for run, missed in terms.missed.items() if missed.any()):
            self.marked.setdefault(b - a + 1, []).append(a)
        for i in range(n):
            self.cost[i, i] = 0
            for table in (self.low, self.high, self.free):
                table[i, i, 0, :] = 0.0
        for length in range(2, n + 1):
            self._fill(length)

    def _lone(self) -> Counts | None:
        """For each way and line: limits broken by a set-up of that line alone, the clock counted unless no set-up keeps
        it; None where no line is ever alone for want of time."""
        late = self.closing[:, None] + self.terms.seconds[None, :] - self.terms.start > self.terms.limit + ROUNDING
        waived = np.array(["clock" in names for names in self.terms.waived], dtype=bool)
        if not late.any() or (self.most <= self.stride and not waived.any()):
            return None
        return np.asarray(self.terms.short + (late & ~waived[None, :]), dtype=np.int64)

    def _fill(self, length: int) -> None:
        """All runs of a length."""
        n = self.terms.layers
        starts = np.arange(n - length + 1)
        ends = starts + length - 1
        made = self._spread(self.low, starts, ends, self.terms.low[:, starts] if self.reaches else None)
        free = self._spread(self.free, starts, ends, None) if self.reaches else made
        time = self.terms.limit + self.terms.start + ROUNDING - self.closing
        usable = np.moveaxis(self.terms.usable[:, starts, ends], 0, -1)
        fits = ((made <= time) & usable[:, None, :]).any(axis=2)
        first = np.where(fits.any(axis=1), fits.argmax(axis=1), self.most)
        if self.alone is not None:
            first = np.minimum(first, self._best_alone(starts, ends))
        if self.reaches:
            first = np.minimum(first, self._from_both(starts, ends, time, usable))
        if length in self.marked:
            marked = np.array(self.marked[length])
            first[marked] = self._first_of(marked, marked + length - 1)
        cost = first + self.step + self.terms.over[starts, ends] * self.stride
        good = (first < self.most) & (cost < self.most) & (cost % self.stride <= self.most_set_ups)
        self.cost[starts, ends] = np.where(good, cost, NEVER)
        rows = np.flatnonzero(good)
        for table, values in ((self.low, made), (self.free, free)):
            table[starts, ends, : self.most] = values
            table[starts[rows], ends[rows], cost[rows]] = 0.0
        if self.reaches:
            above = self._down(starts, ends)
            self.high[starts, ends, : self.most] = above
            lifted = self.lifted(starts, ends)
            rows = np.flatnonzero(lifted != NEVER)
            self.high[starts[rows], ends[rows], lifted[rows]] = 0.0

    def _first_of(self, starts: Counts, ends: Counts) -> Counts:
        """Least cost of the parts and lines of runs whose pads do not reach all of their lines."""
        time = self.terms.limit + self.terms.start + ROUNDING - self.closing
        usable = np.moveaxis(self.terms.usable[:, starts, ends], 0, -1)
        fits = ((self.own(starts, ends)[:, -1, : self.most] <= time) & usable[:, None, :]).any(axis=2)
        first = np.where(fits.any(axis=1), fits.argmax(axis=1), self.most)
        return first if self.alone is None else np.minimum(first, self._best_alone(starts, ends))

    def own(self, starts: Counts, ends: Counts) -> Floats:
        """Of runs of one length, each with its own count of limits that are broken for want of reach: least spreading
        time of the parts up to each of its layers, by cost and way. Runs × layers × (costs + 1) × ways."""
        terms, length = self.terms, int(ends[0] - starts[0]) + 1
        missed = self.missed(starts, ends)
        near = terms.low[:, starts].T | terms.high[:, ends].T
        table = np.full((len(starts), length, self.most + 1, len(self.closing)), np.inf)
        table[:, 0, 0] = 0.0
        costs = np.arange(self.most)
        for k in range(1, length):
            lines = starts[:, None] + np.arange(k)  # runs × lines
            upto = np.broadcast_to((starts + k)[:, None], lines.shape)
            parts = self.lifted(lines + 1, upto)
            extra = np.moveaxis(terms.short[:, lines], 0, -1) + np.take_along_axis(missed, lines, axis=1)[:, :, None]
            shift = parts[:, :, None] + extra * self.stride  # runs × lines × ways
            can = (parts != NEVER) & np.take_along_axis(near, lines, axis=1)
            at = costs[None, None, :, None] - shift[:, :, None, :]
            at = np.where((at < 0) | ~can[:, :, None, None], self.most, at)
            times = np.take_along_axis(table[:, :k], at, axis=2) + terms.seconds[lines][:, :, None, None]
            table[:, k, : self.most] = self._clean(times.min(axis=1))
            if k < length - 1:
                first = self.cost[starts, starts + k]
                rows = np.flatnonzero(first != NEVER)
                table[rows, k, first[rows]] = 0.0
        return table

    def missed(self, starts: Counts, ends: Counts) -> Counts:
        """Limits that the lines of runs break for want of reach, runs × lines."""
        none = np.zeros(self.terms.layers - 1, dtype=np.int64)
        return np.array([self.terms.missed.get(run, none) for run in zip(starts.tolist(), ends.tolist())])

    def lifted(self, a: Counts | int, b: Counts | int) -> Counts:
        """Cost of a run as a part that is lifted onto another; NEVER where it cannot be made."""
        cost = self.cost[a, b]
        lifted = cost + self.terms.heavy[a, b] * self.stride
        return np.where((cost == NEVER) | (lifted >= self.most), NEVER, lifted)

    def _spread(self, table: Floats, starts: Counts, ends: Counts, within: Bools | None) -> Floats:
        """Least time of a run [start, end] whose last part begins above line `end − j`, over all j and costs."""
        length = int(ends[0] - starts[0]) + 1
        best = np.full((len(starts), self.most, len(self.closing)), np.inf)
        for last in range(1, length):
            lines = ends - last
            shift = self.lifted(lines + 1, ends)
            rows = shift != NEVER
            if within is not None:
                rows &= within[lines, np.arange(len(starts))]
            if not rows.any():
                continue
            found = self._add(table, starts[rows], lines[rows], lines[rows], shift[rows])
            best[rows] = np.minimum(best[rows], found)
        return self._clean(best)

    def _down(self, starts: Counts, ends: Counts) -> Floats:
        """The same from above: all lines within reach from the run's upper end, all parts lifted."""
        length = int(ends[0] - starts[0]) + 1
        best = np.full((len(starts), self.most, len(self.closing)), np.inf)
        for first in range(1, length):
            lines = starts + first - 1
            shift = self.lifted(starts, lines)
            rows = (shift != NEVER) & self.terms.high[lines, ends]
            if rows.any():
                found = self._add(self.high, lines[rows] + 1, ends[rows], lines[rows], shift[rows])
                best[rows] = np.minimum(best[rows], found)
        return self._clean(best)

    def _add(self, table: Floats, a: Counts, c: Counts, lines: Counts, shift: Counts) -> Floats:
        """Times of the parts [a, c] with one more line and one more part, whose cost is `shift`."""
        costs = np.arange(self.most)[None, :] - shift[:, None]
        extra = self.terms.short[:, lines]  # ways × rows
        found = np.full((len(a), self.most, len(self.closing)), np.inf)
        for broken in np.unique(extra):
            if broken * self.stride >= self.most:
                break
            at = costs - int(broken) * self.stride
            at = np.where(at < 0, self.most, at)
            times = table[a[:, None], c[:, None], at] + self.terms.seconds[lines][:, None, None]
            found = np.where(np.equal(extra.T, broken)[:, None, :], np.minimum(found, times), found)
        return found

    def _clean(self, best: Floats) -> Floats:
        """Costs that stand between two numbers of broken limits do not count."""
        best[:, np.arange(self.most) % self.stride > self.most_set_ups] = np.inf
        return best

    def _best_alone(self, starts: Counts, ends: Counts) -> Counts:
        """Least cost of the two parts of a set-up of one line, whatever it takes."""
        best = np.full(len(starts), self.most)
        assert self.alone is not None
        usable = self.terms.usable[:, starts, ends]
        missed = self.missed(starts, ends)
        for last in range(1, int(ends[0] - starts[0]) + 1):
            lines = ends - last
            below, above = self.cost[starts, lines], self.lifted(lines + 1, ends)
            broken = np.where(usable, self.alone[:, lines], self.most).min(axis=0)
            broken = broken + missed[np.arange(len(lines)), lines]
            near = self.terms.low[lines, starts] | self.terms.high[lines, ends]
            cost = below + above + broken * self.stride
            best = np.where((below != NEVER) & (above != NEVER) & near, np.minimum(best, cost), best)
        return best

    def _from_both(self, starts: Counts, ends: Counts, time: Floats, usable: Bools) -> Counts:
        """Least cost where the first lines are within reach from below, and the others from above."""
        best = np.full(len(starts), self.most)
        for row, (a, b) in enumerate(zip(starts.tolist(), ends.tolist())):
            lines = np.arange(a, b)
            lines = lines[self.terms.high[lines, b] & ~self.terms.low[lines, a]]
            if not len(lines):
                continue
            below = self.low[a, lines]  # lines × costs × ways
            above = self.high[lines + 1, b] + self.terms.seconds[lines][:, None, None]
            extra = self.terms.short[:, lines].T[:, None, :] * self.stride
            ways = usable[row][None, None, :]
            for q in range(self.most):
                if q >= best[row]:
                    break
                fits = (below[:, q : q + 1] + above <= time) & ways
                if fits.any():
                    costs = np.where(fits, q + np.arange(self.most + 1)[None, :, None] + extra, self.most)
                    best[row] = min(int(best[row]), int(costs.min()))
        return best
