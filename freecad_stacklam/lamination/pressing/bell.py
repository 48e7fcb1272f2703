# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the force of one pad spreads over a glue line: a bell-shaped law, (1 + r²/z²)^−2.5, summed to the force.

It is the pressure under a point load on a half-space at depth z (Boussinesq; any handbook of elasticity or of soils).
What the block's edges would carry is carried by the line: Σ pressure × area is the force, and its moment is that of the
force, so that the block above a line is in balance. A pad is no point: its depth is taken so much greater that the
pressure under its middle is that under a round pad of even pressure. A pad presses from above and another from below,
and the nearer one shapes the pressure. A pad presses only the islands of a line that wood joins to it from above and
from below: a clamp on one leg presses nothing in the other. All of it is a model of elastic wood: no pressure was
measured. mm, mm², MPa for each N.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.tolerances import NO_AREA, TINY
from freecad_stacklam.lamination.wood.loadspread import bell_shape

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
#: Cells of a line smaller than this part of a whole cell are left to their neighbours: their middles hang on the rim.
_LEAST_CELL = 0.05
#: Squares on the longer side of a grid, at most: an area as thin as a hair would ask for millions.
_FINEST = 64


@dataclass(frozen=True, eq=False)
class LineCells:
    """A glue line cut into cells: the middles of the cells, M × 2, their areas, and which island of the line each is
    of."""

    lower: int
    middles: Floats
    areas: Floats
    islands: NDArray[np.int64]

    @cached_property
    def bending(self) -> Floats:
        """Pressure on each cell by a moment of 1 N·mm about y and about x, 2 × M: the cell's arm over the line's second
        moments."""
        arms = self.middles - (self.areas @ self.middles) / self.areas.sum()
        return np.asarray(np.linalg.pinv(arms.T @ (arms * self.areas[:, None])) @ arms.T)


@dataclass(frozen=True)
class Bears:
    """Which cells of a line wood joins to N pads: `which` of the `flags` (each of M cells) is each pad's."""

    flags: tuple[Flags, ...]
    which: tuple[int, ...]


def cells_of(lower: int, contact: MultiPolygon, count: int) -> LineCells:
    """A line as about `count` cells: squares cut with its outline, so that their areas sum to the line's."""
    middles, areas, islands = [], [], []
    for number, island in enumerate(shapely.get_parts(contact).tolist()):
        share = max(3.0, count * island.area / contact.area)
        pieces = squares_on(island, (island.area / share) ** 0.5)
        size = shapely.area(pieces)
        kept = size > _LEAST_CELL * size.max()
        points = shapely.centroid(pieces[kept])
        outside = ~shapely.intersects(points, island)
        points[outside] = shapely.point_on_surface(pieces[kept][outside])
        middles.append(shapely.get_coordinates(points))
        areas.append(size[kept] * (size.sum() / size[kept].sum()))
        islands.append(np.full(int(kept.sum()), number))
    if not middles:
        return LineCells(lower, np.zeros((0, 2)), np.zeros(0), np.zeros(0, dtype=np.int64))
    return LineCells(lower, np.concatenate(middles), np.concatenate(areas), np.concatenate(islands))


def squares_over(area: shapely.Geometry, step: float) -> NDArray[np.object_]:
    """Squares of a side that cover an area, in a grid about its middle."""
    x0, y0, x1, y1 = shapely.bounds(area)
    nx, ny = (max(1, int(np.ceil((high - low) / step))) for low, high in ((x0, x1), (y0, y1)))
    left = (x0 + x1 - nx * step) / 2 + step * np.arange(nx)
    low = (y0 + y1 - ny * step) / 2 + step * np.arange(ny)
    x, y = (grid.ravel() for grid in np.meshgrid(left, low))
    boxes: NDArray[np.object_] = shapely.box(x, y, x + step, y + step)
    return boxes


def squares_on(island: shapely.Geometry, step: float) -> NDArray[np.object_]:
    """Squares of a side, mm, cut with an area: its pieces. Larger squares where there would be too many."""
    shapely.prepare(island)
    x0, y0, x1, y1 = shapely.bounds(island)
    step = max(step, float(max(x1 - x0, y1 - y0)) / _FINEST)
    boxes = squares_over(island, step)
    boxes = boxes[shapely.intersects(island, boxes)]
    whole = shapely.contains_properly(island, boxes)
    pieces: NDArray[np.object_] = np.concatenate(
        [boxes[whole], shapely.get_parts(shapely.intersection(boxes[~whole], island))]
    )
    pieces = pieces[shapely.area(pieces) > NO_AREA]
    return pieces


def depth_under(depth: float | Floats, pad: float) -> Floats:
    """The depth of the point load that presses as much under its middle as a round pad of even pressure does, mm: under
    the pad's middle σ = q·(1 − (1 + a²/z²)^−1.5), under the point 1.5·F/(π·z²), with F = q·π·a²."""
    radius = pad / 2
    z = np.maximum(np.asarray(depth, dtype=np.float64), TINY)
    share = 1.0 - (1.0 + radius**2 / z**2) ** -1.5
    return np.asarray(np.sqrt(1.5 * radius**2 / np.maximum(share, TINY)))


def bell(apart2: Floats, depth: float) -> Floats:
    """Pressure, MPa for each N, under a point load at `depth` and the square root of `apart2` beside it."""
    return np.asarray(1.5 / (np.pi * depth**2) * bell_shape(apart2, depth))


def pressures(
    places: Floats, cells: LineCells, above: float, below: float, pad: float, bears: Bears | None = None
) -> Floats:
    """Pressure of each of N pads (N × 2) on each of M cells, MPa for each N of force, N × M: Σ pressure × area of a row
    is 1 and its middle is the pad's, or it is 0 where the pad bears on none of the line. Where a pad stands far beside
    the line it is negative on the other side: there the line gapes, unless other pads hold it.

    above, below: wood between line and pad, mm. bears: which cells the wood joins to which pad; None: all."""
    apart2 = ((places[:, None, :] - cells.middles[None, :, :]) ** 2).sum(axis=2)
    near = bell(apart2, float(depth_under(min(above, below), pad)))
    if bears is None:
        return _balanced(near, places, cells)
    found = np.zeros_like(near)
    for pattern in sorted(set(bears.which)):
        flags = bears.flags[pattern]
        if flags.any():
            rows = np.flatnonzero(np.array(bears.which) == pattern)
            part = LineCells(cells.lower, cells.middles[flags], cells.areas[flags], cells.islands[flags])
            at = np.ix_(rows, np.flatnonzero(flags))
            found[at] = _balanced(near[at], places[rows], part)
    return found


def _balanced(near: Floats, places: Floats, cells: LineCells) -> Floats:
    """Rows scaled to a force of 1, and with what a turning moment adds (linear over the line, as in a bent section), so
    that force and moment of the pressure are the pad's: what is above a line is held by nothing else."""
    force = near @ cells.areas
    rows = near / np.where(force > 0.0, force, 1.0)[:, None]
    lacks = places - (rows * cells.areas) @ cells.middles
    return np.asarray(rows + lacks @ cells.bending)


def lowest_twentieth(values: Floats, areas: Floats, share: float = 0.05) -> float:
    """The value below which a share of the area lies; 0 where there is none."""
    if not len(values):
        return 0.0
    order = np.argsort(values)
    passed = np.cumsum(areas[order])
    return float(values[order][min(int(np.searchsorted(passed, share * passed[-1])), len(values) - 1)])


class Islands:
    """Which islands of the lines of a pile hang together with which of its outer faces."""

    def __init__(self, pile: Sequence[Slab], contacts: Sequence[MultiPolygon]) -> None:
        """contacts: of every line of the pile, from the bottom."""
        slabs = [np.array(shapely.get_parts(s.blank), dtype=object) for s in pile]
        lines = [np.array(shapely.get_parts(c), dtype=object) for c in contacts]
        #: Whether all slabs and lines are of one piece, and so everything is joined.
        self.one_piece = max(map(len, (*slabs, *lines))) == 1
        self._faces = slabs[0], slabs[-1]
        self._down, self._up = [], []
        if not self.one_piece:
            self._down = [_joined(slabs[::-1], lines[::-1], i)[::-1] for i in range(len(slabs[-1]))]
            self._up = [_joined(slabs, lines, i) for i in range(len(slabs[0]))]

    def bears(self, places: Floats, line: int, cells: LineCells) -> Bears | None:
        """Which cells of a line the wood joins to a pad at each place, from above and from below; None: all."""
        if self.one_piece:
            return None
        feet, tops = (_nearest(face, places) for face in self._faces)
        pairs = sorted(set(zip(tops, feet)))
        flags = tuple((self._down[t][line] & self._up[f][line])[cells.islands] for t, f in pairs)
        return Bears(flags, tuple(pairs.index(pair) for pair in zip(tops, feet)))


def _nearest(parts: NDArray[np.object_], places: Floats) -> list[int]:
    points = shapely.points(places)
    return [int(i) for i in np.argmin(shapely.distance(parts[None, :], points[:, None]), axis=1)]


def _joined(slabs: Sequence[NDArray[np.object_]], lines: Sequence[NDArray[np.object_]], start: int) -> list[Flags]:
    """Which islands of each line hang together with island `start` of the first slab, on the way through the slabs in
    their order."""
    held: Flags = np.arange(len(slabs[0])) == start
    found: list[Flags] = []
    for slab, line, following in zip(slabs, lines, slabs[1:]):
        touched = _touched(line, slab[held])
        found.append(touched)
        held = _touched(following, line[touched])
    return found


def _touched(parts: NDArray[np.object_], by: NDArray[np.object_]) -> Flags:
    if not len(parts) or not len(by):
        return np.zeros(len(parts), dtype=np.bool_)
    return np.asarray(shapely.area(shapely.intersection(parts, shapely.union_all(by))) > NO_AREA)
