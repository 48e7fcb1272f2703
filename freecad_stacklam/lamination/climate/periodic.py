# SPDX-License-Identifier: LGPL-2.1-or-later

"""Years one after another until the wood repeats itself. Moisture %, times days."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.climate.diffusion import Solver, solver_of, two_steps
from freecad_stacklam.lamination.climate.piece import Piece
from freecad_stacklam.lamination.climate.surface import YEAR, over_the_year
from freecad_stacklam.lamination.findings.seasons import Lag, Year

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]

#: Steps in a month, even halves of it in pairs: a step is two days.
STEPS = 16
#: Points of moisture within which one year repeats the one before, and years after which it is taken so nonetheless.
REPEATS, MOST_YEARS = 0.02, 8
#: The part of a layer that is its core.
CORE = 0.1
#: Swings below this, points, have no lag worth a word.
STILL_SWING = 0.05


@dataclass(frozen=True, eq=False)
class Run:
    """What a run leaves: `first` and `settled` means of every part by month (12 × parts), NaN for parts without cells,
    `snapshots` of every cell in the settled year (12 × cells, in the solver's order), and the last state."""

    solver: Solver
    first: Floats
    settled: Floats
    snapshots: Singles
    last: Floats
    years: int
    repeats: bool


@dataclass(frozen=True, eq=False)
class Groups:
    """Which part every cell belongs to, in a solver's order, and its volume, mm³."""

    part: NDArray[np.int64]
    volume: Floats
    parts: int

    def means(self, moisture: Floats | Singles) -> Floats:
        """Mean moisture of every part; NaN where it has no cells."""
        whole = np.bincount(self.part, self.volume, self.parts)
        total = np.bincount(self.part, self.volume * moisture, self.parts)
        return np.asarray(total / np.where(whole > 0, whole, np.nan))


def groups_of(piece: Piece, solver: Solver) -> Groups:
    """The parts of the solver's cells."""
    order = solver.order
    return Groups(piece.part.reshape(-1)[solver.cells[order]].astype(np.int64), solver.volume[order], piece.parts)


def run_years(
    piece: Piece, equilibria: Sequence[float], start: float | Floats, month: int, surface: float,
    tell: Callable[[int, int], None] = lambda year, month: None, faster: float = 1.0,
) -> Run:  # fmt: skip
    """From `start` at the beginning of `month` (0: January) in a room that asks for `equilibria` in the middles of the
    months, until a year repeats the one before. faster: of diffusion, times. tell: called before each month."""
    body = replace(piece.body, diffusivity=piece.body.diffusivity * faster)
    solver = solver_of(body, surface, YEAR / 12 / STEPS)
    groups = groups_of(piece, solver)
    asked = over_the_year(equilibria, 12 * STEPS)
    moisture = np.full(len(solver.cells), start) if isinstance(start, float) else start
    first = np.zeros((12, piece.parts))
    snapshots = np.zeros((12, len(solver.cells)), dtype=np.float32)
    now = np.full((12, piece.parts), np.nan)
    for year in range(1, MOST_YEARS + 1):
        before = now
        now = np.zeros((12, piece.parts))
        for turn in range(12):
            at = (month + turn) % 12
            tell(year, turn)
            for step in range(0, STEPS, 2):
                if step == STEPS // 2:
                    snapshots[at] = moisture
                    now[at] = groups.means(moisture)
                k = at * STEPS + step
                moisture = two_steps(solver, moisture, float(asked[k]), float(asked[k + 1]))
        if year == 1:
            first = now
        change = np.abs(now - before)
        if year > 1 and float(np.nanmax(change)) < REPEATS:
            return Run(solver, first, now, snapshots, moisture, year, True)
    return Run(solver, first, now, snapshots, moisture, MOST_YEARS, False)


def cores(groups: Groups, snapshots: Singles) -> Floats:
    """Mean moisture, by month and part (12 × parts), of the tenth of each part that swings least over the year."""
    swing = snapshots.max(axis=0) - snapshots.min(axis=0)
    order = np.lexsort((swing, groups.part))
    part, volume = groups.part[order], groups.volume[order]
    so_far = np.cumsum(volume)
    whole = np.bincount(groups.part, groups.volume, groups.parts)
    begins = np.concatenate([[0.0], np.cumsum(whole)])[:-1]
    inner = so_far - volume - begins[part] <= CORE * whole[part]
    chosen = order[inner]
    few = Groups(groups.part[chosen], groups.volume[chosen], groups.parts)
    return np.array([few.means(month[chosen]) for month in snapshots])


def _phase(year: Sequence[float]) -> complex:
    """The year's own wave: its first harmonic."""
    turns = np.exp(-2j * np.pi * np.arange(12) / 12)
    return complex((np.asarray(year) @ turns) / 6)


def lag_days(year: Sequence[float], room: Sequence[float]) -> float | None:
    """By how much the yearly wave of one follows that of the other later, 0 to a year; None where either is still."""
    mine, other = _phase(year), _phase(room)
    if min(abs(mine), abs(other)) * 2 < STILL_SWING:
        return None
    turn = float(np.angle(other / mine)) / (2 * np.pi)
    turn = turn + 1 if turn < -0.05 else turn  # a hair before the room is rounding, not a year late
    return max(turn, 0.0) * YEAR


def lag_of(likely: Year, fast: Year, slow: Year, room: Year) -> Lag | None:
    """The lag and its band, from a year with diffusion as set, one with it faster and one with it slower; the waves of
    slow wood may be too weak to have a lag: then it is no less than the likely one."""
    days = lag_days(likely, room)
    if days is None:
        return None
    ends = [days if one is None else one for one in (lag_days(fast, room), lag_days(slow, room))]
    return Lag(days, min(days, *ends), max(days, *ends))
