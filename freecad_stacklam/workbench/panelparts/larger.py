# SPDX-License-Identifier: LGPL-2.1-or-later

"""A table of many columns in a narrow panel: a button takes it into a window of its own, and back when that closes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()
translate = FreeCAD.Qt.translate
#: Size of the window, at most, and least height of the table in it, pixels.
WIDE, HIGH, LEAST = 1000, 420, 80
#: Qt's own word for no limit of a widget's height, pixels.
UNLIMITED = 16777215


class Larger(QtWidgets.QPushButton):  # type: ignore[name-defined]
    """The button; `column` is the layout that the table stands in, with a height of its own. `actions`: what the
    window has buttons for, besides Close."""

    def __init__(self, table: Any, column: Any, title: str, actions: Mapping[str, Callable[..., Any]]) -> None:
        super().__init__(translate("StackLam", "Larger…"))
        self._table, self._column, self._title, self._actions = table, column, title, dict(actions)
        self.setObjectName(f"{table.objectName()}Larger")
        self.setToolTip(translate("StackLam", "The whole table in a window of its own; close it to go on here"))
        self.clicked.connect(self._open)

    def _open(self, *_: Any) -> None:
        at, high = self._column.indexOf(self._table), self._table.height()
        window = QtWidgets.QDialog(FreeCADGui.getMainWindow())
        window.setObjectName(f"{self.objectName()}Window")
        window.setWindowTitle(self._title)
        window.setModal(True)
        window.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        inside = QtWidgets.QVBoxLayout(window)
        self._table.setMinimumHeight(LEAST)
        self._table.setMaximumHeight(UNLIMITED)
        inside.addWidget(self._table)
        foot = QtWidgets.QDialogButtonBox(QtWidgets.QDialogButtonBox.Close)
        foot.rejected.connect(window.reject)
        for words, action in self._actions.items():
            foot.addButton(words, QtWidgets.QDialogButtonBox.ActionRole).clicked.connect(action)
        for button in foot.buttons():
            button.setAutoDefault(False)  # Return is the table's
        inside.addWidget(foot)

        def back(*_: Any) -> None:
            self._column.insertWidget(at, self._table)
            self._table.setFixedHeight(high)
            self._table.show()

        window.finished.connect(back)
        room = QtWidgets.QApplication.primaryScreen().availableGeometry()
        window.resize(min(WIDE, room.width()), min(HIGH, room.height()))
        window.show()
        self._table.setFocus()
