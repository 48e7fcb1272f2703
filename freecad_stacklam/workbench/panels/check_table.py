# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the checks of a plan say, in a table beside the model."""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan
from typing import Any

import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.whole import plan_of
from freecad_stacklam.lamination.lengths import format_figure
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.messages import busy, says_no_plainly
from freecad_stacklam.workbench.fields.panel import open_panel
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate

QtWidgets = widgets()
COLUMNS = (
    QT_TRANSLATE_NOOP("StackLam", "Verdict"),
    QT_TRANSLATE_NOOP("StackLam", "Check"),
    QT_TRANSLATE_NOOP("StackLam", "Figure"),
    QT_TRANSLATE_NOOP("StackLam", "Limit"),
    QT_TRANSLATE_NOOP("StackLam", "What it says"),
    QT_TRANSLATE_NOOP("StackLam", "By which rule"),
)
WIDTHS = (80, 190, 80, 80, 400, 170)
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
        return f"Do not cut yet: {stops} of {len(checks)} checks say stop."
    if cautions:
        return f"Nothing says stop; {cautions} of {len(checks)} checks ask for care."
    return f"All {len(checks)} checks are well."


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
        self.table = QtWidgets.QTableWidget(0, len(COLUMNS))
        self.table.setObjectName("checks")
        self.table.setHorizontalHeaderLabels([translate("StackLam", c) for c in COLUMNS])
        self.table.verticalHeader().hide()
        self.table.setWordWrap(True)
        self.table.setEditTriggers(QtWidgets.QAbstractItemView.NoEditTriggers)
        for column, width in enumerate(WIDTHS):
            self.table.setColumnWidth(column, width)
        self.table.horizontalHeader().setStretchLastSection(True)
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
        for part in (self.head, self.table, buttons):
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
        with busy():
            plan = plan_of(self.document)
        units = units_in(self.document)
        self.deeper.setVisible(plan.piece is not None and bool(plan.piece.pending))
        checks = sorted(plan.checks, key=lambda c: ORDER.get(c.verdict, 0))
        self.setWindowTitle(translate("StackLam", "Checks of {}").format(plan.title))
        self.head.setText(headline(checks, plan.proven))
        self.table.setRowCount(len(checks))
        for row, check in enumerate(checks):
            cells = (
                translate("StackLam", WORDS.get(check.verdict, check.verdict)),
                check.name,
                *figures_of(check, units),
                check.says,
                check.source,
            )
            for column, text in enumerate(cells):
                item = QtWidgets.QTableWidgetItem(text)
                item.setTextAlignment(QtCore.Qt.AlignLeft | QtCore.Qt.AlignTop)
                if column == 0 and check.verdict != "ok":
                    font = QtGui.QFont(item.font())
                    font.setBold(True)
                    item.setFont(font)
                self.table.setItem(row, column, item)
        self.table.resizeRowsToContents()

    def showEvent(self, event: Any) -> None:
        """Rows are as high as their sentences once the columns have their widths."""
        super().showEvent(event)
        self.table.resizeRowsToContents()


def show_checks(document: Document) -> CheckTable:
    """Open the table beside FreeCAD's window."""
    table = CheckTable(document)
    table.show()
    return table
