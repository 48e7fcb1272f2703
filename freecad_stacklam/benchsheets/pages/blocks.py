# SPDX-License-Identifier: LGPL-2.1-or-later

"""Small tables and notes that flow into the columns that a drawing leaves free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from freecad_stacklam.benchsheets.drawing.lettering import wrapped
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Mark, Polyline, Text
from freecad_stacklam.benchsheets.pages.continued import next_column
from freecad_stacklam.lamination.tolerances import ROUNDING

#: From baseline to baseline, and what a title and the heads take, mm.
PITCH, TITLE, HEADS, AFTER = 4.2, 5.6, 4.8, 3.0
#: Between columns, mm.
GAP = 1.8
#: Before each sentence of notes, and before the lines on which it goes on.
BULLET, GOES_ON = "• ", "   "


@dataclass(frozen=True)
class Block:
    """A table with a title and column heads, or with no heads a list of sentences (one cell in each row).

    `shares` divide the column's width; `left`: which columns hold words, set to the left.
    """

    title: str
    heads: tuple[str, ...] = ()
    shares: tuple[float, ...] = (1.0,)
    left: tuple[bool, ...] = (True,)
    rows: tuple[tuple[str, ...], ...] = ()

    @property
    def top(self) -> float:
        """What stands above the rows, mm."""
        return TITLE + (HEADS if self.heads else 0.0)

    @property
    def height(self) -> float:
        """All of it, mm."""
        return self.top + PITCH * len(self.rows) + AFTER


@dataclass(frozen=True)
class Column:
    """Where a table may stand: page mm, from `top` downwards."""

    x: float
    top: float
    width: float
    height: float


def notes(title: str, sentences: Sequence[str], width: float) -> Block:
    """Sentences as a block, broken to `width` mm."""
    return _listed(title, [(BULLET, sentence) for sentence in sentences], width)


def steps(title: str, sentences: Sequence[str], width: float) -> Block:
    """Sentences to be done in their order, numbered, broken to `width` mm."""
    return _listed(title, [(f"{i}. ", sentence) for i, sentence in enumerate(sentences, 1)], width)


def _listed(title: str, sentences: Sequence[tuple[str, str]], width: float) -> Block:
    lines = []
    for mark, sentence in sentences:
        first, *rest = wrapped(sentence, PLAIN, width - 4.0)
        lines += [(f"{mark}{first}",), *((f"{GOES_ON}{line}",) for line in rest)]
    return Block(title, rows=tuple(lines))


def _draw(block: Block, column: Column, top: float, size: float) -> list[Mark]:
    x, plain = column.x, PLAIN * size
    marks: list[Mark] = [Text((x, top - (PLAIN + 1.0) * size), block.title, plain, bold=True, fit=column.width)]
    scale = column.width / sum(block.shares)
    edges = [x]
    for share in block.shares:
        edges.append(edges[-1] + share * scale)

    def line(cells: Sequence[str], level: float, bold: bool) -> None:
        for i, cell in enumerate(cells):
            if not cell:
                continue
            end = i + 1
            while block.left[i] and end < len(cells) and not cells[end]:
                end += 1  # words run on over empty cells
            room = edges[end] - edges[i] - GAP
            at = edges[i] if block.left[i] else edges[i + 1] - GAP
            marks.append(Text((at, level), cell, plain, "left" if block.left[i] else "right", bold=bold, fit=room))

    level = top - TITLE * size
    if block.heads:
        line(block.heads, level - (PLAIN + 0.4) * size, True)
        level -= HEADS * size
        marks.append(Polyline(((x, level + 0.6), (x + column.width - GAP, level + 0.6)), "fine"))
    for row in block.rows:
        line(row, level - (PLAIN + 0.6) * size, False)
        level -= PITCH * size
    return marks


def flow(
    blocks: Sequence[Block], columns: Sequence[Column], draw: bool = True, size: float = 1.0
) -> tuple[list[Mark], list[Block]]:
    """The blocks drawn into the columns one after the other, and what found no room, to go on another page.

    draw: False asks only what finds no room. size: of the lettering and its pitch, 1 for the usual.
    """
    marks: list[Mark] = []
    left = list(blocks)
    for column in columns:
        level = column.top
        while left:
            block = left[0]
            room = level - (column.top - column.height) - block.top * size
            fits = int((room + ROUNDING) // (PITCH * size))
            if fits >= len(block.rows):
                marks += _draw(block, column, level, size) if draw else []
                level -= block.height * size
                left.pop(0)
                continue
            # A part of a table, with its heads again where it goes on; notes go on from one sentence to the next, and
            # steps only where they are longer than a column.
            if not block.heads:
                fits = max((i for i in range(fits + 1) if not block.rows[i][0].startswith(GOES_ON)), default=0)
                if level < column.top and not block.rows[0][0].startswith(BULLET):
                    fits = 0
            if fits >= 3:
                marks += _draw(replace(block, rows=block.rows[:fits]), column, level, size) if draw else []
                left[0] = replace(block, title=next_column(block.title), rows=block.rows[fits:])
            break
    return marks, left
