# SPDX-License-Identifier: LGPL-2.1-or-later

"""Moisture that moves in wood: finite volumes on cells, implicit, one axis after another.

A step solves for each axis in turn the lines of wood along it, with the surface at their ends (locally one-dimensional
splitting, see any text on fractional steps). Every line is one of diagonally dominant equations with positive
conductances, so a step never leaves the range of what the wood held and the air asks for, and what enters through the
faces is what the wood gains. The axes are taken in one order and then in the other.

The lines are packed: all first cells of the lines, the longest line first, then all second cells, and so on. So each
sweep runs over arrays that hold wood and nothing else, whatever the box around the form, and the factors are kept.
Moisture in %, lengths mm, time days.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.climate.exposed import room_air, true_share

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]

#: Cells that are filled less than this are air. The surface lies (part − 1/2) · size beyond the middle of the others.
LEAST_FILLED = 0.5
#: A cell filled to less than this from full, beside one filled to less than this, has its face on the surface.
TRUE_FACE = 0.02
AXES = 3


@dataclass(frozen=True, eq=False)
class Body:
    """Wood as cells. `filled`: the part of each that is wood, 0 to 1, nx × ny × nz; `size`: along x and y, mm;
    `heights`: nz + 1 faces between the cells, mm; `kind`: which row of `diffusivity` each cell has, K × 3, mm²/day
    along x, y and z."""

    filled: Floats
    size: float
    heights: Floats
    kind: NDArray[np.int16]
    diffusivity: Floats


class Lines(NamedTuple):
    """The lines of wood along one axis, packed: `cells` in the order of the packing, where each rank starts, and the
    kept factors of the elimination."""

    cells: Ints
    starts: Ints
    own: Floats  # of what the cell held
    air: Floats  # of the equilibrium
    back: Floats  # of the cell before
    ahead: Floats  # of the cell after
    entry: Floats  # conductance of the cell's faces to the air along this axis, mm³/day


@dataclass(frozen=True, eq=False)
class Solver:
    """A body ready to be stepped by `step` days. `cells`: places of its cells in the flattened grid; `volume` of each,
    mm³. Moisture is held in the order of the first axis' lines; `order` takes cells to it."""

    step: float
    cells: Ints
    volume: Floats
    lines: tuple[Lines, Lines, Lines]
    turns: tuple[Ints, Ints, Ints, Ints]  # x → y, y → z, z → y, y → x

    @property
    def order(self) -> Ints:
        """Cells in the order in which their moisture is held."""
        return self.lines[0].cells


def solver_of(body: Body, surface: float, step: float) -> Solver:
    """Everything that stays while the step does. surface: S, mm/day; step: days."""
    wood = body.filled >= LEAST_FILLED
    cells = np.flatnonzero(wood)
    thick = np.diff(body.heights)
    parts = np.clip(body.filled.reshape(-1)[cells], 0.0, 1.0)
    layers = cells % wood.shape[2]
    volume = parts * body.size**2 * thick[layers]
    # What was left out as air is given back to all alike, so that the wood has its volume.
    whole = float((body.filled * thick).sum()) * body.size**2
    volume *= whole / float(volume.sum())
    mean = float(thick.mean())
    share = true_share(np.asarray(body.filled, dtype=np.float64), (body.size, body.size, mean)).reshape(-1)[cells]
    air = room_air(wood)
    lines = [_lines(body, wood, air, cells, volume, share, surface, step, axis) for axis in range(AXES)]
    places = np.empty(len(cells), dtype=np.intp)

    def turn(start: Lines, end: Lines) -> Ints:
        places[start.cells] = np.arange(len(cells))
        return places[end.cells]

    x, y, z = lines
    return Solver(step, cells, volume, (x, y, z), (turn(x, y), turn(y, z), turn(z, y), turn(y, x)))


def _lines(
    body: Body, wood: NDArray[np.bool_], air: NDArray[np.bool_], cells: Ints, volume: Floats, share: Floats,
    surface: float, step: float, axis: int,
) -> Lines:  # fmt: skip
    """The lines along one axis and their factors."""
    shape = wood.shape
    thick = np.diff(body.heights)
    at = np.unravel_index(cells, shape)
    height = thick[at[2]]
    length = height if axis == 2 else np.full(len(cells), body.size)
    area = np.full(len(cells), body.size**2) if axis == 2 else body.size * height
    half = length / 2 / body.diffusivity[body.kind.reshape(-1)[cells], axis]
    # Neighbours in the order of the lines.
    ways = (*(other for other in range(AXES) if other != axis), axis)
    number = np.zeros(shape, dtype=np.intp)
    number[wood] = np.arange(len(cells))
    order = number.transpose(ways)[wood.transpose(ways)]
    stride = int(np.prod(shape[axis + 1 :], dtype=np.intp))
    follows = np.zeros(len(cells), dtype=np.bool_)
    line = cells[order] - at[axis][order] * stride
    follows[1:] = (line[1:] == line[:-1]) & (np.diff(at[axis][order]) == 1)
    first = np.flatnonzero(~follows)
    long = np.diff(np.append(first, len(cells)))
    longest = np.argsort(-long, kind="stable")
    rank = np.empty(len(first), dtype=np.intp)
    rank[longest] = np.arange(len(first))
    counts = np.bincount(long)
    width = len(first) - np.concatenate([[0], np.cumsum(counts[1:])])[: len(counts) - 1]
    starts = np.concatenate([[0], np.cumsum(width)]).astype(np.intp)
    run = np.cumsum(~follows) - 1
    depth = np.arange(len(cells)) - first[run]
    packed = np.empty(len(cells), dtype=np.intp)
    packed[starts[depth] + rank[run]] = order
    # Conductances: to the cell before, to the cell after, to the air.
    before = np.zeros(len(cells))
    joined = np.flatnonzero(follows)
    a, b = order[joined - 1], order[joined]
    before[b] = area[b] / (half[a] + half[b])
    after = np.zeros(len(cells))
    after[a] = before[b]
    entry = area * _into_air(body.filled, air, at, axis, half, share, surface)
    middle = (volume + step * (before + after + entry))[packed]
    back, ahead = step * before[packed], step * after[packed]
    for i in range(len(starts) - 1):
        here = slice(starts[i], starts[i + 1])
        if i:
            many = starts[i + 1] - starts[i]
            earlier = slice(starts[i - 1], starts[i - 1] + many)
            middle[here] -= back[here] * ahead[earlier]
        ahead[here] /= middle[here]
    entry = entry[packed]
    return Lines(packed, starts, volume[packed] / middle, step * entry / middle, back / middle, ahead, entry)


def _into_air(
    filled: Floats, air: NDArray[np.bool_], at: Sequence[Ints], axis: int, half: Floats, share: Floats, surface: float
) -> Floats:
    """What a cell's two faces along an axis let through to the room, over their area, mm/day.

    A full cell beside an empty one has a true face there, though near an edge the smoothed slope says otherwise.
    """
    part = np.clip(filled[tuple(at)], LEAST_FILLED, 1.0)
    found = np.zeros(len(part))
    for way in (-1, 1):
        beside = list(at)
        beside[axis] = at[axis] + way
        outside = (beside[axis] < 0) | (beside[axis] >= filled.shape[axis])
        beside[axis] = np.clip(beside[axis], 0, filled.shape[axis] - 1)
        there = np.where(outside, 0.0, filled[tuple(beside)])
        true = np.where((part > 1 - TRUE_FACE) & (there < TRUE_FACE), 1.0, share)
        open_to = outside | air[tuple(beside)]
        found += open_to / (half * (2 * part - 1) + 1.0 / (surface * true))
    return found


def _sweep(lines: Lines, moisture: Floats, equilibrium: float) -> Floats:
    """One axis: moisture in the order of its lines before and after the step."""
    found = lines.own * moisture
    found += lines.air * equilibrium
    starts = lines.starts.tolist()
    spare = np.empty(starts[1] if len(starts) > 1 else 0)
    for i in range(1, len(starts) - 1):
        start, end = starts[i], starts[i + 1]
        many = end - start
        add = spare[:many]
        np.multiply(lines.back[start:end], found[starts[i - 1] : starts[i - 1] + many], out=add)
        found[start:end] += add
    for i in range(len(starts) - 2, 0, -1):
        start, end = starts[i], starts[i + 1]
        before, many = starts[i - 1], end - start
        add = spare[:many]
        np.multiply(lines.ahead[before : before + many], found[start:end], out=add)
        found[before : before + many] += add
    return found


def two_steps(solver: Solver, moisture: Floats, first: float, second: float) -> Floats:
    """Moisture two steps on, in air that asks for `first` % and then `second` %: the axes in their order, and back."""
    x, y, z = solver.lines
    x_y, y_z, z_y, y_x = solver.turns
    found = _sweep(x, moisture, first)
    found = _sweep(y, _turned(found, x_y), first)
    found = _sweep(z, _turned(found, y_z), first)
    found = _sweep(z, found, second)
    found = _sweep(y, _turned(found, z_y), second)
    return _sweep(x, _turned(found, y_x), second)


def _turned(moisture: Floats, turn: Ints) -> Floats:
    """The same in another order; "clip" saves the check of every place, which are all good."""
    return np.take(moisture, turn, mode="clip")


def two_steps_with_flow(solver: Solver, moisture: Floats, first: float, second: float) -> tuple[Floats, float]:
    """The same, and what came in through all faces, % · mm³: for the balance."""
    flow = 0.0
    x_y, y_z, z_y, y_x = solver.turns
    found = moisture
    path = ((0, None, first), (1, x_y, first), (2, y_z, first), (2, None, second), (1, z_y, second), (0, y_x, second))
    for axis, turn, equilibrium in path:
        lines = solver.lines[axis]
        found = _sweep(lines, found if turn is None else _turned(found, turn), equilibrium)
        flow += solver.step * float(lines.entry @ (equilibrium - found))
    return found, flow


def grain_diffusivity(direction: Sequence[float], across: float, along: float) -> Floats:
    """Diffusivity along x, y and z of wood whose grain runs in `direction`: the diagonal of the turned tensor,
    D + (D along − D) · n². Exact where the grain lies along an axis; between, what the tensor would carry sideways is
    left out."""
    n = np.asarray(direction, dtype=np.float64)
    n = n / np.linalg.norm(n)
    return np.asarray(across + (along - across) * n**2)
