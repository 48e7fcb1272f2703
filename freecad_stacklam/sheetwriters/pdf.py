# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sheets as one PDF: vector lines, text that can be searched, every page in its own size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.sheetwriters.painter import SheetPainter

#: Device units per inch: 100 per mm. Whole units keep the file small, and 0.01 mm is finer than any printer.
RESOLUTION = 2540


def page_layout(sheet: Sheet) -> Any:
    """A page of the sheet's size without margins."""
    size = QtGui.QPageSize(QtCore.QSizeF(*sheet.paper), QtGui.QPageSize.Millimeter, "", QtGui.QPageSize.ExactMatch)
    return QtGui.QPageLayout(
        size, QtGui.QPageLayout.Portrait, QtCore.QMarginsF(0, 0, 0, 0), QtGui.QPageLayout.Millimeter
    )


def write_pdf(
    sheets: Sequence[Sheet], path: str | Path, title: str = "", on: Callable[[], None] = lambda: None
) -> None:
    """All sheets in the order given. on: called after each; what it raises ends the writing, and nothing is written.
    Raises Refusal when there is nothing to write or the file cannot be written."""
    if not sheets:
        raise Refusal("There is no sheet to write: plan a stack first.")
    pen = SheetPainter(RESOLUTION / INCH)
    with aside(path) as temporary:
        writer = QtGui.QPdfWriter(str(temporary))
        writer.setResolution(RESOLUTION)
        writer.setTitle(title or sheets[0].title)
        writer.setCreator("StackLam")
        painter = QtGui.QPainter()
        try:
            for i, sheet in enumerate(sheets):
                layout = page_layout(sheet)
                writer.setPageLayout(layout)
                if i == 0:
                    if not painter.begin(writer):
                        raise Refusal(f"{path} could not be written: choose a folder that exists and has room.")
                elif not writer.newPage():
                    raise Refusal(f"{path} could not be written to the end: make room on the disk.")
                # Qt rounds a page to whole points and hangs the drawing from its upper edge; we stand on the lower one.
                height = float(round(layout.fullRectPoints().height() / 72.0 * RESOLUTION))
                pen.draw(painter, sheet, height)
                on()
        finally:
            done = painter.end()  # Qt ends the process when a page is given up while it is being painted
        if not done:
            raise Refusal(f"{path} could not be finished: make room on the disk.")
