# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which sets of a few pieces find room on a board, every set at once.

A set is a number whose bits are its pieces, the widest the highest. A board is cut into bands, a band into strips, a
strip into pieces end to end: three stages, and a strip is as wide as its widest piece. All figures are least ones,
found by dynamic programming over sets (Bellman's principle): of the strips that hold a set, one holds its widest piece
and some others beside it. What fits fits with less, so only the largest sets of companions are asked.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.lot import ClearBoard, Room, rooms_of
from freecad_stacklam.lamination.tolerances import ROUNDING

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
#: Where pieces lie: the piece, and its place along and across the bands.
Spots = list[tuple[int, float, float]]

#: With no more pieces than these, bands of every length that pieces end to end have are tried, or of those that two
#: have; else bands as long as a piece or as the board.
EVERY, PAIRS = 8, 12


def largest(fits: Bools) -> Ints:
    """The sets that fit while none with one piece more does. fits: of every set."""
    most = fits.copy()
    bit = 1
    while bit < len(fits):
        pairs, known = most.reshape(-1, 2, bit), fits.reshape(-1, 2, bit)
        pairs[:, 0] &= ~known[:, 1]
        bit *= 2
    return np.flatnonzero(most)


def lessened(fits: Bools) -> Bools:
    """The same with all that is part of a set that fits."""
    fits = fits.copy()
    bit = 1
    while bit < len(fits):
        pairs = fits.reshape(-1, 2, bit)
        pairs[:, 0] |= pairs[:, 1]
        bit *= 2
    return fits


class Bands:
    """Pieces of sizes a (along the board's first axis) and b (ascending), mm, in bands along a.

    rooms: lengths of the rooms they may lie in, which bands may have too. largest_area: of a room, mm², with a kerf on
    two sides; sets with more are not asked. whole: whether a single band may hold strips of several pieces; else no
    cut would part the board along the bands first.
    """

    def __init__(
        self, a: Floats, b: Floats, kerf: float, rooms: Floats, largest_area: float = np.inf, whole: bool = True
    ) -> None:
        self.a, self.b, self.kerf, self.whole = a, b, kerf, whole
        self.count = len(a)
        self.end_to_end = np.zeros(1)  # of each set, with a kerf behind each piece
        pieces, area = np.zeros(1, dtype=np.int64), np.zeros(1)
        for one, wide in zip(a, b):
            area = np.concatenate([area, area + (one + kerf) * (wide + kerf)])
            self.end_to_end = np.concatenate([self.end_to_end, self.end_to_end + one + kerf])
            pieces = np.concatenate([pieces, pieces + 1])
        self.asked = [half + np.flatnonzero(area[half : 2 * half] <= largest_area + ROUNDING)
                      for half in (1 << t for t in range(self.count))]  # fmt: skip
        many = self.count if self.count <= EVERY else 2 if self.count <= PAIRS else 1
        heights = self.end_to_end[(pieces >= 1) & (pieces <= many)] - kerf
        heights = np.unique(np.round(np.concatenate([heights, rooms]), 6))
        self.heights = heights[heights <= rooms.max(initial=0.0) + ROUNDING]
        self.widths = [self._widths(float(h)) for h in self.heights]
        self._found: dict[float, tuple[Floats, Floats]] = {}

    def _companions(self, widest: int, height: float) -> Ints:
        """The largest sets of narrower pieces that lie in a strip of this length behind its widest."""
        return largest(self.end_to_end[: 1 << widest] <= height - self.a[widest] + ROUNDING)

    def _widths(self, height: float) -> Floats:
        """For every set the least width of strips, each with a kerf, in a band of this length; inf where a piece is
        longer."""
        width = np.full(1 << self.count, np.inf)
        width[0] = 0.0
        for t in range(self.count):
            if self.a[t] > height + ROUNDING:
                continue
            every = self.asked[t]
            best = np.full(len(every), np.inf)
            for others in self._companions(t, height).tolist():
                np.minimum(best, width[every & ~(others | 1 << t)], out=best)
            width[every] = best + (self.b[t] + self.kerf)
        return width

    def lengths(self, room: float) -> Floats:
        """For every set the least length of bands, each with a kerf, in a room of this width; inf where none do."""
        return self._lengths(room)[0 if self.whole else 1]

    def _lengths(self, room: float) -> tuple[Floats, Floats]:
        """The same with any bands, and with a cut between bands where strips are of several pieces."""
        if room in self._found:
            return self._found[room]
        size = 1 << self.count
        length = np.full(size, np.inf)
        parted = np.full(size, np.inf)
        length[0] = parted[0] = 0.0
        bands = self._bands(room)
        for t in range(self.count):
            every = self.asked[t]
            best, lone = np.full(len(every), np.inf), np.full(len(every), np.inf)
            for height, sets, plain in bands:
                for held in sets[sets >> t & 1 == 1].tolist():
                    rest = every & ~held
                    tried = length[rest] + (height + self.kerf)
                    np.minimum(best, tried, out=best)
                    if not self.whole:
                        np.minimum(lone, tried if plain else np.where(rest > 0, tried, np.inf), out=lone)
            length[every], parted[every] = best, lone
        self._found[room] = (length, parted)
        return length, parted

    def _bands(self, room: float) -> list[tuple[float, Ints, bool]]:
        """Lengths of bands with the largest sets that each holds and none shorter does; and whether the band is just as
        long as one piece."""
        found = []
        before = np.zeros(1 << self.count, dtype=bool)
        for height, width in zip(self.heights.tolist(), self.widths):
            fits = width <= room + self.kerf + ROUNDING
            sets = largest(fits)
            plain = bool((np.abs(self.a - height) <= ROUNDING).any())
            found.append((height, sets[~before[sets]], plain))
            before = fits
        return found

    def laid(self, pieces: int, room: Room) -> Spots:
        """Where the pieces of a set lie in its least length in a room."""
        width = room[3] - room[1]
        length = self._lengths(width)[0]
        at, spots, first = room[0], [], not self.whole
        bands = self._bands(width)
        while pieces:
            t = pieces.bit_length() - 1
            best, taken, tall, wide = np.inf, 0, 0.0, self.widths[0]
            for (height, sets, plain), widths in zip(bands, self.widths):
                mine = sets[sets >> t & 1 == 1]
                if not len(mine):
                    continue
                rest = pieces & ~mine
                tried = length[rest] + height
                if first and not plain:
                    tried = np.where(rest > 0, tried, np.inf)
                n = int(np.argmin(tried))
                if tried[n] < best - ROUNDING:
                    best, taken, tall, wide = float(tried[n]), int(mine[n]) & pieces, height, widths
            spots += self._strips(taken, tall, wide, at, room[1])
            at += tall + self.kerf
            pieces &= ~taken
            first = False
        return spots

    def _strips(self, pieces: int, height: float, width: Floats, at: float, across: float) -> Spots:
        spots: Spots = []
        while pieces:
            t = pieces.bit_length() - 1
            rest = pieces ^ 1 << t
            choices = self._companions(t, height)
            others = int(choices[int(np.argmin(width[rest & ~choices]))]) & rest
            end = at
            for j in sorted((j for j in range(t + 1) if (others | 1 << t) >> j & 1), key=lambda j: -self.b[j]):
                spots.append((j, end, across))
                end += float(self.a[j]) + self.kerf
            across += float(self.b[t]) + self.kerf
            pieces = rest & ~others
        return spots


def _fit(bands: Bands, room: Room) -> Bools:
    made: Bools = bands.lengths(room[3] - room[1]) <= room[2] - room[0] + bands.kerf + ROUNDING
    return made


def _fit_all(bands: Bands, rooms: list[Room]) -> Bools:
    fits: Bools = np.arange(1 << bands.count) == 0
    every = np.arange(1 << bands.count)
    for n, room in enumerate(rooms):
        here = _fit(bands, room)
        if n == 0:
            fits = here
            continue
        more = np.zeros_like(fits)
        for taken in largest(here).tolist():
            more |= fits[every & ~taken]
        fits = more
    return fits


def fits_of(bands: Bands, board: ClearBoard) -> Bools:
    """Which sets find room in the clear rectangles of a board."""
    fits: Bools = np.arange(1 << bands.count) == 0
    for rooms in rooms_of(board, bands.kerf):
        fits |= _fit_all(bands, rooms)
    return fits


def laid_on(bands: Bands, board: ClearBoard, pieces: int) -> Spots:
    """Where the pieces of a set that fits lie on a board."""
    for rooms in rooms_of(board, bands.kerf):
        if not _fit_all(bands, rooms)[pieces]:
            continue
        spots: Spots = []
        left = list(rooms)
        while left:
            room = left.pop()
            choices = largest(_fit(bands, room))
            here = int(choices[int(np.argmax(_fit_all(bands, left)[pieces & ~choices]))]) & pieces
            spots += bands.laid(here, room)
            pieces &= ~here
        return spots
    raise ValueError("these pieces do not fit")
