# SPDX-License-Identifier: LGPL-2.1-or-later

"""A log to fill in by hand: what was glued when, how warm and how dry, with which glue."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, wrapped
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, PLAIN, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.gluing.gluewords import set_up_name
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import HEADING
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.words import mark, say

#: Height of a row to write in and of the heads, and rows left empty for what comes besides, mm and a count.
ROW, HEADS, SPARE = 10.0, 9.0, 3
#: Columns: their heads in one or two lines, and their shares of the width.
COLUMNS = (
    (mark("no."), "", 6.0),
    (mark("what"), "", 34.0),
    (mark("date"), "", 17.0),
    (mark("room"), "°C", 11.0),
    (mark("air"), "%", 10.0),
    (mark("wood"), "%", 11.0),
    (mark("glue, batch"), "", 22.0),
    (mark("spread"), mark("at"), 15.0),
    (mark("clamped"), mark("at"), 15.0),
    (mark("off"), mark("at"), 15.0),
    (mark("feeler, slip, remarks"), "", 26.0),
)


def log_sheets(book: Book, glue_up: GlueUpPlan) -> list[Sheet]:
    """The log, a row for each set-up and some besides, on as many pages as it takes. Not yet numbered."""
    page = book.desk.portrait()
    f = drawing_space(page)
    x0, width, top = f.x + 1.0, f.width - 2.0, f.y + f.height - HEADING
    fit = max(1, int((top - HEADS - f.y - 2.0) // ROW))
    rows = [(str(s.number), set_up_name(s)) for s in glue_up.set_ups] + [("", "")] * SPARE
    sheets = []
    for first in range(0, len(rows), fit):
        title = next_page(say("Glue-up log")) if first else say("Glue-up log")
        marks = _grid(rows[first : first + fit], x0, width, top, book.units)
        head = Text((x0, f.y + f.height - LARGE), title, LARGE, bold=True, fit=width)
        block = block_of(
            book, say("Glue-up"), say("glue-up log"), say("Log to fill in"), note=say("times by the clock on the wall")
        )
        every = (head, *marks, *title_block(page, block))
        sheets.append(Sheet("glue-up", title, (page.width, page.height), every, paper_name=page.name))
    return sheets


def shown_head(head: str) -> str:
    """A line of a head; units stand as they are."""
    return say(head) if head.isalpha() or len(head) > 2 else head


def _grid(rows: list[tuple[str, str]], x0: float, width: float, top: float, units: Units) -> list[Mark]:
    scale = width / sum(share for *_, share in COLUMNS)
    edges = [x0]
    for *_, share in COLUMNS:
        edges.append(edges[-1] + share * scale)
    foot = top - HEADS - ROW * len(rows)
    marks: list[Mark] = [Polyline(((x, top), (x, foot)), "fine") for x in edges]
    for i in range(len(rows) + 1):
        level = top - HEADS - ROW * i
        marks.append(Polyline(((x0, level), (edges[-1], level)), "thin" if i == 0 else "fine"))
    marks.append(Polyline(((x0, top), (edges[-1], top)), "thin"))
    for i, (first, second, _) in enumerate(COLUMNS):
        second = "°F" if second == "°C" and in_inches(units) else second
        room = edges[i + 1] - edges[i] - 1.6
        for word, level in ((first, top - 3.8), (second, top - 7.6)):
            words = shown_head(word)
            if words:
                marks.append(Text((edges[i] + 0.8, level), words, PLAIN, bold=True, fit=room))
    for i, (number, words) in enumerate(rows):
        level = top - HEADS - ROW * i - ROW / 2 - PLAIN / 2
        marks.append(Text((edges[0] + 0.8, level), number, PLAIN, bold=True, fit=edges[1] - edges[0] - 1.6))
        room = edges[2] - edges[1] - 1.6
        lines = wrapped(words, PLAIN, room)[:2]
        for j, line in enumerate(lines):
            at = level + (1.9 - 3.8 * j if len(lines) > 1 else 0.0)
            marks.append(Text((edges[1] + 0.8, at), line, PLAIN, fit=room))
    return marks
