# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sanding and finish: how much surface there is and how it lies to the grain, what it drinks, how much to buy."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, FilledRegion, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.closer import closest_pages, space_of
from freecad_stacklam.lamination.bill.finishing import BAND, coverage_text, liquid
from freecad_stacklam.lamination.findings.finishing import FinishFindings
from freecad_stacklam.lamination.lengths import SQUARE_METRE, format_area
from freecad_stacklam.lamination.tolerances import NO_AREA
from freecad_stacklam.lamination.words import say

KIND = "finish"
TITLE = "Sanding and finish"
#: From bar to bar and their height, room for the angles and for the figures, mm.
BAR, THICK, ANGLES, FIGURES = 4.6, 2.8, 22.0, 40.0
#: Stacks side by side in one table.
ACROSS = 5


def finish_sheets(book: Book, findings: FinishFindings) -> list[Sheet]:
    """The areas as bars and in a table, then how much of what. Not yet numbered."""
    if not findings.surfaces:
        return []
    page = space_of(book)
    marks, level = _bars(book, findings, page.x, page.top, page.width)
    return closest_pages(book, KIND, TITLE, lambda wide: _blocks(book, findings, wide), marks, level)


def _angle(i: int) -> str:
    return f"{BAND * i:g}° to {BAND * (i + 1):g}°"


def _bars(book: Book, findings: FinishFindings, x: float, top: float, width: float) -> tuple[list[Mark], float]:
    """The area of all stacks in each band of angles; and where the page is free below."""
    bands = [sum(column) for column in zip(*(surface.bands for surface in findings.surfaces))]
    words = "How the surface lies: angle from its square to the grain, 0° end grain, 90° along the grain"
    marks: list[Mark] = [Text((x, top - PLAIN - 1.0), words, PLAIN, bold=True, fit=width)]
    if findings.area <= NO_AREA:
        return marks, top - 6.0
    scale = (width - ANGLES - FIGURES) / max(bands)
    y = top - 6.0
    for i, area in enumerate(bands):
        y -= BAR
        left, end = x + ANGLES, x + ANGLES + max(area * scale, THICK / 10)
        marks.append(Text((x, y + 0.3), _angle(i), NOTE))
        marks.append(FilledRegion((((left, y), (end, y), (end, y + THICK), (left, y + THICK)),)))
        figure = f"{format_area(area, book.units.first)}, {area / findings.area:.0%}"
        marks.append(Text((end + 1.5, y + 0.4), figure, NOTE))
    return marks, y - 4.0


def _blocks(book: Book, findings: FinishFindings, width: float) -> list[Block]:
    first = book.units.first
    surfaces = findings.surfaces
    found = [_areas(book, findings, i) for i in range(0, len(surfaces), ACROSS)]
    found.append(_amounts(book, findings))
    if findings.sheets:
        rows = tuple((f"grit {grit}", str(count)) for grit, count in findings.sheets)
        found.append(Block("Abrasive, sheets or discs of each grit", ("", "how many", ""), (40.0, 30.0, 110.0),
                           (True, False, True), tuple((*row, "") for row in rows)))  # fmt: skip
    return [*found, notes("How it is reckoned", _reckoned(findings, first), width), *_cautions(findings, width)]


def _cautions(findings: FinishFindings, width: float) -> list[Block]:
    return [notes("Mind", [say(one) for one in findings.cautions], width)] if findings.cautions else []


def _areas(book: Book, findings: FinishFindings, at: int) -> Block:
    """The bands of each stack, and their sums."""
    part = findings.surfaces[at : at + ACROSS]

    def area(mm2: float) -> str:
        return format_area(mm2, book.units.first).rpartition(" ")[0]

    rows = [(_angle(i), *(area(s.bands[i]) for s in part)) for i in range(len(part[0].bands))]
    rows.append(("all, every copy", *(area(s.area) for s in part)))
    rows.append((f"end grain, within {findings.end_within:g}°", *(area(s.end) for s in part)))
    unit = format_area(0.0, book.units.first).rpartition(" ")[2]
    each = min(34.0, 130.0 / len(part))
    return Block(
        f"Surface of each stack, {unit}", ("angle to the grain", *(s.stack for s in part)),
        (50.0, *[each] * len(part)), (True, *[False] * len(part)), tuple(rows),
    )  # fmt: skip


def _amounts(book: Book, findings: FinishFindings) -> Block:
    """The finish: coats, how far it goes, how much of it."""
    first = book.units.first
    rows = [
        ("surface", format_area(findings.area, first), f"{findings.end / findings.area:.0%} of it end grain"
         if findings.area > NO_AREA else ""),
        ("coats", str(findings.coats), f"each after the first takes {findings.later:.0%} of it"),
    ]  # fmt: skip
    if findings.coverage > 0:
        rows.append(("covers", coverage_text(findings.coverage, first), "side grain in one coat; the can says more"))
    rows.append(
        ("to buy", liquid(findings.litres, first),
         f"between {liquid(findings.least, first)} and {liquid(findings.most, first)}")
    )  # fmt: skip
    return Block(
        f"Finish: {findings.finish}", ("", "how much", ""), (24.0, 66.0, 90.0), (True, True, True), tuple(rows)
    )


def _reckoned(findings: FinishFindings, units: str) -> Sequence[str]:
    """The sum of the litres with its figures, so that it can be done again by hand."""
    said = []
    if findings.coverage > 0:
        drinks = findings.area + (findings.end_grain - 1) * findings.end
        coats = 1 + findings.later * (findings.coats - 1)
        said.append(
            f"End grain drinks {findings.end_grain:g} times as much: {format_area(findings.area, units)} with "
            f"{format_area(findings.end, units)} of it end grain drink as {format_area(drinks, units)} of side grain; "
            f"{findings.coats} coats are {coats:.3g} first ones; {findings.lost:.0%} stays in rag, brush and can. All "
            f"three by {coverage_text(findings.coverage, units)} make {liquid(findings.litres, units)}."
        )
    if findings.sheet_lasts > 0 and findings.sheets:
        lasts = format_area(findings.sheet_lasts * SQUARE_METRE, units)
        said.append(f"The whole surface is sanded once with each grit, {lasts} with each sheet.")
    said.append(
        "Both faces count where one stack lies on another, the walls of mortises do not. Amounts: common practice, no "
        "source; wood, tool and hand differ, and a test board tells more."
    )
    return said
