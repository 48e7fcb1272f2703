# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the checks of a plan say, in a table beside the model."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from math import isnan
from typing import Any

import FreeCADGui
import numpy as np

from freecad_stacklam.docobjects.base.family import joints_in, name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.stacks import planned_stack
from freecad_stacklam.docobjects.reading.whole import plan_of
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.lengths import format_figure
from freecad_stacklam.lamination.plan.checks import Check, Place, about
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.panel import open_panel
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.piece.deep_picture import DeepPicture
from freecad_stacklam.workbench.scene import overlay
from freecad_stacklam.workbench.scene.deepnodes import RING, size_of
from freecad_stacklam.workbench.working.beside import waited

QtWidgets = widgets()
COLUMNS = (
    QT_TRANSLATE_NOOP("StackLam", "Verdict"),
    QT_TRANSLATE_NOOP("StackLam", "Check"),
    QT_TRANSLATE_NOOP("StackLam", "Figure"),
    QT_TRANSLATE_NOOP("StackLam", "Limit"),
    QT_TRANSLATE_NOOP("StackLam", "What it says"),
    QT_TRANSLATE_NOOP("StackLam", "By which rule"),
    QT_TRANSLATE_NOOP("StackLam", "Place"),
)
WIDTHS = (80, 190, 80, 80, 400, 170, 60)
#: The column that takes what room is left; the most of the main window's height that the table opens with.
WIDE, LOW = 4, 0.4
#: What a row can show in the 3D view, and how it is said: a place, or only the stack or joint that it names.
SHOWS = {
    "place": (
        QT_TRANSLATE_NOOP("StackLam", "⊕ show"),
        QT_TRANSLATE_NOOP("StackLam", "Double click or press Enter: the 3D view goes to the place and marks it"),
    ),
    "object": (
        QT_TRANSLATE_NOOP("StackLam", "select"),
        QT_TRANSLATE_NOOP("StackLam", "Double click or press Enter: what it names is selected and seen in the 3D view"),
    ),
}
#: Whose mark in the 3D view it is, and how much of the model is seen round it.
OWNER, AROUND = "checks", 1 / 3
#: The verdict is read as a word with a mark before it; no colour is needed.
WORDS = {
    "ok": QT_TRANSLATE_NOOP("StackLam", "✓ ok"),
    "caution": QT_TRANSLATE_NOOP("StackLam", "! caution"),
    "stop": QT_TRANSLATE_NOOP("StackLam", "✕ stop"),
}
ORDER = {"stop": 0, "caution": 1, "ok": 2}


def figures_of(check: Check, units: str) -> tuple[str, str]:
    """A check's figure and its limit, in these units; a stop that measures nothing has none."""
    if check.verdict == "stop" and check.figure == check.limit:
        return "–", "–"
    return _number(check.figure, check.unit, units), _number(check.limit, check.unit, units)


def _number(value: float, unit: str, units: str) -> str:
    return "–" if isnan(value) else format_figure(value, unit, units)


def headline(checks: Sequence[Check], proven: bool) -> str:
    """The whole table in one sentence."""
    stops = sum(c.verdict == "stop" for c in checks)
    cautions = sum(c.verdict == "caution" for c in checks)
    if stops or not proven:
        return translate("StackLam", "Do not cut yet: {} of {} checks say stop.").format(stops, len(checks))
    if cautions:
        text = translate("StackLam", "Nothing says stop; {} of {} checks ask for care.")
        return text.format(cautions, len(checks))
    return translate("StackLam", "All {} checks are well.").format(len(checks))


class Rows(QtWidgets.QTableWidget):  # type: ignore[name-defined]
    """A table whose rows are opened by a double click or by Enter, which would press a button of the dialog."""

    opened = QtCore.Signal(int)

    def keyPressEvent(self, event: Any) -> None:
        """Enter opens the row."""
        if event.key() in (QtCore.Qt.Key_Return, QtCore.Qt.Key_Enter) and self.currentRow() >= 0:
            event.accept()
            self.opened.emit(self.currentRow())
        else:
            super().keyPressEvent(event)

    def mouseDoubleClickEvent(self, event: Any) -> None:
        """A double click opens the row."""
        super().mouseDoubleClickEvent(event)
        item = self.itemAt(event.pos())
        if item is not None:
            self.opened.emit(item.row())


class CheckTable(QtWidgets.QDialog):  # type: ignore[name-defined]
    """Stays open beside the model; stops come first, then cautions."""

    def __init__(self, document: Document) -> None:
        super().__init__(FreeCADGui.getMainWindow())
        self.document = document
        self.setObjectName("StackLamChecks")
        self.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        self.resize(1080, 480)
        layout = QtWidgets.QVBoxLayout(self)
        self.head = QtWidgets.QLabel()
        self.head.setObjectName("headline")
        self.head.setWordWrap(True)
        self.checks: list[Check] = []
        self.meshes: dict[str, Mesh] = {}
        self.table = Rows(0, len(COLUMNS))
        self.table.setObjectName("checks")
        self.table.setHorizontalHeaderLabels([translate("StackLam", c) for c in COLUMNS])
        self.table.verticalHeader().hide()
        self.table.setWordWrap(True)
        self.table.setEditTriggers(QtWidgets.QAbstractItemView.NoEditTriggers)
        for column, width in enumerate(WIDTHS):
            self.table.setColumnWidth(column, width)
        self.table.horizontalHeader().setSectionResizeMode(WIDE, QtWidgets.QHeaderView.Stretch)
        self.table.opened.connect(self._opened)
        self.picture = DeepPicture(self)
        buttons = QtWidgets.QDialogButtonBox(QtWidgets.QDialogButtonBox.Close)
        again = buttons.addButton(translate("StackLam", "Check again"), QtWidgets.QDialogButtonBox.ActionRole)
        again.setObjectName("checkAgain")
        again.clicked.connect(self._again)
        self.deeper = buttons.addButton(translate("StackLam", "Look deeper"), QtWidgets.QDialogButtonBox.ActionRole)
        self.deeper.setObjectName("lookDeeper")
        self.deeper.setToolTip(
            translate("StackLam", "Make what takes longer: the deep check of strength, a year in the room")
        )
        self.deeper.clicked.connect(self._deeper)
        ask = buttons.addButton(translate("StackLam", "Finished piece…"), QtWidgets.QDialogButtonBox.ActionRole)
        ask.setObjectName("finishedPiece")
        ask.setToolTip(translate("StackLam", "Say how the piece is used, and what else is asked of it"))
        ask.clicked.connect(self._ask)
        buttons.rejected.connect(self.close)
        self.finished.connect(self._unmark)
        for part in (self.head, self.table, self.picture, buttons):
            layout.addWidget(part)
        self.fill()

    @says_no_plainly
    def _again(self, *_: Any) -> None:
        self.fill()

    @says_no_plainly
    def _deeper(self, *_: Any) -> None:
        from freecad_stacklam.workbench.piece.slow_look import look_with_progress

        look_with_progress(self.document)
        self.fill()

    @says_no_plainly
    def _ask(self, *_: Any) -> None:
        from freecad_stacklam.workbench.piece.piece_panel import PiecePanel

        document = self.document
        open_panel(lambda: PiecePanel(document))
        self.close()

    def fill(self) -> None:
        """Check the document as it is now. Raises Refusal when it cannot be planned."""
        document = self.document
        plan = waited(lambda: plan_of(document), translate("StackLam", "Checking"))
        units = units_in(self.document)
        self.deeper.setVisible(plan.piece is not None and bool(plan.piece.pending))
        self._unmark()
        self.meshes = _meshes_in(self.document)
        self.picture.follow(self.document, None if plan.piece is None else plan.piece.deep, self.meshes, units)
        self.checks = checks = sorted(plan.checks, key=lambda c: ORDER.get(c.verdict, 0))
        self.setWindowTitle(translate("StackLam", "Checks of {}").format(plan.title))
        self.head.setText(headline(checks, plan.proven))
        self.table.setRowCount(len(checks))
        for row, check in enumerate(checks):
            verdict = WORDS[check.verdict]
            cells = (
                translate("StackLam", verdict),
                check.name,
                *figures_of(check, units),
                check.says,
                check.source,
                "",
            )
            for column, text in enumerate(cells):
                item = QtWidgets.QTableWidgetItem(text)
                item.setTextAlignment(QtCore.Qt.AlignLeft | QtCore.Qt.AlignTop)
                if column == 0 and check.verdict != "ok":
                    font = QtGui.QFont(item.font())
                    font.setBold(True)
                    item.setFont(font)
                self.table.setItem(row, column, item)
            self._sign(row, check)
        self.table.resizeRowsToContents()

    def _sign(self, row: int, check: Check) -> None:
        """Say in words what the row can show."""
        kind = "place" if check.place is not None else "object" if self._named(check) else ""
        if not kind:
            return
        sign, tip = (translate("StackLam", words) for words in SHOWS[kind])
        self.table.item(row, len(COLUMNS) - 1).setText(sign)
        self.table.item(row, len(COLUMNS) - 1).setData(QtCore.Qt.AccessibleDescriptionRole, tip)
        for column in range(len(COLUMNS)):
            self.table.item(row, column).setToolTip(tip)

    def _named(self, check: Check) -> Any:
        """The stack or joint that a check names; None without one."""
        objects: dict[str, Any] = {str(joint.Label): joint for joint in joints_in(self.document)}
        objects |= {name_of_stack(stack): stack for stack in stacks_in(self.document)}
        return objects.get(about(check, objects))

    @says_no_plainly
    def _opened(self, row: int) -> None:
        """Show the row's place, or select what it names."""
        check = self.checks[row]
        self._unmark()
        size = size_of(self.meshes)
        if check.place is not None:
            overlay.show(self.document, [overlay.ring_node(check.place, RING * size, check.name)], OWNER)
            overlay.look_at(self.document, check.place, AROUND * size)
            return
        named = self._named(check)
        if named is not None:
            overlay.select(self.document, [named.Name])
            stacks = [stack for stack in getattr(named, "Stacks", None) or [named] if stack is not None]
            seen = [name for name in map(name_of_stack, stacks) if name in self.meshes]
            if seen:
                overlay.look_at(self.document, *self._extent(seen))

    def _extent(self, names: Sequence[str]) -> tuple[Place, float]:
        """The middle of these forms, and how much of the model is to be seen, mm."""
        corners = np.concatenate([self.meshes[name].vertices for name in names])
        low, high = corners.min(axis=0), corners.max(axis=0)
        x, y, z = ((low + high) / 2).tolist()
        return (x, y, z), float(np.linalg.norm(high - low))

    def _unmark(self, *_: Any) -> None:
        """Take the mark away; when the table closes, the picture too."""
        overlay.clear(OWNER)
        if not self.isVisible():
            self.picture.clear()

    def showEvent(self, event: Any) -> None:
        """At the foot of the main window, so that the middle of the 3D view, where places are shown, stays free. Rows
        are as high as their sentences once the columns have their widths."""
        super().showEvent(event)
        if not event.spontaneous():
            main = FreeCADGui.getMainWindow().geometry()
            self.resize(min(self.width(), main.width()), min(self.height(), int(LOW * main.height())))
            self.move(main.right() - self.width(), main.bottom() - self.height())
        self.table.resizeRowsToContents()


def _meshes_in(document: Document) -> dict[str, Mesh]:
    """The forms by name; a broken stack has none, and a check says why."""
    found: dict[str, Mesh] = {}
    for stack in stacks_in(document):
        with suppress(Refusal):
            _, form = planned_stack(stack)
            found[form.name] = form.mesh
    return found


def show_checks(document: Document) -> CheckTable:
    """Open the table beside FreeCAD's window."""
    table = CheckTable(document)
    table.show()
    return table
