# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack as rows of text: the cells of a CSV file, of a document's sheet, of the editor's table.

One row is one board. The heads name the columns, and those of sizes may name their unit, as in "thickness mm". Knots
are "x y dx dy" groups parted by semicolons, in the unit of the length. A cell that is left empty says nothing.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from freecad_stacklam.lamination import lengths
from freecad_stacklam.lamination.cells import figure_cell, read_table, safe_cell
from freecad_stacklam.lamination.lengths import INCH, LENGTHS, parse_length, parse_number
from freecad_stacklam.lamination.quantities import parse_percent
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import CUTS, DRYINGS, GRADES, PER, SURFACES, Board, Knot, Rack
from freecad_stacklam.lamination.words import mark, say

COLUMNS = (
    "name", "species", "thickness", "width", "length", "count", "cost", "per", "for sale", "grade", "knots",
    "surface", "dried", "cut", "moisture",
)  # fmt: skip
SIZES = ("thickness", "width", "length")
#: Columns of figures, in which a point may be doubtful.
FIGURES = (*SIZES, "count", "cost", "knots", "moisture")
#: Says where a cell is, from the number of its row (from 0) and its column: "Rack, cell C3".
Where = Callable[[int, str], str]


def heads(units: str = "mm") -> list[str]:
    """The heads of the columns; sizes name their unit."""
    return [f"{c} {'in' if units == 'in' else 'mm'}" if c in SIZES else c for c in COLUMNS]


def read_heads(
    texts: Sequence[str], where: Callable[[int], str], needed: Sequence[str] = SIZES
) -> tuple[list[str], dict[str, str]]:
    """Columns, and the units that the heads of sizes name. `where` says where a head is. Raises Refusal."""
    columns: list[str] = []
    units: dict[str, str] = {}
    for i, text in enumerate(texts):
        words = text.strip().lower().split()
        if len(words) == 2 and words[0] in SIZES and words[1] in LENGTHS:
            units[words[0]] = words[1]
            words = words[:1]
        column = " ".join(words)
        if column not in COLUMNS:
            raise Refusal(
                say(
                    "{cell}: there is no column “{column}”; they are {columns}.",
                    cell=where(i),
                    column=text.strip(),
                    columns=", ".join(heads()),
                )
            )
        if column in columns:
            raise Refusal(
                say("{cell}: the column “{column}” stands twice: delete one of the two.", cell=where(i), column=column)
            )
        columns.append(column)
    missing = [c for c in needed if c not in columns]
    if missing:
        raise Refusal(
            say(
                "{cell}: the column “{column}” is missing in this row: {columns} are needed.",
                cell=where(0),
                column=missing[0],
                columns=", ".join(needed),
            )
        )
    return columns, units


def read_row(cells: Mapping[str, str], units: Mapping[str, str], row: int, where: Where, bare: str = "mm") -> Board:
    """The board that a row of texts stands for. bare: unit of a size that names none ("" : one must be named). Raises
    Refusal that begins with the cell."""
    facts: dict[str, Any] = {"name": f"Board {row + 1}"}
    for column in COLUMNS:
        text = cells.get(column, "").strip()
        if not text and column not in SIZES:
            continue
        unit = units.get(column, bare) if column in SIZES else units.get("length", "mm")
        try:
            facts[column.replace(" ", "_")] = _READ[column](text, unit)
        except Refusal as refusal:
            raise Refusal(f"{where(row, column)}: {refusal.sentence}") from None
    # Of boards that can be bought there are as many as wanted.
    facts.setdefault("count", 0 if facts.get("for_sale") else 1)
    try:
        return Board(**facts)
    except Refusal as refusal:
        raise Refusal(f"{where(row, 'name')}: {refusal.sentence}") from None


def write_row(board: Board, units: str = "mm") -> list[str]:
    """The texts of one board's cells, in the order of the columns; sizes in mm or inches."""
    one = INCH if units == "in" else 1.0
    knots = "; ".join(" ".join(number_text(v, one) for v in knot.box) for knot in board.knots)
    return [
        board.name, board.species, *(number_text(getattr(board, size), one) for size in SIZES),
        str(board.count) if board.count else "", "" if board.cost is None else number_text(board.cost),
        "" if board.cost is None and board.per == "board" else board.per, "yes" if board.for_sale else "no",
        board.grade, knots, board.surface, board.dried, board.cut,
        "" if board.moisture is None else number_text(board.moisture),
    ]  # fmt: skip


# --- CSV files ------------------------------------------------------------------------------------------------------


def read_rack(text: str, name: str = "rack.csv") -> Rack:
    """A rack from CSV text called `name`, its cells parted by commas, or by semicolons where the comma is the decimal
    sign. Sizes carry a unit, in the cell or in the column's head ("width mm"). Raises Refusal with the line:
    "rack.csv, line 3: …"."""
    table = read_table(text, name, COLUMNS)
    at = table.lines[0]
    head = say("{file}, line {line}", file=name, line=at)
    columns, units = read_heads(table.rows[0], lambda _: head, ("name", *SIZES))

    def where(row: int, column: str) -> str:
        line = say("{file}, line {line}", file=name, line=table.lines[row + 1])
        return line if column == "name" else f"{line}, {column}"

    boards = []
    for i, row in enumerate(table.rows[1:]):
        cells = dict(zip(columns, row))
        for column in (c for c in FIGURES if c in cells):
            try:
                figure_cell(cells[column], table.semicolons)
            except Refusal as refusal:
                raise Refusal(f"{where(i, column)}: {refusal.sentence}") from None
        boards.append(read_row(cells, units, i, where, bare=""))
    return Rack(tuple(boards))


def write_rack(rack: Rack, units: str = "mm") -> str:
    """The rack as CSV text (RFC 4180) that reads back the same; sizes in mm or inches, as the heads say."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(heads(units))
    for board in rack.boards:
        name, species, *rest = write_row(board, units)
        writer.writerow([safe_cell(name), safe_cell(species), *rest])
    return text.getvalue()


# --- reading one cell -----------------------------------------------------------------------------------------------


def _text(text: str, unit: str) -> str:
    return text


def _size(text: str, unit: str) -> float:
    if not text:
        raise Refusal(say("this size is missing: give it as measured, such as {size}.", size=lengths.size(190.0)))
    size = parse_length(text, unit)
    if size <= 0:
        raise Refusal(say("“{text}” is no size of a board: give more than 0.", text=text))
    return size


def _number(text: str, no_number: str, negative: str) -> float:
    try:
        value = parse_number(text)
    except Refusal as refusal:
        plain = Refusal(say("“{text}” is no number: write it with digits, without a unit.", text=text))
        raise (Refusal(say(no_number, text=text)) if refusal.sentence == plain.sentence else refusal) from None
    if value < 0:
        raise Refusal(say(negative, text=text))
    return value


def _cost(text: str, unit: str) -> float:
    return _number(
        text,
        mark("“{text}” is no cost: write it with digits, without a unit."),
        mark("“{text}” is impossible for a cost: give 0 or more."),
    )


def _percent(text: str, unit: str) -> float:
    return parse_percent(text)


def _count(text: str, unit: str) -> int:
    value = _number(
        text,
        mark("“{text}” is no count: write it with digits, without a unit."),
        mark("“{text}” is impossible for a count: give 0 or more."),
    )
    if value != int(value):
        raise Refusal(say("“{text}” is no count: give a whole number of boards.", text=text))
    return int(value)


def _yes(text: str, unit: str) -> bool:
    if text.lower() not in ("yes", "no"):
        raise Refusal(
            say("“{text}” says neither yes nor no: write yes for boards that you can buy, no for your own.", text=text)
        )
    return text.lower() == "yes"


def _one_of(choices: Sequence[str]) -> Callable[[str, str], str]:
    def read(text: str, unit: str) -> str:
        found = next((c for c in choices if c.lower() == text.lower()), None)
        if found is None:
            raise Refusal(
                say(
                    "“{text}” is not known here: write {choices} or {last}.",
                    text=text,
                    choices=", ".join(choices[:-1]),
                    last=choices[-1],
                )
            )
        return found

    return read


def _knots(text: str, unit: str) -> tuple[Knot, ...]:
    knots = []
    for group in filter(None, (g.strip() for g in text.split(";"))):
        parts = group.split()
        if len(parts) != 4:
            raise Refusal(
                say("the knot “{knot}” needs four sizes, x y dx dy, parted by spaces, as in 600 40 80 35.", knot=group)
            )
        knots.append(Knot(*(parse_length(p, unit) for p in parts)))
    return tuple(knots)


_READ: dict[str, Callable[[str, str], Any]] = {
    "name": _text, "species": _text, "thickness": _size, "width": _size, "length": _size, "count": _count,
    "cost": _cost, "per": _one_of(PER), "for sale": _yes, "grade": _one_of(tuple(GRADES)), "surface": _one_of(SURFACES),
    "dried": _one_of(DRYINGS), "cut": _one_of(CUTS), "knots": _knots, "moisture": _percent,
}  # fmt: skip


def number_text(value: float, one: float = 1.0) -> str:
    """A number of units of size `one`, to 1e-6, without exponent."""
    return f"{value / one:.6f}".rstrip("0").rstrip(".")
