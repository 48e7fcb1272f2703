# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much of each cell lies in a closed surface, by upright lines through it: 6 × 6 lines a cell, exact along each.

A line is inside from where it enters a surface to where it leaves it, so the length inside below a height is the sum
over its hits, with their signs, of how far each lies below that height: no hit needs a partner, none is sorted. Two
triangles that share an edge find the same crossing of it, to the last bit, so no line slips between them.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from freecad_stacklam.lamination.form.spans import pairs_of
from freecad_stacklam.lamination.voxels.grid import Grid

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Lines along each side of a cell.
LINES = 6
#: Triangles, and hits, taken at once, so that memory stays small.
_TRIANGLES = 100_000
_HITS = 2_000_000


def solid_parts(points: Floats, triangles: Ints, grid: Grid) -> Floats:
    """The part of each cell that lies inside a closed, outward surface, nx × ny × nz, 0 to 1 (more where bodies
    overlap). points: N × 3 in the grid's frame, mm; triangles: M × 3."""
    cells = grid.count[0] * grid.count[1] * (len(grid.heights) - 1)
    partial, whole = np.zeros(cells), np.zeros(cells + grid.count[0] * grid.count[1])
    step = grid.size / LINES
    flat = np.column_stack([(points[:, :2] - grid.origin[:2]) / step - 0.5, points[:, 2]])
    for at in range(0, len(triangles), _TRIANGLES):
        for hit in _hits(flat, triangles[at : at + _TRIANGLES], grid):
            _add(hit, grid, partial, whole)
    nz = len(grid.heights) - 1
    above = whole.reshape(*grid.count, nz + 1)[:, :, 1:]
    below = np.cumsum(above[:, :, ::-1], axis=2)[:, :, ::-1]
    return np.asarray((partial.reshape(grid.shape) + below) / LINES**2)


def highest(points: Floats, triangles: Ints, grid: Grid) -> Floats:
    """The highest place of a surface on every line, LINES·nx × LINES·ny, −inf where the line misses it."""
    shape = grid.count[0] * LINES, grid.count[1] * LINES
    found = np.full(shape[0] * shape[1], -np.inf)
    step = grid.size / LINES
    flat = np.column_stack([(points[:, :2] - grid.origin[:2]) / step - 0.5, points[:, 2]])
    for at in range(0, len(triangles), _TRIANGLES):
        for across, along, height, _ in _hits(flat, triangles[at : at + _TRIANGLES], grid):
            np.maximum.at(found, across * shape[1] + along, height)
    return found.reshape(shape)


def _hits(flat: Floats, triangles: Ints, grid: Grid) -> Iterator[tuple[Ints, Ints, Floats, Floats]]:
    """Lots of hits: the line's number along x and along y, height, and sign (1 where the line leaves). flat: points in
    steps of the lines."""
    y = flat[triangles, 1]
    rows = grid.count[1] * LINES
    first = np.maximum(np.ceil(y.min(axis=1)), 0).astype(np.int64)
    last = np.minimum(np.ceil(y.max(axis=1)) - 1, rows - 1).astype(np.int64)
    face, row = pairs_of(first, last)
    corners = triangles[face]
    above = flat[corners, 1] > row[:, None]
    rises = np.argmax(~above & above[:, (1, 2, 0)], axis=1)  # edge i runs from corner i to the next
    falls = np.argmax(above & ~above[:, (1, 2, 0)], axis=1)
    up = _crossing(flat, corners, rises, row)
    down = _crossing(flat, corners, falls, row)
    # Seen from above, what is turned up has its rising edge on the right.
    sign = np.where(up[0] > down[0], 1.0, -1.0)
    left, right = np.minimum(up[0], down[0]), np.maximum(up[0], down[0])
    start = np.maximum(np.ceil(left), 0).astype(np.int64)
    end = np.minimum(np.ceil(right) - 1, grid.count[0] * LINES - 1).astype(np.int64)
    slope = (up[1] - down[1]) / np.where(up[0] == down[0], 1.0, up[0] - down[0])
    many = np.cumsum(np.maximum(end - start + 1, 0))
    cuts = np.searchsorted(many, np.arange(_HITS, int(many[-1]) if len(many) else 0, _HITS)) + 1
    for some in np.split(np.arange(len(face)), np.unique(cuts)):
        who, column = pairs_of(start[some], end[some])
        who = some[who]
        height = down[1][who] + (column - down[0][who]) * slope[who]
        yield column, row[who], height, sign[who]


def _crossing(flat: Floats, corners: Ints, edge: Ints, row: Ints) -> tuple[Floats, Floats]:
    """Where an edge of each triangle meets its row: along x, and up. The same from both sides of the edge."""
    at = np.arange(len(corners))
    a, b = corners[at, edge], corners[at, (edge + 1) % 3]
    a, b = np.minimum(a, b), np.maximum(a, b)
    p, q = flat[a], flat[b]
    share = (row - p[:, 1]) / (q[:, 1] - p[:, 1])
    return p[:, 0] + share * (q[:, 0] - p[:, 0]), p[:, 2] + share * (q[:, 2] - p[:, 2])


def _add(hit: tuple[Ints, Ints, Floats, Floats], grid: Grid, partial: Floats, whole: Floats) -> None:
    """Add hits to the parts of their cells, and to all cells below: `whole` counts them a place above."""
    across, along, height, sign = hit
    column = (across // LINES) * grid.count[1] + along // LINES
    nz = len(grid.heights) - 1
    cell = np.searchsorted(grid.heights, height, side="right") - 1
    inside = (cell >= 0) & (cell < nz)
    at, where = cell[inside], column[inside]
    part = (height[inside] - grid.heights[at]) / np.diff(grid.heights)[at]
    partial += np.bincount(where * nz + at, sign[inside] * part, len(partial))
    # What is hit in cell k is whole in the cells below it; what is hit above the grid in all of them.
    level = np.clip(cell, 0, nz)
    whole += np.bincount(column * (nz + 1) + level, np.where(cell >= 0, sign, 0.0), len(whole))


def plan_parts(area: Polygon, grid: Grid) -> tuple[tuple[slice, slice], Floats]:
    """The part in plan of each cell that an area takes: which cells along x and y, and their parts."""
    x0, y0, x1, y1 = area.bounds
    low = np.floor((np.array([x0, y0]) - grid.origin[:2]) / grid.size).astype(int)
    high = np.ceil((np.array([x1, y1]) - grid.origin[:2]) / grid.size).astype(int)
    low, high = np.maximum(low, 0), np.minimum(high, grid.count)
    if (high <= low).any():
        return (slice(0, 0), slice(0, 0)), np.zeros((0, 0))
    side = [
        grid.origin[axis] + grid.size * (low[axis] + (np.arange((high - low)[axis] * LINES) + 0.5) / LINES)
        for axis in (0, 1)
    ]
    x, y = np.meshgrid(*side, indexing="ij")
    shapely.prepare(area)
    inside = shapely.contains_xy(area, x, y)
    parts = inside.reshape(high[0] - low[0], LINES, high[1] - low[1], LINES).mean(axis=(1, 3))
    return (slice(int(low[0]), int(high[0])), slice(int(low[1]), int(high[1]))), parts
