# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places at which a load can stand: points of a piece's tops and of its arms, how far inside the edge each lies.

What is a top or an arm, `tops/outlines.py` says. Left out of it is what lies under or in other wood, is too steep to
sit on, or as low as a foot: of a bowl the rim is left. Places are points of the model, its z upward; lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, tan

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from freecad_stacklam.lamination.findings.standing import TopFound
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tops.outlines import LEAST_HEIGHT, OVER, STEEPEST, Stood, arms_of, tops_of
from freecad_stacklam.lamination.voxels.grid import Grid, grid_over
from freecad_stacklam.lamination.voxels.lines import LINES, highest
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Upright lines across the longer side of the piece's plan, and the least step between them, mm: so that an arm of
#: 30 mm has three lines across on a piece of a metre.
_ACROSS, _LEAST_STEP = 120, 2.0


@dataclass(frozen=True, eq=False)
class Seat:
    """What can be sat on or leant on: points of the model (S × 3), how far each lies inside the edge of its top, the
    direction level and outward at it (S × 2), which is the middle, the number of its top or arm, and whether that is
    wide enough to sit on: no arm."""

    points: Floats
    inside: Floats
    outward: Floats
    middle: int
    top: Ints
    wide: Bools

    @property
    def sat(self) -> Floats:
        """The points that are sat on, without those on arms."""
        return np.asarray(self.points[self.wide])


def seat_of(meshes: Sequence[Mesh]) -> Seat:
    """What of the forms, as they stand in the model, can be sat on or leant on. Raises Refusal where there is
    nothing."""
    low = np.min([m.vertices.min(axis=0) for m in meshes], axis=0)
    high = np.max([m.vertices.max(axis=0) for m in meshes], axis=0)
    forms = [Stood("", m.vertices - np.array([0.0, 0.0, low[2]]), m) for m in meshes]
    tops = tops_of(forms)
    arms = arms_of(forms, tops)
    step = max(float((high - low)[:2].max()) / _ACROSS, _LEAST_STEP)
    grid = grid_over(low, high, [], LINES * step)
    height = np.max([highest(m.vertices, m.triangles, grid) for m in meshes], axis=0)
    which = _which([*tops, *arms], grid, step, height - low[2])
    if not (which >= 0).any():
        raise Refusal(say("Nothing of the piece can be sat or leant on: turn it the way it stands, z upward."))
    found = [_one(which == number) for number in np.unique(which[which >= 0]).tolist()]
    cells, inside, outward, offset = (np.concatenate(part) for part in zip(*found))
    number = which[tuple(cells.T)]
    wide = number < len(tops)
    counts = np.bincount(number[wide] if wide.any() else number)
    # Of the places round the centre of the largest top the innermost.
    middle = int(np.where(number == counts.argmax(), offset - inside, np.inf).argmin())
    points = np.column_stack([grid.origin[:2] + (cells + 0.5) * step, height[tuple(cells.T)]])
    return Seat(points, (inside + 0.5) * step, outward, middle, number, wide)


def _which(tops: Sequence[TopFound], grid: Grid, step: float, height: Floats) -> Ints:
    """The number of the top, or arm, that each line meets first from above, −1 where it meets none or is steep."""
    found = np.full(height.shape, -1, dtype=np.int64)
    lines = [grid.origin[axis] + (np.arange(height.shape[axis]) + 0.5) * step for axis in (0, 1)]
    x, y = np.meshgrid(*lines, indexing="ij")
    level = _rise(height) <= step * tan(radians(STEEPEST))
    high = np.isfinite(height) & (height > LEAST_HEIGHT * height.max())
    # The lowest first: what lies higher stands over it.
    for number in sorted(range(len(tops)), key=lambda n: tops[n].height):
        top = tops[number]
        there = shapely.contains_xy(Polygon(top.outline), x, y) & high & (height <= top.height + OVER)
        found[there & (level | (not top.level))] = number
    return found


def _rise(height: Floats) -> Floats:
    """How far a surface rises from line to line, along x and y together; beside an edge, on the side that has none."""
    with np.errstate(invalid="ignore"):
        square = np.zeros(height.shape)
        for axis in (0, 1):
            padded = np.pad(height, [(1, 1) if a == axis else (0, 0) for a in (0, 1)], constant_values=-np.inf)
            along = np.nan_to_num(np.abs(np.diff(padded, axis=axis)), nan=np.inf, posinf=np.inf)
            before, after = (np.take(along, range(s, s + height.shape[axis]), axis=axis) for s in (0, 1))
            square += np.minimum(before, after) ** 2
    return np.asarray(np.sqrt(square))


def _one(there: Bools) -> tuple[Ints, Floats, Floats, Floats]:
    """Of one top its lines, how far in steps each lies inside its rim, outward (S × 2), and how far from its middle."""
    cells = np.argwhere(there)
    rim = cells[_at_rim(there)[there]]
    nearest = np.concatenate([
        ((part[:, None] - rim[None]) ** 2).sum(axis=2).argmin(axis=1) for part in np.array_split(cells, 64)
    ])  # fmt: skip
    way = (rim[nearest] - cells).astype(np.float64)
    inside = np.linalg.norm(way, axis=1)
    from_middle = cells - cells.mean(axis=0)
    out = np.where((inside > 0)[:, None], way, from_middle)
    length = np.linalg.norm(out, axis=1, keepdims=True)
    outward = np.where(length > 0, out / np.where(length > 0, length, 1.0), np.array([1.0, 0.0]))
    return cells, inside, outward, np.linalg.norm(from_middle, axis=1)


def _at_rim(seat: Bools) -> Bools:
    """The lines at the outer edge. What a top surrounds, such as the steep step of a dish, is no edge of it."""
    free = ~np.pad(seat, 1)
    around = np.zeros(free.shape, dtype=bool)
    around[0], around[-1], around[:, 0], around[:, -1] = True, True, True, True
    while True:
        grown = around | (_beside(around) & free)
        if np.array_equal(grown, around):
            return np.asarray(seat & _beside(around)[1:-1, 1:-1])
        around = grown


def _beside(marked: Bools) -> Bools:
    """The lines that have a marked one beside them."""
    padded = np.pad(marked, 1)
    return np.asarray(padded[:-2, 1:-1] | padded[2:, 1:-1] | padded[1:-1, :-2] | padded[1:-1, 2:])
