# SPDX-License-Identifier: LGPL-2.1-or-later

"""A sheet as a picture, for previews."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtGui
from freecad_stacklam.sheetwriters.painter import SheetPainter


def sheet_image(sheet: Sheet, dpi: float = 100.0) -> Any:
    """The sheet as a QImage, black on white."""
    dots = dpi / INCH
    pen = SheetPainter(dots)
    width, height = (max(1, round(side * dots)) for side in sheet.paper)
    image = QtGui.QImage(width, height, QtGui.QImage.Format_RGB32)
    if image.isNull():
        raise Refusal(f"A picture of {width} × {height} dots is too large: choose fewer dots per inch.")
    image.fill(QtGui.QColor(255, 255, 255))
    painter = QtGui.QPainter(image)
    painter.setRenderHints(QtGui.QPainter.Antialiasing | QtGui.QPainter.TextAntialiasing)
    try:
        pen.draw(painter, sheet, sheet.paper[1] * dots)
    finally:
        painter.end()
    return image
