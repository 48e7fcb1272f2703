# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack as a table beside the model: boards are added, copied, removed, brought in from a file and put into one.

What is typed stays as it was typed until OK; every cell that cannot be is named at once, in one sentence.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import FreeCADGui

from freecad_stacklam.data import example_rack
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.base.woods import wood_names_in
from freecad_stacklam.docobjects.spreadsheets.rack import rack_in, rows_of, write_rack
from freecad_stacklam.lamination.boards import rack
from freecad_stacklam.lamination.boards.rack import COLUMNS, SIZES, read_row, write_row
from freecad_stacklam.lamination.lengths import CUBIC_METRE
from freecad_stacklam.lamination.options import rows as option_rows
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import CUTS, DRYINGS, GRADES, PER, SURFACES, Board, Rack
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import figure, inches_are_shown, later
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step, says_no_plainly, sentence_of, tell
from freecad_stacklam.workbench.fields.panel import GONE, icon_path
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panelparts.celltable import Choices
from freecad_stacklam.workbench.panelparts.documentfiles import ask_open, ask_save, file_stem, folder_of, read_text

QtWidgets = widgets()
#: Heads as a maker reads them, and widths in pixels.
TITLES = {row.name.replace("_", " "): row.caption for row in option_rows.rows_of(Board)}
WIDTHS = (120, 105, 105, 85, 90, 55, 60, 85, 70, 95, 130, 75, 60, 65, 75)
TIPS = {
    "thickness": QT_TRANSLATE_NOOP("StackLam", "As the board lies on the rack, before planing"),
    "count": QT_TRANSLATE_NOOP("StackLam", "How many alike; for boards that you can buy: empty for as many as wanted"),
    "cost": QT_TRANSLATE_NOOP("StackLam", "In your own money, per board, board foot or m³; empty: not known"),
    "for sale": QT_TRANSLATE_NOOP("StackLam", "yes: can be bought; no: on hand"),
    "grade": QT_TRANSLATE_NOOP("StackLam", "For boards that you can buy: how much clear wood the grade promises"),
    "knots": QT_TRANSLATE_NOOP(
        "StackLam",
        "x y dx dy of each, parted by semicolons: x from the left end, y from the lower edge, as in 600 40 80 35",
    ),
    "surface": QT_TRANSLATE_NOOP(
        "StackLam", "Rough from the saw, or surfaced; empty: surfaced where it is as thick as its layer, else rough"
    ),
    "dried": QT_TRANSLATE_NOOP("StackLam", "In a kiln, or in the air, where more is lost at the ends; empty: kiln"),
    "cut": QT_TRANSLATE_NOOP("StackLam", "How it was sawn from the log: flat, rift or quarter; empty: not known"),
    "moisture": QT_TRANSLATE_NOOP("StackLam", "Percent, as a meter showed it before gluing; empty: not known"),
}


#: Columns of figures.
FIGURES = (*SIZES, "count", "cost", "moisture")


class RackEditor(QtWidgets.QDialog):  # type: ignore[name-defined]
    """The boards of one document."""

    def __init__(self, document: Document) -> None:
        super().__init__(FreeCADGui.getMainWindow())
        self.document = document
        self.units = self._units()
        self.boards: tuple[Board, ...] = ()
        self._filling = False
        self.setObjectName("StackLam_BoardRack")
        self.setWindowTitle(translate("StackLam", "Board rack of {}").format(document.Label))
        self.setWindowIcon(QtGui.QIcon(icon_path("StackLam_BoardRack")))
        self.setAttribute(QtCore.Qt.WA_DeleteOnClose)
        room = QtWidgets.QApplication.primaryScreen().availableGeometry()
        self.resize(min(1340, room.width()), min(480, room.height()))
        self._build()
        self._soon = later(self, self.check)
        self._fill_from_sheet()
        self.table.itemChanged.connect(self._changed)
        self.check()

    def _units(self) -> str:
        job = job_in(self.document)
        return str(job.Units) if job is not None else ("in" if inches_are_shown() else "mm")

    def _build(self) -> None:
        layout = QtWidgets.QVBoxLayout(self)
        self.table = QtWidgets.QTableWidget(0, len(COLUMNS))
        self.table.setObjectName("rackTable")
        shown = [TITLES[c] + (f" {self.units}" if c in SIZES else "") for c in COLUMNS]
        self.table.setHorizontalHeaderLabels(shown)
        self.table.setSelectionBehavior(QtWidgets.QAbstractItemView.SelectRows)
        lists = {
            "species": (wood_names_in(self.document), True), "per": (("", *PER), False),
            "for sale": (("no", "yes"), False),
            "grade": (("", *GRADES), False), "surface": (("", *SURFACES), False), "dried": (("", *DRYINGS), False),
            "cut": (("", *CUTS), False),
        }  # fmt: skip
        for i, (column, width) in enumerate(zip(COLUMNS, WIDTHS)):
            self.table.setColumnWidth(i, width)
            if column in TIPS:
                self.table.horizontalHeaderItem(i).setToolTip(translate("StackLam", TIPS[column]))
            if column in lists:
                self.table.setItemDelegateForColumn(i, Choices(*lists[column], self.table))
        self.table.horizontalHeader().setStretchLastSection(True)
        hint = QtWidgets.QLabel(
            translate(
                "StackLam",
                "A size without a unit is in the unit of its column; 45 mm, 4.5 cm, 1-3/4 in and 8 ft can be typed "
                "too.",
            )
        )
        hint.setWordWrap(True)
        self.sentence = figure("StackLam_BoardRackSentence")
        row = QtWidgets.QHBoxLayout()
        for text, name, action in (
            ("Add", "addBoard", self.add),
            ("Copy", "copyBoard", self.copy_rows),
            ("Remove", "removeBoard", self.remove_rows),
            ("Import CSV…", "importRack", self.import_csv),
            ("Export CSV…", "exportRack", self.export_csv),
            ("Example boards", "exampleBoards", self.add_examples),
        ):
            button = QtWidgets.QPushButton(text)
            button.setObjectName(name)
            button.setAutoDefault(False)
            button.clicked.connect(action)
            row.addWidget(button)
        row.addStretch(1)
        self.buttons = QtWidgets.QDialogButtonBox(QtWidgets.QDialogButtonBox.Ok | QtWidgets.QDialogButtonBox.Cancel)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        for button in self.buttons.buttons():
            button.setAutoDefault(False)
        layout.addLayout(row)
        layout.addWidget(hint)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.sentence)
        layout.addWidget(self.buttons)

    # --- rows --------------------------------------------------------------------------------------------------------
    def _fill_from_sheet(self) -> None:
        sheet = rack_in(self.document)
        if sheet is None:
            return
        found = rows_of(sheet)
        for _, texts in found.rows:
            row = [texts.get(c, "") for c in COLUMNS]
            for i, column in enumerate(COLUMNS):
                # In another unit than this table's: the size says its own.
                unit = found.units.get(column, "mm")
                if column in SIZES and unit != self.units and _bare(row[i]):
                    row[i] = f"{row[i]} {unit}"
            self._put(row)

    def _put(self, texts: Sequence[str], at: int | None = None) -> int:
        """A row with these texts; at the end if not told where."""
        at = self.table.rowCount() if at is None else at
        self._filling = True
        self.table.insertRow(at)
        for i, text in enumerate(texts):
            item = QtWidgets.QTableWidgetItem(shown_decimals(text) if COLUMNS[i] in FIGURES else text)
            if COLUMNS[i] in FIGURES:
                item.setTextAlignment(QtCore.Qt.AlignRight | QtCore.Qt.AlignVCenter)
            self.table.setItem(at, i, item)
        self._filling = False
        return at

    def _texts(self, row: int) -> dict[str, str]:
        items = (self.table.item(row, i) for i in range(len(COLUMNS)))
        texts = {c: item.text().strip() if item is not None else "" for c, item in zip(COLUMNS, items)}
        return {c: typed_decimals(text) if c in FIGURES else text for c, text in texts.items()}

    def _chosen(self) -> list[int]:
        return sorted({index.row() for index in self.table.selectionModel().selectedIndexes()})

    def add(self, *_: Any) -> None:
        """A new board, with the wood of the last."""
        last = self._texts(self.table.rowCount() - 1) if self.table.rowCount() else {}
        first = {"name": f"Board {self.table.rowCount() + 1}", "species": last.get("species") or "white oak"}
        first |= {"count": "1", "per": "board", "for sale": "no"}
        at = self._put([first.get(c, "") for c in COLUMNS])
        self.table.setCurrentCell(at, COLUMNS.index("thickness"))
        self.check()

    def copy_rows(self, *_: Any) -> None:
        """The chosen boards once more, each below itself."""
        chosen = self._chosen()
        if not chosen:
            tell(translate("StackLam", "Choose the boards to copy: click their rows first."))
        for row in reversed(chosen):
            texts = self._texts(row)
            self._put([texts[c] for c in COLUMNS], row + 1)
        self.check()

    def remove_rows(self, *_: Any) -> None:
        """Take the chosen boards off the table."""
        chosen = self._chosen()
        if not chosen:
            tell(translate("StackLam", "Choose the boards to remove: click their rows first."))
        for row in reversed(chosen):
            self.table.removeRow(row)
        self.check()

    def add_examples(self, *_: Any) -> None:
        """The boards of the bundled example, to try things on."""
        path = example_rack()
        for board in rack.read_rack(path.read_text(encoding="utf-8"), path.name).boards:
            self._put(write_row(board, self.units))
        self.check()

    # --- what they say -----------------------------------------------------------------------------------------------
    def _changed(self, *_: Any) -> None:
        if not self._filling:
            self._soon.start()

    def check(self) -> bool:
        """Read every board; False, with the cell in a sentence, when one cannot be."""
        self._soon.stop()
        units = dict.fromkeys(SIZES, self.units)
        try:
            rows = [self._texts(row) for row in range(self.table.rowCount())]
            self.boards = tuple(
                read_row(texts, units, row, lambda r, c: f"Row {r + 1}, {TITLES[c].lower()}")
                for row, texts in enumerate(rows)
                if any(texts.values())
            )
            sentence, well = summary(self.boards), True
        except Refusal as refusal:
            sentence, well = sentence_of(refusal), False
        self.sentence.setText(sentence)
        return well

    # --- files -------------------------------------------------------------------------------------------------------
    @says_no_plainly
    def import_csv(self, *_: Any) -> None:
        """Boards from a CSV file, in place of those in the table or besides them."""
        path = ask_open(self, translate("StackLam", "Boards from a file"), folder_of(self.document))
        if not path:
            return
        boards = rack.read_rack(read_text(Path(path)), Path(path).name).boards
        if self.table.rowCount():
            answer = QtWidgets.QMessageBox.question(
                self,
                translate("StackLam", "Board rack"),
                translate("StackLam", "{} boards were read. Do they replace those in the table?").format(len(boards)),
                QtWidgets.QMessageBox.Yes | QtWidgets.QMessageBox.No | QtWidgets.QMessageBox.Cancel,
                QtWidgets.QMessageBox.Yes,
            )  # fmt: skip
            if answer == QtWidgets.QMessageBox.Cancel:
                return
            if answer == QtWidgets.QMessageBox.Yes:
                self.table.setRowCount(0)
        for board in boards:
            self._put(write_row(board, self.units))
        self.check()

    @says_no_plainly
    def export_csv(self, *_: Any) -> None:
        """The table as a CSV file."""
        if not self.check():
            raise Refusal(translate("StackLam", "Nothing was written. {}").format(self.sentence.text()))
        title = translate("StackLam", "Boards to a file")
        path = ask_save(self, title, folder_of(self.document) / f"{file_stem(self.document)} rack.csv")
        if not path:
            return
        with aside(path) as part:
            part.write_text(rack.write_rack(Rack(self.boards), self.units), encoding="utf-8", newline="")
        self.sentence.setText(translate("StackLam", "{} rows were written to {}.").format(len(self.boards), path))

    # --- OK ----------------------------------------------------------------------------------------------------------
    def accept(self) -> None:
        """OK: the boards go into the document's sheet, in one undo step; or it says why not."""
        if not self.check():
            tell(self.sentence.text())
            return
        try:
            with busy(), one_undo_step(self.document, translate("StackLam", "Boards of the rack")):
                write_rack(self.document, self.boards, self.units)
                self.document.recompute()
        except ReferenceError:
            tell(GONE)
            return
        super().accept()


def summary(boards: Sequence[Board]) -> str:
    """The rack in one sentence."""
    own = [b for b in boards if not b.for_sale]
    kinds = len(boards) - len(own)
    if not boards:
        return translate("StackLam", "The rack is empty: add your boards, or import them.")
    feet = sum(b.count * b.board_feet for b in own)
    volume = sum(b.count * b.volume for b in own) / CUBIC_METRE
    unpriced = sum(b.cost is None for b in boards)
    count = sum(b.count for b in own)
    metric = "" if inches_are_shown() else f"{volume:.3f} m³, "
    one, many = (
        translate("StackLam", "{} board on hand, {}{} board feet;"),
        translate("StackLam", "{} boards on hand, {}{} board feet;"),
    )
    hand = one if count == 1 else many
    told = [hand.format(count, metric, f"{feet:g}")]
    one, many = translate("StackLam", "{} kind can be bought."), translate("StackLam", "{} kinds can be bought.")
    told.append((one if kinds == 1 else many).format(kinds))
    if unpriced:
        free = translate("StackLam", "{} without a cost: the plan then saves wood, not money.")
        told.append(free.format(unpriced))
    return shown_decimals(" ".join(told))


def _bare(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def show_rack(document: Document) -> RackEditor:
    """Open the table beside FreeCAD's window, or bring up the one that is open."""
    for widget in QtWidgets.QApplication.topLevelWidgets():
        if isinstance(widget, RackEditor) and widget.isVisible() and widget.document is document:
            widget.raise_()
            return widget
    editor = RackEditor(document)
    editor.show()
    return editor
