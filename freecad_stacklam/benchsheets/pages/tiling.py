# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a full-size drawing is spread over pages.

The drawing is cut into cells that meet without overlap. Each page shows one cell and, all round it, half of the
overlap more; the pages are trimmed and laid on each other along the cells' edges. Registration crosses stand on those
edges, so both neighbours carry the same ones.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiLineString
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lines import turned
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.lamination.lengths import sizes
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import WHOLE
from freecad_stacklam.lamination.words import say

#: Width that two neighbouring pages both show, mm.
OVERLAP = 12.0
#: Arms of a registration cross, mm: it stays inside half the overlap.
CROSS_ARM = 5.0
#: Where along an edge a cross may stand, best first, from each end; both pages of an edge come to the same place.
_CROSS_PARTS = np.array([0.1, 0.14, 0.18, 0.07, 0.22, 0.26, 0.3, 0.34])
#: Room left around the drawing, mm, so that no line runs along the edge of a page.
BORDER = 2.0
#: Edges of pages keep this far from the axis and from mortises where they can, mm.
CLEAR = 12.0
#: Shortest drawing window on a roll, mm: the check scales stand beside it.
LEAST_ROLL = 150.0
#: More pages than this for one layer is a slip: the refusal names a larger paper.
MOST_TILES = 600


@dataclass(frozen=True)
class DrawingSpace:
    """What a page gives to the drawing: the window `x, y, width, height` in page mm (overlap counted)."""

    paper: Paper
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class Tile:
    """One page of a tiling. `window` and `cell` are (x0, y0, x1, y1) in the turned drawing, mm; row 0 is on top."""

    name: str
    row: int
    column: int
    window: tuple[float, float, float, float]
    cell: tuple[float, float, float, float]


@dataclass(frozen=True)
class Tiling:
    """All pages of one drawing. `turn` degrees from the drawing's x to the page's x. `paper` is the page as it lies."""

    space: DrawingSpace
    turn: float
    rows: int
    columns: int
    tiles: tuple[Tile, ...]
    #: Along the right (True) or lower (False) edge of a cell: the two crosses on it, in the turned drawing's mm.
    crosses: dict[tuple[int, int, bool], tuple[tuple[float, float], ...]] = field(default_factory=dict)

    @property
    def paper(self) -> Paper:
        """The page, cut to length when it comes from a roll."""
        return self.space.paper

    def name(self, row: int, column: int) -> str:
        """The name of the tile there, empty when none is printed."""
        return next((t.name for t in self.tiles if (t.row, t.column) == (row, column)), "")


def _joined(kept: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The same tiles plus the fewest in row-and-column steps that make them hang together by their edges."""
    kept = kept.copy()
    while True:
        groups: list[list[tuple[int, int]]] = []
        left = {(int(r), int(c)) for r, c in np.argwhere(kept)}
        while left:
            group, todo = [], [left.pop()]
            while todo:
                r, c = todo.pop()
                group.append((r, c))
                for near in ((r + 1, c), (r - 1, c), (r, c + 1), (r, c - 1)):
                    if near in left:
                        left.remove(near)
                        todo.append(near)
            groups.append(group)
        if len(groups) < 2:
            return kept
        first = groups[0]
        _, (r0, c0), (r1, c1) = min(
            (abs(a[0] - b[0]) + abs(a[1] - b[1]), a, b) for a in first for other in groups[1:] for b in other
        )
        for c in range(min(c0, c1), max(c0, c1) + 1):
            kept[r0, c] = True
        for r in range(min(r0, r1), max(r0, r1) + 1):
            kept[r, c1] = True


def _count(extent: float, window: float, overlap: float) -> int:
    return max(1, ceil((extent - overlap) / (window - overlap) - WHOLE))


def _first_edge(low: float, high: float, count: int, pitch: float, overlap: float, whole: tuple[float, float]) -> float:
    """Where the first cell begins so that `count` cells cover low…high.

    The drawing sits in the middle of its pages, but for an edge that would run through the stretch `whole`: then it is
    moved, as far as the slack allows, until all edges stay CLEAR of it.
    """
    middle = (low + high) / 2 - count * pitch / 2
    slack = max(0.0, (count * pitch + overlap - (high - low)) / 2)
    shifts = np.linspace(-slack, slack, 81)
    shifts = shifts[np.argsort(np.abs(shifts), kind="stable")]
    if count == 1:
        return middle
    edges = middle + shifts[:, None] + pitch * np.arange(1, count)
    away = np.maximum(np.maximum(whole[0] - edges, edges - whole[1]), -np.minimum(edges - whole[0], whole[1] - edges))
    return float(middle + shifts[int(np.argmax(np.minimum(away.min(axis=1), CLEAR)))])


def _cut_to_length(space: DrawingSpace, height: float) -> DrawingSpace:
    """The same page of a roll, no longer than its drawing needs."""
    height = max(height, LEAST_ROLL)
    paper = replace(space.paper, height=space.paper.height - space.height + height)
    return replace(space, paper=paper, height=height)


def _tiled(drawing: MultiLineString, space: DrawingSpace, turn: float, overlap: float, whole: BaseGeometry) -> Tiling:
    lying = turned(drawing, turn)
    wx0, wy0, wx1, wy1 = turned(whole, turn).bounds
    x0, y0, x1, y1 = lying.bounds
    x0, y0, x1, y1 = x0 - BORDER, y0 - BORDER, x1 + BORDER, y1 + BORDER
    columns, rows = _count(x1 - x0, space.width, overlap), _count(y1 - y0, space.height, overlap)
    if space.paper.roll and rows == 1:
        space = _cut_to_length(space, y1 - y0)
    if rows * columns > MOST_TILES:
        raise Refusal(
            say(
                "A layer {size} needs {count} pages of {paper}: choose a larger paper or a roll.",
                size=sizes(x1 - x0, y1 - y0),
                count=rows * columns,
                paper=space.paper.name,
            )
        )
    pitch_x, pitch_y = space.width - overlap, space.height - overlap
    left = _first_edge(x0, x1, columns, pitch_x, overlap, (wx0, wx1))
    top = -_first_edge(-y1, -y0, rows, pitch_y, overlap, (-wy1, -wy0))
    row, column = (i.ravel() for i in np.mgrid[0:rows, 0:columns])
    cells = np.column_stack(
        [left + column * pitch_x, top - (row + 1) * pitch_y, left + (column + 1) * pitch_x, top - row * pitch_y]
    )
    half = overlap / 2
    # Pages on the rim have no neighbour there: what lies in their outer half overlap is theirs alone.
    on_rim = np.column_stack([column == 0, row == rows - 1, column == columns - 1, row == 0])
    reach = cells + half * on_rim * np.array([-1.0, -1.0, 1.0, 1.0])
    shapely.prepare(lying)
    kept = shapely.intersects(lying, shapely.box(*reach.T)).reshape(rows, columns)
    kept = _joined(kept)
    tiles = tuple(
        Tile(
            name=f"{letters(r)}{c + 1}",
            row=r,
            column=c,
            cell=_box(cells[r * columns + c]),
            window=_box(cells[r * columns + c] + half * np.array([-1.0, -1.0, 1.0, 1.0])),
        )
        for r in range(rows)
        for c in range(columns)
        if kept[r, c]
    )
    return Tiling(space, turn, rows, columns, tiles)


def _box(values: NDArray[np.float64]) -> tuple[float, float, float, float]:
    x0, y0, x1, y1 = values.tolist()
    return x0, y0, x1, y1


def _cost(tiling: Tiling) -> tuple[int, float, bool]:
    """Fewest pages, then the shortest piece of roll, then joins that keep off the centre lines."""
    joins = [t.cell[0] for t in tiling.tiles if t.column] + [t.cell[3] for t in tiling.tiles if t.row]
    near = any(abs(level) < CLEAR / 2 for level in joins)
    return len(tiling.tiles), tiling.paper.height if tiling.paper.roll else 0.0, near


def tile(
    drawing: MultiLineString, spaces: tuple[DrawingSpace, ...], whole: BaseGeometry, overlap: float = OVERLAP
) -> Tiling:
    """The tiling that needs the fewest pages, among the page positions in `spaces` and both turns of the drawing.

    Of equals the one joined away from the centre lines wins, then the drawing not turned, then the first space. Raises
    Refusal when a layer needs too many pages. `drawing` holds every line that must be shown; tiles that show none are
    left out, unless they are needed to hold the others together. The edges of pages avoid `whole` (the axis, and the
    outline of a mortise) where they can.
    """
    best: Tiling | None = None
    too_many: Refusal | None = None
    for turn in (0.0, 90.0):
        for space in spaces:
            try:
                tiling = _tiled(drawing, space, turn, overlap, whole)
            except Refusal as refusal:
                too_many = too_many or refusal
                continue
            if best is None or _cost(tiling) < _cost(best):
                best = tiling
    if best is None:
        raise too_many or Refusal(say("This layer has no outline: there is nothing to print."))
    return replace(best, crosses=_crosses(best, drawing))


def _crosses(tiling: Tiling, drawing: MultiLineString) -> dict[tuple[int, int, bool], tuple[tuple[float, float], ...]]:
    """Two crosses on every edge between printed pages, far apart, and off the drawing's lines where that can be."""
    lying = turned(drawing, tiling.turn)
    shapely.prepare(lying)
    crosses: dict[tuple[int, int, bool], tuple[tuple[float, float], ...]] = {}
    for spot in tiling.tiles:
        x0, y0, x1, y1 = spot.cell
        for upright, near in ((True, (spot.row, spot.column + 1)), (False, (spot.row + 1, spot.column))):
            if not tiling.name(*near):
                continue
            ends: list[tuple[float, float]] = []
            for part in (_CROSS_PARTS, 1.0 - _CROSS_PARTS):
                along = (y0 + part * (y1 - y0)) if upright else (x0 + part * (x1 - x0))
                across = np.full(len(part), x1 if upright else y0)
                points = np.column_stack([across, along] if upright else [along, across])
                arm = CROSS_ARM + 0.5
                hit = shapely.intersects(lying, shapely.box(*(points - arm).T, *(points + arm).T))
                x, y = points[int(np.argmin(hit))].tolist()
                ends.append((x, y))
            crosses[spot.row, spot.column, upright] = tuple(ends)
    return crosses


@dataclass(frozen=True)
class Trim:
    """A line to trim along, in the turned drawing's mm: at `level` across, from `start` to `end`. `outward` is +1 when
    the part to trim away lies to the right or above, else -1; `neighbour` names the page that joins there."""

    upright: bool
    level: float
    start: float
    end: float
    outward: int
    neighbour: str


def registration_points(tiling: Tiling, spot: Tile) -> tuple[list[tuple[float, float]], list[Trim]]:
    """Crosses and trim lines of one tile, in the turned drawing's mm. Edges without a neighbour have none."""
    x0, y0, x1, y1 = spot.cell
    wx0, wy0, wx1, wy1 = spot.window
    crosses: list[tuple[float, float]] = []
    trims: list[Trim] = []
    for level, outward in ((x0, -1), (x1, 1)):
        name = tiling.name(spot.row, spot.column + outward)
        if name:
            crosses += tiling.crosses[spot.row, spot.column + min(outward, 0), True]
            trims.append(Trim(True, level, wy0, wy1, outward, name))
    for level, outward in ((y0, -1), (y1, 1)):
        name = tiling.name(spot.row - outward, spot.column)
        if name:
            crosses += tiling.crosses[spot.row - max(outward, 0), spot.column, False]
            trims.append(Trim(False, level, wx0, wx1, outward, name))
    return crosses, trims
