# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strength by sections: the use against height beside each stack, the worst places, the joints, the wood's figures."""

from __future__ import annotations

from collections.abc import Sequence
from math import log10

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, FilledRegion, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.findings.strengthtables import blocks, places_of
from freecad_stacklam.benchsheets.pages.blocks import Column
from freecad_stacklam.benchsheets.pages.closer import closest
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.benchsheets.views.pieceviews import FRONT, scale_for, size_of, view_of
from freecad_stacklam.benchsheets.views.placemarks import named, place_marks
from freecad_stacklam.lamination.findings.strength import Curve, StrengthFindings
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import mark, say

KIND = "strength"
#: A quarter of the mean, as the checks take it, and the mean itself.
LIMIT, BREAKS = 0.25, 1.0
#: Uses from this up are drawn, on a scale of tenfold steps.
LEAST, MOST = 0.01, 10.0
#: Room for the heading, between the views, for axes and words, mm.
HEADING, GAP, AXIS, WORDS = 13.0, 8.0, 11.0, 8.0
PLOTTED = mark(
    "Full line: with the joints as they are. Dashed: as if there\nwere no joint. Dots: the tenon in the section."
)
#: The plots stand in the upper part of the page: how much of it they may take, the second where that saves a page.
SHARES = (0.4, 0.28)


#: What the sheet is of, by how the tenons are held.
_TENONS = {
    "glued": mark("Strength by sections, tenon glued"),
    "dry": mark("Strength by sections, tenon dry"),
}


def strength_sheets(book: Book, findings: StrengthFindings) -> list[Sheet]:
    """The plots on one page with as much of the tables as it holds, the rest on further pages. Not yet numbered."""
    page = book.desk.portrait()
    space = drawing_space(page)
    title = say("Strength by sections")
    top = space.y + space.height - HEADING
    head = Text((space.x + 1.0, space.y + space.height - LARGE), title, LARGE, bold=True, fit=space.width - 2.0)
    stacks = [s for s in book.plan.stacks if any(c.stack == s.name for c in findings.curves) and s.in_model]
    for share in SHARES:
        plots: list[Mark] = []
        height = 0.0
        if stacks:
            # As high as the view comes out at its scale, so that the tables follow close below.
            size = size_of(stacks, FRONT)
            n = scale_for([size], 0.5 * (space.width - 2.0), share * space.height - AXIS - WORDS)
            height = size[1] / n + AXIS + WORDS
            plots = _plots(findings, stacks, (space.x + 1.0, top - height, space.width - 2.0, height), n)
        column = Column(space.x + 1.0, top - height - 2.0, space.width - 2.0, top - height - space.y - 4.0)
        tables, left = closest(lambda wide: blocks(book, findings, wide), column)
        if not left:
            break
    block = block_of(book, say("Strength"), "", say(_TENONS[findings.tenon]), note=say("an estimate"))
    marks = (head, *plots, *tables, *title_block(page, block))
    sheets = [Sheet(KIND, title, (page.width, page.height), tuple(marks), paper_name=page.name)]
    if left:
        sheets += table_pages(KIND, next_page(title), page, block, left, column.width)
    return sheets


def _plots(
    findings: StrengthFindings, stacks: Sequence[StackPlan], box: tuple[float, float, float, float], n: int
) -> list[Mark]:
    """All stacks in the model from the front to the left, and use against the same heights to the right. n: the scale,
    1 to so many."""
    x, y, width, _ = box
    foot = y + AXIS
    view = view_of(stacks, FRONT, n, x + 0.25 * width, foot)
    up = size_of(stacks, FRONT)[1] / n
    words: list[Mark] = [
        Text((x + 0.25 * width, foot + up + 4.0), say("from the front, scale 1:{scale}", scale=n), PLAIN, "centre")
    ]
    places = [view.at(group.worst.place) for group in places_of(findings)]
    rings = place_marks(places)
    names = named([(str(i), at) for i, at in enumerate(places, 1)], [*words, *rings], view.outlines())
    plot = x + 0.5 * width + GAP, foot, 0.5 * width - GAP - 4.0, up
    for i, line in enumerate(say(PLOTTED).split("\n")):
        words.append(Text((x, y + AXIS - 5.0 - 3.6 * i), line, NOTE, fit=0.5 * width))
    marks = [*words, *view.outlines("finished"), *rings, *names, *_axes(plot)]
    for curve in findings.curves:
        marks += _curve(curve, plot, view.low[1], n)
    return marks


def _across(use: float, width: float) -> float:
    """Where a use lies on a plot `width` mm wide: equal steps for tenfold uses."""
    kept = min(max(use, LEAST), MOST)
    return width * (log10(kept) - log10(LEAST)) / (log10(MOST) - log10(LEAST))


def _axes(plot: tuple[float, float, float, float]) -> list[Mark]:
    x, y, width, height = plot
    marks: list[Mark] = [
        Polyline(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), "fine", closed=True),
        Text((x + width / 2, y - 8.6), say("use of the mean strength"), PLAIN, "centre", fit=width),
    ]
    for use, words, pen in (
        (0.01, "1 %", ""), (0.1, "10 %", "trim"), (LIMIT, "25 %", "hidden"), (BREAKS, "100 %", "cut"),
        (10.0, "×10", ""),
    ):  # fmt: skip
        at = x + _across(use, width)
        if pen:
            marks.append(Polyline(((at, y), (at, y + height)), pen))
        marks.append(Text((at, y - 3.4), words, NOTE, "centre"))
    marks.append(Text((x + _across(BREAKS, width), y + height + 1.2), say("half of all break"), NOTE, "centre"))
    return marks


def _curve(curve: Curve, plot: tuple[float, float, float, float], low: float, n: int) -> list[Mark]:
    x, y, width, _ = plot

    def line(uses: Sequence[float]) -> tuple[tuple[float, float], ...]:
        return tuple((x + _across(u, width), y + (z - low) / n) for z, u in zip(curve.heights, uses, strict=True))

    marks: list[Mark] = []
    if curve.whole != curve.use:
        marks.append(Polyline(line(curve.whole), "hidden"))
    marks.append(Polyline(line(curve.use), "mortise"))
    for z, use in zip(curve.heights, curve.tenon_use, strict=True):
        if use > LEAST:
            at = x + _across(use, width), y + (z - low) / n
            marks.append(FilledRegion((_dot(*at),)))
    return marks


def _dot(x: float, y: float, half: float = 0.45) -> tuple[tuple[float, float], ...]:
    return (x - half, y), (x, y - half), (x + half, y), (x, y + half)
