# SPDX-License-Identifier: LGPL-2.1-or-later

"""The order of a pile's set-ups: exact, with the fewest set-ups, then the fewest sub-stacks that cannot be re-faced and
turned, then the most even numbers of lines, then the fewest layers clamped again.

A run [a, b] is made by choosing the lines that are spread last; what lies between them are parts that were made before:
a tree over the layers. So the cost f(a, b) of a run is that of its last set-up and of its parts, and a programme over
runs, from the short to the long, finds the least. First come the fewest set-ups, by the shortest spreading time of
every beginning of a run for each cost (`programme`); `evenorder` settles the rest within it.

A run is [a, b], counted from 0; line i lies between layers i and i + 1. Times s.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from freecad_stacklam.lamination.gluing.evenorder import even_lines
from freecad_stacklam.lamination.gluing.limits import Floats, Terms, judge
from freecad_stacklam.lamination.gluing.programme import NEVER, Programme, Run
from freecad_stacklam.lamination.refusal import Defect
from freecad_stacklam.lamination.tolerances import ROUNDING

#: Set-ups that are looked at first, before twice as many.
FIRST_LOOK = 8
#: Layers of which the best order is sought: the time grows with their third power, about a second for 60.
MOST_EXACT = 100


def cost_of(terms: Terms, runs: Sequence[Run]) -> tuple[int, int, int, int, int] | None:
    """Broken limits, set-ups, sub-stacks not to be re-faced, Σ lines², Σ layers of the runs of an order; None where a
    set-up cannot be."""
    broken = rough = squares = layers = 0
    for run in runs:
        judged = judge(terms, run.a, run.b, run.lines)
        if judged is None:
            return None
        broken += judged.broken + sum(bool(terms.heavy[p]) for p in run.parts[1:])
        rough += sum(bool(terms.rough[p]) for p in run.parts)
        squares += len(run.lines) ** 2
        layers += run.b - run.a + 1
    return broken, len(runs), rough, squares, layers


def growing(terms: Terms) -> tuple[Run, ...]:
    """Onto one growing pile, from the bottom, as many layers at once as break no limit: one at least. It can always be
    tried, but for a line out of reach."""
    runs: list[Run] = []
    done = 0
    while done < terms.layers - 1:
        most = done + 1
        while most < terms.layers - 1:
            judged = judge(terms, 0, most + 1, tuple(range(done, most + 1)))
            if judged is None or judged.broken:
                break
            most += 1
        runs.append(Run(0, most, tuple(range(done, most))))
        done = most
    return tuple(runs)


def _walk(programme: Programme, a: int, b: int) -> tuple[int, ...]:
    """The lines of one last set-up of the run [a, b] that has its least cost."""
    terms, cost = programme.terms, programme.cost
    target = int(cost[a, b]) - programme.step - int(terms.over[a, b]) * programme.stride
    room = terms.limit + terms.start + ROUNDING - programme.closing
    ways = np.flatnonzero(terms.usable[:, a, b])
    missed = programme.missed(np.array([a]), np.array([b]))[0]
    if missed.any():
        table = programme.own(np.array([a]), np.array([b]))[0]
        for w in ways.tolist():
            if table[-1, target, w] <= room[w]:
                return tuple(_own_back(programme, a, b, table, target, w))
    for w in ways.tolist() if not missed.any() else []:
        if programme.low[a, b, target, w] <= room[w]:
            return tuple(_back(programme, a, b, target, w))
    for i in range(a, b):
        below, above = int(cost[a, i]), int(programme.lifted(i + 1, b))
        if min(below, above) == NEVER or not (terms.low[i, a] or terms.high[i, b]) or programme.alone is None:
            continue
        if below + above + int(programme.alone[ways, i].min() + missed[i]) * programme.stride == target:
            return (i,)
    for i in range(a, b) if not missed.any() else []:
        for w in ways.tolist() if terms.high[i, b] else []:
            for q in range(target + 1):
                rest = target - q - int(terms.short[w, i]) * programme.stride
                if rest < 0:
                    continue
                spread = programme.low[a, i, q, w] + programme.high[i + 1, b, rest, w]
                if spread + terms.seconds[i] <= room[w]:
                    return (*_back(programme, a, i, q, w), i, *_up(programme, i + 1, b, rest, w))
    raise Defect("The order of the glue-up (a cost that no set-up has)")


def _back(programme: Programme, a: int, c: int, q: int, w: int) -> list[int]:
    """The lines of the parts [a, c], from the bottom, that take the time of the table."""
    lines: list[int] = []
    terms = programme.terms
    while programme.low[a, c, q, w] > 0.0:
        for i in range(c - 1, a - 1, -1):
            lifted = int(programme.lifted(i + 1, c))
            before = q - lifted - int(terms.short[w, i]) * programme.stride
            near = terms.low[i, a] and lifted != NEVER and before >= 0
            if near and abs(programme.low[a, i, before, w] + terms.seconds[i] - programme.low[a, c, q, w]) < ROUNDING:
                lines.insert(0, i)
                c, q = i, before
                break
        else:
            raise Defect("The order of the glue-up (a time that no lines take)")
    return lines


def _own_back(programme: Programme, a: int, b: int, table: Floats, q: int, w: int) -> list[int]:
    """The lines of the parts [a, b] by the run's own table."""
    lines: list[int] = []
    terms, c = programme.terms, b
    missed = programme.missed(np.array([a]), np.array([b]))[0]
    while table[c - a, q, w] > 0.0:
        for i in range(c - 1, a - 1, -1):
            lifted = int(programme.lifted(i + 1, c))
            before = q - lifted - int(terms.short[w, i] + missed[i]) * programme.stride
            near = (terms.low[i, a] or terms.high[i, b]) and lifted != NEVER and before >= 0
            if near and abs(table[i - a, before, w] + terms.seconds[i] - table[c - a, q, w]) < ROUNDING:
                lines.insert(0, i)
                c, q = i, before
                break
        else:
            raise Defect("The order of the glue-up (a time that no lines take)")
    return lines


def _up(programme: Programme, c: int, b: int, q: int, w: int) -> list[int]:
    """The same of the parts [c, b], from above."""
    lines: list[int] = []
    terms = programme.terms
    while programme.high[c, b, q, w] > 0.0:
        for i in range(c, b):
            lifted = int(programme.lifted(c, i))
            after = q - lifted - int(terms.short[w, i]) * programme.stride
            near = terms.high[i, b] and lifted != NEVER and after >= 0
            if (
                near
                and abs(programme.high[i + 1, b, after, w] + terms.seconds[i] - programme.high[c, b, q, w]) < ROUNDING
            ):
                lines.append(i)
                c, q = i + 1, after
                break
        else:
            raise Defect("The order of the glue-up (a time that no lines take)")
    return lines


def tree(last_lines: Callable[[int, int], tuple[int, ...]], a: int, b: int) -> tuple[Run, ...]:
    """All set-ups of a run, each after those of its parts, from the bottom."""
    if a == b:
        return ()
    run = Run(a, b, last_lines(a, b))
    return tuple(r for part in run.parts for r in tree(last_lines, *part)) + (run,)


@dataclass(frozen=True)
class Order:
    """Set-ups in the order of the work. `broken`: limits broken at least, beside what is waived; `proven`: no order
    that breaks as few needs fewer set-ups."""

    runs: tuple[Run, ...]
    broken: int
    proven: bool


def order_of(terms: Terms, at_least: int = 0) -> Order:
    """The order with the fewest broken limits, then by the objectives above. Where limits must break, even numbers of
    lines are not sought. Never nothing. at_least: so many are broken in any order, as far as is known."""
    last = terms.layers - 1
    if last < 1:
        return Order((), 0, True)
    if terms.layers > MOST_EXACT:
        return Order(growing(terms), 0, False)
    grown = cost_of(terms, growing(terms))
    for free in (terms, replace(terms, low=np.ones_like(terms.low), high=np.ones_like(terms.high))):
        if grown is not None and not grown[0]:
            # A pile that grows and breaks nothing says how many set-ups are enough.
            broken, first_look = 0, grown[1]
        else:
            least = _least_broken(free, at_least)
            if least is None:
                continue
            broken, first_look = least, FIRST_LOOK
        programme = _fewest(free, broken, first_look)
        last_lines = partial(_walk, programme) if broken else even_lines(programme)
        return Order(tree(last_lines, 0, last), broken, free is terms)
    return Order(growing(terms), terms.layers, False)


def _fewest(terms: Terms, broken: int, most: int) -> Programme:
    """The programme with as many set-ups as it needs; `most` are looked at first, then twice as many."""
    while True:
        programme = Programme(terms, broken, min(most, terms.layers - 1))
        if programme.cost[0, -1] != NEVER:
            return programme
        most *= 2


def _least_broken(terms: Terms, at_least: int) -> int | None:
    """How few limits can be broken; None where the search does not get that far."""
    most = at_least
    while most <= 4 * terms.layers:
        cost = Programme(terms, most, 0, step=0).cost[0, -1]
        if cost != NEVER:
            return int(cost)
        most = max(1, 4 * most)
    return None
