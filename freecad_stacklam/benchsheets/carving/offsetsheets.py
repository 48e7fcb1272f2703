# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables of offsets as boats are lofted from them: a row for each direction, a column for each glue line, in the cells
how far it is from the centre to the finished surface; and beside it, laid out the same, how much is carved off there.

Columns that find no room go on in a further table, with the directions repeated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import atan2, degrees

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, number, text_width, unit_name
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Sheet
from freecad_stacklam.benchsheets.pages.blocks import GAP, Block, notes
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import HEADING, table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of
from freecad_stacklam.lamination.plan.carving import CarvingPlan, Offset
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import FORM_STEP
from freecad_stacklam.lamination.words import figure, mark, say

#: Width of the column of directions, and least width of the others, mm: wider where their figures are.
DIRECTION, CELL = 20.0, 11.0


@dataclass(frozen=True)
class _Column:
    """One piece of the form at one glue line: its rows by direction."""

    first: Offset
    rows: dict[tuple[float, float], Offset] = field(default_factory=dict)


def _columns(rows: Iterable[Offset]) -> list[_Column]:
    found: dict[tuple[object, ...], _Column] = {}
    for row in rows:
        key = (row.height, row.below, row.above, row.piece)
        found.setdefault(key, _Column(row)).rows[row.at, row.direction] = row
    return list(found.values())


def _glue_line(row: Offset) -> str:
    if row.below is None:
        return say("foot")
    return say("top") if row.above is None else f"{row.below}/{row.above}"


def _direction(row: Offset, units: Units, along: float) -> str:
    if row.kind == "azimuth":
        return figure(f"{row.at:g}°")
    side = (row.direction - along) % 360.0
    return say(mark("{at} left") if side < 180.0 else mark("{at} right"), at=number(row.at, units))


def _stepped(row: Offset) -> bool:
    below, above = row.radius_below, row.radius_above
    return below is not None and above is not None and abs(below - above) > FORM_STEP


def _along(rows: Sequence[Offset]) -> float:
    """The direction, degrees, in which stations follow each other."""
    far = max(rows, key=lambda row: abs(row.at))
    if far.at == 0.0:
        return rows[0].direction - 90.0  # the ray to the left comes first
    return degrees(atan2(far.centre[1] * far.at, far.centre[0] * far.at))


def _radius(row: Offset, units: Units) -> str:
    if row.radius_below is not None and row.radius_above is not None and _stepped(row):
        return f"{number(row.radius_below, units)}/{number(row.radius_above, units)}"
    return number(row.radius, units)


def _inner(i: int, units: Units) -> Callable[[Offset], str]:
    return lambda row: number(row.inner[i], units) if i < len(row.inner) else ""


def _cut(units: Units) -> Callable[[Offset], str]:
    return lambda row: "*" if row.cut is None else number(row.cut, units)


def _matrix(
    title: str, columns: Sequence[_Column], units: Units, width: float, along: float, *, carved: bool = False
) -> list[Block]:
    """The table in parts that fit `width` mm. carved: what comes off, in place of the radii."""
    tell = _cut(units) if carved else lambda row: _radius(row, units)
    told = [tell(row) for c in columns for row in c.rows.values()]
    told += [number(c.first.height, units) for c in columns] + [_glue_line(c.first) for c in columns]
    told += [number(v, units) for c in columns for v in c.first.centre if c.first.about != "axis"]
    cell = max(CELL, *(text_width(text, PLAIN) + GAP for text in told))
    room = max(1, int((width - DIRECTION) // cell))
    own = any(c.first.about != "axis" for c in columns)
    # Columns of even number on every part, so that no part ends with one alone.
    parts = -(-len(columns) // room)
    each = -(-len(columns) // parts)
    blocks = []
    for start in range(0, len(columns), each):
        shown = columns[start : start + each]
        pad = ("",) * (room - len(shown))
        lines: list[tuple[str, ...]] = [(say("glue line"), *(_glue_line(c.first) for c in shown), *pad)]
        if own or any(c.first.piece > 1 for c in columns):
            lines.append((say("piece"), *(str(c.first.piece) for c in shown), *pad))
        if own:
            for i, name in enumerate((say("middle at x"), say("middle at y"))):
                lines.append((name, *(number(c.first.centre[i], units) for c in shown), *pad))
        # The directions of all columns, so that every part has the same rows.
        keys = sorted({key for c in columns for key in c.rows}, key=lambda k: (k[0], -((k[1] - along) % 360.0)))
        for key in keys:
            here = [c.rows.get(key) for c in shown]
            name = next(_direction(c.rows[key], units, along) for c in columns if key in c.rows)
            lines.append((name, *("–" if r is None else tell(r) for r in here), *pad))
            deep = 0 if carved else max((len(r.inner) for r in here if r is not None), default=0)
            lines += [
                (f"  {say('further in')}", *("" if r is None else _inner(i, units)(r) for r in here), *pad)
                for i in range(deep)
            ]
        more = (
            say("{title}, part {part} of {parts}", title=title, part=start // each + 1, parts=parts)
            if parts > 1
            else title
        )
        blocks.append(
            Block(
                more,
                (say("height"), *(number(c.first.height, units) for c in shown), *pad),
                (DIRECTION, *(cell,) * room),
                (True, *(False,) * room),
                tuple(lines),
            )
        )
    return blocks


def _notes(rows: Sequence[Offset], units: Units, width: float) -> Block:
    words = []
    kinds = {row.kind for row in rows}
    if "azimuth" in kinds:
        words.append(
            say(
                "Directions are degrees round from RIGHT to the left, seen from above: 90° is the back, 180° the "
                "left, 270° FRONT. A figure is the distance from the axis to the finished surface at that glue line, "
                "square to the axis; from a piece's own middle where the table says so."
            )
        )
    if "station" in kinds:
        words.append(
            say(
                "Stations lie along the centre line through the axis, half-breadths square to it, to its left and "
                "right."
            )
        )
    words.append(say("A dash: the ray meets nothing of the piece there."))
    if any(row.inner for row in rows):
        words.append(
            say(
                "“Further in”: the ray crosses the piece's surface again, from the outside in: the far side of a "
                "hole, a hollow side, another arm of the same piece."
            )
        )
    if any(_stepped(row) for row in rows):
        words.append(say("Two figures with a stroke: the form has a step on the glue line; lower face first."))
    words.append(
        say(
            "To carve off: from the edge of the blank that stands out further at that glue line to the finished "
            "surface, along the ray."
        )
    )
    if any(row.cut is None for row in rows):
        words.append(say("A star: the blank runs on into another piece there, and has no edge on this ray."))
    return notes(say("How to read the tables, {unit}", unit=unit_name(units)), words, width)


def offset_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """The tables of offsets of one stack. Not yet numbered.

    Pieces about the axis have one table, pieces about their own middle another, which says where that is.
    """
    rows = [row for row in carving.offsets if row.stack == stack.name]
    if not rows:
        return []
    units = book.units
    width = drawing_space(book.desk.portrait()).width - 4.0
    blocks = [_notes(rows, units, width - 6.0)]
    for kind, about, surface, off in (
        (
            "azimuth",
            "axis",
            mark("Finished surface, from the axis"),
            mark("To carve off, along the ray from the axis"),
        ),
        (
            "azimuth",
            "own centre",
            mark("Finished surface, from each piece's own middle"),
            mark("To carve off, along the ray from each piece's own middle"),
        ),
        (
            "station",
            "axis",
            mark("Finished surface, from the centre line"),
            mark("To carve off, along the ray from the centre line"),
        ),
    ):
        chosen = [row for row in rows if row.kind == kind and row.about == about]
        if not chosen:
            continue
        along = _along(chosen) if kind == "station" else 0.0
        columns = _columns(chosen)
        blocks += _matrix(say(surface), columns, units, width, along)
        blocks += _matrix(say(off), columns, units, width, along, carved=True)
    title = say("{stack}, table of offsets", stack=stack.name)
    block = block_of(
        book, say("Table of offsets"), say("{stack}-offsets", stack=stack.name), title, note=book.sizes_note
    )
    sheets: list[Sheet] = []
    for group in _whole(blocks, drawing_space(book.desk.portrait()).height - HEADING - 2.0):
        name = title if not sheets else next_page(title)
        sheets += table_pages("offsets", name, book.desk, block, group, width, stack.name)
    return sheets


def _whole(blocks: Sequence[Block], room: float) -> list[list[Block]]:
    """The blocks page by page, so that none is parted that a page of `room` mm can hold."""
    pages: list[list[Block]] = []
    left = 0.0
    for block in blocks:
        if not pages or block.height > left:
            pages.append([])
            left = room
        pages[-1].append(block)
        left -= block.height
    return pages
