# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a layer sheet's page is shared between the drawing and its tables, and at which scale it is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.benchsheets.drawing.paper import SCALES, Paper
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.lengths import sizes
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Heading above the drawing; room round it for the dimension lines (left and below) and for labels; mm of paper.
HEADING, DIMENSIONS, AROUND = 15.0, 22.0, 11.0
#: No layer is drawn smaller than 1:5, or less than this many mm across, only to save a page.
LEGIBLE, LEAST = 5, 30.0
#: Lettering of tables that would run on to another page: 2.1 mm, between the 1.8 and the 2.5 mm of ISO 3098.
SMALLER = 0.84


@dataclass(frozen=True)
class Layout:
    """How a page is shared between drawing and tables: 1:n, the page, the drawing's room, the tables' columns."""

    n: int
    paper: Paper
    room: tuple[float, float, float, float]  # x0, y0, x1, y1 of the object itself, dimension lines outside it
    columns: tuple[Column, ...]
    over: int  # rows that found no room
    size: float = 1.0  # of the tables' lettering


def _rows(blocks: Sequence[Block]) -> int:
    return sum(len(block.rows) for block in blocks)


def _layouts(
    paper: Paper, blocks: Sequence[Block], size: tuple[float, float], width: float, n: int, small: float
) -> list[Layout]:
    """Tables under the drawing at 1:n, to the right of it in one column or two, or both, on the page as it stands and
    lying. small: the size of the lettering, which makes columns as much narrower."""
    width *= small
    found = []
    standing = paper.portrait()
    wide, high = size[0] / n + DIMENSIONS + AROUND, size[1] / n + DIMENSIONS + AROUND
    for page in (standing, standing.turned()) if paper.turnable else (paper,):
        f = drawing_space(page)
        x0, y0, x1, y1 = f.x + 1.0, f.y + 2.0, f.x + f.width, f.y + f.height - HEADING
        if wide > x1 - x0 or high > y1 - y0:
            continue
        across = max(1, int((x1 - x0) // width))
        column = (x1 - x0) / across
        depth = 0.0
        while True:
            depth = min(depth + 4.0, y1 - y0 - high)
            columns = tuple(Column(x0 + i * column, y0 + depth, column - 2.0, depth) for i in range(across))
            over = _rows(flow(blocks, columns, False, small)[1])
            if not over or depth >= y1 - y0 - high:
                break
        found.append(Layout(n, page, _inside((x0, y0 + depth, x1, y1)), columns, over, small))
        for beside in (1, 2):
            left = x1 - beside * width
            if wide > left - x0:
                continue
            columns = tuple(Column(left + i * width + 2.0, y1, width - 2.0, y1 - y0) for i in range(beside))
            over = _rows(flow(blocks, columns, False, small)[1])
            found.append(Layout(n, page, _inside((x0, y0, left, y1)), columns, over, small))
            under = y1 - y0 - high
            if left - x0 >= width:
                columns = (Column(x0, y0 + under, left - x0 - 2.0, under), *columns)
                over = _rows(flow(blocks, columns, False, small)[1])
                found.append(Layout(n, page, _inside((x0, y0 + under, left, y1)), columns, over, small))
    return found


def _inside(room: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """What is left for the object when dimension lines and labels have their room."""
    return room[0] + DIMENSIONS, room[1] + DIMENSIONS, room[2] - AROUND, room[3] - AROUND


def layout_of(paper: Paper, blocks: Sequence[Block], size: tuple[float, float], width: float) -> Layout:
    """The largest standard scale at which all is on one page, in the usual lettering or else in the smaller one;
    LEGIBLE or the largest, with more pages, otherwise.

    Raises Refusal when the layer fits at no scale.
    """
    first: Layout | None = None
    for n in SCALES:
        for small in (1.0, SMALLER):
            layouts = _layouts(paper, blocks, size, width, n, small)
            if not layouts:
                continue
            best = min(layouts, key=lambda one: (one.over, one.paper.landscape, len(one.columns)))
            first = first or best
            if first.n != n and min(size) / n < LEAST:
                return first
            if not best.over:
                return best
        if first is not None and n >= LEGIBLE:
            break
    if first is None:
        raise Refusal(
            say(
                "A layer {size} is too large for {paper} at 1:{scale}: choose a larger paper.",
                size=sizes(*size),
                paper=paper.name,
                scale=SCALES[-1],
            )
        )
    return first
