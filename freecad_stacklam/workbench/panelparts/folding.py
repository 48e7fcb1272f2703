# SPDX-License-Identifier: LGPL-2.1-or-later

"""A part of a panel that folds away under its title; which parts the maker opened or closed is kept."""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.panelparts.wrapping import wrap_button

QtWidgets = widgets()
#: Where it is kept which parts are open, by the objectNames of their titles.
OPEN = "User parameter:BaseApp/Preferences/Mod/StackLam/Open"


class Folding(QtWidgets.QWidget):  # type: ignore[name-defined]
    """The content under a title that shows and hides it when it is pressed; the title's objectName is `name`. `shown`
    holds until the maker has pressed the title once."""

    def __init__(self, title: str, name: str, content: Any, shown: bool) -> None:
        super().__init__()
        self.content = content
        self.head = QtWidgets.QToolButton()
        self.head.setObjectName(name)
        self.head.setText(title)
        self.head.setCheckable(True)
        self.head.setAutoRaise(True)
        self.head.setToolButtonStyle(QtCore.Qt.ToolButtonTextBesideIcon)
        self.head.setSizePolicy(QtWidgets.QSizePolicy.Ignored, QtWidgets.QSizePolicy.Fixed)
        self.head.setFocusPolicy(QtCore.Qt.StrongFocus)  # by Tab too
        column = QtWidgets.QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.head)
        column.addWidget(content)
        kept = FreeCAD.ParamGet(OPEN).GetBool(name, shown)
        self.head.setChecked(kept)
        self._show(kept)
        self.head.toggled.connect(self._show)
        self.head.clicked.connect(self._keep)

    def tell(self, title: str) -> None:
        """Another title."""
        self.head.setText(title)
        wrap_button(self.head, self.width())

    def unfold(self, wanted: bool = True) -> None:
        """Show the content, or hide it."""
        self.head.setChecked(wanted)

    def resizeEvent(self, event: Any) -> None:
        """Called by Qt."""
        super().resizeEvent(event)
        wrap_button(self.head, self.width())

    def _show(self, wanted: bool) -> None:
        self.head.setArrowType(QtCore.Qt.DownArrow if wanted else QtCore.Qt.RightArrow)
        self.content.setVisible(wanted)

    def _keep(self, wanted: bool) -> None:
        """The maker pressed the title."""
        FreeCAD.ParamGet(OPEN).SetBool(self.head.objectName(), wanted)


def unfold_around(widget: Any, form: Any) -> None:
    """Open every part of a panel's form that a widget is folded away in."""
    at = widget
    while at is not None and at is not form:
        if isinstance(at, Folding):
            at.unfold()
        at = at.parentWidget()
