# SPDX-License-Identifier: LGPL-2.1-or-later

"""A part of a panel that folds away under its title, so that a narrow panel is not an endless one."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()


def folding(title: str, name: str, content: Any, shown: bool) -> Any:
    """The content under a title that shows and hides it when it is pressed; the title's objectName is `name`."""
    holder = QtWidgets.QWidget()
    head = QtWidgets.QToolButton(holder)
    head.setObjectName(name)
    head.setText(title)
    head.setCheckable(True)
    head.setChecked(shown)
    head.setAutoRaise(True)
    head.setToolButtonStyle(QtCore.Qt.ToolButtonTextBesideIcon)
    head.setSizePolicy(QtWidgets.QSizePolicy.Ignored, QtWidgets.QSizePolicy.Fixed)
    column = QtWidgets.QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    column.addWidget(head)
    column.addWidget(content)

    def show(wanted: bool) -> None:
        head.setArrowType(QtCore.Qt.DownArrow if wanted else QtCore.Qt.RightArrow)
        content.setVisible(wanted)

    show(shown)
    head.toggled.connect(show)
    return holder
