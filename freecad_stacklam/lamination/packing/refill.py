# SPDX-License-Identifier: LGPL-2.1-or-later

"""Many pieces on many boards: each board filled as full as can be, then a few boards at a time emptied and filled anew.

Plans are built board after board, with worths corrected towards pieces that lay on badly filled boards (sequential
value correction). Then a large neighbourhood search takes the pieces off some boards, the badly filled ones rather
than others, and fills boards with them again. What costs less is kept; so is what costs the same and gathers the waste
on fewer boards, for the last of them may be emptied or changed for a cheaper one at length.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.fullboard import Effort, fullest
from freecad_stacklam.lamination.packing.lot import Filled, Lot, Place, rooms_of
from freecad_stacklam.lamination.tolerances import NO_COST, ROUNDING, SAVING

Floats = NDArray[np.float64]

#: Boards that are emptied together, at most.
TOGETHER = 4
#: Kinds of boards, each way, that are tried for the next one, at most.
TRIED = 4
#: A worth moves so far towards what a piece really cost; a board that is nearly empty counts as filled to this part.
CORRECTION, LEAST_FILLED = 0.2, 0.67
#: How a board is filled from all pieces, and from those of a few boards, where one try finds less.
FROM_ALL, FROM_FEW = Effort(), Effort(beginnings=8, lengths=12)
#: A board is full at best to this part.
FULL = 0.95
#: Worths are drawn within so much of their own from try to try.
NOISE = 0.1


class Refill:
    """The pieces and boards of a job, by whether they are crosscut first, and the state of chance."""

    def __init__(self, lots: Mapping[bool, Lot], rng: np.random.Generator) -> None:
        self.lots, self.rng = lots, rng
        self.lot = lot = next(iter(lots.values()))
        self.area = (lot.a + lot.kerf) * (lot.b + lot.kerf)
        self.worth = self.area.copy()
        #: Cost of a mm² at the cheapest, so that what a board wastes has a cost.
        self.rate = min(s.cost / ((s.a + lot.kerf) * (s.b + lot.kerf)) for s in lot.sheets if s.clear)

    def cost(self, boards: Sequence[Filled]) -> float:
        """What the boards cost together."""
        return float(sum(self.lot.sheets[f.kind].cost for f in boards))

    def wasted(self, board: Filled) -> float:
        """What of the cost of a board is paid for more than its pieces at the cheapest rate."""
        return self.lot.sheets[board.kind].cost - self.rate * float(self.area[[p[0] for p in board.places]].sum())

    def nearest(self, boards: Sequence[Filled]) -> list[int]:
        """Numbers of the boards, first those that lack least waste to be emptied, or changed for one that costs less
        and is then filled as boards are at best."""
        lacking = []
        for one in boards:
            sheet, wasted = self.lot.sheets[one.kind], self.wasted(one)
            lack = sheet.cost - wasted
            for other in self.lot.sheets:
                held = self.rate * FULL * (other.a + self.lot.kerf) * (other.b + self.lot.kerf)
                if other.clear and not other.count and other.cost < sheet.cost - SAVING:
                    lack = min(lack, max(0.0, sheet.cost - held - wasted))
            lacking.append(lack)
        return [int(n) for n in np.argsort(lacking, kind="stable")]

    def built(self, stop: Callable[[], bool]) -> list[Filled] | None:
        """A plan built board after board, after which the worths are corrected; None where `stop` said so or boards ran
        out."""
        noise = self.rng.uniform(1 - NOISE / 3, 1 + NOISE / 3, len(self.area))
        spare = {k: s.count or -1 for k, s in enumerate(self.lot.sheets)}
        made = self._filled(range(len(self.area)), spare, np.inf, self.worth * noise, FROM_ALL, stop)
        if made is not None:
            dear = np.ones(len(self.area))
            for board in made:
                mine = [p[0] for p in board.places]
                filled = self.rate * float(self.area[mine].sum()) / self.lot.sheets[board.kind].cost
                dear[mine] = 1 / max(filled, LEAST_FILLED)
            self.worth = (1 - CORRECTION) * self.worth + CORRECTION * self.area * dear
        return made

    def anew(self, boards: Sequence[Filled], stop: Callable[[], bool]) -> list[Filled] | None:
        """The same pieces with some boards filled anew; None where that is no better."""
        waste = np.array([self.wasted(f) for f in boards])
        likely = waste + waste.mean()
        likely = np.maximum(likely, NO_COST)
        many = min(len(boards), int(self.rng.integers(2, TOGETHER + 1)))
        group = self.rng.choice(len(boards), size=many, replace=False, p=likely / likely.sum()).tolist()
        mine, others = [boards[n] for n in group], [f for n, f in enumerate(boards) if n not in group]
        spare = {k: s.count or -1 for k, s in enumerate(self.lot.sheets)}
        for one in others:
            spare[one.kind] -= spare[one.kind] > 0
        cost = self.cost(mine)
        worth = self.area * self.rng.uniform(1 - NOISE, 1 + NOISE, len(self.area))
        made = self._filled([p[0] for f in mine for p in f.places], spare, cost, worth, FROM_FEW, stop)
        if made is None:
            return None
        saved = cost - self.cost(made)
        gathered = sum(self.wasted(f) ** 2 for f in made) - sum(self.wasted(f) ** 2 for f in mine)
        return [*others, *made] if saved > SAVING * max(1.0, cost) or gathered >= 0 else None

    def _filled(
        self,
        items: Sequence[int],
        spare: dict[int, int],
        budget: float,
        worth: Floats,
        effort: Effort,
        stop: Callable[[], bool],
    ) -> list[Filled] | None:
        """Boards for all these pieces for no more than the budget; None where some are left."""
        left = np.array(sorted(items))
        made: list[Filled] = []
        while len(left):
            if stop():
                return None
            able = [(k, across) for k, many in spare.items() for across in self.lots
                    if many and self.lot.sheets[k].clear and self.lot.sheets[k].cost <= budget + ROUNDING]  # fmt: skip
            if len(able) > TRIED:
                able = [able[n] for n in sorted(self.rng.choice(len(able), size=TRIED, replace=False).tolist())]
            best: tuple[float, Filled] | None = None
            for kind, across in able:
                places = self._board(kind, across, left, worth, effort)
                if not places:
                    continue
                cost = max(self.lot.sheets[kind].cost, NO_COST)
                value = float(self.area[[p[0] for p in places]].sum()) / cost * self.rng.uniform(0.97, 1.03)
                if len(places) == len(left):
                    value *= 2.0  # it ends here
                if best is None or value > best[0]:
                    best = value, Filled(kind, across, tuple(places))
            if best is None:
                return None
            made.append(best[1])
            spare[best[1].kind] -= spare[best[1].kind] > 0
            budget -= self.lot.sheets[best[1].kind].cost
            left = np.setdiff1d(left, [p[0] for p in best[1].places])
        return made

    def _board(self, kind: int, across: bool, left: NDArray[np.int64], worth: Floats, effort: Effort) -> list[Place]:
        """Places on one board, in one of the ways that it is seen as clear rectangles."""
        lot = self.lots[across]
        ways = rooms_of(lot.sheets[kind], lot.kerf)
        places: list[Place] = []
        for room in ways[int(self.rng.integers(len(ways)))] if ways else []:
            size = (room[2] - room[0], room[3] - room[1])
            free = np.setdiff1d(left, [p[0] for p in places])
            spots = fullest(size, lot.kerf, lot.a[free], lot.b[free], worth[free], self.rng, effort,
                            whole=across or bool(places))  # fmt: skip
            places += [(int(free[k]), room[0] + a, room[1] + b) for k, a, b in spots]
        return places
