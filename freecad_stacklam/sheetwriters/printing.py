# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sheets straight to a printer, true size: the page's own size is asked for and nothing is fitted or enlarged."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtGui
from freecad_stacklam.sheetwriters.painter import SheetPainter
from freecad_stacklam.sheetwriters.pdf import page_layout


def print_sheets(sheets: Sequence[Sheet], printer: Any) -> None:
    """Print all sheets on a QPrinter. Raises Refusal when there is nothing to print or the printer takes nothing."""
    if not sheets:
        raise Refusal("There is no sheet to print: plan a stack first.")
    printer.setFullPage(True)  # the drawing counts from the paper's edge, not from the printer's margins
    pen = SheetPainter(printer.resolution() / INCH)
    painter = QtGui.QPainter()
    try:
        for i, sheet in enumerate(sheets):
            printer.setPageLayout(page_layout(sheet))
            if i == 0:
                if not painter.begin(printer):
                    raise Refusal("The printer takes nothing: choose another, or write a PDF.")
            elif not printer.newPage():
                raise Refusal("The printer stopped: look at it, and print the rest again.")
            pen.draw(painter, sheet, sheet.paper[1] * pen.dots)
    finally:
        painter.end()
