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
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import SQUARE_METRE, format_area
from freecad_stacklam.lamination.tolerances import NO_AREA
from freecad_stacklam.lamination.words import mark, say

KIND = "finish"
TITLE = mark("Sanding and finish")
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
    return closest_pages(book, KIND, say(TITLE), lambda wide: _blocks(book, findings, wide), marks, level)


def _angle(i: int) -> str:
    return say("{low:g}° to {high:g}°", low=BAND * i, high=BAND * (i + 1))


def _bars(book: Book, findings: FinishFindings, x: float, top: float, width: float) -> tuple[list[Mark], float]:
    """The area of all stacks in each band of angles; and where the page is free below."""
    bands = [sum(column) for column in zip(*(surface.bands for surface in findings.surfaces))]
    words = say("How the surface lies: angle from its square to the grain, 0° end grain, 90° along the grain")
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
        rows = tuple((say("grit {grit}", grit=grit), str(count)) for grit, count in findings.sheets)
        found.append(
            Block(
                say("Abrasive, sheets or discs of each grit"),
                ("", say("how many"), ""),
                (40.0, 30.0, 110.0),
                (True, False, True),
                tuple((*row, "") for row in rows),
            )
        )
    return [*found, notes(say("How it is reckoned"), _reckoned(findings, first), width), *_cautions(findings, width)]


def _cautions(findings: FinishFindings, width: float) -> list[Block]:
    return [notes(say("Mind"), [say(one) for one in findings.cautions], width)] if findings.cautions else []


def _areas(book: Book, findings: FinishFindings, at: int) -> Block:
    """The bands of each stack, and their sums."""
    part = findings.surfaces[at : at + ACROSS]

    def area(mm2: float) -> str:
        return format_area(mm2, book.units.first).rpartition(" ")[0]

    rows = [(_angle(i), *(area(s.bands[i]) for s in part)) for i in range(len(part[0].bands))]
    rows.append((say("all, every copy"), *(area(s.area) for s in part)))
    rows.append((say("end grain, within {angle:g}°", angle=findings.end_within), *(area(s.end) for s in part)))
    unit = format_area(0.0, book.units.first).rpartition(" ")[2]
    each = min(34.0, 130.0 / len(part))
    return Block(
        say("Surface of each stack, {unit}", unit=unit),
        (say("angle to the grain"), *(s.stack for s in part)),
        (50.0, *[each] * len(part)),
        (True, *[False] * len(part)),
        tuple(rows),
    )


def _amounts(book: Book, findings: FinishFindings) -> Block:
    """The finish: coats, how far it goes, how much of it."""
    first = book.units.first
    rows = [
        (
            say("surface"),
            format_area(findings.area, first),
            say("{part:.0%} of it end grain", part=findings.end / findings.area) if findings.area > NO_AREA else "",
        ),
        (say("coats"), str(findings.coats), say("each after the first takes {part:.0%} of it", part=findings.later)),
    ]
    if findings.coverage > 0:
        rows.append(
            (say("covers"), coverage_text(findings.coverage, first), say("side grain in one coat; the can says more"))
        )
    rows.append(
        (
            say("to buy"),
            liquid(findings.litres, first),
            say("between {least} and {most}", least=liquid(findings.least, first), most=liquid(findings.most, first)),
        )
    )
    return Block(
        say("Finish: {finish}", finish=shown(findings.finish)),
        ("", say("how much"), ""),
        (24.0, 66.0, 90.0),
        (True, True, True),
        tuple(rows),
    )


def _reckoned(findings: FinishFindings, units: str) -> Sequence[str]:
    """The sum of the litres with its figures, so that it can be done again by hand."""
    said = []
    if findings.coverage > 0:
        drinks = findings.area + (findings.end_grain - 1) * findings.end
        coats = 1 + findings.later * (findings.coats - 1)
        said.append(
            say(
                "End grain drinks {end_grain:g} times as much: {area} with {end} of it end grain drink as {drinks} "
                "of side grain; {coats} coats are {first_ones:.3g} first ones; {lost:.0%} stays in rag, brush and can. "
                "All three by {coverage} make {litres}.",
                end_grain=findings.end_grain,
                area=format_area(findings.area, units),
                end=format_area(findings.end, units),
                drinks=format_area(drinks, units),
                coats=findings.coats,
                first_ones=coats,
                lost=findings.lost,
                coverage=coverage_text(findings.coverage, units),
                litres=liquid(findings.litres, units),
            )
        )
    if findings.sheet_lasts > 0 and findings.sheets:
        lasts = format_area(findings.sheet_lasts * SQUARE_METRE, units)
        said.append(say("The whole surface is sanded once with each grit, {lasts} with each sheet.", lasts=lasts))
    said.append(
        say(
            "Both faces count where one stack lies on another, the walls of mortises do not. Amounts: common "
            "practice, no source; wood, tool and hand differ, and a test board tells more."
        )
    )
    return said
