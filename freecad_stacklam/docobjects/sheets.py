"""New spreadsheets of a document."""

from __future__ import annotations

from typing import Any

import FreeCAD


def new_sheet(document: Any, name: str) -> Any:
    """An empty sheet with this name and label."""
    import Spreadsheet  # noqa: F401  # a plain Python does not know the type before

    if FreeCAD.GuiUp:
        import SpreadsheetGui  # noqa: F401  # nor does the window of 1.1 know how to show one
    sheet = document.addObject("Spreadsheet::Sheet", name)
    sheet.Label = name
    return sheet
