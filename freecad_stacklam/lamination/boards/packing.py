# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rectangles onto boards in bands: the arithmetic under the cutting plan, free of wood.

A board is cut along its first axis a into bands, and each band across, along b, into pieces; a piece shorter than its
band is trimmed. With a along the board this is crosscutting first, with a across it ripping first. Sizes are mm; pieces
stand apart by the kerf and off the blocks (knots). Two ways to fill: first fit, decreasing; and band by band the
worthiest set of pieces (a knapsack), with worths that are corrected after each try towards pieces that were placed
badly (sequential value correction, a known heuristic for cutting stock).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.boards.knapsack import Knapsack
from freecad_stacklam.lamination.tolerances import NO_COST, NO_WORTH, ROUNDING, SAVING, WHOLE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Cells of a knapsack: exact in 0.1 mm where that takes no more than EXACT_CELLS, else about CELLS.
EXACT_CELLS = 2500
CELLS = 1200
#: A knapsack weighs up at most so many kinds of pieces at once.
MOST_KINDS = 160

Place = tuple[int, float, float]  # item, a, b


@dataclass(frozen=True)
class Sheet:
    """A board as it is packed: clear extents along a and b, blocks (a0, b0, a1, b1) in it, what one costs, how many
    there are (0: as many as wanted)."""

    a: float
    b: float
    cost: float
    count: int = 1
    blocks: tuple[tuple[float, float, float, float], ...] = ()
    first: bool = False  # to be used before others


@dataclass(frozen=True)
class Packing:
    """Boards used: (number of the sheet, places); `left` are the items that found no board."""

    boards: tuple[tuple[int, tuple[Place, ...]], ...]
    left: tuple[int, ...]
    cost: float

    def better_than(self, other: Packing | None) -> bool:
        """More placed, then cheaper."""
        return other is None or (len(self.left), self.cost) < (len(other.left), other.cost - SAVING)


class Packer:
    """Packs items of sizes (a, b) onto sheets."""

    def __init__(self, items: Sequence[tuple[float, float]], sheets: Sequence[Sheet], kerf: float) -> None:
        self.items = items
        self.a = np.array([i[0] for i in items])
        self.b = np.array([i[1] for i in items])
        self.sheets, self.kerf = sheets, kerf
        kinds: dict[tuple[float, float], list[int]] = {}
        for n, (a, b) in enumerate(items):
            kinds.setdefault((round(a, 6), round(b, 6)), []).append(n)
        order = sorted(kinds)
        self.kinds = [kinds[k] for k in order]
        self.kind_of = {i: k for k, kind in enumerate(order) for i in kinds[kind]}
        self.kind_a = np.array([k[0] for k in order])
        self.kind_b = np.array([k[1] for k in order])
        self.step = self._cell(self.kind_b, [s.b for s in sheets])
        self.step_a = self._cell(self.kind_a, [s.a for s in sheets])
        self.weights = np.maximum(1, np.ceil((self.kind_b + kerf) / self.step - WHOLE)).astype(np.int64)

    def _cell(self, kinds: Floats, rooms: Sequence[float]) -> float:
        """How fine a knapsack counts these sizes, mm."""
        sizes = (np.concatenate([kinds, rooms]) + self.kerf) * 10
        most = float(sizes.max())
        whole = np.rint(sizes).astype(np.int64)
        if np.abs(sizes - whole).max() < WHOLE:
            unit = int(np.gcd.reduce(whole))
            if most / unit <= EXACT_CELLS * 4:
                return unit / 10
        return 0.1 if most <= EXACT_CELLS else most / 10 / CELLS

    # First fit, decreasing.

    def first_fit(self, order: Sequence[int], sheets: Sequence[int]) -> Packing:
        """Put the items, in the given order, into the band that they fill best, else into a new band, else onto a new
        board: the first of `sheets` that has one and takes the item."""
        spare = [s.count or -1 for s in self.sheets]
        most = len(self.items) + sum(len(s.blocks) + 1 for s in self.sheets) + 64
        high, free, at = np.zeros(most), np.zeros(most), np.zeros(most)
        where = np.zeros((most, 2))
        slots = 0
        opened: list[int] = []
        ends: list[float] = []
        places: list[list[Place]] = []
        left: list[int] = []
        for item in order:
            a, b = self.items[item]
            fits = np.flatnonzero((high[:slots] >= a - ROUNDING) & (free[:slots] >= b - ROUNDING))
            if len(fits):
                slot = int(fits[np.lexsort((free[fits], high[fits]))[0]])
            else:
                board, band = self._new_band(a, b, opened, ends, spare, sheets)
                if band is None:
                    left.append(item)
                    continue
                if board == len(places):
                    places.append([])
                a0, gaps = band
                ends[board] = a0 + a + self.kerf
                slot = -1
                for low, up in gaps:
                    if slots == len(high):
                        high, free, at = (np.append(v, np.zeros(len(v))) for v in (high, free, at))
                        where = np.vstack([where, np.zeros_like(where)])
                    high[slots], free[slots], at[slots], where[slots] = a, up - low, low, (board, a0)
                    if slot < 0 and up - low >= b - ROUNDING:
                        slot = slots
                    slots += 1
            places[int(where[slot, 0])].append((item, float(where[slot, 1]), float(at[slot])))
            at[slot] += b + self.kerf
            free[slot] -= b + self.kerf
        return self._packing([(k, tuple(p)) for k, p in zip(opened, places)], left)

    def _new_band(
        self, a: float, b: float, opened: list[int], ends: list[float], spare: list[int], sheets: Sequence[int]
    ) -> tuple[int, tuple[float, list[tuple[float, float]]] | None]:
        for board, kind in enumerate(opened):
            if self.sheets[kind].a - ends[board] >= a - ROUNDING:
                band = self._band(self.sheets[kind], ends[board], a, b)
                if band:
                    return board, band
        for kind in sheets:
            if spare[kind]:
                band = self._band(self.sheets[kind], 0.0, a, b)
                if band:
                    spare[kind] -= 1
                    opened.append(kind)
                    ends.append(0.0)
                    return len(opened) - 1, band
        return -1, None

    def _band(self, sheet: Sheet, start: float, a: float, b: float) -> tuple[float, list[tuple[float, float]]] | None:
        """The first place from `start` for a band of extent a that holds an item of extent b, and its gaps."""
        for a0 in self._starts(sheet, start):
            if a0 + a > sheet.a + ROUNDING:
                return None
            gaps = self._gaps(sheet, a0, a0 + a)
            if any(up - low >= b - ROUNDING for low, up in gaps):
                return a0, gaps
        return None

    def _starts(self, sheet: Sheet, start: float) -> list[float]:
        return [start, *sorted(k[2] for k in sheet.blocks if k[2] > start)] if sheet.blocks else [start]

    def _gaps(self, sheet: Sheet, low: float, high: float) -> list[tuple[float, float]]:
        """What is clear across the board between two places along it."""
        if not sheet.blocks:
            return [(0.0, sheet.b)]
        taken = []
        for a0, b0, a1, b1 in sheet.blocks:
            if a0 < high - ROUNDING and a1 > low + ROUNDING:
                thin = max(0.0, self.kerf - (b1 - b0)) / 2  # pieces on both sides stand a kerf apart
                taken.append((b0 - thin, b1 + thin))
        gaps, at = [], 0.0
        for b0, b1 in sorted(taken):
            if b0 > at:
                gaps.append((at, b0))
            at = max(at, b1)
        if at < sheet.b:
            gaps.append((at, sheet.b))
        return gaps

    # Band by band, the worthiest pieces.

    def by_worth(
        self,
        worth: Floats,
        sheets: Sequence[int],
        stop: Callable[[], bool] = lambda: False,
        pick: Callable[[list[int]], list[int]] = lambda kinds: kinds[:1],
        ahead: bool = True,
    ) -> Packing | None:
        """Fill board after board by knapsack. `worth` of one piece of each kind. `pick` chooses, among the sheets that
        may come next, those to be tried; the best filled for its cost is taken. ahead: choose a band with a view to
        those that fill the rest of its board. None when `stop` said so."""
        counts = np.array([len(k) for k in self.kinds])
        next_item = np.zeros(len(self.kinds), dtype=np.int64)
        spare = [s.count or -1 for s in self.sheets]
        boards: list[tuple[int, tuple[Place, ...]]] = []
        while counts.any():
            if stop():
                return None
            ready = [k for k in sheets if spare[k]]
            on_hand = [k for k in ready if self.sheets[k].first]
            filled = None
            for group in (on_hand, ready):
                tried = [(k, self._fill(self.sheets[k], counts, worth, ahead)) for k in pick(group)] if group else []
                tried = [(k, f) for k, f in tried if f]
                if not tried and group:
                    rest = ((k, self._fill(self.sheets[k], counts, worth, ahead)) for k in group)
                    tried = next(([(k, f)] for k, f in rest if f), [])
                if tried:
                    filled = max(tried, key=lambda kf: self._value(kf[0], kf[1]))
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
                    places.append((self.kinds[k][int(next_item[k])], a, b))
                    next_item[k] += 1
                boards.append((kind, tuple(places)))
            counts = counts - times * used
        left = [i for k, items in enumerate(self.kinds) for i in items[int(next_item[k]) :]]
        return self._packing(boards, left)

    def _value(self, kind: int, pattern: list[Place]) -> float:
        sheet = self.sheets[kind]
        area = sum(self.kind_a[k] * self.kind_b[k] for k, _, _ in pattern)
        return float(area / max(sheet.cost, NO_COST))

    def _fill(self, sheet: Sheet, counts: Ints, worth: Floats, ahead: bool) -> list[Place]:
        """Places (kind, a, b) on one board."""
        counts = counts.copy()
        places: list[Place] = []
        at = 0.0
        while True:
            fits = (self.kind_a <= sheet.a - at + ROUNDING) & (self.kind_b <= sheet.b + ROUNDING)
            kinds = np.flatnonzero(fits & (counts > 0))
            if not len(kinds):
                return places
            if len(kinds) > MOST_KINDS:
                # The longest, and a fair sample of the rest.
                rest = kinds[: -MOST_KINDS // 2]
                kinds = np.concatenate([rest[:: -(-len(rest) * 2 // MOST_KINDS)], kinds[-MOST_KINDS // 2 :]])
            found = self._best_band(sheet, at, kinds, counts, worth, ahead)
            if found is None:
                return places
            a0, high, pieces = found
            for k, b in pieces:
                places.append((k, a0, b))
                counts[k] -= 1
            at = a0 + high + self.kerf

    def _best_band(
        self, sheet: Sheet, at: float, kinds: Ints, counts: Ints, worth: Floats, ahead: bool
    ) -> tuple[float, float, list[tuple[int, float]]] | None:
        sack, stops = self._knapsack(sheet.b, kinds, counts, worth)
        table = np.array(sack.rows)
        heights = self.kind_a[kinds]
        least = float(heights[0])
        best: tuple[float, float, int, float, list[tuple[float, float]]] | None = None
        if ahead and not any(k[2] > at for k in sheet.blocks):
            row = self._row_ahead(sheet.a - at, kinds, counts, table[stops, -1])
            return self._pieces(at, row, sack.chosen(sack.cells, stops[row]), [(0.0, sheet.b)], kinds, counts)
        for a0 in self._starts(sheet, at):
            edges = sorted({k[0] for k in sheet.blocks if k[0] > a0 and k[2] > a0} | {sheet.a + 2 * ROUNDING})
            for e, edge in enumerate(edges):
                # Bands that end before this block begins, and not before the one ahead of it.
                low = edges[e - 1] - a0 if e else -1.0
                rows = np.flatnonzero(
                    (heights > low + ROUNDING)
                    & (heights <= edge - a0 + ROUNDING)
                    & (heights <= sheet.a - a0 + ROUNDING)
                )
                if not len(rows):
                    continue
                gaps = self._gaps(sheet, a0, a0 + float(heights[rows[-1]]))
                if not gaps:
                    continue
                widest = max(gaps, key=lambda g: g[1] - g[0])
                cell = int(np.floor((widest[1] - widest[0] + self.kerf) / self.step + WHOLE))
                values = table[stops[rows], min(cell, sack.cells)]
                taken = a0 + heights[rows] + self.kerf - at
                rest = sheet.a - at - taken
                taken = np.where(rest < least, sheet.a - at + self.kerf, taken)
                k = int((values / taken).argmax())
                density = float(values[k] / taken[k])
                if values[k] > 0 and (best is None or density > best[0] * (1 + NO_WORTH)):
                    best = (density, a0, int(rows[k]), float(cell), gaps)
        if best is None:
            return None
        _, a0, row, room, gaps = best
        return self._pieces(a0, row, sack.chosen(min(int(room), sack.cells), stops[row]), gaps, kinds, counts)

    def _row_ahead(self, room: float, kinds: Ints, counts: Ints, worth: Floats) -> int:
        """The highest band among those that together are worth most in the length that is left."""
        sack = Knapsack(int((room + self.kerf) / self.step_a + WHOLE))
        reached = 0.0
        for row, k in enumerate(kinds.tolist()):
            if worth[row] > reached:  # else a lower band is worth as much
                reached = float(worth[row])
                weight = round(float((self.kind_a[k] + self.kerf) / self.step_a))
                sack.add(row, max(1, min(sack.cells, weight)), reached, int(counts[k]))
        best = sack.chosen(sack.cells)
        return best[0][0] if best else int(worth.argmax())

    def _pieces(
        self,
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
        for k, many in sorted(chosen, key=lambda c: -self.kind_a[c[0]]):
            left[k] -= many
            for _ in range(many):
                pieces.append((k, b))
                b += float(self.kind_b[k]) + self.kerf
        for low, up in gaps:
            if (low, up) == widest:
                continue
            for k in kinds[: row + 1][::-1].tolist():
                while left[k] and self.kind_b[k] <= up - low + ROUNDING:
                    pieces.append((k, low))
                    left[k] -= 1
                    low += float(self.kind_b[k]) + self.kerf
        return a0, float(self.kind_a[kinds[row]]), pieces

    def _knapsack(self, width: float, kinds: Ints, counts: Ints, worth: Floats) -> tuple[Knapsack, Ints]:
        """Pieces side by side across the board, and the row of it for the first 1, 2, 3 … kinds."""
        sack = Knapsack(int(np.floor((width + self.kerf) / self.step + WHOLE)))
        stops = []
        for k in kinds.tolist():
            sack.add(k, int(self.weights[k]), float(worth[k]), int(counts[k]))
            stops.append(sack.stop)
        return sack, np.array(stops)

    # Afterwards.

    def _packing(self, boards: Sequence[tuple[int, tuple[Place, ...]]], left: Sequence[int]) -> Packing:
        return Packing(tuple(boards), tuple(left), float(sum(self.sheets[k].cost for k, _ in boards)))

    def cheaper(self, packing: Packing, noise: Sequence[Floats] = ()) -> Packing:
        """The same, with each board changed for the cheapest free one that takes its pieces. `noise`: worths to fill
        that board by, tried in turn where first fit fails."""
        spare = [s.count or -1 for s in self.sheets]
        for kind, _ in packing.boards:
            spare[kind] -= spare[kind] > 0
        boards = []
        for kind, places in sorted(packing.boards, key=lambda b: sum(self.a[p[0]] * self.b[p[0]] for p in b[1])):
            made = (kind, places)
            area = sum(self.a[p[0]] * self.b[p[0]] for p in places)
            cheap = sorted((k for k, s in enumerate(self.sheets)
                            if spare[k] and s.cost < self.sheets[kind].cost - SAVING and s.a * s.b >= area),
                           key=lambda k: self.sheets[k].cost)  # fmt: skip
            for other in cheap:
                order = sorted((p[0] for p in places), key=lambda i: (-self.items[i][0], -self.items[i][1]))
                alone = self._alone(order, other, noise)
                if alone is not None:
                    made = (other, alone)
                    spare[kind] += self.sheets[kind].count > 0
                    spare[other] -= spare[other] > 0
                    break
            boards.append(made)
        return self._packing(boards, packing.left)

    def _alone(self, order: Sequence[int], kind: int, noise: Sequence[Floats]) -> tuple[Place, ...] | None:
        """All items on one board of this sheet, or None."""
        tried = self.first_fit(order, [kind])
        if len(tried.boards) == 1 and not tried.left:
            return tried.boards[0][1]
        mine: dict[int, list[int]] = {}
        for item in order if len(noise) else ():
            mine.setdefault(self.kind_of[item], []).append(item)
        counts = np.array([len(mine.get(k, ())) for k in range(len(self.kinds))])
        for n, worth in enumerate(noise):
            pattern = self._fill(self.sheets[kind], counts, worth, n % 2 == 0)
            if len(pattern) == len(order):
                return tuple((mine[k].pop(), a, b) for k, a, b in pattern)
        return None

    def corrected(self, worth: Floats, packing: Packing) -> Floats:
        """Worths moved towards what each kind really cost: dear where its board was badly filled."""
        total = np.zeros(len(worth))
        count = np.zeros(len(worth))
        for kind, places in packing.boards:
            sheet = self.sheets[kind]
            area = sum(self.a[p[0]] * self.b[p[0]] for p in places)
            waste = sheet.a * sheet.b / area
            for p in places:
                k = self.kind_of[p[0]]
                total[k] += float(self.kind_a[k] * self.kind_b[k]) * waste
                count[k] += 1
        fresh = np.where(count > 0, total / np.maximum(count, 1), worth)
        return np.asarray(0.5 * worth + 0.5 * fresh)
