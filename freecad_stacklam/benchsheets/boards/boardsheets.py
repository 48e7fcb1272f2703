# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is cut from which board, to scale, with the saw cuts in their order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import shapely

from freecad_stacklam.benchsheets.boards.boardwords import summary
from freecad_stacklam.benchsheets.boards.stavemaps import triangle_of
from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    length_text,
    number,
    size_text,
    text_box,
    text_width,
    thickness_text,
    unit_name,
)
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, Circle, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import HEADING, table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.boards import (
    BoardCut,
    BoardPiece,
    BoardsPlan,
    Operation,
    Rectangle,
    Stave,
)
from freecad_stacklam.lamination.words import apart, mark, say

#: Above a board for its name and cut numbers, below it for the measures, and between boards, mm of paper.
ABOVE, BELOW, BETWEEN = 15.0, 6.0, 4.0
#: More staves in a part than this are counted, not named: their names would not be legible.
NAMED = 3
#: Distance of hatching lines, mm of paper.
HATCH = 1.6
#: Radius of the ring round a step's number, mm of paper.
RING = 2.2


def _box(rectangle: Rectangle, x: float, y: float, n: int) -> tuple[tuple[float, float], ...]:
    a, b, length, width = rectangle
    x0, y0, x1, y1 = x + a / n, y + b / n, x + (a + length) / n, y + (b + width) / n
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _hatched(corners: Sequence[tuple[float, float]]) -> list[Mark]:
    """A rectangle with lines at 45° through it."""
    (x0, y0), _, (x1, y1), _ = corners
    area = shapely.box(x0, y0, x1, y1)
    marks: list[Mark] = [Polyline(corners, "thin", closed=True)]
    for start in np.arange(x0 - (y1 - y0), x1, HATCH):
        line = shapely.LineString([(start, y0), (start + y1 - y0, y1)]).intersection(area)
        if line.geom_type == "LineString" and line.length > 0.2:
            marks.append(Polyline(tuple(line.coords), "fine"))
    return marks


def _piece(piece: BoardPiece, stave: Stave | None, staves: Sequence[Stave], x: float, y: float, n: int) -> list[Mark]:
    """A piece with its name and its part of the layer's triangle mark."""
    corners = _box((piece.x, piece.y, piece.length, piece.width), x, y, n)
    marks: list[Mark] = [Polyline(corners, "cut", closed=True)]
    (x0, y0), (x1, y1) = corners[0], corners[2]
    if stave is not None:
        c, s = cos(radians(-stave.grain)), sin(radians(-stave.grain))
        turn = np.array([[c, s], [-s, c]])
        region = shapely.Polygon(stave.region)
        middle = np.array(region.centroid.coords[0])
        centre = np.array([(x0 + x1) / 2, (y0 + y1) / 2])
        triangle = shapely.intersection(triangle_of(staves), region)
        for part in shapely.get_parts(triangle):
            if part.geom_type == "LineString" and part.length > 1.0:
                lying = (shapely.get_coordinates(part) - middle) @ turn / n + centre
                marks.append(Polyline(lying, "fine"))
    words = piece.stave + (f" ({piece.copy})" if piece.copy > 1 or (stave is not None and stave.copies > 1) else "")
    height = PLAIN if y1 - y0 > PLAIN + 1.5 else NOTE
    if y1 - y0 > NOTE + 0.6:
        marks.append(Text((x0 + 1.0, y0 + 0.9), words, height, fit=max(4.0, x1 - x0 - 1.6)))
    return marks


def _cut_marks(
    cuts: Sequence[Operation], board: BoardCut, x: float, y: float, n: int, units: Units, drawn: Sequence[Mark]
) -> list[Mark]:
    """The saw cuts, each with the number of its step in a ring: right across the board above it, with its measure from
    the left end; the others on their line, where nothing that is `drawn` stands."""
    marks: list[Mark] = []
    top = y + board.width / n
    last_ring = last_word = -1e9
    inner: list[tuple[Operation, Polyline]] = []
    for place, cut in sorted(((c.at, c) for c in cuts if c.at is not None), key=lambda c: (not c[1].across, c[0])):
        if not cut.across or not _whole(cut, board):
            low, high, at = cut.start / n, cut.end / n, place / n
            ends = ((x + at, y + low), (x + at, y + high)) if cut.across else ((x + low, y + at), (x + high, y + at))
            inner.append((cut, Polyline(ends, "mortise hidden")))
            continue
        at = x + place / n
        marks.append(Polyline(((at, y + cut.start / n), (at, y + cut.end / n)), "mortise hidden"))
        ring = max(at, last_ring + 5.4)
        marks += _ring((ring, top + 3.6), str(cut.number))
        marks.append(Polyline(((ring, top + 1.4), (at, top)), "fine"))
        last_ring = ring
        words = number(place, units)
        width = text_width(words, NOTE)
        word = max(at - width / 2, last_word + 1.5)
        marks.append(Text((word, y - 4.2), words, NOTE))
        marks.append(Polyline(((word + width / 2, y - 1.9), (at, y)), "fine"))
        last_word = word + width
    taken = [text_box(m) for m in (*drawn, *marks) if isinstance(m, Text)]
    taken += [shapely.Point(m.centre).buffer(m.radius) for m in marks if isinstance(m, Circle)]
    for cut, line in inner:
        marks.append(line)
        at_ring = _free_place(line, taken)
        marks += _ring(at_ring, str(cut.number))
        if shapely.LineString(line.points).distance(shapely.Point(at_ring)) > RING:  # beyond its end: a leader
            edge = shapely.shortest_line(shapely.Point(line.points[-1]), shapely.Point(at_ring).buffer(RING))
            marks.append(Polyline(shapely.get_coordinates(edge), "fine"))
        taken.append(shapely.Point(at_ring).buffer(RING))
    return marks


def _free_place(line: Polyline, taken: Sequence[shapely.Polygon]) -> tuple[float, float]:
    """Where on a cut's line its ring stands clear of all that is `taken`: as near its end as may be. A short line may
    have no such place; the ring then goes beyond its end, as far as needed."""
    (x0, y0), (x1, y1) = line.points[0], line.points[-1]
    long = float(np.hypot(x1 - x0, y1 - y0)) or 1.0
    step = np.array([(x1 - x0) / long, (y1 - y0) / long])
    inside = np.arange(long - RING - 0.4, 0.0, -1.0)
    for along in (*inside, *np.arange(long + RING + 0.4, long + 400.0, 1.0)):
        place = np.array([x0, y0]) + along * step
        if not any(shapely.Point(place).buffer(RING).intersects(box) for box in taken):
            return float(place[0]), float(place[1])
    return x1, y1


def _whole(cut: Operation, board: BoardCut) -> bool:
    """True for a crosscut through the whole width of the board."""
    return cut.across and cut.end - cut.start > 0.9 * board.width


def _steps(board: BoardCut, units: Units) -> Block:
    """The work on a board, step by step."""
    rows = []
    for o in board.operations:
        corner = o.part[0] if o.across else o.part[1]
        where = "" if o.at is None else number(o.at - corner, units)
        part = apart().join(number(at, units) for at in o.part[:2])
        size = f"{number(o.part[2], units)} × {number(o.part[3], units)}"
        rows.append((str(o.number), shown(o.machine), shown(o.what), where, part, size, _named(o.staves)))
    title = mark("{board}, planed to {planed}, {unit}") if board.planed else mark("{board}, {unit}")
    planed = thickness_text(board.planed, units) if board.planed else ""
    return Block(
        say(title, board=board.board, planed=planed, unit=unit_name(units)),
        (say("step"), say("on"), say("what"), say("at"), say("part from"), say("part"), say("staves")),
        (10.0, 24.0, 42.0, 16.0, 24.0, 28.0, 44.0),
        (True, True, True, False, True, True, True),
        tuple(rows),
    )


def _named(staves: Sequence[str]) -> str:
    """Names of staves, those of one layer with the layer named once: "Top 1 a, b, Top 2 c"; of many only how many."""
    if len(staves) > NAMED:
        return say("{count} staves", count=len(staves))
    words: list[str] = []
    last = ""
    for name in staves:
        layer, _, letter = name.rpartition(" ")
        words.append((", " if words else "") + (letter if layer == last else name))
        last = layer
    return "".join(words)


def _ring(at: tuple[float, float], words: str) -> list[Mark]:
    return [
        Circle(at, RING, "thin"),
        Text((at[0], at[1] - NOTE / 2), words, NOTE, "centre", bold=True, fit=3.4),
    ]


def _board(
    board: BoardCut, staves: dict[str, Stave], layers: dict[tuple[str, int], list[Stave]], x: float, y: float, n: int,
    units: Units,
) -> list[Mark]:  # fmt: skip
    """A board with its left end at page x and its lower edge at y."""
    one = replace(units, both=False)  # the lists have both; on the picture the measures stand too close
    outline = _box((0.0, 0.0, board.length, board.width), x, y, n)
    marks: list[Mark] = [Polyline(outline, "thin", closed=True)]
    for piece in board.pieces:
        stave = staves.get(piece.stave)
        mates = layers.get((stave.stack, stave.layer), []) if stave else []
        marks += _piece(piece, stave, mates, x, y, n)
    for knot in board.knots:
        marks += _hatched(_box(knot, x, y, n))
    for offcut in board.offcuts:
        corners = _box(offcut, x, y, n)
        (x0, y0), (x1, y1) = corners[0], corners[2]
        if x1 - x0 > 12.0 and y1 - y0 > NOTE + 1.0:
            words = say("offcut {length} × {width}", length=number(offcut[2], one), width=number(offcut[3], one))
            at = ((x0 + x1) / 2, (y0 + y1) / 2 - NOTE / 2)
            marks.append(Text(at, words, NOTE, "centre", fit=x1 - x0 - 1.5))
    marks += _cut_marks(board.cuts, board, x, y, n, one, marks)
    facts = say(
        "{length}, {thickness} thick, {species}",
        length=size_text(board.length, board.width, units),
        thickness=length_text(board.thickness, units),
        species=shown(board.species),
    )
    head = say(mark("{board} – on hand") if board.on_hand else mark("{board} – TO BUY"), board=board.board)
    level = y + board.width / n + ABOVE - 6.5
    marks.append(Text((x, level), head, PLAIN, bold=True))
    marks.append(Text((x + text_width(head, PLAIN, bold=True) + 4.0, level), facts, PLAIN))
    return marks


def board_sheets(book: Book) -> list[Sheet]:
    """The boards as pictures, several to a page, and the lists of boards and pieces. Not yet numbered."""
    boards: BoardsPlan | None = book.plan.boards
    if boards is None or not boards.plan:
        return []
    page = book.desk.portrait().turned() if book.desk.turnable else book.desk
    f = drawing_space(page)
    longest = max(board.length for board in boards.plan)
    widest = max(board.width for board in boards.plan)
    room = f.height - HEADING
    n = next((n for n in SCALES if longest / n <= f.width - 2.5 and widest / n + ABOVE + BELOW <= room), SCALES[-1])
    staves = {stave.id: stave for stave in boards.staves}
    layers: dict[tuple[str, int], list[Stave]] = {}
    for stave in boards.staves:
        layers.setdefault((stave.stack, stave.layer), []).append(stave)
    pages: list[list[Mark]] = [[]]
    level = f.y + room
    for board in boards.plan:
        takes = board.width / n + ABOVE + BELOW
        if level - takes < f.y and pages[-1]:
            pages.append([])
            level = f.y + room
        pages[-1] += _board(board, staves, layers, f.x + 2.0, level - ABOVE - board.width / n, n, book.units)
        level -= takes + BETWEEN
    title = say("Boards")
    first = block_of(book, say("Cutting plan"), say("boards"), title, f"1:{n}", book.sizes_note)
    sheets = []
    for i, marks in enumerate(pages):
        heading = (
            mark("{title}, scale 1:{scale}, {page} of {pages}") if len(pages) > 1 else mark("{title}, scale 1:{scale}")
        )
        name = say(heading, title=title, scale=n, page=i + 1, pages=len(pages))
        head = Text((f.x + 1.0, f.y + f.height - LARGE), name, LARGE, bold=True, fit=f.width - 2.0)
        every = (head, *marks, *title_block(page, first))
        sheets.append(
            Sheet(
                "boards",
                say("Boards and saw cuts"),
                (page.width, page.height),
                every,
                scale=1.0 / n,
                paper_name=page.name,
            )
        )
    width = 178.0
    lists = summary(boards, book.units, width)
    block = block_of(book, say("List of boards"), say("boards"), say("Boards and pieces"), note=book.sizes_note)
    steps = [_steps(board, book.units) for board in boards.plan if board.operations]
    order = block_of(book, say("Work on the boards"), say("boards"), say("Steps"), note=book.sizes_note)
    sheets = [*table_pages("boards", say("Boards and pieces"), book.desk, block, lists, width), *sheets]
    return (
        [*sheets, *table_pages("boards", say("Boards, step by step"), book.desk, order, steps, 188.0)]
        if steps
        else sheets
    )
