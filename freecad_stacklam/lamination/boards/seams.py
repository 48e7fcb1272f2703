# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where the seams of one island, or of a group of near ones, lie: dynamic programming over places across the grain.

The least wood, charged at what rips from the boards at hand, and the fewest seams: one more must save as much wood as
the shop asks. A seam near a joint, at an extreme of the outline or over a seam of the layer below is charged besides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import COARSE, NO_AREA, ROUNDING, STAVE_OVER, WHOLE
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Places across the grain at which a seam may lie are this far apart, mm, or further in a very wide blank.
SEAM_GRID = 2.5
MOST_ROWS = 160
#: Cells along the grain, mm, by which gaps in the outline are found.
CELL = 4.0
#: A seam in a bad place costs as much as this much wood, mm² of board face; so it is a last resort.
BAD_SEAM = 40_000.0

Seam = tuple[float, float, float, float]  # grain, across, from and to along the grain


@dataclass(frozen=True)
class Stock:
    """What one thickness of boards allows: widths and lengths that are clear of trim (several, any order), and the
    thickness of the layer, mm."""

    widths: tuple[float, ...]
    lengths: tuple[float, ...]
    thickness: float = 25.0

    @property
    def widest(self) -> float:
        """Widest board, mm."""
        return max(self.widths)

    @property
    def longest(self) -> float:
        """Longest usable length, mm."""
        return max(self.lengths)


class Island:
    """One island of a blank, or a group of near ones, turned so that the grain runs along x (called u) and seams lie at
    places v across it."""

    def __init__(
        self,
        island: Polygon | MultiPolygon,
        off: Sequence[MultiPolygon],
        below: Sequence[Seam],
        stock: Stock,
        shop: ShopSettings,
        who: str,
    ) -> None:
        self.island, self.stock, self.shop, self.who = island, stock, shop, who
        self.u0, self.v0, self.u1, self.v1 = (
            e + d for e, d in zip(island.bounds, (-STAVE_OVER, -STAVE_OVER, STAVE_OVER, STAVE_OVER))
        )
        self.rough = island.simplify(COARSE, preserve_topology=False)  # for the search alone
        self.width = self.v1 - self.v0
        self.below = [s for s in below if s[2] < self.u1 and s[3] > self.u0]
        self.off = [(o.bounds[1] - shop.seam_margin, o.bounds[3] + shop.seam_margin) for o in off
                    if o.intersects(island)]  # fmt: skip
        self.extremes = _extremes(island)
        # A stave inside a blank is jointed on both edges.
        self.most = min(shop.max_stave, stock.widest - 2 * shop.jointing) if self.width > stock.widest else stock.widest
        self.least = min(shop.min_stave, self.width, self.most)
        self.gap = 2 * shop.stave_trim + 2 * CELL + max(20.0, shop.kerf)

    def seams(self) -> list[float]:
        """Places of all edges across the grain, mm, ascending, the island's own included.

        Raises Refusal when jointing leaves nothing of the widest board.
        """
        if self.one_piece():
            return [self.v0, self.v1]
        if self.most <= 0:
            raise Refusal(
                say(
                    "{layer}: the widest board ({widest}) leaves nothing after jointing: add a wider board or a "
                    "smaller jointing allowance.",
                    layer=self.who,
                    widest=size(self.stock.widest),
                )
            )
        rows = int(min(MOST_ROWS, max(2, np.ceil(self.width / SEAM_GRID))))
        places = np.linspace(self.v0, self.v1, rows + 1)
        low, high, empty = self._rows(places)
        seam = self._seam_charges(places)
        reach = int(np.floor(self.most * rows / self.width + WHOLE))
        narrow = max(1, int(np.ceil(self.least * rows / self.width - WHOLE)))
        if reach < narrow:
            reach = narrow = max(1, reach)
        best = np.full(rows + 1, inf)
        came = np.full(rows + 1, -1, dtype=np.int64)
        best[0] = 0.0
        for i in range(rows):
            if not np.isfinite(best[i]):
                continue
            ends = np.arange(i + narrow, min(rows, i + reach) + 1)
            if not len(ends):
                continue
            cost = best[i] + self._charges(i, ends, places, low, high, empty) + seam[ends]
            cost += self._stagger_charges(i, ends, places, rows)
            better = cost < best[ends]
            best[ends[better]] = cost[better]
            came[ends[better]] = i
        if not np.isfinite(best[rows]):
            return self._even()
        path = [rows]
        while path[-1] > 0:
            path.append(int(came[path[-1]]))
        return [float(places[k]) for k in reversed(path)]

    def one_piece(self) -> bool:
        """Whether a board takes the island whole."""
        length = self.u1 - self.u0 + 2 * self.shop.stave_trim
        return any(w >= self.width and n >= length for w, n in self._pairs())

    def _pairs(self) -> list[tuple[float, float]]:
        return list(zip(self.stock.widths, self.stock.lengths))

    def _even(self) -> list[float]:
        """Staves of one width, where no other division keeps the least and the greatest width."""
        count = max(1, int(np.ceil(self.width / self.most - WHOLE)))
        return [float(v) for v in np.linspace(self.v0, self.v1, count + 1)]

    def _rows(self, places: Floats) -> tuple[Floats, Floats, Bools | None]:
        """Least and greatest u of each row between two places; the empty cells of each row where the island has gaps
        along the grain."""
        boxes = shapely.box(self.u0 - 1, places[:-1], self.u1 + 1, places[1:])
        cut = shapely.intersection(self.rough, boxes)
        around = shapely.bounds(cut)
        low, high = around[:, 0], around[:, 2]
        low, high = np.where(np.isnan(low), inf, low), np.where(np.isnan(high), -inf, high)
        if (shapely.get_num_geometries(cut) <= 1).all():
            return low, high, None
        cells = max(1, int(np.ceil((self.u1 - self.u0) / CELL)))
        empty = np.ones((len(cut), cells), dtype=bool)
        for k, part in enumerate(cut):
            for piece in shapely.get_parts(part):
                if piece.is_empty:  # a row between two islands
                    continue
                a, _, b, _ = piece.bounds
                first = int((a - self.u0) / CELL)
                empty[k, first : int(np.ceil((b - self.u0) / CELL))] = False
        return low, high, empty

    def _charges(self, i: int, ends: Ints, places: Floats, low: Floats, high: Floats, empty: Bools | None) -> Floats:
        """Wood of the staves from place i to each end: length × the width that they take of a board, mm²."""
        last = int(ends[-1])
        near = np.minimum.accumulate(low[i:last])[ends - i - 1]
        far = np.maximum.accumulate(high[i:last])[ends - i - 1]
        length = np.maximum(0.0, far - near)
        pieces = np.ones(len(ends))
        if empty is not None:
            bare = np.logical_and.accumulate(empty[i:last], axis=0)[ends - i - 1]
            for k, row in enumerate(bare):
                saved, more = _gaps(row, self.gap / CELL)
                length[k] -= saved * CELL
                pieces[k] += more
        long = length + pieces * (2 * self.shop.stave_trim + self.shop.kerf)
        width = places[ends] - places[i]
        charge: Floats = long * self._ripped(width)
        charge += np.where(self._fits(width, long), 0.0, 25 * BAD_SEAM)  # too long for every board that is wide enough
        return charge

    def _ripped(self, width: Floats) -> Floats:
        """The width that a stave takes of a board: between its own with kerf, and its share of a board that is ripped
        into as many as it holds."""
        own = width + 2 * self.shop.jointing + self.shop.kerf
        boards = np.unique(self.stock.widths)[:, None] + self.shop.kerf
        count = np.floor(boards / own + WHOLE)
        share = np.where(count >= 1, boards / np.maximum(count, 1), inf).min(axis=0)
        return 0.5 * own + 0.5 * np.where(np.isfinite(share), share, own)

    def _fits(self, width: Floats, length: Floats) -> Bools:
        fits = np.zeros(len(width), dtype=bool)
        for board, room in set(self._pairs()):
            fits |= (width + 2 * self.shop.jointing <= board + ROUNDING) & (length <= room)
        return fits

    def _seam_charges(self, places: Floats) -> Floats:
        charge = np.zeros(len(places))
        inner = slice(1, -1)
        # One more seam must save so much wood: its volume as face of a board of this thickness.
        charge[inner] += self.shop.seam_worth / self.stock.thickness
        for low, high in self.off:
            charge[inner] += np.where((places[inner] > low) & (places[inner] < high), BAD_SEAM, 0.0)
        margin = self.shop.seam_margin
        for extreme in self.extremes:
            charge[inner] += np.where(np.abs(places[inner] - extreme) < margin, 0.5 * BAD_SEAM, 0.0)
        return charge

    def _stagger_charges(self, i: int, ends: Ints, places: Floats, rows: int) -> Floats:
        """For both edges of each stave: how far they come too near to a seam of the layer below."""
        if not self.below or self.shop.stagger <= 0:
            return np.zeros(len(ends))
        needed = np.minimum(self.shop.stagger, (places[ends] - places[i]) / 4)
        below = np.array([s[1] for s in self.below])
        apart = np.abs(places[:, None] - below[None, :]).min(axis=1)
        charge = np.zeros(len(ends))
        if i > 0:
            charge += BAD_SEAM * np.maximum(0.0, 1.0 - apart[i] / needed) + BAD_SEAM * (apart[i] < needed)
        seam = ends < rows
        charge += np.where(seam & (apart[ends] < needed), BAD_SEAM * (2.0 - apart[ends] / needed), 0.0)
        return charge

    def strips(self, places: Sequence[float]) -> list[tuple[float, float, float, float, int]]:
        """(u from, u to, v from, v to, glued edges) of every stave, trim included, mm. Raises Refusal when a stave fits
        on no board."""
        found: list[tuple[float, float, float, float, int]] = []
        trim = self.shop.stave_trim
        for k, (low, high) in enumerate(zip(places[:-1], places[1:])):
            inside = shapely.intersection(self.island, shapely.box(self.u0 - 1, low, self.u1 + 1, high))
            spans = sorted((p.bounds[0], p.bounds[2]) for p in shapely.get_parts(inside) if p.area > NO_AREA)
            glued = (k > 0) + (k < len(places) - 2)
            width = high - low + glued * self.shop.jointing
            for a, b in self._pieces(spans, trim + STAVE_OVER, width):
                self._check(b - a, width)
                found.append((a, b, low, high, glued))
        return found

    def _pieces(self, spans: Sequence[tuple[float, float]], over: float, width: float) -> list[tuple[float, float]]:
        """Staves along one row, from and to along the grain with their trim `over`, for the spans of the outline in it.

        One stave serves spans that are so near that nothing is won by two; where no board is that long, they are parted
        in the middle of the gap."""
        joined: list[list[float]] = []
        for a, b in spans:
            near = bool(joined) and a - joined[-1][1] < self.gap
            if near and (a <= joined[-1][1] or self._fit(max(b, joined[-1][1]) - joined[-1][0] + 2 * over, width)):
                joined[-1][1] = max(joined[-1][1], b)
            else:
                joined.append([a, b])
        ends = [[a - over, b + over] for a, b in joined]
        for one, other in zip(ends, ends[1:]):
            if one[1] > other[0]:
                one[1] = other[0] = (one[1] + other[0]) / 2
        return [(a, b) for a, b in ends]

    def _fit(self, length: float, width: float) -> bool:
        return any(w >= width - ROUNDING and n >= length - ROUNDING for w, n in self._pairs())

    def _check(self, length: float, width: float) -> None:
        if self._fit(length, width):
            return
        wide = [n for w, n in self._pairs() if w >= width - ROUNDING]
        if not wide:
            raise Refusal(
                say(
                    "{layer} needs a stave {width} wide as ripped, but the widest board is {widest}, {short} short: "
                    "allow narrower staves or add a wider board.",
                    layer=self.who,
                    width=size(width),
                    widest=size(self.stock.widest),
                    short=size(width - self.stock.widest),
                )
            )
        raise Refusal(
            say(
                "{layer} needs a stave {length} long and {width} wide, but the longest board of that width has "
                "{longest} between its end trims, {short} short: add a longer board or turn the grain.",
                layer=self.who,
                length=size(length),
                width=size(width),
                longest=size(max(wide)),
                short=size(length - max(wide)),
            )
        )

    def chord(self, place: float) -> tuple[float, float]:
        """Where the seam at `place` (mm across the grain) begins and ends along it, mm."""
        cut = shapely.intersection(self.island, shapely.LineString([(self.u0 - 1, place), (self.u1 + 1, place)]))
        if cut.is_empty:
            return self.u0, self.u1
        return float(cut.bounds[0]), float(cut.bounds[2])

    def faults(self, places: Sequence[float], place: float) -> list[str]:
        """What is wrong with the seam at `place` (mm across the grain), in words; empty where nothing is."""
        found = []
        k = list(places).index(place)
        near = min(place - places[k - 1], places[k + 1] - place)
        needed = min(self.shop.stagger, near / 4)
        apart = min((abs(place - s[1]) for s in self.below), default=inf)
        if apart < needed - ROUNDING:
            found.append(
                say(
                    "the seam lies {apart} from a seam of the layer below; {needed} is wanted",
                    apart=size(apart),
                    needed=size(needed),
                )
            )
        if any(low < place < high for low, high in self.off):
            found.append(say("the seam runs within {margin} of a mortise or pin", margin=size(self.shop.seam_margin)))
        if any(abs(place - e) < self.shop.seam_margin for e in self.extremes):
            found.append(
                say(
                    "the seam runs within {margin} of where the outline turns back",
                    margin=size(self.shop.seam_margin),
                )
            )
        if near < self.shop.min_stave - ROUNDING:
            found.append(
                say(
                    "a stave beside the seam is only {width} wide; {wanted} is wanted",
                    width=size(near),
                    wanted=size(self.shop.min_stave),
                )
            )
        return found


def _gaps(empty: Bools, least: float) -> tuple[float, int]:
    """Total length and number of inner runs of empty cells longer than `least`, in cells."""
    filled = np.flatnonzero(~empty)
    between = np.diff(filled) - 1
    wide = between[between >= least]
    return float(wide.sum()), len(wide)


def _extremes(island: Polygon | MultiPolygon) -> list[float]:
    """Places across the grain where the outline or a hole turns back, so that a seam there would leave a thin tip."""
    found: set[float] = set()
    for ring in (r for p in shapely.get_parts(island) for r in (p.exterior, *p.interiors)):
        v = shapely.get_coordinates(ring)[:-1, 1]
        rise = np.sign(np.round(np.diff(np.append(v, v[0])), 6))
        moving = np.flatnonzero(rise)
        if not len(moving):
            continue
        turns = rise[moving] != rise[np.roll(moving, 1)]
        found.update(round(float(x), 3) for x in v[moving[turns]])
    return sorted(found)
