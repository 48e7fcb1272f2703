# SPDX-License-Identifier: LGPL-2.1-or-later

"""Orders weighed by what their pads really reach: a line that is missed, or gets too little or far too much, is a
broken limit of its run, and the order is sought anew until nothing better turns up.

What pads on any of their seats reach tells at once how a run can be pressed at the best. Orders that hold by that are
pressed, with the clamps that are owned; where these reach less, the run is marked worse and the search goes on. The
first order, in which nothing of all this is weighed, is among those that are compared: none is pressed worse.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from freecad_stacklam.lamination.gluing.limits import Counts, Terms
from freecad_stacklam.lamination.gluing.order import Order, cost_of, order_of
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.plan.gluing import LinePressure
from freecad_stacklam.lamination.quantities import both_pressures
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.words import say

#: Each share of a line that is not reached, or of the pressure it wants that it does not get, breaks one limit more:
#: below the first, which is where a set-up says that the clamps do not reach, and at each of the others.
PARTS = (0.9, 0.6, 0.3)
#: So many times its most pressure starves a line. Less is told in a caution alone: of four who tightened the same
#: clamps by hand two reached about 60 % and 140 % of the others (a magazine's test of 2010), so nobody keeps to less.
STARVES = 1.5
#: Orders that are pressed, the first among them; and how often an order is sought for each, of a pile of n layers as
#: many times as n² goes into this: the time of one search grows with about the third power.
PRESSED, SEARCHES = 4, 12_000


@dataclass(frozen=True)
class Trial:
    """How runs are tried. `shares`: of the run [a, b], counted from 0, the share of each of its lines that pads on all
    seats reach; `pressed`: a set-up's new lines with the pads that are owned, those left out where no wood meets."""

    shares: Callable[[int, int], Sequence[float]]
    pressed: Callable[[Run], Sequence[LinePressure]]


@dataclass(frozen=True)
class Weighed:
    """The best order that was found. `terms`: with what is known of its runs; `changed`: it is not the first, which had
    `plain` set-ups; `left`: limits of reach and pressure that it breaks still."""

    order: Order
    terms: Terms
    changed: bool = False
    left: int = 0
    plain: int = 0


def levels(share: float) -> int:
    """How many limits are broken by a share, of a line or of a pressure."""
    return sum(share < part - ROUNDING for part in PARTS)


def faults(line: LinePressure, force: float) -> int:
    """Limits that a line breaks as it is pressed: by what is missed, or by what it lacks of the pressure wanted or of
    that which all presses together give, `force`, N; by starving, by being crushed, by gaping."""
    most = min(line.wanted[0] * line.area, force)
    found = max(levels(line.reached), levels(line.mean * line.area / most) if most > 0.0 else 0)
    over = line.mean > STARVES * line.wanted[1] or (line.crush or 0.0) > 1.0
    return max(found, int(line.fifth <= 0.0 < line.mean)) + int(over)


def most_force(terms: Terms) -> float:
    """What all presses give together that press at once, N; a bag is never short of its own pressure: 0."""
    return max((of.forces[-1] for of in terms.sets if of.air is None), default=0.0)


def weighed(terms: Terms, trial: Trial, first: int) -> Weighed:
    """The order of the set-ups by all limits, those of reach and pressure counted in. first: number of the lowest
    layer."""
    return _Weighing(terms, trial, first).best()


@dataclass(eq=False)
class _Weighing:
    terms: Terms
    trial: Trial
    first: int
    known: dict[tuple[int, int], Counts] = field(default_factory=dict)

    def best(self) -> Weighed:
        """The first order, unless another breaks fewer limits."""
        before = order_of(self.terms)
        found = [(self._broken(before), 0, before)]
        while found[-1][0][0] and len(found) < PRESSED:
            order = self._sought(found[-1][2])
            # By what is known no order breaks fewer than this one.
            if order.broken >= min(broken for (broken, _, _), _, _ in found):
                break
            found.append((self._broken(order), len(found), order))
        (broken, left, _), turn, order = min(found, key=lambda one: one[:2])
        if not turn:
            return Weighed(order, self.terms, False, left, len(order.runs))
        known = replace(self.terms, missed=dict(self.known))
        return Weighed(replace(order, broken=broken - left, proven=False), known, True, left, len(before.runs))

    def _broken(self, order: Order) -> tuple[int, int, int]:
        """All limits that an order breaks, those of reach and pressure among them, and its set-ups."""
        cost = cost_of(self.terms, order.runs)
        by_pads = sum(self._press(run) for run in order.runs)
        return (order.broken if cost is None else cost[0]) + by_pads, by_pads, len(order.runs)

    def _press(self, run: Run) -> int:
        """Limits that a set-up breaks as it is pressed; what is worse than was known is kept."""
        lines = {p.lower - self.first: faults(p, most_force(self.terms)) for p in self.trial.pressed(run)}
        known = self.known.get((run.a, run.b))
        if any(lines.values()) or known is not None:
            known = self._at_best(run.a, run.b) if known is None else known.copy()
            for line, broken in lines.items():
                known[line] = max(known[line], broken)
            self.known[run.a, run.b] = known
        return sum(lines.values())

    def _sought(self, order: Order) -> Order:
        """The order by what is known of the runs, once all of its own are known."""
        least = 0
        for _ in range(max(2, SEARCHES // self.terms.layers**2)):
            new = [run for run in order.runs if (run.a, run.b) not in self.known]
            self.known |= {(run.a, run.b): self._at_best(run.a, run.b) for run in new}
            # What is found out of runs makes them worse only.
            order = order_of(replace(self.terms, missed=dict(self.known)), least)
            least = order.broken
            if all((run.a, run.b) in self.known for run in order.runs):
                break
        return order

    def _at_best(self, a: int, b: int) -> Counts:
        """What each line breaks on a run whose pads lie on all of its seats: of those that are owned, on as many as
        find room."""
        terms, broken = self.terms, np.zeros(self.terms.layers - 1, dtype=np.int64)
        rooms = [(of, int(terms.room[s, a, b])) for s, of in enumerate(terms.sets) if terms.room[s, a, b]]
        gets = max(
            (most_force(self.terms) if of.air is not None else of.forces[room] for of, room in rooms), default=0.0
        )
        for i, share in enumerate(self.trial.shares(a, b), start=a):
            most = min(float(terms.need[i]), most_force(self.terms))
            short = levels(gets / most) if most > 0.0 and "clamps" in terms.waived[i] else 0
            broken[i] = max(levels(share), short)
        return broken


def told_apart(together: Sequence[LinePressure], apart: Mapping[int, LinePressure], force: float) -> str:
    """What would be worse if set-ups were done together: the line that would lose most; "" where none would."""
    lost = [(faults(p, force) - faults(apart[p.lower], force), -p.reached, p) for p in together if p.lower in apart]
    found = max(lost, key=lambda one: one[:2], default=None)
    if found is None or found[0] <= 0:
        return ""
    line = found[2]
    if levels(line.reached):
        return say(
            "the clamps would reach only {reached} % of line {line}",
            reached=int(100 * line.reached + WHOLE),
            line=line.lower,
        )
    gets = both_pressures(line.mean)
    if line.mean > line.wanted[1]:
        return say(
            "line {line} would get {gets} and starve, for it wants {wanted} at most",
            line=line.lower,
            gets=gets,
            wanted=both_pressures(line.wanted[1]),
        )
    return say(
        "line {line} would get {gets} of {wanted}", line=line.lower, gets=gets, wanted=both_pressures(line.wanted[0])
    )
