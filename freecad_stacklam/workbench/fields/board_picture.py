# SPDX-License-Identifier: LGPL-2.1-or-later

"""The boards as they are cut, small in a panel and large in a window of their own."""

from __future__ import annotations

from typing import Any

import FreeCADGui

from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.sheetwriters.boardpicture import board_pages, boards_image
from freecad_stacklam.sheetwriters.png import sheet_image
from freecad_stacklam.workbench.fields.messages import busy
from freecad_stacklam.workbench.fields.page_picture import PagePicture
from freecad_stacklam.workbench.fields.panel import icon_path
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()
#: Dots per inch of the large picture and of the small one.
DPI, GLANCE = 120.0, 80.0


class BoardPicture(QtWidgets.QWidget):  # type: ignore[name-defined]
    """A picture that is enlarged at the press of a button."""

    def __init__(self) -> None:
        super().__init__()
        self.plan: Plan | None = None
        self.units = "mm"
        layout = QtWidgets.QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        self.small = PagePicture("boardPicture")
        self.more = QtWidgets.QPushButton(translate("StackLam", "Look closer"))
        self.more.setObjectName("lookCloser")
        self.more.setToolTip(
            translate("StackLam", "The boards in a window of their own, with pieces, knots, saw cuts and their order")
        )
        self.more.clicked.connect(self.look_closer)
        layout.addWidget(self.small)
        layout.addWidget(self.more)
        self.clear()

    def show_plan(self, plan: Plan, units: str) -> None:
        """Show the boards of a plan."""
        pages = board_pages(plan, units)
        if not pages:
            self.clear()
            return
        self.plan, self.units = plan, units
        self.small.show_page(sheet_image(pages[0], GLANCE))
        self.more.setText(
            translate("StackLam", "Look closer")
            if len(pages) == 1
            else translate("StackLam", "Look closer, at all {} pages").format(len(pages))
        )
        self.more.setEnabled(True)

    def clear(self) -> None:
        """Nothing to show."""
        self.plan = None
        self.small.clear()
        self.more.setEnabled(False)

    def look_closer(self, *_: Any) -> None:
        """Open the large picture."""
        if self.plan is not None:
            with busy():
                image = boards_image(self.plan, self.units, DPI)
            show_large(image)


def show_large(image: Any) -> Any:
    """A window with the whole picture, to be scrolled."""
    window = QtWidgets.QDialog(FreeCADGui.getMainWindow())
    window.setObjectName("StackLamBoardPicture")
    window.setAttribute(QtCore.Qt.WA_DeleteOnClose)
    window.setWindowTitle(translate("StackLam", "Boards as they are cut"))
    window.setWindowIcon(QtGui.QIcon(icon_path("StackLam_CutBoards")))
    label = QtWidgets.QLabel()
    label.setPixmap(QtGui.QPixmap.fromImage(image))
    area = QtWidgets.QScrollArea()
    area.setWidget(label)
    layout = QtWidgets.QVBoxLayout(window)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.addWidget(area)
    window.resize(min(1460, image.width() + 30), min(880, image.height() + 30))
    window.show()
    return window
