# SPDX-License-Identifier: LGPL-2.1-or-later

"""A title block with those data fields of ISO 7200 that a lone maker fills, and the check scales in its corner.

The maker is owner, creator and approver in one person: “Drawn by” stands for all three. What is not known has no box.
"""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import shortened
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PAGE, PAGES, PLAIN, Mark, Polyline, Text
from freecad_stacklam.benchsheets.pages.strip import ACTUAL_SIZE, MEASURE, SIDE, STRIP, check_scales
from freecad_stacklam.lamination.words import say

#: Foot of the block above the margin and height of its rows, mm. ISO 7200 asks for 180 mm of width.
FOOT, ROW = 10.6, 8.45


@dataclass(frozen=True)
class TitleBlock:
    """What the block says; an empty field is left out."""

    maker: str
    title: str
    supplement: str  # what this sheet shows of it
    number: str  # of the part
    kind: str  # of sheet
    date: str
    revision: str  # the plan's: sheets of different plans are never mixed
    scale: str = ""
    note: str = ""


def block_of(book: Book, kind: str, number: str, supplement: str, scale: str = "", note: str = "") -> TitleBlock:
    """The block for a sheet of this book."""
    plan = book.plan
    return TitleBlock(plan.author, plan.title, supplement, number, kind, plan.date, book.revision, scale, note)


def title_block(paper: Paper, block: TitleBlock) -> list[Mark]:
    """The block at the foot of the page, with the check scales beside it."""
    m = paper.margin
    x0, x1 = m + SIDE, paper.width - m
    y0, y1 = m + FOOT, m + STRIP - 1.0
    fields = (
        (
            (say("Title"), block.title, 32),
            (say("Kind of sheet"), block.kind, 24),
            (say("Page"), say("sheet {page} of {pages}", page=PAGE, pages=PAGES), 16),
        ),
        ((say("Shown"), block.supplement, 32), (say("Part"), block.number, 24), (say("Plan"), block.revision, 16)),
        (
            (say("Note"), block.note, 32),
            (say("Drawn by"), block.maker, 20),
            (say("Date"), block.date, 18),
            (say("Scale"), block.scale, 12),
        ),
    )
    strong = say("Title"), say("Part"), say("Plan")
    rows = [row for row in ([field for field in row if field[1]] for row in fields) if row]
    marks: list[Mark] = check_scales(m)
    height = (y1 - y0) / len(rows)
    marks.append(Polyline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), "cut", closed=True))
    for i, row in enumerate(rows):
        low = y1 - (i + 1) * height
        if i:
            marks.append(Polyline(((x0, low + height), (x1, low + height)), "fine"))
        share = (x1 - x0) / sum(part for *_, part in row)
        x = x0
        for j, (label, words, part) in enumerate(row):
            wide = part * share
            if j:
                marks.append(Polyline(((x, low), (x, low + height)), "fine"))
            marks.append(Text((x + 1.0, low + height - NOTE - 0.9), label, NOTE, fit=wide - 2.0))
            bold = label in strong
            kept = shortened(words, PLAIN, wide - 2.0, bold, squeeze=0.6)
            marks.append(Text((x + 1.0, low + 1.2), kept, PLAIN, bold=bold, fit=wide - 2.0))
            x += wide
    beside = m + 4.8 + 101.6 + 13.0
    marks.append(Text((beside, m + 5.2), say(ACTUAL_SIZE), PLAIN, bold=True, fit=x1 - beside))
    marks.append(Text((beside, m + 1.2), say(MEASURE), PLAIN, bold=True, fit=x1 - beside))
    return marks
