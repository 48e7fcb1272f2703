# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clamps that the shop owns: a spreadsheet of the document, one row a press, which the maker may type in as in any
other. What stands in a cell is read as it was typed ("600 mm", 4.67 kN, 24 in); a cell that cannot be is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.spreadsheets.sheets import figure_in, new_sheet, typed_cells, words_in, write_cells
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.options.rowtable import RowTable
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.words import say

#: The clamps as a table of texts, in files, sheets and panels alike.
CLAMPS = RowTable(PressSettings, "name")
#: Names the sheet as ours, so that a maker's own sheet is never taken for it.
MARK = "StackLamClamps"
#: Widths of the columns, pixels; the names are long.
_WIDE, _NARROW = 180, 90


def clamps_in(document: Document) -> Any:
    """The document's sheet of clamps, or None."""
    return next((o for o in document.Objects if MARK in o.PropertiesList), None)


def write_clamps(document: Document, presses: Sequence[PressSettings], units: str = "") -> Any:
    """Write the clamps into the document's sheet and return it; made if there is none. Part of the caller's undo step
    if one is open. units: "mm" or "in", those of the document's job if not given; the heads tell."""
    units = units or units_in(document)
    sheet = clamps_in(document)
    if sheet is None:
        sheet = new_sheet(document, "Clamps")
        sheet.addProperty(
            "App::PropertyBool", MARK, "StackLam", say("The clamps of this shop stand here"), 4, True, True
        )
    cells = {}
    for number, row in enumerate([CLAMPS.heads(units), *(CLAMPS.write_row(p, units) for p in presses)], 1):
        for i, text in enumerate(row):
            if text:
                plain = number > 1 and CLAMPS.columns[i] in CLAMPS.figures
                # A leading apostrophe makes text of whatever follows; line breaks would end the cell.
                cells[number, i] = text if plain else "'" + " ".join(text.split())
    write_cells(sheet, cells)
    for i in range(len(CLAMPS.columns)):
        sheet.setColumnWidth(letters(i), _NARROW if i else _WIDE)
    sheet.setStyle(f"A1:{letters(len(CLAMPS.columns) - 1)}1", "bold")
    sheet.recompute()
    return sheet


def presses_in(document: Document) -> tuple[PressSettings, ...]:
    """The clamps of the document's sheet; none without one. Raises Refusal with the cell."""
    sheet = clamps_in(document)
    return () if sheet is None else presses_of(sheet)


def presses_of(sheet: Any) -> tuple[PressSettings, ...]:
    """The clamps that stand in a sheet. Raises Refusal with the cell."""
    cells = typed_cells(sheet)
    numbers = sorted({row for row, _ in cells})
    if not numbers:
        return ()
    if numbers[0] != 1:
        raise Refusal(
            say(
                "{label}, cell A1: the names of the columns are gone; write {list} there.",
                label=sheet.Label,
                list=", ".join(CLAMPS.heads()),
            )
        )
    width = max(column for row, column in cells if row == 1) + 1
    named = [words_in(sheet, cells, 1, i) for i in range(width)]
    columns, units = CLAMPS.read_heads(
        named, lambda i: say("{label}, cell {column}1", label=sheet.Label, column=letters(i))
    )
    found: list[tuple[int, dict[str, str]]] = []
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
            name: (figure_in if name in CLAMPS.figures else words_in)(sheet, cells, row, i)
            for i, name in enumerate(columns)
        }
        found.append((row, texts))

    def where(number: int, column: str) -> str:
        index = columns.index(column) if column in columns else 0
        return say("{label}, cell {column}{row}", label=sheet.Label, column=letters(index), row=found[number][0])

    return CLAMPS.read_rows([texts for _, texts in found], units, where)
