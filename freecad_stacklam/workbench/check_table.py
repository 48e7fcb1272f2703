"""What the checks of a plan say, in a table beside the model."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import FreeCADGui

from freecad_stacklam.lamination.plan import Check, Plan
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets

QtWidgets = widgets()
COLUMNS = ("Verdict", "Check", "Figure", "Limit", "What it says", "By which rule")
#: The verdict is read as a word and a mark; the shade only helps the eye.
WORDS = {"ok": "✓ ok", "caution": "! caution", "stop": "✕ stop"}
ORDER = {"stop": 0, "caution": 1, "ok": 2}


def _number(value: float, unit: str) -> str:
    if value != value:  # not a number: the check has no figure
        return "–"
    return f"{value:.4g} {unit}".strip()


class CheckTable(QtWidgets.QDialog):
    """Stays open beside the model; stops come first."""

    def __init__(self, plan: Plan, parent: Any = None) -> None:
        super().__init__(parent)
        self.setObjectName("StackLamChecks")
        self.setWindowTitle(f"Checks of {plan.title}")
        self.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        self.resize(1050, 480)
        checks = sorted(plan.checks, key=lambda c: ORDER.get(c.verdict, 0))
        layout = QtWidgets.QVBoxLayout(self)
        head = QtWidgets.QLabel(self._headline(checks, plan.proven))
        head.setObjectName("headline")
        head.setWordWrap(True)
        layout.addWidget(head)
        self.table = QtWidgets.QTableWidget(len(checks), len(COLUMNS))
        self.table.setObjectName("checks")
        self.table.setHorizontalHeaderLabels(list(COLUMNS))
        self.table.verticalHeader().hide()
        self.table.setWordWrap(True)
        self.table.setEditTriggers(QtWidgets.QAbstractItemView.NoEditTriggers)
        for row, check in enumerate(checks):
            cells = (
                WORDS.get(check.verdict, check.verdict),
                check.name,
                _number(check.figure, check.unit),
                _number(check.limit, check.unit),
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
        for column, width in enumerate((80, 190, 90, 90, 390, 170)):
            self.table.setColumnWidth(column, width)
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.resizeRowsToContents()
        layout.addWidget(self.table)
        buttons = QtWidgets.QDialogButtonBox(QtWidgets.QDialogButtonBox.Close)
        buttons.rejected.connect(self.close)
        layout.addWidget(buttons)

    @staticmethod
    def _headline(checks: Sequence[Check], proven: bool) -> str:
        stops = sum(c.verdict == "stop" for c in checks)
        cautions = sum(c.verdict == "caution" for c in checks)
        if stops or not proven:
            return f"Do not cut yet: {stops} of {len(checks)} checks say stop."
        if cautions:
            return f"Nothing says stop. {cautions} of {len(checks)} checks ask for care."
        return f"All {len(checks)} checks are well."


def show_checks(plan: Plan) -> CheckTable:
    """Open the table beside FreeCAD's window."""
    table = CheckTable(plan, FreeCADGui.getMainWindow())
    table.show()
    return table
