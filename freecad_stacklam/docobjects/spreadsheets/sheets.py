# SPDX-License-Identifier: LGPL-2.1-or-later

"""Spreadsheets of a document: making one, reading what was typed, and writing it anew so that undo can take it back."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any
from xml.etree import ElementTree

import FreeCAD

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.names import letters

_ADDRESS = re.compile(r"([A-Z]+)(\d+)")
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
