# SPDX-License-Identifier: LGPL-2.1-or-later

"""Band by band the worthiest set of pieces (a knapsack).

Worths are corrected after each try towards pieces that were placed badly (sequential value correction, a known
heuristic for cutting stock).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.knapsack import Knapsack
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing, Place
from freecad_stacklam.lamination.tolerances import NO_COST, NO_WORTH, ROUNDING, WHOLE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: A knapsack weighs up at most so many kinds of pieces at once.
MOST_KINDS = 160


def by_worth(
    lot: Lot,
    worth: Floats,
    sheets: Sequence[int],
    stop: Callable[[], bool] = lambda: False,
    pick: Callable[[list[int]], list[int]] = lambda kinds: kinds[:1],
    ahead: bool = True,
    own_first: bool = True,
) -> Packing | None:
    """Fill board after board by knapsack. `worth` of one piece of each kind. `pick` chooses, among the sheets that
    may come next, those to be tried; the best filled for its cost is taken. ahead: choose a band with a view to
    those that fill the rest of its board. own_first: those on hand before others. None when `stop` said so."""
    counts = np.array([len(k) for k in lot.kinds])
    next_item = np.zeros(len(lot.kinds), dtype=np.int64)
    spare = [s.count or -1 for s in lot.sheets]
    boards: list[tuple[int, tuple[Place, ...]]] = []
    while counts.any():
        if stop():
            return None
        ready = [k for k in sheets if spare[k]]
        on_hand = [k for k in ready if lot.sheets[k].first] if own_first else []
        filled = None
        for group in (on_hand, ready):
            tried = [(k, fill_board(lot, lot.sheets[k], counts, worth, ahead)) for k in pick(group)] if group else []
            tried = [(k, f) for k, f in tried if f]
            if not tried and group:
                rest = ((k, fill_board(lot, lot.sheets[k], counts, worth, ahead)) for k in group)
                tried = next(([(k, f)] for k, f in rest if f), [])
            if tried:
                filled = max(tried, key=lambda kf: _value(lot, kf[0], kf[1]))
                break
        if filled is None:
            break
        kind, pattern = filled
        used = np.bincount([p[0] for p in pattern], minlength=len(counts))
        times = int((counts[used > 0] // used[used > 0]).min())
        if spare[kind] > 0:
            times = min(times, spare[kind])
            spare[kind] -= times
        for _ in range(times):
            places = []
            for k, a, b in pattern:
                places.append((lot.kinds[k][int(next_item[k])], a, b))
                next_item[k] += 1
            boards.append((kind, tuple(places)))
        counts = counts - times * used
    left = [i for k, items in enumerate(lot.kinds) for i in items[int(next_item[k]) :]]
    return lot.packing(boards, left)


def _value(lot: Lot, kind: int, pattern: list[Place]) -> float:
    sheet = lot.sheets[kind]
    area = sum(lot.kind_a[k] * lot.kind_b[k] for k, _, _ in pattern)
    return float(area / max(sheet.cost, NO_COST))


def fill_board(lot: Lot, sheet: ClearBoard, counts: Ints, worth: Floats, ahead: bool) -> list[Place]:
    """Places (kind, a, b) on one board."""
    counts = counts.copy()
    places: list[Place] = []
    at = 0.0
    while True:
        fits = (lot.kind_a <= sheet.a - at + ROUNDING) & (lot.kind_b <= sheet.b + ROUNDING)
        kinds = np.flatnonzero(fits & (counts > 0))
        if not len(kinds):
            return places
        if len(kinds) > MOST_KINDS:
            # The longest, and a fair sample of the rest.
            rest = kinds[: -MOST_KINDS // 2]
            kinds = np.concatenate([rest[:: -(-len(rest) * 2 // MOST_KINDS)], kinds[-MOST_KINDS // 2 :]])
        found = _best_band(lot, sheet, at, kinds, counts, worth, ahead)
        if found is None:
            return places
        a0, high, pieces = found
        for k, b in pieces:
            places.append((k, a0, b))
            counts[k] -= 1
        at = a0 + high + lot.kerf


def _best_band(
    lot: Lot, sheet: ClearBoard, at: float, kinds: Ints, counts: Ints, worth: Floats, ahead: bool
) -> tuple[float, float, list[tuple[int, float]]] | None:
    sack, stops = _knapsack(lot, sheet.b, kinds, counts, worth)
    table = np.array(sack.rows)
    heights = lot.kind_a[kinds]
    least = float(heights[0])
    best: tuple[float, float, int, float, list[tuple[float, float]]] | None = None
    if ahead and not any(k[2] > at for k in sheet.blocks):
        row = _row_ahead(lot, sheet.a - at, kinds, counts, table[stops, -1])
        return _pieces(lot, at, row, sack.chosen(sack.cells, stops[row]), [(0.0, sheet.b)], kinds, counts)
    for a0 in lot.starts(sheet, at):
        edges = sorted({k[0] for k in sheet.blocks if k[0] > a0 and k[2] > a0} | {sheet.a + 2 * ROUNDING})
        for e, edge in enumerate(edges):
            # Bands that end before this block begins, and not before the one ahead of it.
            low = edges[e - 1] - a0 if e else -1.0
            rows = np.flatnonzero(
                (heights > low + ROUNDING) & (heights <= edge - a0 + ROUNDING) & (heights <= sheet.a - a0 + ROUNDING)
            )
            if not len(rows):
                continue
            gaps = lot.gaps(sheet, a0, a0 + float(heights[rows[-1]]))
            if not gaps:
                continue
            widest = max(gaps, key=lambda g: g[1] - g[0])
            cell = int(np.floor((widest[1] - widest[0] + lot.kerf) / lot.step + WHOLE))
            values = table[stops[rows], min(cell, sack.cells)]
            taken = a0 + heights[rows] + lot.kerf - at
            rest = sheet.a - at - taken
            taken = np.where(rest < least, sheet.a - at + lot.kerf, taken)
            k = int((values / taken).argmax())
            density = float(values[k] / taken[k])
            if values[k] > 0 and (best is None or density > best[0] * (1 + NO_WORTH)):
                best = (density, a0, int(rows[k]), float(cell), gaps)
    if best is None:
        return None
    _, a0, row, room, gaps = best
    return _pieces(lot, a0, row, sack.chosen(min(int(room), sack.cells), stops[row]), gaps, kinds, counts)


def _row_ahead(lot: Lot, room: float, kinds: Ints, counts: Ints, worth: Floats) -> int:
    """The highest band among those that together are worth most in the length that is left."""
    sack = Knapsack(int((room + lot.kerf) / lot.step_a + WHOLE))
    reached = 0.0
    for row, k in enumerate(kinds.tolist()):
        if worth[row] > reached:  # else a lower band is worth as much
            reached = float(worth[row])
            weight = round(float((lot.kind_a[k] + lot.kerf) / lot.step_a))
            sack.add(row, max(1, min(sack.cells, weight)), reached, int(counts[k]))
    best = sack.chosen(sack.cells)
    return best[0][0] if best else int(worth.argmax())


def _pieces(
    lot: Lot,
    a0: float,
    row: int,
    chosen: Sequence[tuple[int, int]],
    gaps: Sequence[tuple[float, float]],
    kinds: Ints,
    counts: Ints,
) -> tuple[float, float, list[tuple[int, float]]]:
    """The band's start, its extent, and its pieces (kind, b): the chosen in the widest gap, first fit beside."""
    left = counts.copy()
    widest = max(gaps, key=lambda g: g[1] - g[0])
    pieces: list[tuple[int, float]] = []
    b = widest[0]
    for k, many in sorted(chosen, key=lambda c: -lot.kind_a[c[0]]):
        left[k] -= many
        for _ in range(many):
            pieces.append((k, b))
            b += float(lot.kind_b[k]) + lot.kerf
    for low, up in gaps:
        if (low, up) == widest:
            continue
        for k in kinds[: row + 1][::-1].tolist():
            while left[k] and lot.kind_b[k] <= up - low + ROUNDING:
                pieces.append((k, low))
                left[k] -= 1
                low += float(lot.kind_b[k]) + lot.kerf
    return a0, float(lot.kind_a[kinds[row]]), pieces


def _knapsack(lot: Lot, width: float, kinds: Ints, counts: Ints, worth: Floats) -> tuple[Knapsack, Ints]:
    """Pieces side by side across the board, and the row of it for the first 1, 2, 3 … kinds."""
    sack = Knapsack(int(np.floor((width + lot.kerf) / lot.step + WHOLE)))
    stops = []
    for k in kinds.tolist():
        sack.add(k, int(lot.weights[k]), float(worth[k]), int(counts[k]))
        stops.append(sack.stop)
    return sack, np.array(stops)


def corrected(lot: Lot, worth: Floats, packing: Packing) -> Floats:
    """Worths moved towards what each kind really cost: dear where its board was badly filled."""
    total = np.zeros(len(worth))
    count = np.zeros(len(worth))
    for kind, places in packing.boards:
        sheet = lot.sheets[kind]
        area = sum(lot.a[p[0]] * lot.b[p[0]] for p in places)
        waste = sheet.a * sheet.b / area
        for p in places:
            k = lot.kind_of[p[0]]
            total[k] += float(lot.kind_a[k] * lot.kind_b[k]) * waste
            count[k] += 1
    fresh = np.where(count > 0, total / np.maximum(count, 1), worth)
    return np.asarray(0.5 * worth + 0.5 * fresh)
