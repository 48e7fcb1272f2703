# SPDX-License-Identifier: LGPL-2.1-or-later

"""First fit, decreasing: each item into the band that it fills best."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot, Packing, Place
from freecad_stacklam.lamination.tolerances import ROUNDING

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Where a band begins along the board, and what is clear across it.
Band = tuple[float, list[tuple[float, float]]]


def first_fit(lot: Lot, order: Sequence[int], sheets: Sequence[int]) -> Packing:
    """Put the items, in the given order, into the band that they fill best, else into a new band, else onto a new
    board: the first of `sheets` that has one and takes the item."""
    spare = [s.count or -1 for s in lot.sheets]
    most = len(lot.items) + sum(len(s.blocks) + 1 for s in lot.sheets) + 64
    high, free, at = np.zeros(most), np.zeros(most), np.zeros(most)
    where = np.zeros((most, 2))
    slots = 0
    opened: list[int] = []
    ends: list[float] = []
    places: list[list[Place]] = []
    left: list[int] = []
    for item in order:
        a, b = lot.items[item]
        fits = np.flatnonzero((high[:slots] >= a - ROUNDING) & (free[:slots] >= b - ROUNDING))
        if len(fits):
            slot = int(fits[np.lexsort((free[fits], high[fits]))[0]])
        else:
            board, band = _new_band(lot, a, b, opened, ends, spare, sheets)
            if band is None:
                left.append(item)
                continue
            if board == len(places):
                places.append([])
            a0, gaps = band
            ends[board] = a0 + a + lot.kerf
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
        at[slot] += b + lot.kerf
        free[slot] -= b + lot.kerf
    return lot.packing([(k, tuple(p)) for k, p in zip(opened, places)], left)


def _new_band(
    lot: Lot, a: float, b: float, opened: list[int], ends: list[float], spare: list[int], sheets: Sequence[int]
) -> tuple[int, Band | None]:
    for board, kind in enumerate(opened):
        if lot.sheets[kind].a - ends[board] >= a - ROUNDING:
            band = _band(lot, lot.sheets[kind], ends[board], a, b)
            if band:
                return board, band
    for kind in sheets:
        if spare[kind]:
            band = _band(lot, lot.sheets[kind], 0.0, a, b)
            if band:
                spare[kind] -= 1
                opened.append(kind)
                ends.append(0.0)
                return len(opened) - 1, band
    return -1, None


def _band(
    lot: Lot, sheet: ClearBoard, start: float, a: float, b: float
) -> tuple[float, list[tuple[float, float]]] | None:
    """The first place from `start` for a band of extent a that holds an item of extent b, and its gaps."""
    for a0 in lot.starts(sheet, start):
        if a0 + a > sheet.a + ROUNDING:
            return None
        gaps = lot.gaps(sheet, a0, a0 + a)
        if any(up - low >= b - ROUNDING for low, up in gaps):
            return a0, gaps
    return None
