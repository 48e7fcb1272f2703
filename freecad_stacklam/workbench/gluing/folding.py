# SPDX-License-Identifier: LGPL-2.1-or-later

"""A part of a panel that folds away under its title, so that a narrow panel is not an endless one."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()


class Folding(QtWidgets.QWidget):  # type: ignore[name-defined]
    """The content under a title that shows and hides it when it is pressed; the title's objectName is `name`."""

    def __init__(self, title: str, name: str, content: Any, shown: bool) -> None:
        super().__init__()
        self.content = content
        self.head = QtWidgets.QToolButton()
        self.head.setObjectName(name)
        self.head.setText(title)
        self.head.setCheckable(True)
        self.head.setChecked(shown)
        self.head.setAutoRaise(True)
        self.head.setToolButtonStyle(QtCore.Qt.ToolButtonTextBesideIcon)
        self.head.setSizePolicy(QtWidgets.QSizePolicy.Ignored, QtWidgets.QSizePolicy.Fixed)
        column = QtWidgets.QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.head)
        column.addWidget(content)
        self.unfold(shown)
        self.head.toggled.connect(self.unfold)

    def tell(self, title: str) -> None:
        """Another title."""
        self.head.setText(title)

    def unfold(self, wanted: bool) -> None:
        """Show the content, or hide it."""
        self.head.setArrowType(QtCore.Qt.DownArrow if wanted else QtCore.Qt.RightArrow)
        self.content.setVisible(wanted)
