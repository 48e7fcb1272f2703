# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack: a spreadsheet of the document, one row per board, which the maker may type in as in any other.

What stands in a cell is read as it was typed ("45 mm", 1-3/4in, =2 * 90 mm); a cell that cannot be is named.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.spreadsheets.sheets import figure_in, new_sheet, typed_cells, words_in, write_cells
from freecad_stacklam.lamination.boards.rack import COLUMNS, SIZES, heads, read_heads, read_row, write_row
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.words import say

#: Names the sheet as ours, so that a maker's own sheet is never taken for it.
MARK = "StackLamRack"
#: Widths of the columns, pixels; those of words are wide.
_WIDTHS = (140, 110, 105, 90, 95, 60, 70, 95, 70, 110, 240, 85, 70, 80, 80)
_NUMBERS = (*SIZES, "count", "cost", "moisture")


def rack_in(document: Document) -> Any:
    """The document's rack sheet, or None."""
    return next((o for o in document.Objects if MARK in o.PropertiesList), None)


def write_rack(document: Document, boards: Sequence[Board], units: str = "") -> Any:
    """Write the boards into the document's rack sheet and return it. Part of the caller's undo
    step if one is open. units: "mm" or "in", those of the document's job if not given; the heads tell."""
    job = job_in(document)
    units = units or (job.Units if job is not None else "mm")
    sheet = rack_in(document)
    if sheet is None:
        sheet = new_sheet(document, "Rack")
        sheet.addProperty(
            "App::PropertyBool", MARK, "StackLam", say("The boards of this job stand here"), 4, True, True
        )
    cells = {}
    for number, row in enumerate([heads(units), *(write_row(b, units) for b in boards)], 1):
        for i, text in enumerate(row):
            if text:
                plain = number > 1 and COLUMNS[i] in _NUMBERS
                # A leading apostrophe makes text of whatever follows; line breaks would end the cell.
                cells[number, i] = text if plain else "'" + " ".join(text.split())
    write_cells(sheet, cells)
    for i, width in enumerate(_WIDTHS):
        sheet.setColumnWidth(letters(i), width)
    sheet.setStyle(f"A1:{letters(len(_WIDTHS) - 1)}1", "bold")
    sheet.recompute()
    return sheet


@dataclass(frozen=True)
class RackRows:
    """What stands in a rack's sheet: the texts of every board's cells by column, the units that the heads of sizes
    name, and where each row is."""

    label: str
    columns: tuple[str, ...]
    units: Mapping[str, str]
    rows: tuple[tuple[int, Mapping[str, str]], ...]

    def where(self, row: int, column: str) -> str:
        """The cell of a column in the board with this number, from 0."""
        index = self.columns.index(column) if column in self.columns else 0
        return say("{label}, cell {column}{row}", label=self.label, column=letters(index), row=self.rows[row][0])


def boards_in(document: Document) -> tuple[Board, ...]:
    """The boards of the document's rack; none without one. Raises Refusal with the cell."""
    sheet = rack_in(document)
    if sheet is None:
        return ()
    found = rows_of(sheet)
    return tuple(read_row(texts, found.units, i, found.where) for i, (_, texts) in enumerate(found.rows))


def rows_of(sheet: Any) -> RackRows:
    """The rows of a rack's sheet as they were typed. Raises Refusal when the columns cannot be told."""
    cells = typed_cells(sheet)
    numbers = sorted({row for row, _ in cells})
    if not numbers:
        return RackRows(sheet.Label, COLUMNS, {}, ())
    if numbers[0] != 1:
        raise Refusal(
            say(
                "{label}, cell A1: the names of the columns are gone; write {list} there.",
                label=sheet.Label,
                list=", ".join(heads()),
            )
        )
    width = max(column for row, column in cells if row == 1) + 1
    named = [words_in(sheet, cells, 1, i) for i in range(width)]
    columns, units = read_heads(named, lambda i: say("{label}, cell {column}1", label=sheet.Label, column=letters(i)))
    rows = []
    for row in numbers[1:]:
        stray = next((c for r, c in cells if r == row and c >= width), None)
        if stray is not None:
            raise Refusal(
                say(
                    "{label}, cell {column}{row}: this column has no name in row 1: empty the cell, or "
                    "name the column.",
                    label=sheet.Label,
                    column=letters(stray),
                    row=row,
                )
            )
        texts = {
            name: (figure_in if name in _NUMBERS else words_in)(sheet, cells, row, i) for i, name in enumerate(columns)
        }
        if any(texts.values()):
            rows.append((row, texts))
    return RackRows(sheet.Label, tuple(columns), units, tuple(rows))
