# SPDX-License-Identifier: LGPL-2.1-or-later

"""The deep check of strength: where the piece is weakest and under what, on the piece as it stands and in a table."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import in_inches
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, Mark, Sheet, Text
from freecad_stacklam.benchsheets.findings.deeptables import LISTED, Loads, blocks, per_hundred
from freecad_stacklam.benchsheets.pages.blocks import Column
from freecad_stacklam.benchsheets.pages.closer import closest
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.benchsheets.views.gradeddots import dots, kept_clear, legend, on_grid, steps_to
from freecad_stacklam.benchsheets.views.pieceviews import (
    ABOVE,
    FRONT,
    RIGHT,
    PieceView,
    scale_for,
    size_of,
    view_of,
)
from freecad_stacklam.benchsheets.views.placemarks import load_arrow, load_mark, named, place_marks
from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import figure, mark, say

KIND = "deep check"
TITLE = mark("Strength: the deep check")
#: Heading; caption over a view; room for the load's arrow above the piece and for lettering beside it; the legends; mm.
HEADING, CAPTION, OVER, BESIDE, LEGEND = 13.0, 5.0, 15.0, 8.0, 13.0
#: The views stand in the upper part of the page: how much of it they may take, the second where that saves a page.
SHARES = (0.4, 0.3)
#: Greatest use at the surface between the sizes of dots: a quarter is usual, at 1 half of all pieces break.
USES = (0.05, 0.1, 0.25, 0.5)
#: Points of the surface that lie further under others than this, mm, are not seen from above.
UNDER = 30.0
#: Cells by which it is asked what lies over what, page mm.
CELL = 5.0


#: Captions over the views.
_CAPTIONS = {FRONT: mark("From the front"), RIGHT: mark("From the right"), ABOVE: mark("From above")}


def deep_sheets(book: Book, findings: DeepFindings) -> list[Sheet]:
    """The drawings on one page with as much of the tables as it holds, the rest on further pages. Not yet numbered."""
    page = book.desk.portrait()
    f = drawing_space(page)
    loads = Loads.of(findings)
    head = Text((f.x + 1.0, f.y + f.height - LARGE), say(TITLE), LARGE, bold=True, fit=f.width - 2.0)
    stacks = [stack for stack in book.plan.stacks if stack.layers]
    for share in SHARES:
        top = f.y + f.height - HEADING
        drawn: list[Mark] = []
        scale = ""
        if findings.spots and stacks:
            box = (f.x + 1.0, top, f.width - 2.0, share * f.height)
            drawn, n, top = _pictures(book, findings, stacks, loads, box)
            scale = f"1:{n}"
        column = Column(f.x + 1.0, top, f.width - 2.0, top - f.y - 2.0)
        tables, left = closest(lambda wide: blocks(book, findings, loads, wide), column)
        if not left:
            break
    block = block_of(book, say("Strength"), "", say(TITLE), scale, say("an estimate"))
    every = (head, *drawn, *tables, *title_block(page, block))
    sheets = [Sheet(KIND, say(TITLE), (page.width, page.height), every, paper_name=page.name)]
    if left:
        sheets += table_pages(KIND, next_page(say(TITLE)), page, block, left, column.width)
    return sheets


def _pictures(
    book: Book, findings: DeepFindings, stacks: Sequence[StackPlan], loads: Loads,
    box: tuple[float, float, float, float],
) -> tuple[list[Mark], int, float]:  # fmt: skip
    """The piece from its side and from above, at one scale; the scale, and where the page is free below. box: left,
    top, width and height of the room, page mm."""
    x, top, width, height = box
    worst, half = findings.spots[0], width / 2
    # From the side on which the load and the weakest place lie furthest apart.
    reach = [abs(worst.load_place[i] - worst.place[i]) for i in (0, 1)]
    ways = (RIGHT if reach[1] > reach[0] else FRONT, ABOVE)
    sizes = [size_of(stacks, way) for way in ways]
    n = scale_for(sizes, half - 2 * BESIDE, height - CAPTION - OVER - LEGEND)
    foot = top - CAPTION - max(sizes[0][1] / n + OVER, sizes[1][1] / n + BESIDE)
    side, above = (view_of(stacks, way, n, x + half * (0.5 + i), foot) for i, way in enumerate(ways))
    words = _legends(book, findings, (x, foot - 5.0, half))
    for i, view in enumerate((side, above)):
        caption = f"{say(_CAPTIONS[view.way])}, 1:{n}"
        words.append(Text((x + half * i, top - PLAIN), caption, PLAIN, bold=True))
    marks: list[Mark] = [*words, *side.outlines(), *above.outlines()]
    stands = [(letter, load.place, load.force) for letter, load in loads.lettered()]
    first = loads.letter(worst)
    for view, told in ((side, [s for s in stands if s[0] == first]), (above, stands)):
        own: list[Mark] = place_marks([view.at(spot.place) for spot in findings.spots[:LISTED]])
        names = [(str(k), view.at(spot.place)) for k, spot in enumerate(findings.spots[:LISTED], 1)]
        for letter, place, force in told:
            pressed = load_mark(view.at(place)) if view is above else load_arrow(view, place, force)
            own += pressed
            names.append((letter, view.at(place)))
        own += named(names, [*own, *words], view.outlines())
        marks += own
        marks += _dotted(book, findings, view, kept_clear(own))
    return marks, n, foot - LEGEND


def _dotted(book: Book, findings: DeepFindings, view: PieceView, clear: BaseGeometry) -> list[Mark]:
    """The map of a view as dots: what each place of the surface bears, or how much a load there adds."""
    shown = findings.influence if view.way == ABOVE else findings.surface
    if shown is None or not shown.points:
        return []
    points, values = np.array(shown.points), np.array(shown.values)
    limits: Sequence[float] = USES
    if view.way == ABOVE:
        seen = _from_above(points, view.n)
        points, values, limits = points[seen], values[seen] * per_hundred(book), _limits(book, shown)
    flat = np.array([view.at(point) for point in points.tolist()])
    return dots(*on_grid(flat, values, view.on_page()), limits, clear)


def _limits(book: Book, influence: SurfaceMap) -> tuple[float, ...]:
    return steps_to(max(influence.values, default=0.0) * per_hundred(book))


def _from_above(points: NDArray[np.float64], n: int) -> NDArray[np.bool_]:
    """Which points nothing of the piece lies over, by cells of the page."""
    _, which = np.unique(np.floor(points[:, :2] / (CELL * n)).astype(int), axis=0, return_inverse=True)
    which = which.reshape(-1)
    highest = np.full(int(which.max()) + 1, -np.inf)
    np.maximum.at(highest, which, points[:, 2])
    return np.asarray(points[:, 2] >= highest[which] - UNDER)


def _legends(book: Book, findings: DeepFindings, at: tuple[float, float, float]) -> list[Mark]:
    """What the dots of both views stand for. at: left, upper line, and width of each."""
    x, y, half = at
    marks: list[Mark] = []
    if findings.surface is not None and findings.surface.points:
        words = say("Dots: the greatest use there, behind it too, of the mean strength")
        marks.append(Text((x, y), words, NOTE, fit=half - 4.0))
        marks += legend(x, y - 4.2, USES, lambda v: f"{v:.0%}")
    influence = findings.influence
    if influence is not None and influence.points:
        force = "100 lbf" if in_inches(book.units) else "100 N"
        words = say("Dots: % more use at place 1 for each {force} straight down there", force=force)
        marks.append(Text((x + half, y), words, NOTE, fit=half - 2.0))
        relieves = say("relieves") if min(influence.values) < 0 else ""
        marks += legend(x + half, y - 4.2, _limits(book, influence), lambda v: figure(f"{v:g}"), relieves)
    return marks
