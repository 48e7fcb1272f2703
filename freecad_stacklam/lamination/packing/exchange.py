# SPDX-License-Identifier: LGPL-2.1-or-later

"""A packing made cheaper by changing its boards."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.byworth import fill_board
from freecad_stacklam.lamination.packing.firstfit import first_fit
from freecad_stacklam.lamination.packing.lot import Lot, Packing, Place
from freecad_stacklam.lamination.tolerances import SAVING

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def cheaper(lot: Lot, packing: Packing, noise: Sequence[Floats] = ()) -> Packing:
    """The same, with each board changed for the cheapest free one that takes its pieces. `noise`: worths to fill
    that board by, tried in turn where first fit fails."""
    spare = [s.count or -1 for s in lot.sheets]
    for kind, _ in packing.boards:
        spare[kind] -= spare[kind] > 0
    boards = []
    for kind, places in sorted(packing.boards, key=lambda b: sum(lot.a[p[0]] * lot.b[p[0]] for p in b[1])):
        made = (kind, places)
        area = sum(lot.a[p[0]] * lot.b[p[0]] for p in places)
        cheap = sorted((k for k, s in enumerate(lot.sheets)
                        if spare[k] and s.cost < lot.sheets[kind].cost - SAVING and s.a * s.b >= area),
                       key=lambda k: lot.sheets[k].cost)  # fmt: skip
        for other in cheap:
            order = sorted((p[0] for p in places), key=lambda i: (-lot.items[i][0], -lot.items[i][1]))
            alone = _alone(lot, order, other, noise)
            if alone is not None:
                made = (other, alone)
                spare[kind] += lot.sheets[kind].count > 0
                spare[other] -= spare[other] > 0
                break
        boards.append(made)
    return lot.packing(boards, packing.left)


def _alone(lot: Lot, order: Sequence[int], kind: int, noise: Sequence[Floats]) -> tuple[Place, ...] | None:
    """All items on one board of this sheet, or None."""
    tried = first_fit(lot, order, [kind])
    if len(tried.boards) == 1 and not tried.left:
        return tried.boards[0][1]
    mine: dict[int, list[int]] = {}
    for item in order if len(noise) else ():
        mine.setdefault(lot.kind_of[item], []).append(item)
    counts = np.array([len(mine.get(k, ())) for k in range(len(lot.kinds))])
    for n, worth in enumerate(noise):
        pattern = fill_board(lot, lot.sheets[kind], counts, worth, n % 2 == 0)
        if len(pattern) == len(order):
            return tuple((mine[k].pop(), a, b) for k, a, b in pattern)
    return None
