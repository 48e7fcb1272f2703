# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pieces, strips and bands of two boards change places, so that the waste gathers on the board that is filled worst.

A piece may be replaced by one that is longer by what its strip, its band and its board leave free, and wider by what
its strip and its band leave free; a strip by another strip and a band by another band alike; and what is free takes a
piece, strip or band of another board. Length and width are limits by themselves, so all pairs are looked at in one
numpy pass.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.lot import Filled, Lot, Place
from freecad_stacklam.lamination.tolerances import ROUNDING, SAVING

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

#: A strip: its pieces end to end. A band: its strips side by side. A board: its bands one behind the other.
Strip = tuple[int, ...]
Band = tuple[Strip, ...]

#: What may change places, and columns of a table with a row for each: its length and width, the longest and the widest
#: that may lie there, its area as it counts, its board, and its band and strip there and its piece (or -1); what may
#: lie there, from pieces up to bands; and whether the board is crosscut first. A row without area is what is free.
PIECES, STRIPS, BANDS = 0, 1, 2
LENGTH, WIDTH, LONGEST, WIDEST, AREA, BOARD, BAND, STRIP, PIECE, LEAST, MOST, ACROSS = range(12)


#: Changes by chance before waste is gathered again, at most; how likely they are of pieces, strips, bands; how alike
#: those are in area, in parts of the mean; and what part of the merit a change may lose at first (simulated annealing).
CHANGES = 6
LIKELY = (0.6, 0.25, 0.15)
ALIKE = 0.3
HEAT = 0.01


def bands_of(lot: Lot, places: Sequence[Place]) -> tuple[Band, ...]:
    """The bands and strips in which pieces lie: bands a cut apart along a, strips by where they begin across."""
    groups: list[list[Place]] = []
    end = -np.inf
    for place in sorted(places, key=lambda p: p[1]):
        if place[1] >= end - ROUNDING:
            groups.append([])
        groups[-1].append(place)
        end = max(end, place[1] + float(lot.a[place[0]]))
    made: list[Band] = []
    for group in groups:
        strips: dict[float, list[int]] = {}
        for item, _, b in group:
            strips.setdefault(round(b, 3), []).append(item)
        made.append(tuple(tuple(strip) for _, strip in sorted(strips.items())))
    return tuple(made)


def laid(lot: Lot, bands: Sequence[Band]) -> tuple[Place, ...]:
    """Where the pieces of bands lie from the board's first corner, the widest of a strip first."""
    places: list[Place] = []
    at = 0.0
    for band in bands:
        across, longest = 0.0, 0.0
        for strip in band:
            a = at
            for item in sorted(strip, key=lambda i: -lot.b[i]):
                places.append((item, a, across))
                a += float(lot.a[item]) + lot.kerf
            across += max(float(lot.b[i]) for i in strip) + lot.kerf
            longest = max(longest, a - at)
        at += longest
    return tuple(places)


class Swaps:
    """Boards without knots whose pieces may change places. Others stay as they are."""

    def __init__(
        self, lots: Mapping[bool, Lot], boards: Sequence[Filled], area: Floats, rate: float, drawn: int | None = None
    ) -> None:
        """area: of each piece as it counts, mm². rate: what a mm² costs at the cheapest. drawn: the number of a board
        onto which the waste is drawn, rather than onto the one that wastes most."""
        self.lots, self.boards, self.areas, self.rate = lots, list(boards), area.tolist(), rate
        self.a = {float(across): lot.a.tolist() for across, lot in lots.items()}
        self.b = {float(across): lot.b.tolist() for across, lot in lots.items()}
        lot = next(iter(lots.values()))
        self.costs = np.array([lot.sheets[f.kind].cost for f in boards])
        self.waste = self.costs.copy()
        self.bands: list[tuple[Band, ...]] = []
        for n, one in enumerate(boards):
            self.waste[n] -= rate * float(area[[p[0] for p in one.places]].sum())
            self.bands.append(bands_of(lots[one.across], one.places))
        if drawn is not None:
            self.waste[drawn] += float(self.costs.max())
        self.tables = [self._table(n) for n in range(len(boards))]
        self.changed: set[int] = set()
        #: Boards that changed since nothing gathered more: without them nothing does.
        self.fresh = set(range(len(boards)))

    def _table(self, n: int) -> Floats:
        """A board's pieces, strips and bands, and what is free on it."""
        one, bands = self.boards[n], self.bands[n]
        lot = self.lots[one.across]
        sheet, kerf, way = lot.sheets[one.kind], lot.kerf, float(one.across)
        rows: list[tuple[float, ...]] = []
        # Ripped first, a single band is as long as one of its pieces: it is left so.
        if not sheet.blocks and (one.across or len(bands) > 1):
            ends = [[sum(self.a[way][i] + kerf for i in s) for s in band] for band in bands]
            wide = [[max(self.b[way][i] for i in s) for s in band] for band in bands]
            free = sheet.a + kerf - sum(max(e) for e in ends)
            rows.append((0, 0, free - kerf, sheet.b, 0, n, -1, -1, -1, PIECES, BANDS, way))
            for m, band in enumerate(bands):
                long = max(ends[m])
                beside = sheet.b + kerf - sum(w + kerf for w in wide[m])
                covered = 0.0
                for s, strip in enumerate(band):
                    spare, most = free + long - ends[m][s], wide[m][s] + beside
                    held = 0.0
                    for i in strip:
                        a, b, own = self.a[way][i], self.b[way][i], self.areas[i]
                        held += own
                        rows.append((a, b, a + spare, most, own, n, m, s, i, PIECES, PIECES, way))
                    covered += held
                    size = (ends[m][s] - kerf, wide[m][s], free + long - kerf, most)
                    rows.append((*size, held, n, m, s, -1, STRIPS, STRIPS, way))
                    rows.append((0, 0, spare - kerf, most, 0, n, m, s, -1, PIECES, PIECES, way))
                size = (long - kerf, sheet.b - beside, long - kerf + free, sheet.b)
                rows.append((*size, covered, n, m, -1, -1, BANDS, BANDS, way))
                rows.append((0, 0, long - kerf + free, beside - kerf, 0, n, m, -1, -1, PIECES, STRIPS, way))
        return np.array(rows, dtype=np.float64).reshape(-1, 12)

    def made(self) -> list[Filled]:
        """The boards as they are now; those that were emptied are gone."""
        return [
            Filled(one.kind, one.across, laid(self.lots[one.across], self.bands[n])) if n in self.changed else one
            for n, one in enumerate(self.boards)
            if self.bands[n]
        ]

    def merit(self) -> tuple[float, float]:
        """The cost saved by emptied boards, and how far the waste is gathered: both the more the better."""
        filled = np.array([bool(b) for b in self.bands])
        return -float(self.costs[filled].sum()), float((self.waste[filled] ** 2).sum())

    def gather(self) -> None:
        """Change places, each time what gathers the most waste, until nothing gathers more."""
        for _ in range(8 * len(self.areas)):
            best = self._best()
            if best is None:
                self.fresh = set()
                break
            self._change(*best)

    def shaken(self, rng: np.random.Generator, times: int, stop: Callable[[], bool]) -> None:
        """So many times some changes by chance, and gathering after them; undone where that led to something worse, at
        first to much worse. The best of all is kept."""
        self.gather()
        merit = best = self.merit()
        found = list(self.bands), self.waste.copy(), set(self.changed)
        for turn in range(times):
            if stop():
                break
            kept = list(self.bands), self.waste.copy(), list(self.tables), set(self.changed)
            for _ in range(int(rng.integers(1, CHANGES + 1))):
                self._any(rng)
            self.gather()
            now = self.merit()
            if now >= (merit[0], merit[1] * (1 - HEAT * (1 - turn / times))):
                merit = now
                if now > best:
                    best, found = now, (list(self.bands), self.waste.copy(), set(self.changed))
            else:
                self.bands, self.waste, self.tables, self.changed = kept
        self.bands, self.waste, self.changed = found
        self.tables = [self._table(n) for n in range(len(self.boards))]

    def _any(self, rng: np.random.Generator) -> None:
        """One change by chance, of pieces or strips or bands that are nearly as large."""
        what = float(rng.choice(3, p=LIKELY))
        table = np.concatenate(self.tables)
        table = table[(table[:, AREA] > 0) & (table[:, LEAST] == what)]
        if len(table) < 2:
            return
        one = table[int(rng.integers(len(table)))][None]
        alike = np.abs(table[:, AREA] - one[:, AREA]) <= ALIKE * table[:, AREA].mean()
        able = self._fits(one, table)[0] & self._fits(table, one)[:, 0] & (table[:, BOARD] != one[:, BOARD]) & alike
        at = np.flatnonzero(able)
        if len(at):
            self._change(one[0], table[int(rng.choice(at))])

    def _best(self) -> tuple[Floats, Floats] | None:
        """What gathers most: what lies on the better board (or is free there), and what comes."""
        every = np.concatenate(self.tables)
        fresh = np.isin(every[:, BOARD], list(self.fresh))
        filled = every[:, AREA] > 0
        best, gain = None, SAVING
        blocks = [(every[fresh], every[filled]), (every[~fresh], every[filled & fresh])]
        for here, there in blocks:
            fits = self._fits(here, there) & (self._fits(there, here).T | (here[:, AREA] == 0)[:, None])
            at = np.flatnonzero(fits)
            if not len(at):
                continue
            i, j = np.divmod(at, len(there))
            more = self.rate * (there[j, AREA] - here[i, AREA])
            own, other = here[i, BOARD].astype(np.int64), there[j, BOARD].astype(np.int64)
            gains = 2 * more * (self.waste[other] - self.waste[own] + more)
            gains[(more <= 0) | (own == other)] = 0.0
            n = int(gains.argmax())
            if gains[n] > gain:
                best, gain = (here[i[n]], there[j[n]]), float(gains[n])
        return best

    @staticmethod
    def _fits(here: Floats, there: Floats) -> Bools:
        """Whether each of `there` may lie where each of `here` lies: a piece on any board, turned where the board is
        cut the other way; a strip or a band on boards that are cut the same way."""
        h, what = here[:, :, None], there[:, LEAST]
        longest, widest = h[:, LONGEST] + ROUNDING, h[:, WIDEST] + ROUNDING
        same = h[:, ACROSS] == there[:, ACROSS]
        fits: Bools = same & (there[:, LENGTH] <= longest) & (there[:, WIDTH] <= widest)
        if not same.all():
            fits |= ~same & (what == PIECES) & (there[:, WIDTH] <= longest) & (there[:, LENGTH] <= widest)
        return fits & (what >= h[:, LEAST]) & (what <= h[:, MOST])

    def _change(self, here: Floats, there: Floats) -> None:
        """Let what lies there lie here, and the other way round, or only that where here is free."""
        comes, goes = self._strips(there), self._strips(here) if here[AREA] > 0 else ()
        self._put(there, goes)
        if here[AREA] > 0:
            self._put(here, comes)
        else:
            h, k, q = (int(here[c]) for c in (BOARD, BAND, STRIP))
            bands = self.bands[h]
            if q >= 0:
                grown = (*bands[k][:q], bands[k][q] + comes[0], *bands[k][q + 1 :])
            else:
                grown = (*bands[k], *comes) if k >= 0 else comes
            self.bands[h] = (*bands[:k], grown, *bands[k + 1 :]) if k >= 0 else (*bands, grown)
        more = self.rate * float(there[AREA] - here[AREA])
        self.waste[int(here[BOARD])] -= more
        self.waste[int(there[BOARD])] += more
        for n in (int(here[BOARD]), int(there[BOARD])):
            self.tables[n] = self._table(n)
            self.changed.add(n)
            self.fresh.add(n)

    def _strips(self, row: Floats) -> Band:
        """The strips of a row: its piece as one, its strip, or those of its band."""
        if row[LEAST] == PIECES:
            return ((int(row[PIECE]),),)
        band = self.bands[int(row[BOARD])][int(row[BAND])]
        return (band[int(row[STRIP])],) if row[LEAST] == STRIPS else band

    def _put(self, row: Floats, comes: Band) -> None:
        """Put other strips (or the piece of one) in the place of a piece, strip or band; none to take it off."""
        n, m, s = (int(row[k]) for k in (BOARD, BAND, STRIP))
        bands = self.bands[n]
        band = comes
        if row[LEAST] == PIECES:
            strip = (*(i for i in bands[m][s] if i != int(row[PIECE])), *(comes[0] if comes else ()))
            band = (*bands[m][:s], strip, *bands[m][s + 1 :])
        elif row[LEAST] == STRIPS:
            band = (*bands[m][:s], *comes, *bands[m][s + 1 :])
        band = tuple(strip for strip in band if strip)
        self.bands[n] = tuple(one for one in (*bands[:m], band, *bands[m + 1 :]) if one)
