# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables whose cells are typed into: keys that write stay theirs, and cells with a list to choose from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()


class CellTable(QtWidgets.QTableWidget):  # type: ignore[name-defined]
    """A table whose Return opens the cell for typing: in a task panel it would be OK, and close it."""

    def event(self, event: Any) -> bool:
        """Called by Qt: keys that write are the table's, and no shortcuts of the window (4 turns the view)."""
        if event.type() == QtCore.QEvent.ShortcutOverride and event.text().isprintable() and event.text():
            event.accept()
            return True
        return bool(super().event(event))

    def keyPressEvent(self, event: Any) -> None:
        """Called by Qt."""
        if event.key() in (QtCore.Qt.Key_Return, QtCore.Qt.Key_Enter):
            if self.currentIndex().isValid() and self.state() != QtWidgets.QAbstractItemView.EditingState:
                self.edit(self.currentIndex())
            event.accept()
        else:
            super().keyPressEvent(event)


class Choices(QtWidgets.QStyledItemDelegate):  # type: ignore[name-defined]
    """A drop-down list in the cells of a column; what is not in it may be typed where `free`."""

    def __init__(self, choices: Sequence[str], free: bool, parent: Any) -> None:
        super().__init__(parent)
        self.choices, self.free = tuple(choices), free

    def createEditor(self, parent: Any, option: Any, index: Any) -> Any:
        """Called by Qt when the maker begins to edit."""
        box = QtWidgets.QComboBox(parent)
        box.setEditable(self.free)
        box.addItems(list(self.choices))
        return box

    def setEditorData(self, editor: Any, index: Any) -> None:
        """Called by Qt to show the cell's text."""
        text = str(index.data() or "")
        at = editor.findText(text)
        if at >= 0:
            editor.setCurrentIndex(at)
        elif self.free:
            editor.setEditText(text)

    def setModelData(self, editor: Any, model: Any, index: Any) -> None:
        """Called by Qt to take what was chosen."""
        model.setData(index, editor.currentText())
