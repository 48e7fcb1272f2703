# SPDX-License-Identifier: LGPL-2.1-or-later

"""Three stages of cuts for any number of pieces: bands, strips in a band, pieces end to end in a strip.

A strip is the worthiest set of pieces no wider than it that lie end to end in the band's length (a knapsack); which
strip comes next is chosen with a view to those that fill the rest of the band (another). Of several lengths of bands
the one that is worth most for its length is taken.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.knapsack import Knapsack
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing, Place, Room, rooms_of
from freecad_stacklam.lamination.tolerances import NO_COST, NO_WORTH, ROUNDING, WHOLE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Cells of these knapsacks along and across a band, at most, and kinds that they weigh at once.
CELLS, ACROSS, MOST_KINDS = 800, 400, 60


def by_strips(
    lot: Lot, worth: Floats, sheets: Sequence[int], rng: np.random.Generator, heights: int = 4, whole: bool = True
) -> Packing:
    """Fill board after board, the first two of `sheets` that there are and the better for its cost. heights: so many
    lengths of bands are tried. whole: whether one band may be all of a board."""
    counts = np.array([len(k) for k in lot.kinds])
    spare = [s.count or -1 for s in lot.sheets]
    boards: list[tuple[int, list[Place]]] = []
    while counts.any():
        best: tuple[float, int, list[Place]] | None = None
        tried = 0
        for kind in (k for k in sheets if spare[k]):
            pattern = _fill(lot, lot.sheets[kind], counts, worth, rng, heights, whole)
            if pattern:
                tried += 1
                value = sum(float(worth[k]) for k, _, _ in pattern) / max(lot.sheets[kind].cost, NO_COST)
                if len(pattern) == counts.sum():
                    value *= 2.0  # it ends here
                if best is None or value > best[0]:
                    best = value, kind, pattern
            if tried == 2:
                break
        if best is None:
            break
        _, kind, pattern = best
        spare[kind] -= spare[kind] > 0
        for k, _, _ in pattern:
            counts[k] -= 1
        boards.append((kind, pattern))
    return _packing(lot, boards)


def onto(
    lot: Lot, worth: Floats, boards: Sequence[int], rng: np.random.Generator, heights: int = 4, whole: bool = True
) -> Packing:
    """The same on just these boards, one after the other; what finds no room on them is left."""
    counts = np.array([len(k) for k in lot.kinds])
    filled: list[tuple[int, list[Place]]] = []
    for kind in boards:
        pattern = _fill(lot, lot.sheets[kind], counts, worth, rng, heights, whole)
        for k, _, _ in pattern:
            counts[k] -= 1
        if pattern:
            filled.append((kind, pattern))
    return _packing(lot, filled)


def _packing(lot: Lot, boards: Sequence[tuple[int, list[Place]]]) -> Packing:
    """Places of kinds as places of pieces."""
    taken = [0] * len(lot.kinds)
    made = []
    for kind, pattern in boards:
        places = []
        for k, a, b in pattern:
            places.append((lot.kinds[k][taken[k]], a, b))
            taken[k] += 1
        made.append((kind, tuple(places)))
    return lot.packing(made, [i for k, items in enumerate(lot.kinds) for i in items[taken[k] :]])


def _fill(
    lot: Lot, board: ClearBoard, counts: Ints, worth: Floats, rng: np.random.Generator, heights: int, whole: bool
) -> list[Place]:
    """Places (kind, a, b) on one board."""
    ways = rooms_of(board, lot.kerf)
    places: list[Place] = []
    if not ways:
        return places
    counts = counts.copy()
    bands = 0
    for room in ways[int(rng.integers(len(ways)))]:
        at = room[0]
        while True:
            found = _band(lot, (at, *room[1:]), counts, worth, rng, heights, whole or bands > 0)
            if found is None:
                break
            length, band = found
            for k, a, b in band:
                counts[k] -= 1
                places.append((k, a, b))
            at += length + lot.kerf
            bands += 1
    # A single band of several pieces in its length would need no cut along the bands.
    alone = not whole and bands == 1
    if alone and not any(lot.kind_a[k] + ROUNDING >= max(lot.kind_a[j] + a for j, a, _ in places) -
                         min(a for _, a, _ in places) for k, _, _ in places):  # fmt: skip
        return [(k, a, b) for k, a, b in places if a == min(p[1] for p in places)]
    return places


def _band(
    lot: Lot, room: Room, counts: Ints, worth: Floats, rng: np.random.Generator, heights: int, whole: bool
) -> tuple[float, list[Place]] | None:
    long, wide = room[2] - room[0], room[3] - room[1]
    kinds = np.flatnonzero((counts > 0) & (lot.kind_a <= long + ROUNDING) & (lot.kind_b <= wide + ROUNDING))
    if not len(kinds):
        return None
    if len(kinds) > MOST_KINDS:
        kinds = np.sort(rng.choice(kinds, size=MOST_KINDS, replace=False))
    lengths = np.unique(lot.kind_a[kinds])
    some = rng.choice(lengths, size=min(heights, len(lengths)), replace=False).tolist()
    pairs = rng.choice(lengths, size=(1, 2)).sum(axis=1) + lot.kerf
    some += [float(p) for p in pairs if p <= long + ROUNDING]
    if whole:
        some.append(long)
    least = float(lengths[0])
    mine = [int(k) for k in kinds[np.argsort(lot.kind_b[kinds], kind="stable")]]
    first = _EndToEnd(lot, mine, {k: int(counts[k]) for k in mine}, worth, long)
    best: tuple[float, float, list[Place]] | None = None
    for height in some:
        band = _strips(lot, (room[0], room[1], room[0] + height, room[3]), first, mine, counts, worth)
        if not band:
            continue
        used = max(float(lot.kind_a[k]) + a for k, a, _ in band) - room[0]
        # What is left behind the band and takes nothing more is lost with it.
        lost = long - used - lot.kerf < least
        density = sum(float(worth[k]) for k, _, _ in band) / ((long if lost else used) + lot.kerf)
        if best is None or density > best[0] * (1 + NO_WORTH):
            best = density, used, band
    return None if best is None else best[1:]


class _EndToEnd:
    """The worthiest pieces end to end in every length up to `long`, and no wider than each width there is."""

    def __init__(self, lot: Lot, kinds: Sequence[int], left: dict[int, int], worth: Floats, long: float) -> None:
        """kinds: by width."""
        self.lot = lot
        self.cell = max(1.0, (long + lot.kerf) / CELLS)
        self.sack = Knapsack(self._cells(long))
        self.stops: list[tuple[float, int]] = []
        for k in kinds:
            weight = int(np.ceil((float(lot.kind_a[k]) + lot.kerf) / self.cell - WHOLE))
            self.sack.add(k, min(weight, self.sack.cells), float(worth[k]), left[k])
            if self.stops and self.stops[-1][0] >= lot.kind_b[k] - ROUNDING:
                self.stops.pop()
            self.stops.append((float(lot.kind_b[k]), self.sack.stop))

    def _cells(self, length: float) -> int:
        return int((length + self.lot.kerf) / self.cell + WHOLE)

    def strip(self, height: float, wide: float) -> tuple[float, dict[int, int]]:
        """The width and the pieces (kind, how many) of the strip that is worth most for its width among those that
        fill a band of this length and width best; none where nothing is so short."""
        kerf, cell = self.lot.kerf, min(self._cells(height), self.sack.cells)
        strips: list[tuple[float, float, int]] = []
        for width, stop in self.stops:
            value = float(self.sack.rows[stop][cell])
            if value > (strips[-1][1] if strips else 0.0) + NO_WORTH:
                strips.append((width, value, stop))
        if not strips:
            return 0.0, {}
        step = max(0.5, (wide + kerf) / ACROSS)
        side = Knapsack(int((wide + kerf) / step + WHOLE))
        for n, (width, value, _) in enumerate(strips):
            side.add(n, min(int(np.ceil((width + kerf) / step - WHOLE)), side.cells), value, 1)
        n = max((n for n, _ in side.chosen(side.cells)), key=lambda n: strips[n][1] / (strips[n][0] + kerf))
        pieces: dict[int, int] = {}
        for k, many in self.sack.chosen(cell, strips[n][2]):
            pieces[k] = pieces.get(k, 0) + many
        return max(float(self.lot.kind_b[k]) for k in pieces), pieces


def _strips(lot: Lot, room: Room, first: _EndToEnd, kinds: Sequence[int], counts: Ints, worth: Floats) -> list[Place]:
    """Places (kind, a, b) of strips side by side in a band. first: of all kinds, in no less than its length."""
    height, across = room[2] - room[0], room[1]
    left = {k: int(counts[k]) for k in kinds}
    places: list[Place] = []
    sacks: _EndToEnd | None = first
    while sacks is not None:
        width, strip = sacks.strip(height, room[3] - across)
        at = room[0]
        for k in sorted(strip, key=lambda k: -lot.kind_b[k]):
            left[k] -= strip[k]
            for _ in range(strip[k]):
                places.append((k, at, across))
                at += float(lot.kind_a[k]) + lot.kerf
        across += width + lot.kerf
        wide = room[3] - across + ROUNDING
        mine = [k for k in kinds if left[k] and lot.kind_a[k] <= height + ROUNDING and lot.kind_b[k] <= wide]
        sacks = _EndToEnd(lot, mine, left, worth, height) if mine and strip else None
    return places
