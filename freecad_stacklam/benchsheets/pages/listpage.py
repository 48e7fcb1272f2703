# SPDX-License-Identifier: LGPL-2.1-or-later

"""A page of words and figures: its heading and strip, and tables over the whole width."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, PLAIN, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.strip import drawing_space, joined, plain_strip, sheet_line
from freecad_stacklam.lamination.words import say

#: From baseline to baseline of table rows and of running text, mm.
ROW, LINE = 5.4, 4.6
HEAD = 16.0


@dataclass(frozen=True)
class TableRow:
    """A table row. `pens` sample a line kind in the first column instead of a word."""

    cells: tuple[str, ...]
    bold: bool = False
    pen: str = ""


def list_page(book: Book, kind: str, title: str, marks: list[Mark], what: str) -> Sheet:
    """A page of words with its heading and strip."""
    plan, paper = book.plan, book.desk.portrait()
    space = drawing_space(paper)
    marks.append(
        Text((space.x + 2.0, paper.height - paper.margin - LARGE), title, LARGE, bold=True, fit=space.width - 4.0)
    )
    strip = (
        plan.title,
        sheet_line(what),
        joined(say("plan {revision}", revision=book.revision), plan.author, plan.date),
    )
    marks += plain_strip(paper, strip)
    return Sheet(kind, title, (paper.width, paper.height), tuple(marks), paper_name=paper.name)


def rows_per_page(paper: Paper) -> int:
    """How many table rows a page takes below its heading and column heads."""
    return max(4, int((drawing_space(paper).height - HEAD - ROW) // ROW))


def table(
    paper: Paper, heads: Sequence[str], shares: Sequence[float], left: Sequence[bool], rows: Sequence[TableRow]
) -> list[Mark]:
    """Rows under their heads. `shares` divide the width; `left`: words stand to the left, figures to the right."""
    space = drawing_space(paper)
    x0, width = space.x + 2.0, min(space.width - 2.0, 260.0)
    y = space.y + space.height - HEAD
    scale = width / sum(shares)
    edges = [x0]
    for share in shares:
        edges.append(edges[-1] + share * scale)
    marks: list[Mark] = []
    for i, row in enumerate([TableRow(tuple(heads), bold=True), *rows]):
        level = y - i * ROW
        for column, cell in enumerate(row.cells):
            room = edges[column + 1] - edges[column] - 2.0
            at = edges[column] if left[column] else edges[column + 1] - 2.0
            marks.append(Text((at, level), cell, PLAIN, "left" if left[column] else "right", bold=row.bold, fit=room))
        if row.pen:
            marks.append(Polyline(((edges[0], level + 1.0), (edges[1] - 3.0, level + 1.0)), row.pen))
        if row.bold:
            marks.append(Polyline(((x0, level - 1.6), (x0 + width, level - 1.6)), "fine"))
    return marks
