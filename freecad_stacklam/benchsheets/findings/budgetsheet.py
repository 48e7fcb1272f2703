# SPDX-License-Identifier: LGPL-2.1-or-later

"""The budget of the allowance: what each step of the work may take, their sums, and the wood that is there for them."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import fine_number, fine_text, unit_words
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, FilledRegion, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.closer import closest_pages, space_of
from freecad_stacklam.lamination.carving.budget import SOURCE, budget_check
from freecad_stacklam.lamination.findings.budget import AllowanceBudget
from freecad_stacklam.lamination.tolerances import NO_AREA
from freecad_stacklam.lamination.words import mark, say

KIND = "budget"
TITLE = mark("Budget of the allowance")
#: Stacks side by side in one table; from bar to bar, their height, room for names with figures and for these, mm.
ACROSS, BAR, THICK, NAMES, FIGURES = 4, 3.8, 2.4, 58.0, 26.0


def budget_sheets(book: Book, budgets: Sequence[AllowanceBudget]) -> list[Sheet]:
    """The sums as bars, the steps in a table with a column for each stack, and the verdicts. Not yet numbered."""
    page = space_of(book)
    marks: list[Mark] = []
    level = page.top
    if len(budgets) <= ACROSS:
        marks, level = _bars(book, budgets, page.x, page.top, page.width)
    return closest_pages(book, KIND, say(TITLE), lambda wide: _blocks(book, budgets, wide), marks, level)


def _blocks(book: Book, budgets: Sequence[AllowanceBudget], width: float) -> list[Block]:
    found = [_table(book, budgets[i : i + ACROSS]) for i in range(0, len(budgets), ACROSS)]
    said = [budget_check(budget, book.units.first).says for budget in budgets]
    how = [
        say(
            "Likely: the root of the sum of the squares, as independent errors seldom come together. Worst: the "
            "plain sum, all to the wrong side at one place. There: the least wood, level or square to the surface, "
            "anywhere."
        ),
        say("By {source}.", source=SOURCE),
    ]
    return [*found, notes(say("Verdict"), said, width), notes(say("How it is reckoned"), how, width)]


def _table(book: Book, budgets: Sequence[AllowanceBudget]) -> Block:
    """Each step, what it is, and its figure for each stack; then the sums."""

    def fine(mm: float, to: str) -> str:
        return fine_number(mm, book.units, to)

    steps = budgets[0].items
    rows = [
        (step.name, step.why, *(fine(b.items[i].amount, "nearest") for b in budgets)) for i, step in enumerate(steps)
    ]
    rows += [
        (say("Likely"), say("the root of the sum of their squares"), *(fine(b.likely, "up") for b in budgets)),
        (say("Worst"), say("their sum"), *(fine(b.worst, "up") for b in budgets)),
        (say("There"), say("the least wood left"), *(fine(b.there, "down") for b in budgets)),
        (say("Lacking"), say("for the likely sum"), *(fine(b.more, "up") if b.more > 0 else "–" for b in budgets)),
    ]
    each = min(28.0, 84.0 / len(budgets))
    return Block(
        say("What each step may take, all sizes in {unit}", unit=unit_words(book.units)),
        (say("step"), "", *(b.stack for b in budgets)),
        (27.0, 115.0 + 28.0 - each, *[each] * len(budgets)),
        (True, True, *[False] * len(budgets)),
        tuple(rows),
    )


def _bars(
    book: Book, budgets: Sequence[AllowanceBudget], x: float, top: float, width: float
) -> tuple[list[Mark], float]:
    """Likely and worst sum of each stack as bars over the wood that is there, which is a black one; and where the page
    is free below."""
    most = max((max(b.worst, b.there) for b in budgets), default=0.0)
    if most <= NO_AREA:
        return [], top
    left = x + NAMES
    scale = (x + width - left) / most
    marks: list[Mark] = [Text((x, top - PLAIN - 1.0), say("The sums over the wood that is there"), PLAIN, bold=True)]
    y = top - 6.0
    for budget in budgets:
        marks.append(Text((x, y - BAR + 0.2), budget.stack, PLAIN, fit=NAMES - FIGURES - 2.0))
        bars = (
            (mark("likely"), budget.likely, "up"),
            (mark("worst"), budget.worst, "up"),
            (mark("there"), budget.there, "down"),
        )
        for word, value, to in bars:
            y -= BAR
            end = left + max(value * scale, THICK / 10)
            corners = ((left, y), (end, y), (end, y + THICK), (left, y + THICK))
            words = f"{say(word)} {fine_text(value, book.units, to)}"
            marks.append(Text((left - 2.0, y + 0.4), words, NOTE, "right", fit=FIGURES))
            marks.append(FilledRegion((corners,)) if word == "there" else Polyline(corners, "mortise", closed=True))
        y -= 2.0
    return marks, y - 2.0
