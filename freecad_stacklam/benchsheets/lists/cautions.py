# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cautions: what the checks ask for and what to mind in the work, at the front."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import wrapped
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.listpage import HEAD, LINE, list_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.toldonce import told_once
from freecad_stacklam.lamination.words import say

#: Lettering as a part of the usual, smaller only where it saves a page: its capitals are 2.1 mm high at the least, as
#: on the layer sheets.
SIZES = (1.0, 0.92, 0.84)
#: Lines under a heading that stay with it.
AFTER = 3
#: Steps of the work, each with its sentences.
ByStep = Sequence[tuple[str, Sequence[str]]]


def caution_sheets(book: Book, cautions: ByStep) -> list[Sheet]:
    """What the checks ask for, stops first, what is the same of several pieces once, and what to mind in each step
    of the work, as running text."""
    order = {"stop": 0, "caution": 1}
    asking = told_once(book.plan, [c for c in book.plan.checks if c.verdict != "ok"])
    checks = sorted(asking, key=lambda check: order.get(check.verdict, 1))
    blocks: list[tuple[str, bool]] = []
    if checks:
        blocks.append((say("What the checks ask for"), True))
        blocks += [(f"{shown(check.verdict).upper()} – {check.says}", False) for check in checks]
    for step, said in cautions:
        blocks.append((step, True))
        blocks += [(caution, False) for caution in said]
    return _pages(book, "cautions", say("Cautions"), blocks)


def _pages(book: Book, kind: str, title: str, blocks: Sequence[tuple[str, bool]]) -> list[Sheet]:
    """Sentences as running text over as many pages as they take, in smaller lettering where that saves one; (words,
    whether it is a heading)."""
    pages = min((_laid(book, blocks, size) for size in SIZES), key=len)  # a few lines are no page of their own
    return [list_page(book, kind, title, marks, title) for marks in pages]


def _laid(book: Book, blocks: Sequence[tuple[str, bool]], size: float) -> list[list[Mark]]:
    """The marks of each page. size: of the lettering and its pitch, 1 for the usual."""
    space = drawing_space(book.desk.portrait())
    width = min(space.width - 6.0, 200.0)
    pages: list[list[Mark]] = []
    marks: list[Mark] = []
    top, low = space.y + space.height - HEAD, space.y + 4.0
    y = top
    for words, strong in blocks:
        height = (STRONG if strong else PLAIN) * size
        lines = wrapped(words, height, width - 4.0)
        with_next = len(lines) + (AFTER if strong else 0)  # a heading stands over what it is of
        if y - LINE * size * with_next < low and y < top:
            pages.append(marks)
            marks, y = [], top
        if strong:
            y -= 2.0 * size
        for i, line in enumerate(lines):
            if i == 0 and not strong:
                marks.append(Text((space.x + 2.0, y), "•", height))
            marks.append(Text((space.x + (2.0 if strong else 6.0), y), line, height, bold=strong, fit=width))
            y -= LINE * size * (1.2 if strong else 1.0)
        y -= 1.6 * size
    return [*pages, marks] if marks else pages
