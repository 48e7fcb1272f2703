# SPDX-License-Identifier: LGPL-2.1-or-later

"""One part of the panel: what is asked, in a box to tick, and its settings, which fold away under it."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.fields import figure
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()


class Section(QtWidgets.QWidget):  # type: ignore[name-defined]
    """Ticking it unfolds its settings. The box is called `nameWanted`, the arrow before it `foldName`, the sentence
    under them `nameSays`."""

    def __init__(self, asks: str, inside: str, name: str, content: Any, wanted: bool) -> None:
        super().__init__()
        self.content = content
        self.arrow = QtWidgets.QToolButton()
        self.arrow.setObjectName(f"fold{name.capitalize()}")
        self.arrow.setCheckable(True)
        self.arrow.setAutoRaise(True)
        self.arrow.setToolTip(translate("StackLam", "Show or hide: {}").format(inside))
        self.arrow.setAccessibleName(self.arrow.toolTip())
        self.box = QtWidgets.QCheckBox(asks)
        self.box.setObjectName(f"{name}Wanted")
        self.box.setChecked(wanted)
        self.box.setToolTip(translate("StackLam", "Settings: {}").format(inside))
        self.box.setSizePolicy(QtWidgets.QSizePolicy.Ignored, QtWidgets.QSizePolicy.Fixed)
        self.says = figure(f"{name}Says")
        self.say("")
        head = QtWidgets.QHBoxLayout()
        head.setContentsMargins(0, 0, 0, 0)
        head.setSpacing(2)
        head.addWidget(self.arrow)
        head.addWidget(self.box, 1)
        column = QtWidgets.QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(head)
        column.addWidget(content)
        column.addWidget(self.says)  # below: the tables stand last, and their cells are what is mistyped most
        self._fold(False)
        self.arrow.toggled.connect(self._fold)
        self.box.toggled.connect(self.arrow.setChecked)

    def unfold(self) -> None:
        """Show the settings."""
        self.arrow.setChecked(True)

    def say(self, sentence: str) -> None:
        """What is wrong with its settings, beside them; nothing where all is well."""
        self.says.setText(sentence)
        self.says.setVisible(bool(sentence))

    def _fold(self, shown: bool) -> None:
        self.arrow.setArrowType(QtCore.Qt.DownArrow if shown else QtCore.Qt.RightArrow)
        self.content.setVisible(shown)
