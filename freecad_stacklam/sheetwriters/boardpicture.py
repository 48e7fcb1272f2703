# SPDX-License-Identifier: LGPL-2.1-or-later

"""The boards of a plan as they are cut, as one picture: for the document and for a look before cutting."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from freecad_stacklam.benchsheets.boards.boardsheets import board_sheets
from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, number_sheets
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtGui
from freecad_stacklam.sheetwriters.png import sheet_image

#: Dots per inch of the picture that a document keeps, and the most pages in it.
DPI, MOST_PAGES = 110.0, 12


def board_pages(plan: Plan, units: str = "mm") -> list[Sheet]:
    """The pages that show boards to scale; none where nothing is cut."""
    book = book_of(plan, paper_named("Letter" if units == "in" else "A4"), units)
    pages = [s for s in board_sheets(book) if s.scale is not None]
    return list(number_sheets(pages))


def boards_image(plan: Plan, units: str = "mm", dpi: float = DPI) -> Any:
    """All boards, page below page, as a QImage; None where nothing is cut."""
    images = [sheet_image(page, dpi) for page in board_pages(plan, units)[:MOST_PAGES]]
    if not images:
        return None
    width, height = max(i.width() for i in images), sum(i.height() for i in images)
    whole = QtGui.QImage(width, height, QtGui.QImage.Format_RGB32)
    if whole.isNull():
        raise Refusal(f"A picture of {width} × {height} dots is too large: choose fewer dots per inch.")
    whole.fill(QtGui.QColor(255, 255, 255))
    painter = QtGui.QPainter(whole)
    try:
        level = 0
        for image in images:
            painter.drawImage(0, level, image)
            level += image.height()
    finally:
        painter.end()
    return whole


@contextmanager
def drawn(plan: Plan, units: str = "mm", dpi: float = DPI) -> Iterator[str]:
    """The path of a PNG file of all boards, for as long as it is needed; empty where nothing is cut. Raises Refusal."""
    image = boards_image(plan, units, dpi)
    with tempfile.TemporaryDirectory(prefix="stacklam-") as folder:
        path = Path(folder) / "boards.png"
        if image is not None and not image.save(str(path), "PNG"):
            raise Refusal(f"The picture of the boards could not be written in {folder}: make room there.")
        yield str(path) if image is not None else ""
