# SPDX-License-Identifier: LGPL-2.1-or-later

"""The wrong ways in which a layer could be laid: turned or turned over, where its outline would not tell.

A way is a turn about the outline's centre of area or a mirror at an axis through it (a layer turned over is its mirror
in plan). A way counts when the outline laid so differs from itself, by the area where they do not agree, in less than a
stated share of its own area.

How near pins come to fitting in a wrong way is their misfit: the largest distance by which any pin misses the nearest
hole. A turn so small that every pin still lies nearest to its own hole is no wrong way: it is a layer not yet seated,
and it slides home.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from freecad_stacklam.lamination.tolerances import DETAIL, NEAR_UPRIGHT, ROUNDING
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Angles in a full turn at which outlines are compared: every 2°, and mirror axes every 1°.
_STEPS = 180
_RINGS = 40


@dataclass(frozen=True, eq=False)
class Ways:
    """Wrong ways of one piece about its centre. `turns` and `axes` are degrees, ascending from 0; `chain_up` and
    `chain_down` are the numbers of the turns that hang together with 0 from either side, nearest first."""

    centre: tuple[float, float]
    turns: Floats
    axes: Floats
    chain_up: Ints
    chain_down: Ints

    def maps(self) -> Floats:
        """The ways as W × 2 × 2 matrices about the centre, turns first."""
        return np.concatenate([_turning(self.turns), _mirroring(self.axes)])

    def thinned(self, every: int) -> Ways:
        """One in `every` of the ways, for a first choice."""
        kept = np.arange(0, len(self.turns), every)
        up, down = (c[c % every == 0] // every for c in (self.chain_up, self.chain_down))
        return Ways(self.centre, self.turns[kept], self.axes[::every], up, down)


def wrong_ways(piece: Polygon, share: float, *, turns: bool = True, mirrors: bool = True) -> Ways:
    """All ways in which the piece's outline differs from itself by less than `share` of its area."""
    size = float(np.hypot(piece.bounds[2] - piece.bounds[0], piece.bounds[3] - piece.bounds[1]))
    plain = piece.simplify(size * DETAIL)
    centre = (float(plain.centroid.x), float(plain.centroid.y))
    differ_turned, differ_mirrored = _differences(plain, centre)
    turned = np.flatnonzero(differ_turned < share)
    turned = turned[turned > 0] if turns else turned[:0]
    mirrored = np.flatnonzero(differ_mirrored < share) if mirrors else np.empty(0, dtype=np.int64)
    near = np.zeros(_STEPS, dtype=bool)
    near[turned] = True
    up = _run(near, np.arange(1, _STEPS))
    down = _run(near, np.arange(_STEPS - 1, 0, -1))
    place = {int(t): i for i, t in enumerate(turned)}
    step = 360.0 / _STEPS
    return Ways(
        centre,
        turned * step,
        mirrored * step / 2,
        np.array([place[t] for t in up], dtype=np.int64),
        np.array([place[t] for t in down], dtype=np.int64),
    )


def _run(near: NDArray[np.bool_], order: Ints) -> list[int]:
    found: list[int] = []
    for t in order.tolist():
        if not near[t]:
            break
        found.append(t)
    return found


def _differences(piece: Polygon, centre: tuple[float, float]) -> tuple[Floats, Floats]:
    """Share of the area in which the piece differs from itself turned by 0, 2, 4 …°, and mirrored at 0, 1, 2 …°.

    The area is sampled on rings about the centre, where a turn is a shift and a mirror a reversal; all shifts at once
    are a circular correlation, done by the fast Fourier transform.
    """
    corners = shapely.get_coordinates(piece) - np.array(centre)
    reach = float(np.hypot(corners[:, 0], corners[:, 1]).max())
    radius = (np.arange(_RINGS) + 0.5) * reach / _RINGS
    angle = 2 * np.pi * np.arange(_STEPS) / _STEPS
    x = centre[0] + radius[:, None] * np.cos(angle)
    y = centre[1] + radius[:, None] * np.sin(angle)
    shapely.prepare(piece)
    wood = shapely.contains_xy(piece, x, y).astype(np.float64)
    weight = radius[:, None]
    total = float((wood * weight).sum())
    spectrum = np.fft.rfft(wood, axis=1)
    same_turned = np.fft.irfft((spectrum * spectrum.conj() * weight).sum(axis=0), _STEPS)
    # A mirror at the axis α takes the angle θ to 2α − θ: the sum over θ of wood(θ)·wood(2α − θ).
    same_mirrored = np.fft.irfft((spectrum * spectrum * weight).sum(axis=0), _STEPS)
    return 2 * (total - same_turned) / total, 2 * (total - same_mirrored) / total


def _turning(degrees: Floats) -> Floats:
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.stack([np.stack([c, -s], axis=-1), np.stack([s, c], axis=-1)], axis=-2)


def _mirroring(degrees: Floats) -> Floats:
    c, s = np.cos(2 * np.radians(degrees)), np.sin(2 * np.radians(degrees))
    return np.stack([np.stack([c, s], axis=-1), np.stack([s, -c], axis=-1)], axis=-2)


def misfits(ways: Ways, pins: Floats) -> Floats:
    """By how much the worst pin misses the nearest hole, mm, in each way, for A sets of pins (A × P × 2): W × A.

    Infinite where the way is only a layer not yet seated.
    """
    local = pins - np.array(ways.centre)
    count = local.shape[1]
    holes = _holes(ways.maps(), local)
    missed = np.zeros((len(holes[0][0]), len(local)))
    own = np.ones(missed.shape, dtype=bool)
    for p in range(count):
        apart = [(local[:, p, 0] - x) ** 2 + (local[:, p, 1] - y) ** 2 for x, y in holes]
        nearest = apart[0]
        for other in apart[1:]:
            nearest = np.minimum(nearest, other)
        own &= apart[p] <= nearest + ROUNDING
        missed = np.maximum(missed, nearest)
    missed = np.sqrt(missed)
    for chain in (ways.chain_up, ways.chain_down):
        if len(chain):
            unseated = np.logical_and.accumulate(own[chain], axis=0)
            missed[chain] = np.where(unseated, np.inf, missed[chain])
    return missed


def turned_over_onto(ways: Ways, pins: Floats, others: Floats) -> Floats:
    """The same for a layer turned over onto pins that were made for its other face: `others` (Q × 2) stand where the
    mirrored holes of `pins` (A × P × 2) arrive. One row for each mirror axis."""
    holes = _holes(_mirroring(ways.axes), pins - np.array(ways.centre))
    missed = np.zeros((len(ways.axes), len(pins)))
    for fixed in others - np.array(ways.centre):
        nearest = np.full(missed.shape, np.inf)
        for x, y in holes:
            nearest = np.minimum(nearest, (fixed[0] - x) ** 2 + (fixed[1] - y) ** 2)
        missed = np.maximum(missed, nearest)
    return np.sqrt(missed)


def _holes(maps: Floats, local: Floats) -> list[tuple[Floats, Floats]]:
    """Where the ways take each pin: x and y, both W × A."""
    found = []
    for p in range(local.shape[1]):
        x: Floats = local[:, p, 0]
        y: Floats = local[:, p, 1]
        found.append((
            maps[:, 0, 0, None] * x + maps[:, 0, 1, None] * y, maps[:, 1, 0, None] * x + maps[:, 1, 1, None] * y
        ))  # fmt: skip
    return found


def way_name(ways: Ways, number: int) -> str:
    """A way in the maker's words."""
    if number < len(ways.turns):
        turn = float(ways.turns[number])
        return say("turned by {angle:g}°", angle=turn if turn <= 180 else turn - 360)
    axis = ways.axes[number - len(ways.turns)] % 180.0
    # Makers say which way they flip it; an axis that leans by less than this is read as upright or level.
    if abs(axis - 90.0) <= NEAR_UPRIGHT:
        return say("turned over, left for right")
    if min(axis, 180.0 - axis) <= NEAR_UPRIGHT:
        return say("turned over, front for back")
    return say("turned over about an axis at {angle:g}°", angle=axis)
