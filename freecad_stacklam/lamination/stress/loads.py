# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every load at the places where it can stand, which way it can push there, and the bricks' points that carry it.

An edge load stands at the edge of every top and arm, one anywhere or in the middle on what is wide enough to sit on.
Places are points of the model, its z upward; lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.stress.materials import Body
from freecad_stacklam.lamination.tolerances import FIT_STIFFENER
from freecad_stacklam.lamination.tops.seat import Seat
from freecad_stacklam.lamination.usage.edges import NARROW

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Radius of what a load stands on, mm, and at least in cells.
PAD, LEAST_PAD = 30.0, 1.3
#: Places kept of each load, and directions of a push that has none of its own.
MOST_PLACES, WAYS = 48, 8


@dataclass(frozen=True)
class Load:
    """One load as it stands: `case` is its number among the cases, `place` a point of the model, `force` N on it in
    the model's directions."""

    case: int
    place: tuple[float, float, float]
    force: tuple[float, float, float]


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
    step = float(seat.inside.min()) * 2
    deep = np.zeros(int(seat.top.max()) + 1)
    np.maximum.at(deep, seat.top, seat.inside)
    most = NARROW * deep[seat.top]
    if case.place == "edge":
        fit = np.where(case.inset <= most, np.abs(seat.inside - case.inset) <= step, seat.inside >= most)
    else:
        fit = seat.wide & (seat.inside >= np.minimum(case.inset, most))
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
