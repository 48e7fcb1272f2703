# SPDX-License-Identifier: LGPL-2.1-or-later

"""Spreadsheets of a document: making one, reading what was typed, and writing it anew so that undo can take it back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any
from xml.etree import ElementTree

import FreeCAD

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.refusal import Refusal

_ADDRESS = re.compile(r"([A-Z]+)(\d+)")
#: Units that quantities are read in.
_UNITS = ("mm", "N", "MPa")
Place = tuple[int, int]  # row from 1, column from 0


def new_sheet(document: Document, name: str) -> Any:
    """An empty sheet with this name and label."""
    import Spreadsheet  # noqa: F401  # a plain Python does not know the type before

    if FreeCAD.GuiUp:
        import SpreadsheetGui  # noqa: F401  # nor does the window of 1.1 know how to show one
    sheet = document.addObject("Spreadsheet::Sheet", name)
    sheet.Label = name
    return sheet


def typed_cells(sheet: Any) -> dict[Place, str]:
    """What was typed into the cells that are not empty: numbers, formulas with =, words (in 1.0 and later with ')."""
    found: dict[Place, str] = {}
    for cell in ElementTree.fromstring(sheet.cells.Content).iter("Cell"):
        address = _ADDRESS.fullmatch(cell.get("address", ""))
        content = cell.get("content", "")
        if address and content.strip():
            found[int(address[2]), column_number(address[1])] = content
    return found


def write_cells(sheet: Any, wanted: Mapping[Place, str]) -> None:
    """Let the sheet hold these cells and no others. Not by clearAll, which undo cannot take back and which takes the
    sheet's own properties with it."""
    for place in typed_cells(sheet):
        if place not in wanted:
            sheet.clear(address(*place))
    for place, text in wanted.items():
        sheet.set(address(*place), text)


def address(row: int, column: int) -> str:
    """The name of a cell: row 2, column 2 is C2."""
    return f"{letters(column)}{row}"


def column_number(name: str) -> int:
    """The number of a column, from 0."""
    number = 0
    for letter in name:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number - 1


def words_in(sheet: Any, cells: Mapping[Place, str], row: int, column: int) -> str:
    """A cell of words, as it shows."""
    content = cells.get((row, column), "")
    if not content.startswith("="):
        return content.removeprefix("'").strip()
    shown = _value(sheet, row, column)
    return content if shown is None else str(shown).strip()


def figure_in(sheet: Any, cells: Mapping[Place, str], row: int, column: int) -> str:
    """A cell with a size or number, as text with its unit where it has one."""
    content = cells.get((row, column), "").strip()
    if not content.startswith("="):
        return content.removeprefix("'").strip()
    typed = content[1:].replace(" ", "")
    try:
        # A fraction of an inch, which the sheet itself would take for a division by inches.
        parse_length(typed, "mm")
        return typed
    except Refusal:
        value = _value(sheet, row, column)
    if isinstance(value, FreeCAD.Units.Quantity):
        for unit in _UNITS:
            if value.Unit == FreeCAD.Units.Quantity(f"1 {unit}").Unit:
                return f"{value.getValueAs(unit).Value:.12g} {unit}"
    return f"{value:.12g}" if isinstance(value, (int, float)) else content


def _value(sheet: Any, row: int, column: int) -> Any:
    """What a formula comes to; None where it comes to nothing."""
    try:
        return sheet.get(address(row, column))
    except (ValueError, RuntimeError, TypeError):
        return None
