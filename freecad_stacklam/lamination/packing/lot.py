# SPDX-License-Identifier: LGPL-2.1-or-later

"""Items and boards as they are packed.

A board is cut along its first axis a into bands, and each band across, along b, into pieces; a piece shorter than its
band is trimmed. With a along the board this is crosscutting first, with a across it ripping first. Sizes are mm; pieces
stand apart by the kerf and off the blocks (knots).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import NO_AREA, ROUNDING, SAVING, WHOLE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Cells of a knapsack: exact in 0.1 mm where that takes no more than EXACT_CELLS, else about CELLS.
EXACT_CELLS = 2500
CELLS = 1200

Place = tuple[int, float, float]  # item, a, b
Room = tuple[float, float, float, float]  # a0, b0, a1, b1


@dataclass(frozen=True)
class ClearBoard:
    """A board as it is packed: clear extents along a and b, blocks (a0, b0, a1, b1) in it, what one costs, how many
    there are (0: as many as wanted)."""

    a: float
    b: float
    cost: float
    count: int = 1
    blocks: tuple[tuple[float, float, float, float], ...] = ()
    first: bool = False  # to be used before others

    @cached_property
    def clear(self) -> float:
        """Area beside the blocks, which may overlap, mm²; 0 where nothing is left."""
        if not self.blocks:
            return self.a * self.b
        taken = shapely.union_all([shapely.box(*k) for k in self.blocks])
        left = self.a * self.b - float(shapely.intersection(taken, shapely.box(0.0, 0.0, self.a, self.b)).area)
        return left if left > NO_AREA else 0.0


@dataclass(frozen=True)
class Filled:
    """One board of a kind with its pieces, and whether it is crosscut first: places in the axes of that way."""

    kind: int
    across: bool
    places: tuple[Place, ...]


@dataclass(frozen=True)
class Packing:
    """Boards used: (number of the sheet, places); `left` are the items that found no board."""

    boards: tuple[tuple[int, tuple[Place, ...]], ...]
    left: tuple[int, ...]
    cost: float

    def better_than(self, other: Packing | None) -> bool:
        """More placed, then cheaper."""
        return other is None or (len(self.left), self.cost) < (len(other.left), other.cost - SAVING)


class Lot:
    """Items of sizes (a, b) to be laid on boards, with what every way of laying them asks again and again."""

    def __init__(self, items: Sequence[tuple[float, float]], sheets: Sequence[ClearBoard], kerf: float) -> None:
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

    def starts(self, sheet: ClearBoard, start: float) -> list[float]:
        """Where a band may begin: at `start`, and behind each block."""
        return [start, *sorted(k[2] for k in sheet.blocks if k[2] > start)] if sheet.blocks else [start]

    def gaps(self, sheet: ClearBoard, low: float, high: float) -> list[tuple[float, float]]:
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

    def packing(self, boards: Sequence[tuple[int, tuple[Place, ...]]], left: Sequence[int]) -> Packing:
        """The record of boards that were filled, with their cost."""
        return Packing(tuple(boards), tuple(left), float(sum(self.sheets[k].cost for k, _ in boards)))


def rooms_of(board: ClearBoard, kerf: float) -> list[list[Room]]:
    """Ways to see a board as clear rectangles, in each way a kerf or more apart: stretches between its blocks; and
    round one block, the board ripped beside it, from one of its ends or the other or all along."""
    runs: list[Room] = []
    at = 0.0
    for low, _, high, _ in sorted(board.blocks):
        if low > at + ROUNDING:
            runs.append((at, 0.0, low, board.b))
        at = max(at, high, low + kerf)
    if board.a > at + ROUNDING:
        runs.append((at, 0.0, board.a, board.b))
    ways = [runs]
    if len(board.blocks) == 1:
        a0, b0, a1, b1 = board.blocks[0]
        thin = max(0.0, kerf - (b1 - b0)) / 2
        beside = [(low, high) for low, high in ((0.0, b0 - thin), (b1 + thin, board.b)) if high > low + ROUNDING]
        ways.append([(0.0, low, board.a, high) for low, high in beside])
        if a0 > ROUNDING:
            ways.append([(0.0, 0.0, a0, board.b), *((a0 + kerf, low, board.a, high) for low, high in beside)])
        if a1 < board.a - ROUNDING:
            ways.append([*((0.0, low, a1 - kerf, high) for low, high in beside), (a1, 0.0, board.a, board.b)])
    clear = [[r for r in way if r[2] > r[0] + ROUNDING] for way in ways]
    return [way for way in clear if way]
