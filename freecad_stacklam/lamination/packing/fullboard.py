# SPDX-License-Identifier: LGPL-2.1-or-later

"""One board filled with the worthiest of many pieces, in three stages of cuts: a beam search over its bands.

Of every length of band that is tried, strip after strip is the set of pieces worth most end to end among those no wider
(a knapsack over lengths, the pieces by width, so that one pass knows the answer for every length and every width). The
beginnings of a board that waste least for their length are followed further, several at a time (Lowerre's beam). All
bands of a step go through one knapsack side by side, one numpy pass for each piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import NO_GAIN, ROUNDING, WHOLE

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
#: Where pieces lie: the piece, and its place along and across the bands.
Spots = list[tuple[int, float, float]]

#: Cells of the knapsack in the length of a board; lengths are rounded up to a cell.
CELLS = 800


@dataclass(frozen=True)
class Effort:
    """How many beginnings of a board are followed, how many lengths of band are tried behind each, and how many pieces
    are weighed at most."""

    beginnings: int = 4
    lengths: int = 6
    pieces: int = 120


@dataclass(frozen=True)
class _Begun:
    """A board filled up to `at`: what its pieces are worth less what its length is (merit), which pieces are free, and
    where the others lie."""

    at: float
    merit: float
    free: Bools
    spots: Spots
    bands: int
    parts: bool  # whether a cut between its bands, or beside the only one, parts its pieces


@dataclass(frozen=True)
class _Pieces:
    """Sizes of the pieces by width, their lengths with a kerf in cells, and their worths, 1 on average."""

    a: Floats
    b: Floats
    cells: Ints
    worth: Singles


def fullest(
    room: tuple[float, float],
    kerf: float,
    a: Floats,
    b: Floats,
    worth: Floats,
    rng: np.random.Generator,
    effort: Effort = Effort(),
    *,
    whole: bool = True,
) -> Spots:
    """Pieces that together are worth about as much as a room holds, with their places; none where none fits.

    room: its length along the board's first axis and its width, mm. a, b, worth: of each piece, mm and any unit.
    whole: whether a single band may hold strips of several pieces; else no cut would part the board along the bands
    first.
    """
    able = np.flatnonzero((a <= room[0] + ROUNDING) & (b <= room[1] + ROUNDING))
    if not len(able):
        return []
    if len(able) > effort.pieces:
        able = np.sort(rng.choice(able, size=effort.pieces, replace=False))
    able = able[np.argsort(b[able], kind="stable")]
    cell = (room[0] + kerf) / CELLS
    cells = np.minimum(np.ceil((a[able] + kerf) / cell - WHOLE).astype(np.int64), CELLS)
    pieces = _Pieces(a[able], b[able], cells, (worth[able] / worth[able].mean()).astype(np.float32))
    search = _Search(room, kerf, cell, pieces, rng, effort, whole)
    best = search.best()
    return [] if best is None else [(int(able[k]), x, y) for k, x, y in best.spots]


class _Search:
    def __init__(
        self, room: tuple[float, float], kerf: float, cell: float, pieces: _Pieces, rng: np.random.Generator,
        effort: Effort, whole: bool,
    ) -> None:  # fmt: skip
        self.long, self.wide = room
        self.kerf, self.cell, self.pieces, self.rng, self.effort, self.whole = kerf, cell, pieces, rng, effort, whole
        #: What a mm² of room is worth when all pieces fill it without waste.
        self.price = float(pieces.worth.sum() / ((pieces.a + kerf) * (pieces.b + kerf)).sum())

    def best(self) -> _Begun | None:
        """The board with the greatest merit among those that take nothing more."""
        begun = [_Begun(0.0, 0.0, np.ones(len(self.pieces.a), dtype=bool), [], 0, self.whole)]
        best: _Begun | None = None
        while begun:
            tried = self._longer(begun)
            followed = {id(parent) for parent, _ in tried}
            ended = [one for one in begun if id(one) not in followed]
            for one in ended:
                if one.spots and one.parts and (best is None or self._worth(one) > self._worth(best)):
                    best = one
            fresh: dict[bytes, _Begun] = {}
            for _, one in sorted(tried, key=lambda t: -t[1].merit):
                fresh.setdefault(one.free.tobytes(), one)
            begun = list(fresh.values())[: self.effort.beginnings]
        return best

    def _worth(self, one: _Begun) -> float:
        return float(self.pieces.worth[~one.free].sum())

    def _longer(self, begun: Sequence[_Begun]) -> list[tuple[_Begun, _Begun]]:
        """Each beginning with bands of several lengths behind it."""
        parents: list[_Begun] = []
        lengths: list[int] = []
        for one in begun:
            for cells in self._lengths(one):
                parents.append(one)
                lengths.append(cells)
        if not parents:
            return []
        made = []
        free = np.array([one.free for one in parents])
        for parent, left, band in zip(parents, free, self._bands(parents, np.array(lengths), free)):
            if band:
                made.append((parent, self._behind(parent, band, left)))
        return made

    def _lengths(self, one: _Begun) -> list[int]:
        """Lengths of bands to be tried, in cells: of a piece, of two end to end, and all that is left."""
        room = self._cells(self.long - one.at)
        able = self.pieces.cells[one.free & (self.pieces.cells <= room)]
        if not len(able):
            return []
        some = self.rng.choice(able, size=min(len(able), max(1, self.effort.lengths - 2))).tolist()
        some += [n for n in self.rng.choice(able, size=(2, 2)).sum(axis=1).tolist() if n <= room]
        if self.whole or one.bands:
            some.append(room)
        return sorted(set(some))

    def _cells(self, length: float) -> int:
        return int((length + self.kerf) / self.cell + WHOLE)

    def _behind(self, one: _Begun, band: Spots, left: Bools) -> _Begun:
        """The board with one band more; `left` are the pieces that are free then."""
        a = self.pieces.a
        used = max(at + float(a[k]) for k, at, _ in band)
        end = one.at + used + self.kerf
        spots = [*one.spots, *((k, one.at + at, across) for k, at, across in band)]
        rest = a[left]
        # What is left behind the band and takes nothing more is lost with it.
        lost = not (rest <= self.long - end + ROUNDING).any()
        taken = (self.long + self.kerf - one.at) if lost else used + self.kerf
        gained = sum(float(self.pieces.worth[k]) for k, _, _ in band) - self.price * taken * (self.wide + self.kerf)
        parts = self.whole or one.bands > 0 or any(float(a[k]) >= used - ROUNDING for k, _, _ in band)
        return _Begun(end, one.merit + gained, left, spots, one.bands + 1, parts)

    def _bands(self, parents: Sequence[_Begun], lengths: Ints, free: Bools) -> list[Spots]:
        """Strips side by side in bands of these lengths, in cells. free: of each band its pieces, which are taken out
        as they are laid."""
        bands: list[Spots] = [[] for _ in parents]
        across = np.zeros(len(parents))
        # At first bands behind one beginning share a pass.
        firsts = list({id(one): n for n, one in enumerate(parents)}.values())
        open_ = np.arange(len(parents))
        row_of = np.zeros(len(parents), dtype=np.int64)
        order = {id(parents[n]): r for r, n in enumerate(firsts)}
        for n, one in enumerate(parents):
            row_of[n] = order[id(one)]
        rows = np.array(firsts)
        while len(open_):
            strips = self._strips(free[rows], self.wide - across[rows], row_of[open_], lengths[open_])
            going = []
            for n, strip in zip(open_.tolist(), strips):
                if not strip:
                    continue
                at = 0.0
                for k in strip:  # the widest first
                    bands[n].append((k, at, float(across[n])))
                    at += float(self.pieces.a[k]) + self.kerf
                    free[n, k] = False
                across[n] += float(self.pieces.b[strip[0]]) + self.kerf
                going.append(n)
            open_ = np.array(going, dtype=np.int64)
            rows, row_of = open_, np.arange(len(parents))
            row_of[open_] = np.arange(len(open_))
        return bands

    def _strips(self, free: Bools, room: Floats, row: Ints, lengths: Ints) -> list[list[int]]:
        """For each band (its row of free pieces and of room across, and its length) the pieces of the strip that wastes
        least."""
        p = self.pieces
        top = int(lengths.max())
        fits = free & (p.b <= room[:, None] + ROUNDING)
        most = np.zeros(len(free), dtype=np.int64)
        np.maximum.at(most, row, lengths)
        fits &= p.cells <= most[:, None]
        kinds = np.flatnonzero(fits.any(axis=0))
        if not len(kinds):
            return [[] for _ in lengths]
        table = np.zeros((len(free), top + 1), dtype=np.float32)
        values = np.zeros((len(kinds), len(lengths)), dtype=np.float32)
        takes: list[Bools] = []
        gains = np.where(fits, p.worth, np.float32(-1.0)).T
        for n, k in enumerate(kinds.tolist()):
            w = int(p.cells[k])
            more = table[:, : top + 1 - w] + gains[k][:, None]
            takes.append(more > table[:, w:] + np.float32(NO_GAIN))
            np.maximum(table[:, w:], more, out=table[:, w:])
            values[n] = table[row, lengths]
        width = p.b[kinds][:, None] + self.kerf
        left = (room + self.kerf)[row]
        # Room beside the strip that is too narrow for any piece is lost with it.
        lost = left - width < p.b[kinds[0]] + self.kerf - ROUNDING
        waste = self.price * np.where(lost, left, width) * (lengths * self.cell) - values
        waste[(values <= 0) | ~fits[row][:, kinds].T] = np.inf
        best = waste.argmin(axis=0)
        found: list[list[int]] = []
        for n, (r, at) in enumerate(zip(row.tolist(), lengths.tolist())):
            strip: list[int] = []
            if np.isfinite(waste[best[n], n]):
                for m in range(int(best[n]), -1, -1):
                    w = int(p.cells[kinds[m]])
                    if at >= w and takes[m][r, at - w]:
                        strip.append(int(kinds[m]))
                        at -= w
            found.append(strip)
        return found
