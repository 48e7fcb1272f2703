# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a load can stand on a piece, which way it can push there, and the bricks' points that carry it.

One can sit or lean on what is open to the sky and nowhere steep, as far up as the seat: small and low patches of it are
left out. Places are points of the model, its z upward; lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.materials import Body
from freecad_stacklam.lamination.tolerances import FIT_STIFFENER
from freecad_stacklam.lamination.usage.edges import NARROW
from freecad_stacklam.lamination.voxels.grid import grid_over
from freecad_stacklam.lamination.voxels.lines import LINES, highest

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Lines across the longer side of the piece's plan, and the least step between them, mm.
_ACROSS, _LEAST_STEP = 120, 2.0
#: What is steeper than this (rise over run) is no place to sit on: 50°.
_STEEP = 1.2
#: Patches lower than this part of the height, or smaller than this part of the largest, are no seat.
_LOW, _SMALL = 0.3, 0.15
#: Radius of what a load stands on, mm, and at least in cells.
PAD, LEAST_PAD = 30.0, 1.3
#: Places kept of each load, and directions of a push that has none of its own.
MOST_PLACES, WAYS = 48, 8


@dataclass(frozen=True, eq=False)
class Seat:
    """What can be sat on or leant on: points of the model (S × 3), how far each lies inside the edge, the direction
    level and outward at it (S × 2), and which is the middle."""

    points: Floats
    inside: Floats
    outward: Floats
    middle: int


@dataclass(frozen=True)
class Load:
    """One load as it stands: `case` is its number among the cases, `place` a point of the model, `force` N on it in
    the model's directions."""

    case: int
    place: tuple[float, float, float]
    force: tuple[float, float, float]


def seat_of(meshes: Sequence[Mesh]) -> Seat:
    """What of the forms, as they stand in the model, can be sat on. Raises Refusal where there is nothing."""
    low = np.min([m.vertices.min(axis=0) for m in meshes], axis=0)
    high = np.max([m.vertices.max(axis=0) for m in meshes], axis=0)
    step = max(float((high - low)[:2].max()) / _ACROSS, _LEAST_STEP)
    grid = grid_over(low, high, [], LINES * step)
    top = np.max([highest(m.vertices, m.triangles, grid) for m in meshes], axis=0)
    there = top > low[2] + _LOW * (high[2] - low[2])
    patch = _patches(np.where(there, top, -np.inf), step * _STEEP)
    count = np.bincount(patch[patch >= 0]) if (patch >= 0).any() else np.zeros(1)
    if count.max() == 0:
        raise Refusal("Nothing of the piece can be sat or leant on: turn it the way it stands, z upward.")
    seat = np.isin(patch, np.flatnonzero(count >= _SMALL * count.max()))
    cells = np.argwhere(seat)
    rim = cells[_at_rim(seat)[seat]]
    apart = np.sqrt(((cells[:, None] - rim[None]) ** 2).sum(axis=2)) if len(cells) * len(rim) < 20_000_000 else None
    nearest = apart.argmin(axis=1) if apart is not None else _nearest(cells, rim)
    way = (rim[nearest] - cells).astype(np.float64)
    inside = np.linalg.norm(way, axis=1)
    centre = cells[patch[tuple(cells.T)] == count.argmax()].mean(axis=0)
    out = np.where((inside > 0)[:, None], way, cells - centre)
    length = np.linalg.norm(out, axis=1, keepdims=True)
    outward = np.where(length > 0, out / np.where(length > 0, length, 1.0), np.array([1.0, 0.0]))
    plan = grid.origin[:2] + (cells + 0.5) * step
    points = np.column_stack([plan, top[tuple(cells.T)]])
    # Of the places round the centre the innermost.
    middle = int((np.linalg.norm(cells - centre, axis=1) - inside).argmin())
    return Seat(points, (inside + 0.5) * step, outward, middle)


def _patches(top: Floats, rise: float) -> Ints:
    """Numbers of the patches over which one can go from line to line without rising or falling more than `rise`; −1
    where there is none."""
    number = np.where(np.isfinite(top), np.arange(top.size).reshape(top.shape), -1)
    while True:
        before = number.copy()
        for axis in (0, 1):
            for forward in (True, False):
                a, b = (slice(None, -1), slice(1, None)) if forward else (slice(1, None), slice(None, -1))
                one = (a, slice(None)) if axis == 0 else (slice(None), a)
                two = (b, slice(None)) if axis == 0 else (slice(None), b)
                with np.errstate(invalid="ignore"):
                    near = np.abs(top[one] - top[two]) <= rise
                number[two] = np.where(near, np.maximum(number[two], number[one]), number[two])
        if np.array_equal(before, number):
            break
    _, small = np.unique(number, return_inverse=True)
    return np.asarray(small.reshape(number.shape) - (1 if (number < 0).any() else 0))


def _at_rim(seat: Bools) -> Bools:
    padded = np.pad(seat, 1)
    inner = padded[:-2, 1:-1] & padded[2:, 1:-1] & padded[1:-1, :-2] & padded[1:-1, 2:]
    return np.asarray(seat & ~inner)


def _nearest(cells: Ints, rim: Ints) -> Ints:
    return np.concatenate([
        ((part[:, None] - rim[None]) ** 2).sum(axis=2).argmin(axis=1) for part in np.array_split(cells, 64)
    ])  # fmt: skip


def loads_of(cases: Sequence[LoadCase], seat: Seat) -> tuple[Load, ...]:
    """Every load of every case that bends: at the places of its case, in every direction that it may push."""
    found = []
    for number, case in enumerate(cases):
        if not case.bends:
            continue
        if case.place == "point" and case.at is not None:
            points, outward = np.array([case.at]), np.zeros((1, 2))
        else:
            which = _places(case, seat)
            points, outward = seat.points[which], seat.outward[which]
        for point, out in zip(points, outward):
            for x, y in _ways(case, out):
                place = (float(point[0]), float(point[1]), float(point[2]))
                found.append(Load(number, place, (case.push * x, case.push * y, -case.down)))
    return tuple(found)


def _places(case: LoadCase, seat: Seat) -> Ints:
    if case.place == "middle":
        return np.array([seat.middle])
    deep = float(seat.inside.max())
    inset = min(case.inset, NARROW * deep)
    step = float(seat.inside.min()) * 2
    if case.place == "edge":
        fit = np.abs(seat.inside - inset) <= step if case.inset <= NARROW * deep else seat.inside >= inset
    else:
        fit = seat.inside >= inset
    which = np.flatnonzero(fit)
    return which[far_apart(seat.points[which], MOST_PLACES)]


def far_apart(points: Floats, most: int) -> Ints:
    """Of points, `most` that lie as far from each other as may be: the first is the farthest from the middle."""
    if len(points) <= most:
        return np.arange(len(points))
    chosen = [int(np.linalg.norm(points - points.mean(axis=0), axis=1).argmax())]
    near = np.linalg.norm(points - points[chosen[0]], axis=1)
    while len(chosen) < most:
        chosen.append(int(near.argmax()))
        near = np.minimum(near, np.linalg.norm(points - points[chosen[-1]], axis=1))
    return np.array(chosen)


def _ways(case: LoadCase, out: Floats) -> list[tuple[float, float]]:
    """Level directions of its push."""
    if case.push == 0:
        return [(0.0, 0.0)]
    if case.direction is not None:
        turn = np.radians(case.direction)
        return [(float(np.cos(turn)), float(np.sin(turn)))]
    if case.place == "edge":
        return [(float(out[0]), float(out[1]))]
    turns = 2 * np.pi * np.arange(WAYS) / WAYS
    return [(float(np.cos(t)), float(np.sin(t))) for t in turns]


class Pads:
    """What carries a load at a place: the points of a body's bricks near it, and their shares of the load."""

    def __init__(self, body: Body, frame: Sequence[float]) -> None:
        self._frame = frame
        lattice = body.lattice
        self._points = lattice.points
        wood = np.repeat(lattice.share, 8)
        self._wood = np.bincount(lattice.corners.ravel(), wood, len(lattice.points))
        self._reach = max(PAD, LEAST_PAD * lattice.size)
        self._known: dict[tuple[float, float, float], tuple[Ints, Floats]] = {}

    def carries(self, place: tuple[float, float, float]) -> bool:
        """Whether a place of the model lies on wood, as near as what a load stands on reaches."""
        at = to_stack(self._frame, np.array([place]))[0]
        return bool(np.linalg.norm(self._points - at, axis=1).min() <= self._reach)

    def pad(self, place: tuple[float, float, float]) -> tuple[Ints, Floats]:
        """Points near a place of the model, and weights whose sum is 1 and whose middle is the place."""
        if place not in self._known:
            at = to_stack(self._frame, np.array([place]))[0]
            apart = np.linalg.norm(self._points - at, axis=1)
            near = np.flatnonzero(apart <= max(self._reach, float(np.partition(apart, 8)[8])))
            ones = np.column_stack([np.ones(len(near)), (self._points[near] - at) / self._reach])
            wood = self._wood[near]
            square = (ones * wood[:, None]).T @ ones
            weight = wood * (ones @ (np.linalg.pinv(square, rcond=FIT_STIFFENER) @ np.array([1.0, 0.0, 0.0, 0.0])))
            self._known[place] = near, weight / weight.sum()
        return self._known[place]

    def forces(self, load: Load) -> Floats:
        """The load on the bricks' points, N × 3, in the piece's frame."""
        near, weight = self.pad(load.place)
        found = np.zeros(self._points.shape)
        found[near] = weight[:, None] * np.asarray(direction_to_stack(self._frame, load.force))
        return found

    def work(self, moved: Floats, load: Load) -> float:
        """The load times movements of where it stands: of an influence map, what it adds to the reading."""
        near, weight = self.pad(load.place)
        return float(weight @ moved[near] @ np.asarray(direction_to_stack(self._frame, load.force)))
