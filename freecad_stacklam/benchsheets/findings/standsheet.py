# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a piece stands: its feet and its top from above, where it tips, how much it is held in each direction, and how it
is levelled."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, length_text, number, unit_words
from freecad_stacklam.benchsheets.drawing.lines import arrow
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import (
    LARGE,
    NOTE,
    PLAIN,
    STRONG,
    Circle,
    FilledRegion,
    Mark,
    Point,
    Polyline,
    Sheet,
    Text,
)
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.findings.standing import DIRECTIONS, PieceStanding, StandingFindings
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_mass, rounded_up
from freecad_stacklam.lamination.quantities import format_force, moment_in, moment_unit
from freecad_stacklam.lamination.words import figure, mark, say

#: Heading; the plan's and the polar plot's heights on the page; room round each for words; mm.
HEADING, PLAN, POLAR, AROUND = 13.0, 104.0, 62.0, 9.0
#: The plan is no lower than its legend and the arrow asks for, mm.
LEAST_PLAN = 52.0
#: The polar plot ends at this ratio: what is held better lies on its rim.
MOST = 3.0
#: Lines of the loads in the polar plot, in their order.
PENS = ("mortise", "mortise hidden", "hidden", "next", "finished", "seam")
#: Arm of the cross at the centre of mass, half size of a load's mark, length of the arrow over the weakest edge, mm.
CROSS, MARK, ARROW = 4.0, 1.1, 9.0
_SIDES = ((mark("RIGHT"), 1.0, 0.0), (mark("FRONT"), 0.0, -1.0))


def standing_sheets(book: Book, findings: StandingFindings) -> list[Sheet]:
    """A sheet for each piece, and more where its tables are long. Not yet numbered."""
    return [sheet for piece in findings.pieces for sheet in _sheets(book, piece, findings)]


def _sheets(book: Book, piece: PieceStanding, findings: StandingFindings) -> list[Sheet]:
    page = book.desk.portrait()
    f = drawing_space(page)
    top = f.y + f.height - HEADING
    title = say("{piece}: how it stands", piece=piece.name)
    n, plan = _plan_size(piece, f.width - 4.0)
    drawn = _plan(piece, (f.x + 2.0, top - plan, f.x + f.width - 2.0, top), n)
    low = top - plan - 3.0
    marks: list[Mark] = [*drawn]
    half = f.width / 2
    polar = bool(piece.loads)
    if polar:
        marks += _polar(piece, findings.least_ratio, (f.x + 2.0, low - POLAR, f.x + half - 4.0, low))
    foot = f.y + 2.0
    beside = Column(f.x + half, low, half - 3.0, POLAR if polar else low - foot)
    words = _words(piece, findings, book.units, f.width - 4.0 if polar else half - 3.0)
    blocks = [_feet(piece, book.units), *([] if polar else [words])]
    tables, left = flow(blocks, [beside])
    marks += tables
    under = low - (POLAR + 3.0 if polar else 0.0)
    wide = [Column(f.x + 2.0, under, f.width - 4.0, under - foot)] if polar else []
    tables, left = flow([*_loads(piece, book.units), *left, *([words] if polar else [])], wide)
    marks += tables
    sheets: list[Sheet] = []
    size = (page.width, page.height)
    scale = f"1:{n}"
    while True:
        name = title if not sheets else next_page(title)
        block = block_of(book, say("Standing"), say("{piece}-standing", piece=piece.name), name, scale, book.sizes_note)
        heading = Text((f.x + 1.0, f.y + f.height - LARGE), name, LARGE, bold=True, fit=f.width - 2.0)
        every = (heading, *marks, *title_block(page, block))
        sheets.append(Sheet("standing", name, size, every, paper_name=page.name))
        if not left:
            return sheets
        scale = ""
        marks, left = flow(left, [Column(f.x + 2.0, top, f.width - 4.0, top - foot)])


def _letter(i: int) -> str:
    return chr(ord("A") + i % 26)


def _extent(piece: PieceStanding) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Least and greatest x and y of all that the plan shows, mm of the model."""
    shown = [*piece.support, piece.centre[:2]]
    shown += [p for foot in piece.feet for ring in foot.rings for p in ring]
    shown += [p for t in piece.tops for p in t.outline]
    points = np.array(shown)
    return points.min(axis=0), points.max(axis=0)


def _plan_size(piece: PieceStanding, width: float) -> tuple[int, float]:
    """The plan's scale, 1 to so many, and how high it comes out with the words round it, mm."""
    low, high = _extent(piece)
    room = (width - 2 * AROUND, PLAN - 2 * AROUND)
    n = next((s for s in SCALES if ((high - low) / s <= room).all()), SCALES[-1])
    return n, max(float(high[1] - low[1]) / n + 2 * AROUND, LEAST_PLAN)


def _plan(piece: PieceStanding, box: tuple[float, float, float, float], n: int) -> list[Mark]:
    """The piece from above at 1:n: what it stands on, what is sat on, its centre of mass, where it tips."""
    low, high = _extent(piece)
    middle = (low + high) / 2
    page_middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)

    def at(point: Sequence[float]) -> Point:
        return page_middle[0] + (point[0] - middle[0]) / n, page_middle[1] + (point[1] - middle[1]) / n

    marks: list[Mark] = []
    for top in piece.tops:
        marks.append(Polyline(tuple(map(at, top.outline)), "finished", closed=True))
    if len(piece.support) > 1:
        marks.append(Polyline(tuple(map(at, piece.support)), "hidden", closed=True))
    for foot in piece.feet:
        marks += [Polyline(tuple(map(at, ring)), "mortise" if foot.touches else "thin", closed=True)
                  for ring in foot.rings]  # fmt: skip
        if len(piece.feet) > 1:
            x, y = at(foot.at)
            marks.append(Text((x, y - STRONG / 2), str(foot.number), STRONG, "centre", bold=True))
    x, y = at(piece.centre)
    marks += [Circle((x, y), CROSS / 2, "thin"), Polyline(((x - CROSS, y), (x + CROSS, y)), "thin"),
              Polyline(((x, y - CROSS), (x, y + CROSS)), "thin")]  # fmt: skip
    for i, load in enumerate(piece.loads):
        px, py = at(load.place)
        m = MARK
        marks.append(FilledRegion((((px - m, py - m), (px + m, py - m), (px, py + m)),)))
        marks.append(Text((px + 1.8, py - 1.2 + 3.4 * i), _letter(i), PLAIN, bold=True))
    worst = min(
        (load for load in piece.loads if load.ratio is not None), key=lambda one: one.ratio or 0.0, default=None
    )
    edge = (worst.start, worst.end) if worst is not None else piece.tip_edge
    if edge is not None:
        direction = worst.direction if worst is not None else piece.tip_direction
        a, b = at(edge[0]), at(edge[1])
        marks.append(Polyline((a, b), "cut"))
        out = (cos(radians(direction)), sin(radians(direction)))
        tail = ((a[0] + b[0]) / 2 + out[0] * (ARROW / 2 + 1.0), (a[1] + b[1]) / 2 + out[1] * (ARROW / 2 + 1.0))
        marks += arrow(tail, direction, ARROW)
    marks += [
        Text((box[2] - 2.0, page_middle[1] - PLAIN / 2), say("RIGHT"), PLAIN, "right", bold=True),
        Text((page_middle[0], box[1]), say("FRONT"), PLAIN, "centre", bold=True),
        Text((box[0], box[3] - PLAIN), f"{say('From above')}, 1:{n}", PLAIN, bold=True),
    ]
    legend = (
        say("Lines: continuous = feet"),
        say("short dashes = hull of what carries it"),
        say("long dash, two dots = edge of the top"),
        say("widest, with arrow = where it tips first"),
        say("cross in a circle = its weight"),
        say("triangles = loads by letter"),
    )
    marks += [Text((box[0], box[1] + 2.8 * (len(legend) - i)), line, NOTE, fit=48.0) for i, line in enumerate(legend)]
    return marks


def _polar(piece: PieceStanding, least: float, box: tuple[float, float, float, float]) -> list[Mark]:
    """How much the piece is held over how much it is tipped, in every direction: farther out is better."""
    cx, cy = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2 - 2.0
    radius = min(box[2] - box[0], box[3] - box[1] - 4.0) / 2 - AROUND + 2.0
    marks: list[Mark] = [Text((box[0], box[3] - PLAIN), say("Held ÷ tipped, by direction"), PLAIN, bold=True)]
    for ring, pen in ((1.0, "cut"), (least, "thin"), (MOST, "fine")):
        if ring <= MOST:
            marks.append(Circle((cx, cy), radius * ring / MOST, pen))
    marks.append(Text((cx + 0.8, cy + radius / MOST + 0.6), "1", NOTE))
    marks.append(Text((cx + 0.8, cy + radius + 0.6), say("{most:g} or more", most=MOST), NOTE))
    for word, x, y in _SIDES:
        at = (cx + x * (radius + 1.5), cy - PLAIN / 2 + y * (radius + 3.0))
        marks.append(Text(at, say(word), PLAIN, "left" if x else "centre", bold=True))
    for i, load in enumerate(piece.loads):
        reach = [radius * min(MOST if r is None else r, MOST) / MOST for r in load.ratios]
        line = tuple((cx + r * cos(radians(d)), cy + r * sin(radians(d))) for r, d in zip(reach, DIRECTIONS))
        marks.append(Polyline(line, PENS[i % len(PENS)], closed=True))
        y = box[1] + 2.8 * (len(piece.loads) - 1 - i)
        marks.append(Polyline(((box[0], y + 0.9), (box[0] + 10.0, y + 0.9)), PENS[i % len(PENS)]))
        marks.append(Text((box[0] + 11.5, y), _letter(i), NOTE, bold=True))
    return marks


def _loads(piece: PieceStanding, units: Units) -> list[Block]:
    if not piece.loads:
        return []
    rows, first = [], units.first
    for i, load in enumerate(piece.loads):
        inward = "–" if load.inward is None else number(rounded_up(load.inward, first), units)
        rows.append(
            (
                f"{_letter(i)}  {shown(load.name)}",
                format_force(load.down, units.first),
                format_force(load.push, units.first),
                f"{load.direction:.0f}°",
                figure(f"{moment_in(load.holding, first):.1f}"),
                figure(f"{moment_in(load.tipping, first):.1f}"),
                say("none tips") if load.ratio is None else figure(f"{load.ratio:.2f}"),
                number(rounded_up(load.wider, first), units),
                inward,
            )
        )
    heads = (
        say("load"),
        say("down"),
        say("push"),
        say("towards"),
        say("holds {unit}", unit=moment_unit(first)),
        say("tips {unit}", unit=moment_unit(first)),
        say("ratio"),
        say("foot out"),
        say("or edge in"),
    )
    table = Block(
        say("Loads at their worst; towards: degrees round from RIGHT; sizes in {unit}", unit=unit_words(units)),
        heads,
        (52.0, 16.0, 15.0, 15.0, 18.0, 18.0, 17.0, 17.0, 19.0),
        (True, *(False,) * 8),
        tuple(rows),
    )
    return [table]


def _feet(piece: PieceStanding, units: Units) -> Block:
    rows = [
        (str(f.number), say("face") if f.face else say("round"), number(f.gap, units), number(f.off, units))
        for f in piece.feet
    ]
    heads = (say("foot"), say("touches"), say("off floor"), say("scribe off"))
    return Block(
        say("Feet, all sizes in {unit}", unit=unit_words(units)),
        heads,
        (14.0, 24.0, 26.0, 26.0),
        (True, True, False, False),
        tuple(rows),
    )


def _words(piece: PieceStanding, findings: StandingFindings, units: Units, width: float) -> Block:
    centre = length_text(piece.centre[2], units)
    words = [
        say("Weight not known, its centre {centre} above the floor.", centre=centre)
        if piece.mass is None
        else say(
            "Weight about {mass}, its centre {centre} above the floor.",
            mass=format_mass(piece.mass, units.first),
            centre=centre,
        )
    ]
    if piece.rolls:
        words.append(say("It touches the floor in a point or along a line: it rolls, or must be held."))
    elif piece.falls or piece.inside <= 0:
        words.append(say("Its weight lies outside what it stands on: it falls over by itself."))
    else:
        words.append(say("Empty, it tips when tilted by {angle:.1f}°.", angle=piece.tip_angle))
        words.append(
            say(
                "Ratio asked for: {ratio:g}, the second circle; inside the widest circle it tips.",
                ratio=findings.least_ratio,
            )
        )
        if findings.short_foot or findings.soft_floor:
            sentence = (
                mark("Reckoned with a foot or the floor out by {out}, on a floor that gives by {gives}.")
                if findings.soft_floor
                else mark("Reckoned with a foot or the floor out by {out}, on a hard floor.")
            )
            gives = length_text(findings.soft_floor, units) if findings.soft_floor else ""
            words.append(say(sentence, out=length_text(findings.short_foot, units), gives=gives))
        level = piece.levelling
        if level.scribe > 0:
            words.append(
                say(
                    "Levelling: wedge it up level on a flat board, scribe all feet at {scribe} above the board, saw "
                    "to the line.",
                    scribe=length_text(level.scribe, units),
                )
            )
        elif len(piece.feet) > 1:
            words.append(say("Levelling: all feet end at one height as drawn; scribe them to the shortest as made."))
    words.append(say("An estimate by statics, not a compliance test."))
    return notes(say("How it stands"), words, width)
