# SPDX-License-Identifier: LGPL-2.1-or-later

"""Shows where a step is done: rings the button, the row of the tree, the fields of the panel that is open."""

from __future__ import annotations

from typing import Any

import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.learning.seen import Seen
from freecad_stacklam.workbench.learning.steps import Step

QtWidgets = widgets()
#: A ring's colour, how wide its line is and how far outside what it rings, pixels.
COLOUR, WIDE, OUT = QtGui.QColor(214, 84, 0), 4, 5
#: How often it is seen, and for how long each time and between, milliseconds.
TIMES, SEEN, BETWEEN = 4, 900, 250
#: The windows in which FreeCAD's versions keep the tree.
TREES = ("Combo View", "Model", "Tree view")
#: What every ring is called.
NAME = "StackLamRing"


class Ring(QtWidgets.QWidget):  # type: ignore[name-defined]
    """A ring over a part of a window, which blinks and goes; the mouse goes through it."""

    def __init__(self, window: Any, around: Any) -> None:
        super().__init__(window)
        self.setObjectName(NAME)
        self.setAttribute(QtCore.Qt.WA_TransparentForMouseEvents)
        self.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        self.setGeometry(around.adjusted(-OUT, -OUT, OUT, OUT))
        self.left = 2 * TIMES - 1
        self.clock = QtCore.QTimer(self)
        self.clock.timeout.connect(self.blink)
        self.clock.start(SEEN)
        self.show()
        self.raise_()

    def blink(self) -> None:
        """Show or hide; after the last time close."""
        self.left -= 1
        if self.left < 0:
            self.clock.stop()
            self.close()
        else:
            self.setVisible(not self.isVisible())
            self.clock.start(SEEN if self.isVisible() else BETWEEN)

    def paintEvent(self, event: Any) -> None:
        """Called by Qt."""
        painter = QtGui.QPainter(self)
        painter.setRenderHint(QtGui.QPainter.Antialiasing)
        painter.setPen(QtGui.QPen(COLOUR, WIDE))
        half = WIDE // 2
        painter.drawRoundedRect(self.rect().adjusted(half, half, -half, -half), 6, 6)
        painter.end()


def show_where(step: Step, seen: Seen, document: Document | None) -> int:
    """Ring where a step is done now; how many places were found."""
    window = FreeCADGui.getMainWindow()
    places = _places(step, seen, document)
    for place in places:
        Ring(window, place)
    return len(places)


def _in_window(widget: Any, part: Any = None) -> Any:
    """Where a widget, or a part of it, lies in the main window. Asked at once: what the binding hands out lives no
    longer than its holder's shell."""
    part = widget.rect() if part is None else part
    return QtCore.QRect(widget.mapTo(FreeCADGui.getMainWindow(), part.topLeft()), part.size())


def _places(step: Step, seen: Seen, document: Document | None) -> list[Any]:
    """The parts of the main window that are meant."""
    if seen.panel:
        fields = [found for name in step.fields for found in _named(name)] or _kinds(QtWidgets.QDialogButtonBox)
        return [_in_window(one) for one in fields]
    rows = _rows(step.row, seen, document) if step.row else []
    return rows + (_buttons(step.command) if step.command else [])


def _visible() -> list[Any]:
    """All that is seen in the main window. Not by findChildren, which ties what it finds to the window for good."""
    window, found = FreeCADGui.getMainWindow(), []
    for widget in QtWidgets.QApplication.allWidgets():
        try:
            if widget.isVisible() and window.isAncestorOf(widget):
                found.append(widget)
        except RuntimeError:  # the shell of one that is gone
            continue
    return found


def _named(name: str) -> list[Any]:
    return [w for w in _visible() if w.objectName() == name]


def _kinds(kind: Any) -> list[Any]:
    return [w for w in _visible() if isinstance(w, kind)]


def _buttons(command: str) -> list[Any]:
    """The button of a command; what its bar hides behind an arrow; where its workbench is chosen."""
    bars = _kinds(QtWidgets.QToolBar)
    for bar in bars if command != "workbenches" else ():
        for action in bar.actions():
            if action.objectName() == command:
                button = bar.widgetForAction(action)
                if button is not None and not button.isVisible():
                    button = next((w for w in _named("qt_toolbar_ext_button") if bar.isAncestorOf(w)), None)
                if button is not None:
                    return [_in_window(button)]
    return [_in_window(bar) for bar in bars if bar.objectName() == "Workbench"]


def _rows(row: str, seen: Seen, document: Document | None) -> list[Any]:
    """The row of the tree that a step is about; none where it is selected already."""
    thing = {"foot": seen.foot, "disc": seen.disc, "rim": seen.rim, "foot stack": seen.pile_of(seen.foot)}[row]
    if thing is None or document is None or (seen.selected == (thing.name,)):
        return []
    _open_tree()
    found = []
    whole = QtCore.Qt.MatchFlags(QtCore.Qt.MatchExactly | QtCore.Qt.MatchRecursive)
    for tree in _kinds(QtWidgets.QTreeWidget):
        # By the model: the binding lets go of items that it hands out.
        model = tree.model()
        for index in model.match(model.index(0, 0), QtCore.Qt.DisplayRole, thing.label, -1, whole):
            if _lies_in(index, document.Label):
                tree.scrollTo(index)
                rect = tree.visualRect(index).intersected(tree.viewport().rect())
                found.append(_in_window(tree.viewport(), rect))
    return found[:1]


def _lies_in(index: Any, label: str) -> bool:
    """Whether a row lies in the document with this label."""
    while index.isValid():
        if str(index.data()).startswith(label):
            return True
        index = index.parent()
    return False


def _open_tree() -> None:
    """Bring the tree into sight where it was closed or lies under another tab."""
    for tree in QtWidgets.QApplication.allWidgets():
        if not isinstance(tree, QtWidgets.QTreeWidget) or tree.metaObject().className() != "Gui::TreeWidget":
            continue
        holder = tree.parentWidget()
        while holder is not None:
            if isinstance(holder, QtWidgets.QTabWidget):
                page = next((n for n in range(holder.count()) if holder.widget(n).isAncestorOf(tree)), -1)
                holder.setCurrentIndex(page)
            if isinstance(holder, QtWidgets.QDockWidget) and holder.objectName() in TREES:
                holder.show()
                holder.raise_()
            holder = holder.parentWidget()
