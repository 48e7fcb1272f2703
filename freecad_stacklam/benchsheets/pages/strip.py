# SPDX-License-Identifier: LGPL-2.1-or-later

"""The title strip at the foot of every page, and the check scales in its corner.

The strip holds what ISO 7200 asks of a title block (title, part number, sheet, date, creator, kind of document), and
what a layer's page needs besides: its number, heights, line kinds, directions and the map of the tiles.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.benchsheets.drawing.lettering import shortened
from freecad_stacklam.benchsheets.drawing.lines import arrow, sample
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import (
    HUGE,
    LARGE,
    NOTE,
    PAGE,
    PAGES,
    PLAIN,
    STRONG,
    FilledRegion,
    Mark,
    Polyline,
    Text,
)
from freecad_stacklam.benchsheets.pages.tiling import DrawingSpace, Tile, Tiling
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.words import mark, say

#: Height of the strip and width of the band beside the drawing in which the check scales stand, mm.
STRIP, SIDE = 37.0, 8.0
#: Lengths of the check scales, mm.
SQUARE_MM, SQUARE_IN = 100.0, 4 * INCH
#: Lower left corner of each pair of scales from the margins' corner, mm.
_AT_MM, _AT_IN = 1.0, 4.8

#: What the sentences have on the narrowest page, and how far they may be condensed; longer ones than IN_STRIP, as wide
#: as written, are cut off, mm.
FIELDS_WIDTH, SQUEEZE = 65.0, 0.65
IN_STRIP = (FIELDS_WIDTH - 1.0) / SQUEEZE

ACTUAL_SIZE = mark("Print at 100 % / actual size.")
MEASURE = mark("Measure the check scales before cutting.")


@dataclass(frozen=True)
class Fields:
    """What the strip says. `lines` are short sentences in order of importance; the first is set strong."""

    lines: tuple[str, ...]
    number: str = ""  # read across the shop
    above_number: str = ""
    below_number: str = ""
    legend: tuple[tuple[str, str], ...] = ()  # pen, words
    front: float | None = None  # page degrees towards the front
    grain: float | None = None  # page degrees of the grain
    front_word: str = ""  # else FRONT


def drawing_space(paper: Paper) -> DrawingSpace:
    """Where the drawing goes on a page that carries the strip."""
    m = paper.margin
    return DrawingSpace(paper, m + SIDE, m + STRIP, paper.width - 2 * m - SIDE, paper.height - 2 * m - STRIP)


def check_scales(margin: float) -> list[Mark]:
    """A 100 mm and a 4 in scale along the page's foot, and the same up its side: a printer may scale one direction and
    not the other."""
    marks: list[Mark] = []
    for inset, side, step, words in (
        (_AT_MM, SQUARE_MM, 10.0, "100 mm"),
        (_AT_IN, SQUARE_IN, INCH / 2, "4 in"),
    ):
        o = margin + inset
        foot: list[tuple[float, float]] = [(0.0, 0.0)]  # one comb: along the side and up and down each tick
        count = round(side / step)
        for i in range(1, count + 1):
            tick = 2.4 if i in (count, count / 2) else 1.2
            foot += [(i * step, 0.0), (i * step, tick), (i * step, 0.0)]
        marks.append(Polyline(tuple((o + a, o + b) for a, b in foot), "fine"))
        marks.append(Polyline(tuple((o + b, o + a) for a, b in foot), "fine"))
        marks.append(Text((o + side + 1.5, o), words, NOTE))
        marks.append(Text((o + NOTE, o + side + 1.5), words, NOTE, turn=90.0))
    return marks


def title_strip(paper: Paper, fields: Fields) -> list[Mark]:
    """The strip without the tile map: the same for all pages of a layer."""
    m = paper.margin
    right, top = paper.width - m, m + STRIP - 1.0
    marks = check_scales(m)
    marks.append(Polyline(((m + SIDE, top), (right, top)), "thin"))
    beside = m + _AT_IN + SQUARE_IN + 13.0
    marks.append(Text((beside, m + 5.2), say(ACTUAL_SIZE), PLAIN, bold=True, fit=right - beside))
    marks.append(Text((beside, m + 1.2), say(MEASURE), PLAIN, bold=True, fit=right - beside))
    x = m + SIDE + 2.0
    if fields.number:
        marks += [
            Text((x + 13.0, top - 4.0), fields.above_number, PLAIN, "centre", fit=26.0),
            Text((x + 13.0, top - 20.0), fields.number, HUGE, "centre", bold=True, fit=26.0),
            Text((x + 13.0, top - 24.8), fields.below_number, PLAIN, "centre", bold=True, fit=26.0),
        ]
        x += 28.0
    width = _fields_width(paper) if fields.legend else right - x
    for i, line in enumerate(fields.lines):
        height = STRONG - 0.5 if i == 0 else PLAIN
        line = shortened(line, height, width - 1.0, bold=i == 0, squeeze=SQUEEZE)
        marks.append(
            Text((x, top - 4.5 - 4.15 * i), line, STRONG - 0.5 if i == 0 else PLAIN, bold=i == 0, fit=width - 1.0)
        )
    x += width + 1.0
    if fields.legend:
        for i, (pen, words) in enumerate(fields.legend):
            y = top - 4.5 - (4.15 if len(fields.legend) < 7 else 3.5) * i
            marks += [
                *sample(pen, (x, y + 1.0), 14.0),
                Text((x + 15.5, y), words, NOTE + 0.4, fit=31.0),
            ]
        x += 47.5
    if fields.front is not None:
        marks.append(
            Text((x + 7.0, top - 4.0), fields.front_word or say("FRONT"), PLAIN, "centre", bold=True, fit=14.0)
        )
        marks += arrow((x + 7.0, top - 9.2), fields.front, 7.6)
    if fields.grain is not None:
        marks.append(Text((x + 7.0, top - 25.5), say("grain"), PLAIN, "centre", fit=14.0))
        marks += arrow((x + 7.0, top - 18.3), fields.grain, 8.0, both=True)
    return marks


def _fields_width(paper: Paper) -> float:
    """Room for the sentences: what the narrowest page leaves, and more on a wider one."""
    spare = paper.width - 2 * paper.margin - SIDE - 2.0 - 28.0 - FIELDS_WIDTH - 1.0 - 47.5 - 15.0 - 22.0
    return FIELDS_WIDTH + max(0.0, min(spare, 45.0))


def map_place(paper: Paper) -> tuple[float, float, float, float]:
    """Where the tile map stands: x, y, width, height in page mm."""
    m = paper.margin
    x = m + SIDE + 2.0 + 28.0 + _fields_width(paper) + 1.0 + 47.5 + 15.0
    return x, m + STRIP - 1.0 - 25.5, paper.width - m - x, 24.0


def tile_map(tiling: Tiling, spot: Tile) -> list[Mark]:
    """All tiles of the layer in small, this one black, and its name."""
    x, y, width, height = map_place(tiling.paper)
    width = min(width, 40.0)
    marks: list[Mark] = [Text((x + width / 2, y), spot.name, LARGE, "centre", bold=True, fit=width)]
    y, height = y + LARGE + 1.5, height - LARGE - 1.5
    cell_width, cell_height = spot.cell[2] - spot.cell[0], spot.cell[3] - spot.cell[1]
    scale = min(width / (tiling.columns * cell_width), height / (tiling.rows * cell_height))
    w, h = cell_width * scale, cell_height * scale
    left = x + (width - tiling.columns * w) / 2
    top = y + height - (height - tiling.rows * h) / 2
    for t in tiling.tiles:
        a, b = left + t.column * w, top - (t.row + 1) * h
        loop = ((a, b), (a + w, b), (a + w, b + h), (a, b + h))
        if t == spot:
            marks.append(FilledRegion((loop,)))
        marks.append(Polyline(loop, "fine", closed=True))
        if t != spot and w > 6.0 and h > 3.5:
            marks.append(Text((a + w / 2, b + h / 2 - NOTE / 2), t.name, NOTE, "centre", fit=w - 1.0))
    return marks


def sheet_line(kind: str) -> str:
    """“Full-size template, sheet 3 of 40”, with room for the numbers."""
    return say("{kind}, sheet {page} of {pages}", kind=kind, page=PAGE, pages=PAGES)


def joined(*words: str) -> str:
    """The words that are there, each once, with a dot between."""
    return " · ".join(dict.fromkeys(word for word in words if word))


def plain_strip(paper: Paper, lines: Sequence[str]) -> list[Mark]:
    """The strip of a page that shows no layer."""
    return title_strip(paper, Fields(tuple(lines)))
