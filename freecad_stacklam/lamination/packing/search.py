# SPDX-License-Identifier: LGPL-2.1-or-later

"""The search for the cheapest way to lay pieces on boards.

First fit at once, and on request band-by-band knapsacks with corrected worths and shuffled first fits until the time
is up.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil
from time import perf_counter

import numpy as np

from freecad_stacklam.lamination.packing.byworth import by_worth, corrected
from freecad_stacklam.lamination.packing.exchange import cheaper
from freecad_stacklam.lamination.packing.firstfit import first_fit
from freecad_stacklam.lamination.packing.lot import Lot, Packing
from freecad_stacklam.lamination.tolerances import SAVING, WHOLE

Progress = Callable[[float], None]
Cancelled = Callable[[], bool]

#: Plans up to this much dearer than the best get their boards changed with more care.
WORTH_A_TRY = 1.15


def cheapest(
    lots: dict[bool, Lot], floor: float, seconds: float, progress: Progress, cancelled: Cancelled | None
) -> tuple[Packing, bool, str]:
    """The cheapest packing found, whether it is crosscut first, and how it was found.

    lots: the same pieces to be laid, by whether they are crosscut first. floor: no packing costs less. seconds: 0 for
    the quick answer. progress: called with 0…1. cancelled: asked often; True ends the search.
    """
    best: tuple[Packing, bool, str] | None = None

    def keep(packing: Packing | None, across: bool, method: str) -> None:
        nonlocal best
        if packing is not None and packing.better_than(best[0] if best else None):
            best = (packing, across, method)

    for across, lot in lots.items():
        for order in _orders(lot):
            for sheets in _preferences(lot):
                keep(cheaper(lot, first_fit(lot, order, sheets)), across, "first fit")
            if len(lot.items) > 600:
                break
    if seconds > 0:
        _search(lots, floor, seconds, progress, cancelled, keep, lambda: best[0] if best else None)
    assert best is not None  # a first fit was kept
    return best


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
    """Orders in which boards are opened: those on hand first, small or cheap ones first, and large ones first."""
    n = [k for k, s in enumerate(lot.sheets) if s.clear]
    cheap = sorted(n, key=lambda k: (not lot.sheets[k].first, lot.sheets[k].cost / lot.sheets[k].clear))
    large = sorted(n, key=lambda k: (not lot.sheets[k].first, -lot.sheets[k].clear))
    return [cheap] if cheap == large else [cheap, large]


def _search(
    lots: dict[bool, Lot],
    floor: float,
    seconds: float,
    progress: Progress,
    cancelled: Cancelled | None,
    keep: Callable[[Packing | None, bool, str], None],
    best: Callable[[], Packing | None],
) -> None:
    """Try both methods in turn until the time is up, the plan cannot be bettered, or the maker cancels."""
    rng = np.random.default_rng(20)
    begun = perf_counter()

    def over() -> bool:
        return perf_counter() - begun > seconds or bool(cancelled and cancelled())

    worths = {across: p.kind_a * p.kind_b for across, p in lots.items()}
    orders = {across: _orders(p) for across, p in lots.items()}
    costs = {s.cost for p in lots.values() for s in p.sheets}
    turn = 0
    while not over():
        held = best()
        if held is not None and not held.left:
            one = min(costs)
            # With boards of one price the cost goes in steps.
            goal = ceil(floor / one - WHOLE) * one if len(costs) == 1 else floor
            if held.cost <= goal * (1 + SAVING):
                break
        for across, lot in lots.items():
            if over():
                break
            sheets = _preferences(lot)[turn % len(_preferences(lot))]
            worth = worths[across] * (1.0 if turn == 0 else rng.uniform(0.97, 1.03, len(worths[across])))

            def some(kinds: list[int], turn: int = turn) -> list[int]:
                if turn % 3 == 0 or len(kinds) <= 2:
                    return kinds[:2]
                return [int(k) for k in rng.choice(kinds, size=min(3, len(kinds)), replace=False)]

            made = by_worth(lot, worth, sheets, over, some, ahead=turn % 3 != 1)
            if made is not None:
                made = cheaper(lot, made)
                worths[across] = corrected(lot, worths[across], made)
                held = best()
                if held is not None and made.cost < WORTH_A_TRY * held.cost and len(lot.items) <= 2000:
                    areas = lot.kind_a * lot.kind_b
                    powers = (1.0, 1.0, 1.1, 1.1, 1.2, 1.2)
                    made = cheaper(lot, made, [areas**p * rng.uniform(0.9, 1.1, len(areas)) for p in powers])
                keep(made, across, "band by band")
            if over() or len(lot.items) > 2000:
                continue
            for _ in range(4):
                order = list(orders[across][int(rng.integers(3))])
                size = lot.a if rng.random() < 0.5 else lot.a * lot.b
                noise = rng.normal(1.0, 0.12, len(order))
                order.sort(key=lambda i: -size[i] * noise[i])
                keep(cheaper(lot, first_fit(lot, order, sheets)), across, "shuffled first fit")
        turn += 1
        progress(min(1.0, (perf_counter() - begun) / seconds))
