# SPDX-License-Identifier: LGPL-2.1-or-later

"""The check report: everything that was looked at, its figure beside its limit, by which rule, and what to change."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import shortened, wrapped
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.listpage import HEAD, LINE, list_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_figure
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.verdicts import ORDER
from freecad_stacklam.lamination.quantities import format_force, format_pressure, format_temperature, format_time
from freecad_stacklam.lamination.words import mark, say

KIND = "checks"
TITLE = mark("Check report")
#: Lettering as a part of the usual, smaller only where it saves a page: its capitals are 2.1 mm high at the least.
SIZES = (1.0, 0.92, 0.84)
#: Shares of the width: verdict, name, figure, limit, source.
SHARES = (18.0, 92.0, 28.0, 28.0, 14.0)
HEADS = (mark("verdict"), mark("what was looked at"), mark("figure"), mark("limit"), mark("source"))
_LEFT = (True, True, False, False, False)
#: Between two checks, before the sources, and what the words under a check are set in by, mm.
AFTER, BEFORE, INDENT = 1.4, 3.0, 18.0


def report_sheets(book: Book) -> list[Sheet]:
    """All checks, stops first, then the sources by their numbers, on as many pages as they take. Not yet numbered."""
    checks = sorted(book.plan.checks, key=lambda check: ORDER.index(check.verdict), reverse=True)
    if not checks:
        return []
    pages = min((_Pages(book, checks, size).pages for size in SIZES), key=len)  # a few lines are no page of their own
    title = say(TITLE)
    return [list_page(book, KIND, next_page(title) if i else title, marks, title) for i, marks in enumerate(pages)]


def figure_text(value: float, unit: str, units: str) -> str:
    """A check's figure with its unit as it is read at the bench. units: "mm" or "in"."""
    told = {"MPa": format_pressure, "N": format_force, "°C": format_temperature}.get(unit)
    if told is not None:
        return told(value, units)
    return format_time(value) if unit == "s" else format_figure(value, unit, units)


class _Pages:
    """The marks of each page, laid from the top down. size: of the lettering and its pitch, 1 for the usual."""

    def __init__(self, book: Book, checks: Sequence[Check], size: float) -> None:
        space = drawing_space(book.desk.portrait())
        self.x, self.width = space.x + 2.0, space.width - 4.0
        self.top, self.low = space.y + space.height - HEAD, space.y + 2.0
        self.size, self.y = size, self.top
        self.pages: list[list[Mark]] = []
        self.units = book.units.first
        self._turn_over()
        sources = list(dict.fromkeys(check.source for check in checks if check.source))
        for check in checks:
            self._check(check, sources)
        self._sources(sources)

    def _new_page(self) -> None:
        self.pages.append([])
        self.y = self.top

    def _turn_over(self) -> None:
        """A new page, with the heads over it."""
        self._new_page()
        self._row([say(head) for head in HEADS], True)
        rule = self.y + (PLAIN + 0.9) * self.size
        self.pages[-1].append(Polyline(((self.x, rule), (self.x + self.width, rule)), "fine"))
        self.y -= 0.6

    def _row(self, cells: Sequence[str], bold: bool) -> None:
        scale = self.width / sum(SHARES)
        x, height = self.x, PLAIN * self.size
        for share, cell, left in zip(SHARES, cells, _LEFT, strict=True):
            room = share * scale - 2.0
            at = x if left else x + share * scale - 2.0
            kept = shortened(cell, height, room, bold, squeeze=0.7)
            mark = Text((at, self.y), kept, height, "left" if left else "right", bold=bold, fit=room)
            self.pages[-1].append(mark)
            x += share * scale
        self.y -= LINE * self.size

    def _words(self, lines: Sequence[str], indent: float) -> None:
        for line in lines:
            self.pages[-1].append(Text((self.x + indent, self.y), line, PLAIN * self.size, fit=self.width - indent))
            self.y -= LINE * self.size

    def _check(self, check: Check, sources: Sequence[str]) -> None:
        lines = wrapped(check.says, PLAIN * self.size, self.width - INDENT)
        if self.y - LINE * self.size * len(lines) < self.low:
            self._turn_over()
        told = bool(check.unit or check.figure or check.limit)
        figure, limit = (
            figure_text(value, check.unit, self.units) if told else "–" for value in (check.figure, check.limit)
        )
        source = f"[{sources.index(check.source) + 1}]" if check.source else "–"
        name = check.name[:1].upper() + check.name[1:]
        self._row((shown(check.verdict).upper(), name, figure, limit, source), check.verdict != "ok")
        self._words(lines, INDENT)
        self.y -= AFTER * self.size

    def _sources(self, sources: Sequence[str]) -> None:
        """What the numbers stand for. A heading never stands alone at the foot."""
        if not sources:
            return
        self.y -= BEFORE * self.size
        if self.y - 3 * LINE * self.size < self.low:
            self._new_page()
        height = PLAIN * self.size
        self.pages[-1].append(Text((self.x, self.y), say("Sources"), height, bold=True))
        self.y -= LINE * self.size
        for i, source in enumerate(sources, 1):
            first, *rest = wrapped(f"[{i}] {source}", height, self.width)
            if self.y - LINE * self.size * len(rest) < self.low:
                self._new_page()
            self._words([first, *rest], 0.0)
