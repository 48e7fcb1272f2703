# SPDX-License-Identifier: LGPL-2.1-or-later

"""How good a cutting plan can be at best: lower bounds on its cost.

The area bound needs no more than arithmetic. The LP bound is the linear relaxation of cutting stock over all patterns
of three stages (bands, strips, pieces end to end), by column generation (Gilmore and Gomory, Operations Research 9
(1961) and 13 (1965)): the master in HiGHS through scipy, new patterns from knapsacks. Stopped early, it still gives the
Lagrangian bound of its best prices. Knots are left out of both, which can only lower them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, inf

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.knapsack import Knapsack
from freecad_stacklam.lamination.packing.lot import ClearBoard
from freecad_stacklam.lamination.tolerances import LP_CLOSE, LP_GAIN, NO_AREA, NO_WORTH, ROUNDING, WHOLE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Cells of a pricing knapsack along and across the bands; sizes are rounded down to a cell, so the bound stays one.
CELLS_ALONG, CELLS_ACROSS = 1000, 400
#: Rounds of new patterns, at least and at most, and the sums that all of them together may take.
LEAST_ROUNDS, MOST_ROUNDS, SUMS = 8, 120, 6e9
SMOOTH = 0.6


def area_bound(sizes: Sequence[tuple[float, float]], sheets: Sequence[ClearBoard], kerf: float = 0.0) -> float:
    """Cost of as much board area as the pieces have, from the boards with the cheapest area first.

    sizes: (along, across) of each piece, mm; sheets with a along. With a kerf every piece and board counts that much
    longer and wider, since no two pieces share a kerf.
    """
    needed = sum((a + kerf) * (b + kerf) for a, b in sizes)
    cost = 0.0
    for sheet in sorted(sheets, key=lambda s: s.cost / (s.a * s.b)):
        room = (sheet.a + kerf) * (sheet.b + kerf)
        boards = needed / room if sheet.count == 0 else min(sheet.count, needed / room)
        cost += boards * sheet.cost
        needed -= boards * room
        if needed <= NO_AREA:
            break
    return cost


def lp_bound(
    sizes: Sequence[tuple[float, float]],
    sheets: Sequence[ClearBoard],
    kerf: float,
    ways: Sequence[str] = ("crosscut",),
    share: float = 1.0,
    cancelled: Callable[[], bool] | None = None,
) -> float | None:
    """Lower bound on the cost of cutting all pieces in three stages; None without scipy or where no bound was found.

    sizes: (along, across) of each piece; sheets with a along the board; ways: "crosscut" and/or "rip" first. share: of
    the rounds; they are counted by what they cost and not by the clock, so that the bound is the same on any machine.
    """
    try:
        from scipy.optimize import linprog
    except ImportError:
        return None
    if not sizes:
        return 0.0
    kinds: dict[tuple[float, float], int] = {}
    for a, b in sizes:
        key = (round(a, 4), round(b, 4))
        kinds[key] = kinds.get(key, 0) + 1
    pieces = sorted(kinds)
    demand = np.array([kinds[k] for k in pieces], dtype=np.float64)
    pricers = [(s, Pricer(pieces, demand, sheets[s], kerf, way)) for s in range(len(sheets)) for way in ways]
    limited = [s for s, sheet in enumerate(sheets) if sheet.count > 0]
    row_of = {s: i for i, s in enumerate(limited)}
    columns: list[Floats] = []
    owner: list[int] = []
    costs: list[float] = []

    def add(sheet: int, column: Floats) -> None:
        columns.append(column)
        owner.append(sheet)
        costs.append(sheets[sheet].cost)

    for s, pricer in pricers:
        for column in pricer.plain():
            add(s, column)
    # Pieces left uncut at a forbidding price keep the master solvable until patterns are found.
    dear = 1e3 * (max(s.cost for s in sheets) + 1.0)
    best, centre = -inf, np.zeros(len(demand))
    rounds = int(min(MOST_ROUNDS, max(LEAST_ROUNDS, share * SUMS / max(1.0, sum(p.sums for _, p in pricers)))))
    for turn in range(rounds):
        matrix = np.zeros((len(demand) + len(limited), len(columns) + len(demand)))
        matrix[: len(demand), : len(columns)] = -np.array(columns).T if columns else 0.0
        matrix[: len(demand), len(columns) :] = -np.eye(len(demand))
        for c, s in enumerate(owner):
            if s in row_of:
                matrix[len(demand) + row_of[s], c] = 1.0
        limits = np.concatenate([-demand, [float(sheets[s].count) for s in limited]])
        prices = np.concatenate([costs, np.full(len(demand), dear)])
        solved = linprog(prices, A_ub=matrix, b_ub=limits, bounds=(0, None), method="highs")
        if solved.status != 0:
            return None if best == -inf else best
        dual = np.maximum(0.0, -solved.ineqlin.marginals[: len(demand)])
        rent = np.maximum(0.0, -solved.ineqlin.marginals[len(demand) :])
        # Prices drawn towards the best so far swing less from round to round (smoothing, after Wentges, 1997).
        gained = False
        for prices_now in (SMOOTH * centre + (1 - SMOOTH) * dual, dual) if best > 0 else (dual,):
            values = np.zeros(len(sheets))
            for s, pricer in pricers:
                value, column = pricer.best(prices_now)
                values[s] = max(values[s], value)
                dues = sheets[s].cost + (rent[row_of[s]] if s in row_of else 0.0)
                if float(dual @ column) > dues + LP_GAIN * max(1.0, sheets[s].cost):
                    add(s, column)
                    gained = True
            bound, scaled = lagrangian(prices_now, demand, sheets, values)
            if bound > best:
                best, centre = bound, scaled
            if gained:
                break
        if not gained:
            uncut = float(solved.x[len(columns) :].sum())
            return None if uncut > WHOLE else best
        apart = float(solved.fun) - best
        if apart < LP_GAIN * abs(best) or (turn > rounds / 5 and apart < LP_CLOSE * abs(best)):
            break
        if cancelled and cancelled():
            break
    return best if best > 0 else None


def lagrangian(dual: Floats, demand: Floats, sheets: Sequence[ClearBoard], values: Floats) -> tuple[float, Floats]:
    """The bound that any prices of pieces give, once no unlimited board's best pattern is worth more than the board,
    and the prices so lowered."""
    scale = min((s.cost / v for s, v in zip(sheets, values) if s.count == 0 and v > s.cost), default=1.0)
    rent = sum(s.count * max(0.0, scale * v - s.cost) for s, v in zip(sheets, values) if s.count > 0)
    return float(scale * (dual @ demand) - rent), scale * dual


class Pricer:
    """The worthiest pattern of one sheet, one way."""

    def __init__(
        self, pieces: Sequence[tuple[float, float]], demand: Floats, sheet: ClearBoard, kerf: float, way: str
    ) -> None:
        turned = way == "rip"
        self.a = np.array([p[1] if turned else p[0] for p in pieces])
        self.b = np.array([p[0] if turned else p[1] for p in pieces])
        long, wide = (sheet.b, sheet.a) if turned else (sheet.a, sheet.b)
        self.fits = np.flatnonzero((self.a <= long + ROUNDING) & (self.b <= wide + ROUNDING))
        self.demand = demand.astype(np.int64)
        self.count = len(pieces)
        self.wa, self.cells_a = _cells(self.a, long, kerf, CELLS_ALONG)
        self.wb, self.cells_b = _cells(self.b, wide, kerf, CELLS_ACROSS)
        self.order = self.fits[np.argsort(self.wb[self.fits], kind="stable")]
        self.sums = float(self.cells_a * (self.cells_b * len(np.unique(self.wb[self.fits])) + self.cells_a))

    def plain(self) -> list[Floats]:
        """Boards of one kind of piece each."""
        found = []
        for k in self.fits:
            column = np.zeros(self.count)
            column[k] = max(1, (self.cells_b // self.wb[k]) * (self.cells_a // self.wa[k]))
            # Rounded down, sizes may promise more than fit: then it is still no less than what fits, and a bound.
            found.append(column)
        return found

    def best(self, dual: Floats) -> tuple[float, Floats]:
        """Worth and piece counts of the best pattern at these prices, and no pattern is worth more."""
        column = np.zeros(self.count)
        useful = [int(k) for k in self.order if dual[k] > NO_WORTH]
        if not useful:
            return 0.0, column
        # Strips of every width, for every length of band: pieces no wider than it, end to end.
        sack = Knapsack(self.cells_a)
        strips: list[tuple[int, int]] = []  # cells across, row of the knapsack
        for k in useful:
            sack.add(k, int(self.wa[k]), float(dual[k]), int(self.demand[k]))
            if strips and strips[-1][0] == int(self.wb[k]):
                strips.pop()
            if not strips or (sack.rows[-1] > sack.rows[strips[-1][1]] + NO_WORTH).any():
                strips.append((int(self.wb[k]), sack.stop))
        wide = np.array([w for w, _ in strips])
        worth = np.array([sack.rows[stop] for _, stop in strips])
        # Bands of every length: strips side by side, as often as one likes.
        bands = np.zeros((self.cells_b + 1, self.cells_a + 1))
        which = np.full(bands.shape, -1, dtype=np.int32)
        for x in range(1, self.cells_b + 1):
            bands[x] = bands[x - 1]
            able = int(np.searchsorted(wide, x, side="right"))
            if able:
                tried = bands[x - wide[:able]] + worth[:able]
                best = tried.argmax(axis=0)
                value = tried[best, np.arange(self.cells_a + 1)]
                more = value > bands[x] + NO_WORTH
                bands[x, more], which[x, more] = value[more], best[more]
        # The board: bands one behind the other.
        full, board = bands[-1], np.zeros(self.cells_a + 1)
        cut = np.zeros(self.cells_a + 1, dtype=np.int64)
        for y in range(1, self.cells_a + 1):
            tried = board[y - 1 :: -1] + full[1 : y + 1] if y > 1 else board[:1] + full[1:2]
            cut[y] = int(tried.argmax()) + 1
            board[y] = tried[cut[y] - 1]
        y = self.cells_a
        while y > 0 and board[y] > NO_WORTH:
            h, x = int(cut[y]), self.cells_b
            while x > 0:
                n = int(which[x, h])
                if n < 0:
                    x -= 1
                    continue
                for k, many in sack.chosen(h, strips[n][1]):
                    column[k] += many
                x -= int(wide[n])
            y -= h
        return float(board[-1]), column


def _cells(sizes: Floats, room: float, kerf: float, most: int) -> tuple[Ints, int]:
    """Sizes with their kerf in whole cells, rounded down, and the room, rounded up, in no more than `most` cells."""
    total = room + kerf
    step = 0.1
    whole = np.rint((np.append(sizes, room) + kerf) * 10)
    exact = np.abs((np.append(sizes, room) + kerf) * 10 - whole).max() < WHOLE
    if exact:
        step = float(np.gcd.reduce(whole.astype(np.int64))) / 10
    if not exact or total / step > most:
        step = total / most
    cells = np.maximum(1, np.floor((sizes + kerf) / step + WHOLE)).astype(np.int64)
    return cells, max(1, ceil(total / step - WHOLE))
