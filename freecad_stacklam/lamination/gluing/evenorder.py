# SPDX-License-Identifier: LGPL-2.1-or-later

"""Of the orders with the fewest set-ups: the fewest sub-stacks that cannot be re-faced and turned, then the most even
numbers of lines (least Σ lines²), then the fewest layers that are clamped again (least Σ layers of the runs), which
makes sub-stacks side by side rather than one pile that grows.

From the highest layer down, for each run's first layer a, *labels* are kept: beginnings of a run (its parts up to a
layer are laid) with their cost, the lines spread so far, their time, the presses that the largest of them wants and the
force that the smallest of them bears. A label that another is nowhere worse than is dropped, and so is one that cannot
be part of an order with the fewest set-ups, which the programme's tables tell beforehand.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from freecad_stacklam.lamination.gluing.limits import Bools, Counts, Floats
from freecad_stacklam.lamination.gluing.programme import NEVER, Programme
from freecad_stacklam.lamination.refusal import Defect
from freecad_stacklam.lamination.tolerances import ROUNDING

#: A cost larger than any.
LARGE = np.int64(2) ** 60
#: Labels that are compared at once: for speed alone.
AT_ONCE = 64


def even_lines(programme: Programme) -> Callable[[int, int], tuple[int, ...]]:
    """For each run that can be made without a broken limit, the lines of its last set-up in the best order."""
    search = _Search(programme)
    for a in range(programme.terms.layers - 1, -1, -1):
        search.from_layer(a)
    return lambda a, b: search.lines[a, b]


@dataclass
class _Labels:
    """Labels of one first layer: `cost`, `end` (layer up to which its parts are laid), `before` (label that it goes on
    from), `spread` (lines), `time`, `level` (presses by set), `bears` (force), `upto` (layer at which the run must end,
    so that its lines are within reach)."""

    cost: Counts
    end: Counts
    before: Counts
    spread: Counts
    time: Floats
    level: Counts  # labels × sets
    bears: Floats
    upto: Counts

    def only(self, rows: Counts | Bools) -> _Labels:
        """Some of them."""
        return _Labels(*(getattr(self, name)[rows] for name in self.__dataclass_fields__))

    def with_more(self, more: _Labels) -> _Labels:
        """These and others."""
        names = self.__dataclass_fields__
        return _Labels(*(np.concatenate([getattr(self, n), getattr(more, n)]) for n in names))

    def first(self) -> Counts:
        """Which of them no other makes needless: none is nowhere worse, and of labels that are alike one stays."""
        columns = [self.cost, self.spread, *self.level.T, -self.upto, self.time, -self.bears]
        table = np.column_stack([c for c in columns if (c != c[0]).any()] or [self.cost]).astype(float)
        # What makes another needless comes before it in this turn.
        turn = np.lexsort(table.T)
        table = table[turn]
        kept = np.zeros(0, dtype=np.int64)
        for begin in range(0, len(turn), AT_ONCE):
            block = np.arange(begin, min(begin + AT_ONCE, len(turn)))
            block = block[~_nowhere_worse(table[kept], table[block]).any(axis=0)]
            within = np.triu(_nowhere_worse(table[block], table[block]), 1)
            kept = np.concatenate([kept, block[~within.any(axis=0)]])
        return np.sort(turn[kept])


def _nowhere_worse(some: Floats, others: Floats) -> Bools:
    """For each of some labels and each of others, whether the first is nowhere worse: rows of figures, less is
    better."""
    better = np.ones((len(some), len(others)), dtype=bool)
    for mine, yours in zip(some.T, others.T):
        better &= mine[:, None] <= yours[None, :]
    return better


@dataclass
class _Search:
    programme: Programme
    lines: dict[tuple[int, int], tuple[int, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        terms, n = self.programme.terms, self.programme.terms.layers
        self.square_costs = n * n + 1  # Σ layers of at most n − 1 runs
        self.rough_costs = self.square_costs * n * n  # Σ lines²
        self.set_up_costs = self.rough_costs * (n + 1)
        #: Of each run as it is, and as a part of another; LARGE where it is not to be had.
        self.cost: Counts = np.full((n, n), LARGE)
        self.part: Counts = np.full((n, n), LARGE)
        np.fill_diagonal(self.cost, 0)
        np.fill_diagonal(self.part, 0)
        self.rest = np.minimum.accumulate(self.programme.free[:, :, : self.programme.most], axis=2)
        self.closing = []
        for s, of in enumerate(terms.sets):
            times = np.full(of.owned + 2, np.inf)
            for way in terms.ways:
                if way.of == s:
                    times[way.count] = way.closing
            self.closing.append(times)
        self.upto = np.full(max(n - 1, 0), n - 1)
        if self.programme.reaches:
            for i in range(n - 1):
                near = np.flatnonzero(terms.high[i, i + 1 :])
                self.upto[i] = i + 1 + near[-1] if len(near) else i

    def from_layer(self, a: int) -> None:
        """All runs that begin at layer a; those that begin higher are done."""
        n = self.programme.terms.layers
        labels = self._begun(a, a)
        for d in range(a + 1, n):
            made = self.programme.cost[a, d] != NEVER
            more = self._gone_on(labels, a, d)
            missed = self.programme.terms.missed.get((a, d))
            if made and missed is not None and missed.any():
                self._finish(*self._reached(a, d, missed == 0), a, d)
            elif made:
                self._finish(labels, more, a, d)
            if d == n - 1:
                break
            slack = self._slack(a, d)
            more = more.only(more.time <= slack[np.minimum(more.cost // self.set_up_costs, len(slack) - 1)] + ROUNDING)
            if len(more.cost) > 1:
                more = more.only(more.first())
            labels = labels.with_more(more)
            if made:
                labels = labels.with_more(self._begun(a, d))

    def _begun(self, a: int, d: int) -> _Labels:
        """The run's first part is laid."""
        sets, n = len(self.programme.terms.sets), self.programme.terms.layers
        one = np.array([0], dtype=np.int64)
        return _Labels(
            np.array([self._first(a, d)]), one + d, one - 1, one, np.zeros(1), np.zeros((1, sets), dtype=np.int64),
            np.full(1, np.inf), one + n - 1,
        )  # fmt: skip

    def _first(self, a: int, d: int) -> np.int64:
        rough = int(self.programme.terms.rough[a, d]) if d > a else 0
        return np.int64(self.cost[a, d] + rough * self.rough_costs)

    def _reached(self, a: int, d: int, good: Bools) -> tuple[_Labels, _Labels]:
        """Labels of the run [a, d] alone, which spreads only lines that its pads reach: beginnings, and ends at d."""
        labels = self._begun(a, a)
        for c in range(a + 1, d + 1):
            more = self._gone_on(labels, a, c)
            more = more.only(good[labels.end[more.before]])
            if len(more.cost) > 1:
                more = more.only(more.first())
            if c == d:
                break
            labels = labels.with_more(more)
            if self.programme.cost[a, c] != NEVER:
                labels = labels.with_more(self._begun(a, c))
        return labels, more

    def _gone_on(self, labels: _Labels, a: int, d: int) -> _Labels:
        """One more line and one more part, which ends at layer d."""
        terms = self.programme.terms
        part = self.part[np.minimum(labels.end + 1, terms.layers - 1), d]
        lines = np.minimum(labels.end, terms.layers - 2)
        upto = np.where(terms.low[lines, a], labels.upto, np.minimum(labels.upto, self.upto[lines]))
        rows = np.flatnonzero((labels.end < d) & (part < LARGE) & (upto >= d))
        lines = lines[rows]
        old = labels.only(rows)
        return _Labels(
            old.cost + part[rows], np.full(len(rows), d), rows, old.spread + 1, old.time + terms.seconds[lines],
            np.maximum(old.level, terms.level[:, lines].T), np.minimum(old.bears, terms.crush[lines]), upto[rows],
        )  # fmt: skip

    def _finish(self, labels: _Labels, more: _Labels, a: int, d: int) -> None:
        """The best last set-up of the run [a, d]: its labels' times with the closing, within the clock."""
        terms = self.programme.terms
        alone = np.array(["clock" in names for names in terms.waived], dtype=bool)[labels.end[more.before]]
        alone &= more.spread == 1
        good = np.zeros(len(more.cost), dtype=bool)
        for s, of in enumerate(terms.sets):
            if not any(terms.usable[w, a, d] for w, way in enumerate(terms.ways) if way.of == s):
                continue
            level = more.level[:, s]
            seconds = more.time + self.closing[s][level]
            force = np.array([*of.forces, 0.0])[level] if of.air is None else np.zeros(len(level))
            kept = (seconds <= terms.limit + terms.start + ROUNDING) | (alone & np.isfinite(seconds))
            good |= kept & (force <= more.bears + ROUNDING) & (level <= max(terms.room[s, a, d], of.air is not None))
        own = self.square_costs * more.spread**2 + self.set_up_costs + (d - a + 1)
        cost = np.where(good, more.cost + own, LARGE)
        best = int(cost.argmin())
        self.cost[a, d] = cost[best]
        if cost[best] // self.set_up_costs != self.programme.cost[a, d]:
            raise Defect("The order of the glue-up (more set-ups than its tables promised)")
        part = self._first(a, d)
        self.part[a, d] = LARGE if terms.heavy[a, d] else part
        lines, label = [], int(more.before[best])
        while label >= 0:
            lines.append(int(labels.end[label]))
            label = int(labels.before[label])
        self.lines[a, d] = tuple(reversed(lines))

    def _slack(self, a: int, c: int) -> Floats:
        """The most time that a beginning [a, c] may have taken, by its set-ups so far, to be worth going on with."""
        programme, terms = self.programme, self.programme.terms
        ends = np.arange(c + 1, terms.layers)
        ends = ends[programme.cost[a, ends] != NEVER]
        slack = np.full(programme.most + 1, -np.inf)
        if not len(ends):
            return slack
        so_far = np.arange(programme.most)
        left = programme.cost[a, ends][:, None] - 1 - so_far[None, :]
        rest = self.rest[c + 1, ends[:, None], np.maximum(left, 0)]  # ends × costs × ways
        rest = np.where((left >= 0)[:, :, None], rest, np.inf)
        room = terms.limit + terms.start - programme.closing - terms.seconds[c]
        usable = terms.usable[:, a, ends].T & (terms.short[:, c] == 0)[None, :]
        slack[: programme.most] = np.where(usable[:, None, :], room - rest, -np.inf).max(axis=(0, 2))
        return slack
