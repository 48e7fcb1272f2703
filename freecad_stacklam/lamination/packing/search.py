# SPDX-License-Identifier: LGPL-2.1-or-later

"""The search for the cheapest way to lay pieces on boards.

At once: first fit in several orders of pieces and of boards, each board dropped and its pieces laid anew, and for a
handful of pieces the exact answer. On request rounds of more: band-by-band knapsacks with corrected worths, shuffled
first fits, and boards taken out in groups whose pieces find the cheapest boards exactly (a large neighbourhood search).
It counts rounds and no seconds, so that the same pieces and boards give the same plan on every machine.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.bystrips import by_strips, onto
from freecad_stacklam.lamination.packing.byworth import by_worth, corrected
from freecad_stacklam.lamination.packing.cheaperracks import cheaper_racks
from freecad_stacklam.lamination.packing.exact import Few, cheapest_boards, fuller
from freecad_stacklam.lamination.packing.exchange import cheaper
from freecad_stacklam.lamination.packing.firstfit import first_fit
from freecad_stacklam.lamination.packing.lot import Filled, Lot, Packing
from freecad_stacklam.lamination.packing.refill import Refill
from freecad_stacklam.lamination.packing.swaps import Swaps
from freecad_stacklam.lamination.tolerances import SAVING, WHOLE
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]
Progress = Callable[[float], None]
Cancelled = Callable[[], bool]

#: Plans up to this much dearer than the best get their boards changed with more care.
WORTH_A_TRY = 1.15
#: So many pieces are laid exactly: at once, in a round, and all of a lot on request; and so many branches are followed.
AT_ONCE, IN_A_ROUND, AT_MOST = 5, 11, 16
BRANCHES_AT_ONCE, BRANCHES = 300, 3000
#: With no more pieces than this, so many plans of three stages are tried in a round.
FEW, TRIES = 40, 12
#: Of the sets of boards that would cost less, so many with most room to spare are tried.
LIKELY = 6
#: So many kinds of pieces (or ten times so many pieces) get all the rounds; more of them get fewer, as each takes
#: longer, and so do less, as less helps them.
ALL_ROUNDS = 20
#: More pieces than FEW and no more than this are gathered on full boards too: so many plans built board after board;
#: for so many rounds a cycle of shakes, of groups of boards filled anew, and of boards laid exactly that may be emptied
#: next. Cut either way, half as many of all.
GATHERED, BUILT, CYCLE, SHAKES, ANEW_FIRST, ANEW, NEAREST = 400, 2, 15, 120, 24, 6, 3
#: More pieces than this get fewer tries in a round.
MANY = 2000
#: Fillings found by the way are kept for boards with knots, up to so many.
REMEMBERED = 3000


#: How a plan was found after a way that was tried first.
THEN_GATHERED, THEN_LAID_ANEW = mark("{split}, then gathered"), mark("{split}, then boards laid anew")


def _first_part(method: str) -> str:
    """What was done first, of how a plan was found."""
    for later in (THEN_GATHERED, THEN_LAID_ANEW):
        method = method.removesuffix(say(later, split=""))
    return method


@dataclass(frozen=True)
class Best:
    """The cheapest boards found; `left` are the pieces that found none; how they were found, and whether none cheaper
    can be."""

    boards: tuple[Filled, ...]
    left: tuple[int, ...]
    cost: float
    method: str
    proven: bool = False

    def better_than(self, other: Best | None) -> bool:
        """More placed, then cheaper."""
        return other is None or (len(self.left), self.cost) < (len(other.left), other.cost - SAVING)


def cheapest(
    lots: Mapping[bool, Lot], floor: float, rounds: int, progress: Progress, cancelled: Cancelled | None
) -> Best:
    """The cheapest packing found.

    lots: the same pieces to be laid, by whether they are crosscut first. floor: no packing costs less. rounds: 0 for
    the quick answer. progress: called with 0…1. cancelled: asked often; True ends the search.
    """
    search = _Search(lots, floor, cancelled)
    search.at_once()
    if rounds > 0 and not search.over():
        search.whole()
        gathers = FEW < len(search.lot.items) <= GATHERED
        share = 0.5 if gathers else 1.0
        search.rounds(rounds, lambda part: progress(part * share))
        if gathers:
            search.gathered(ceil(rounds / CYCLE), lambda part: progress(share + (1 - share) * part))
    assert search.best is not None  # a first fit was kept
    return search.best


class _Search:
    def __init__(self, lots: Mapping[bool, Lot], floor: float, cancelled: Cancelled | None) -> None:
        self.lots, self.floor, self.cancelled = lots, floor, cancelled
        self.lot = next(iter(lots.values()))
        self.best: Best | None = None
        self.known: dict[tuple[int, bool, frozenset[int]], Filled] = {}
        self.costs = {s.cost for s in self.lot.sheets}
        self.cheaper: tuple[float, list[tuple[int, ...]]] | None = None
        self.tried: set[tuple[frozenset[int], ...]] = set()

    def over(self) -> bool:
        """Whether the best cannot be bettered, or the maker has had enough."""
        best = self.best
        if best is not None and not best.left:
            one = min(self.costs)
            # With boards of one price the cost goes in steps.
            goal = ceil(self.floor / one - WHOLE) * one if len(self.costs) == 1 else self.floor
            if best.proven or best.cost <= goal * (1 + SAVING):
                return True
        return bool(self.cancelled and self.cancelled())

    def keep(self, packing: Packing | None, across: bool, method: str) -> None:
        """Take a packing where it is better, and remember its boards that have knots."""
        if packing is None:
            return
        filled = tuple(Filled(k, across, places) for k, places in packing.boards)
        self._take(filled, packing.left, method)
        for one in filled:
            if self.lot.sheets[one.kind].blocks and len(self.known) < REMEMBERED:
                self.known.setdefault((one.kind, across, frozenset(p[0] for p in one.places)), one)

    def _take(self, boards: Sequence[Filled], left: Sequence[int], method: str, proven: bool = False) -> None:
        made = Best(tuple(sorted(boards, key=lambda f: f.kind)), tuple(left), self._cost(boards), method, proven)
        if made.better_than(self.best):
            self.best = made

    def _cost(self, boards: Sequence[Filled]) -> float:
        return float(sum(self.lot.sheets[f.kind].cost for f in boards))

    # --- at once -----------------------------------------------------------------------------------------------------
    def at_once(self) -> None:
        """First fits, and for few pieces each board laid anew."""
        for across, lot in self.lots.items():
            for order in _orders(lot):
                for sheets in _preferences(lot):
                    self.keep(cheaper(lot, first_fit(lot, order, sheets)), across, "first fit")
                if len(lot.items) > 600:
                    break
        if len(self.lot.items) <= AT_ONCE:
            self.whole(BRANCHES_AT_ONCE)
        elif self.best is not None and len(self.best.boards) <= AT_ONCE:
            for n in range(len(self.best.boards)):
                if self.over() or n >= len(self.best.boards):
                    break
                self.anew(self._group([n, *range(len(self.best.boards))], AT_ONCE), BRANCHES_AT_ONCE)

    def whole(self, branches: int = BRANCHES) -> None:
        """All pieces exactly, where they are few enough."""
        if self.best is None or len(self.lot.items) > AT_MOST or self.over():
            return
        spare = {k: s.count or -1 for k, s in enumerate(self.lot.sheets)}
        below = np.inf if self.best.left else self.best.cost
        found = cheapest_boards(self._few(range(len(self.lot.items)), spare), spare, below, branches)
        if found.boards is not None:
            self._take(found.boards, (), "exact" if found.proven else "branches", found.proven)
        elif found.proven and not self.best.left:
            self.best = Best(self.best.boards, (), self.best.cost, self.best.method, proven=True)

    # --- in rounds ---------------------------------------------------------------------------------------------------
    def rounds(self, rounds: int, progress: Progress) -> None:
        """Every method in turn, until the rounds are over or nothing can be bettered."""
        rng = np.random.default_rng(20)
        size = max(len(self.lot.kinds), len(self.lot.items) / 10)
        rounds = ceil(rounds * min(size / ALL_ROUNDS, ALL_ROUNDS / size))
        worths = {across: p.kind_a * p.kind_b for across, p in self.lots.items()}
        for turn in range(rounds):
            if self.over():
                break
            for across, lot in self.lots.items():
                worths[across] = self._by_worth(across, lot, worths[across], turn, rng)
                if len(lot.items) <= MANY:
                    self._shuffled(across, lot, rng)
                    self._by_strips(across, lot, worths[across], rng)
            for _ in range(4):
                if self.over() or self.best is None or not self.best.boards:
                    break
                count = len(self.best.boards)
                order = [turn % count, *rng.permutation(count).tolist()]
                self.anew(self._group(order, IN_A_ROUND), BRANCHES_AT_ONCE)
            progress((turn + 1) / rounds)

    def _by_worth(self, across: bool, lot: Lot, worth: Floats, turn: int, rng: np.random.Generator) -> Floats:
        if self.over():
            return worth
        preferences = _preferences(lot)
        sheets = preferences[turn % len(preferences)]
        tried = worth * (1.0 if turn == 0 else rng.uniform(0.97, 1.03, len(worth)))

        def some(kinds: list[int]) -> list[int]:
            if turn % 3 == 0 or len(kinds) <= 2:
                return kinds[:2]
            return [int(k) for k in rng.choice(kinds, size=min(3, len(kinds)), replace=False)]

        made = by_worth(lot, tried, sheets, self.over, some, ahead=turn % 3 != 1, own_first=turn % 2 == 0)
        if made is None:
            return worth
        made = cheaper(lot, made)
        worth = corrected(lot, worth, made)
        if self.best is not None and made.cost < WORTH_A_TRY * self.best.cost and len(lot.items) <= MANY:
            areas = lot.kind_a * lot.kind_b
            powers = (1.0, 1.0, 1.1, 1.1, 1.2, 1.2)
            made = cheaper(lot, made, [areas**p * rng.uniform(0.9, 1.1, len(areas)) for p in powers])
        self.keep(made, across, "band by band")
        return worth

    def _shuffled(self, across: bool, lot: Lot, rng: np.random.Generator) -> None:
        orders, preferences = _orders(lot), _preferences(lot)
        for _ in range(4):
            if self.over():
                return
            order = orders[int(rng.integers(3))]
            size = lot.a if rng.random() < 0.5 else lot.a * lot.b
            noise = rng.normal(1.0, 0.12, len(order))
            order = sorted(order, key=lambda i: -size[i] * noise[i])
            sheets = preferences[int(rng.integers(len(preferences)))]
            if rng.random() < 0.3:
                sheets = rng.permutation(sheets).tolist()
            self.keep(cheaper(lot, first_fit(lot, order, sheets)), across, "shuffled first fit")

    def _by_strips(self, across: bool, lot: Lot, worth: Floats, rng: np.random.Generator) -> None:
        """Plans of three stages of cuts: on boards as they come, and of few pieces on boards that would cost less."""
        preferences = _preferences(lot)
        areas = lot.kind_a * lot.kind_b
        few = len(lot.items) <= FEW
        for n in range(TRIES // len(self.lots) if few else 1):
            if self.over():
                return
            tried = areas ** rng.choice([1.0, 1.05, 1.2]) * rng.uniform(0.8, 1.2, len(areas))
            racks = self._racks() if few and n % 2 else []
            if racks:
                boards = rng.permutation(racks[int(rng.integers(min(len(racks), LIKELY)))]).tolist()
                made = onto(lot, tried, boards, rng, whole=across)
                self.keep(None if made.left else made, across, "strip by strip")
            else:
                sheets = preferences[int(rng.integers(len(preferences)))]
                self.keep(cheaper(lot, by_strips(lot, tried, sheets, rng, whole=across)), across, "strip by strip")

    def _racks(self) -> list[tuple[int, ...]]:
        """Sets of boards that cost less than the best."""
        cost = self.best.cost if self.best is not None and not self.best.left else np.inf
        if self.cheaper is None or self.cheaper[0] != cost:
            self.cheaper = (cost, cheaper_racks(self.lot, cost) if np.isfinite(cost) else [])
        return self.cheaper[1]

    def gathered(self, cycles: int, progress: Progress) -> None:
        """Full boards one after the other, then waste gathered on few of them, which are emptied where they can be."""
        refill = Refill(self.lots, np.random.default_rng(21))
        for _ in range(BUILT // len(self.lots)):
            made = None if self.over() else refill.built(self.over)
            if made is not None:
                self._take(made, (), "board by board")
        for turn in range(cycles):
            if self.over() or self.best is None or self.best.left:
                break
            # At first the waste goes where there is most, then where least more is asked.
            drawn = refill.nearest(self.best.boards)[0] if 2 * turn >= cycles else None
            swaps = Swaps(self.lots, self.best.boards, refill.area, refill.rate, drawn)
            if turn:
                swaps.shaken(refill.rng, SHAKES // len(self.lots), self.over)
            boards = swaps.made()
            # Boards that are squeezed full are seldom filled better: most are tried before.
            tries = (ANEW if turn else ANEW_FIRST) // len(self.lots) if drawn is None else 0
            for _ in range(tries):
                boards = (None if self.over() else refill.anew(boards, self.over)) or boards
            # As dear as before, but with the waste on fewer boards.
            method = say(THEN_GATHERED, split=_first_part(self.best.method))
            self.best = Best(tuple(sorted(boards, key=lambda f: f.kind)), (), self._cost(boards), method)
            boards = list(self.best.boards)
            nearest = refill.nearest(boards)
            groups = [g for n in nearest[:NEAREST] for g in ([n], self._group([n, *nearest], IN_A_ROUND))]
            for group in groups:
                if self.over() or list(self.best.boards) != boards:
                    break
                self.anew(group, BRANCHES_AT_ONCE)
            progress((turn + 1) / cycles)

    # --- boards laid anew --------------------------------------------------------------------------------------------
    def _group(self, order: Sequence[int], most: int) -> list[int]:
        """Boards of the best in this order, as many as have no more than `most` pieces together; the first always."""
        assert self.best is not None
        group, pieces = [order[0]], len(self.best.boards[order[0]].places)
        for n in order[1:]:
            more = len(self.best.boards[n].places)
            if n not in group and pieces + more <= most:
                group.append(n)
                pieces += more
        return sorted(group)

    def anew(self, group: Sequence[int], branches: int) -> None:
        """Lay the pieces of some boards of the best anew, on whatever boards are free then."""
        best = self.best
        if best is None:
            return
        mine, others = [best.boards[n] for n in group], [f for n, f in enumerate(best.boards) if n not in group]
        items = [p[0] for f in mine for p in f.places]
        key = (frozenset(items), *sorted((frozenset(p[0] for p in f.places) for f in mine), key=min))
        if len(items) > IN_A_ROUND or key in self.tried:
            return
        self.tried.add(key)
        spare = {k: s.count or -1 for k, s in enumerate(self.lot.sheets)}
        for one in others:
            spare[one.kind] -= spare[one.kind] > 0
        few = self._few(items, spare)
        found = cheapest_boards(few, spare, self._cost(mine), branches)
        method = say(THEN_LAID_ANEW, split=_first_part(best.method))
        if found.boards is not None:
            self._take([*others, *found.boards], best.left, method)
        elif len(mine) == 2:
            # As dear, but one board fuller than before: the other may be emptied later.
            one, other = sorted(mine, key=self._filled_part, reverse=True)
            pair = fuller(few, one.kind, other.kind)
            if pair is not None and self._filled_part(pair[0]) > self._filled_part(one) + WHOLE:
                kept = (f for f in pair if f.places)
                boards = tuple(sorted([*others, *kept], key=lambda f: f.kind))
                self.best = Best(boards, best.left, self._cost(boards), best.method)

    def _few(self, items: Sequence[int], spare: Mapping[int, int]) -> Few:
        kinds = [k for k, many in spare.items() if many and self.lot.sheets[k].clear]
        return Few(self.lots, items, kinds, tuple(self.known.values()))

    def _filled_part(self, one: Filled) -> float:
        area = sum(float(self.lot.a[p[0]] * self.lot.b[p[0]]) for p in one.places)
        return area / self.lot.sheets[one.kind].clear


def _orders(lot: Lot) -> list[list[int]]:
    """Longest first along each axis, and largest first."""
    n = range(len(lot.items))
    a, b = lot.a, lot.b
    return [
        sorted(n, key=lambda i: (-a[i], -b[i])),
        sorted(n, key=lambda i: (-b[i], -a[i])),
        sorted(n, key=lambda i: (-a[i] * b[i], -a[i])),
    ]


def _preferences(lot: Lot) -> list[list[int]]:
    """Orders in which boards are opened: those on hand first, small or cheap ones first, and large ones first; the same
    whether on hand or not; and where the pieces are few, each board before the others."""
    n = [k for k, s in enumerate(lot.sheets) if s.clear]
    cheap = sorted(n, key=lambda k: lot.sheets[k].cost / lot.sheets[k].clear)
    large = sorted(n, key=lambda k: -lot.sheets[k].clear)
    orders = [sorted(o, key=lambda k: not lot.sheets[k].first) for o in (cheap, large)] + [cheap, large]
    if len(lot.items) <= 60:
        orders += [[k, *(o for o in cheap if o != k)] for k in n]
    return [o for i, o in enumerate(orders) if o not in orders[:i]]
