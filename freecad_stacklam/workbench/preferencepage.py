# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the pages in Edit ▸ Preferences share: the frame, and that only what was changed is set."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import group, let_go_of
from freecad_stacklam.workbench.fields.messages import sentence_of, tell
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()


class Page:
    """What FreeCAD asks of a page: `form`, and to load and to save what it holds."""

    def __init__(self, title: str, name: str) -> None:
        self.form = QtWidgets.QWidget()
        self.form.setObjectName(name)
        self.form.setWhatsThis(name)
        self.form.setWindowTitle(title)
        self.columns = QtWidgets.QGridLayout(self.form)
        self.fields: list[Any] = []

    def _place(self, row: int, column: int, title: str, lines: list[tuple[str, Any]], span: int = 1) -> None:
        """A titled box of lines in the page; what was typed there is forgotten when the page goes."""
        self.columns.addWidget(group(title, lines)[0], row, column, 1, span, QtCore.Qt.AlignTop)
        self.fields += [field for _, field in lines]

    def _finish(self) -> None:
        self.columns.setRowStretch(self.columns.rowCount(), 1)
        self._loaded = self.values()
        OPEN[id(self.form)] = self
        held, key = {id(field) for field in self.fields}, id(self.form)

        def gone(*_: Any) -> None:
            OPEN.pop(key, None)
            let_go_of(held)

        self.form.destroyed.connect(gone)

    def values(self) -> dict[str, float | str]:
        """What the page holds, by the names of preferences. Raises Refusal where a text is no such value."""
        raise NotImplementedError

    def _put_first(self) -> None:
        """Show first values."""
        raise NotImplementedError

    def show_first(self) -> None:
        """Show first values, which count as loaded: they are not set."""
        self._put_first()
        self._loaded = self.values()

    def loadSettings(self) -> None:
        """Called by FreeCAD; the fields were made with what is kept."""

    def saveSettings(self) -> None:
        """Called by FreeCAD for OK and Apply; only what was changed is set, so that the rest goes on following the
        units that FreeCAD shows. What cannot be is told, and what was kept before stays."""
        try:
            values = self.values()
        except Refusal as refusal:
            tell(
                translate("StackLam", "The page “{}” was not kept. {}").format(
                    self.form.windowTitle(), sentence_of(refusal)
                )
            )
            return
        preferences.set_on_page({name: held for name, held in values.items() if held != self._loaded[name]})
        self._loaded = values


#: The pages that are open, by their forms: held here because the one forgets for all.
OPEN: dict[int, Page] = {}
