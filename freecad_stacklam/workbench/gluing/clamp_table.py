# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clamps that the shop owns, as a table in the panel: added, removed, from and into files and preferences."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from freecad_stacklam.docobjects.spreadsheets.clamps import CLAMPS
from freecad_stacklam.lamination.options.rowtable import written_in
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.presses import PRESS_KINDS, PressSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import figure
from freecad_stacklam.workbench.fields.messages import says_no_plainly, tell
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panelparts.celltable import CellTable, Choices
from freecad_stacklam.workbench.panelparts.documentfiles import ask_open, ask_save, read_text
from freecad_stacklam.workbench.panelparts.larger import Larger

QtWidgets = widgets()
#: Columns as they stand in the panel, what is changed most in front, and their widths, pixels.
SHOWN = {"name": 96, "count": 44, "force": 66, "opening": 84, "throat": 80, "pad": 62, "kind": 70, "air": 92}
#: Air beside a figure, pixels.
ROOM = 8
#: Rows in sight.
IN_SIGHT = 4


class ClampTable:
    """The table with its buttons. `changed` is called when it changes; `folder` is where files are looked for."""

    def __init__(
        self,
        presses: Sequence[PressSettings],
        units: str,
        folder: Path,
        changed: Callable[[], None],
    ) -> None:
        self.units, self.folder = units, folder
        self._changed, self._filling = changed, False
        self.widget = QtWidgets.QWidget()
        self.table = CellTable(0, len(SHOWN))
        self.table.setObjectName("clamps")
        heads = [
            " ".join(filter(None, (say(CLAMPS.rows[c].caption), written_in(CLAMPS.rows[c], units)))) for c in SHOWN
        ]
        self.table.setHorizontalHeaderLabels(heads)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setHighlightSections(False)
        self.table.setSelectionBehavior(QtWidgets.QAbstractItemView.SelectRows)
        for i, (column, width) in enumerate(SHOWN.items()):
            self.table.setColumnWidth(i, width)
            self.table.horizontalHeaderItem(i).setToolTip(say(CLAMPS.rows[column].tip))
        self.table.setItemDelegateForColumn(list(SHOWN).index("kind"), Choices(PRESS_KINDS, False, self.table))
        row = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight((IN_SIGHT + 1) * row + self.table.horizontalScrollBar().sizeHint().height())
        column = QtWidgets.QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table)
        rows = {translate("StackLam", "Add"): self.add, translate("StackLam", "Remove"): self.remove}
        column.addWidget(Larger(self.table, column, translate("StackLam", "Clamps"), rows))
        column.addLayout(self._buttons())
        # What was done stands under the buttons, where the eye is: nothing above them moves.
        self.done = figure("clampsDone")
        self.done.setText("")
        self.done.hide()
        column.addWidget(self.done)
        self.put(presses)
        self.table.itemChanged.connect(self._edited)

    def _buttons(self) -> Any:
        grid = QtWidgets.QGridLayout()
        for i, (text, name, tip, action) in enumerate(
            (
                (translate("StackLam", "Add"), "addClamp", translate("StackLam", "Another kind of clamp"), self.add),
                (
                    translate("StackLam", "Remove"),
                    "removeClamp",
                    translate("StackLam", "Take the chosen clamps off the table"),
                    self.remove,
                ),
                (
                    translate("StackLam", "Load CSV…"),
                    "loadClamps",
                    translate("StackLam", "Clamps from a file, besides those in the table; of one name the file's"),
                    self.load,
                ),
                (
                    translate("StackLam", "Save CSV…"),
                    "saveClamps",
                    translate("StackLam", "The table as a file"),
                    self.save,
                ),
                (
                    translate("StackLam", "Keep as mine"),
                    "keepClamps",
                    translate("StackLam", "Offer these clamps in every new document"),
                    self.keep,
                ),
                (
                    translate("StackLam", "Take mine"),
                    "takeClamps",
                    translate("StackLam", "The clamps that were kept, in place of those in the table"),
                    self.take,
                ),
            )
        ):
            button = QtWidgets.QPushButton(text)
            button.setObjectName(name)
            button.setToolTip(tip)
            button.setMinimumWidth(60)
            button.clicked.connect(action)
            grid.addWidget(button, i // 2, i % 2)
        return grid

    # --- rows --------------------------------------------------------------------------------------------------------
    def put(self, presses: Sequence[PressSettings]) -> None:
        """Show these clamps and no others."""
        self._filling = True
        self.table.setRowCount(0)
        for press in presses:
            cells = dict(zip(CLAMPS.columns, CLAMPS.write_row(press, self.units)))
            if press.kind != "vacuum" and press.air == CLAMPS.rows["air"].first:
                cells["air"] = ""  # no clamp has one
            self._put_row([cells[c] for c in SHOWN])
        self._filling = False

    def _put_row(self, texts: Sequence[str]) -> None:
        at = self.table.rowCount()
        self.table.insertRow(at)
        for i, (column, text) in enumerate(zip(SHOWN, texts)):
            item = QtWidgets.QTableWidgetItem(shown_decimals(text) if column in CLAMPS.figures else text)
            if column in CLAMPS.figures:
                item.setTextAlignment(QtCore.Qt.AlignRight | QtCore.Qt.AlignVCenter)
            self.table.setItem(at, i, item)
            if column in CLAMPS.figures:  # none is cut off, as 40 mm told in inches would be
                self.table.setColumnWidth(i, max(self.table.columnWidth(i), self.table.sizeHintForColumn(i) + ROOM))

    def presses(self) -> tuple[PressSettings, ...]:
        """The clamps as they stand. Raises Refusal with the row and the column."""
        rows = []
        for at in range(self.table.rowCount()):
            items = (self.table.item(at, i) for i in range(len(SHOWN)))
            texts = {c: item.text().strip() if item is not None else "" for c, item in zip(SHOWN, items)}
            rows.append((at, texts))
        written = [(at, texts) for at, texts in rows if any(texts.values())]

        def where(number: int, column: str) -> str:
            caption = say(CLAMPS.rows[column].caption).lower()
            return translate("StackLam", "Clamps, row {}, {}").format(written[number][0] + 1, caption)

        typed = [
            {c: typed_decimals(text) if c in CLAMPS.figures else text for c, text in texts.items()}
            for _, texts in written
        ]
        return CLAMPS.read_rows(typed, {}, where, self.units)

    def _edited(self, *_: Any) -> None:
        if not self._filling:
            self.say("")
            self._changed()

    def say(self, sentence: str) -> None:
        """Say under the buttons what was done; nothing once the table has changed since."""
        self.done.setText(sentence)
        self.done.setVisible(bool(sentence))

    def add(self, *_: Any) -> None:
        """A new kind of clamp, with the first values of its options."""
        names = {self.table.item(i, 0).text() for i in range(self.table.rowCount())}
        number = next(n for n in range(1, len(names) + 2) if f"Clamp {n}" not in names)
        press = PressSettings(f"Clamp {number}")
        cells = dict(zip(CLAMPS.columns, CLAMPS.write_row(press, self.units)))
        self._filling = True
        self._put_row([cells[c] if c != "air" else "" for c in SHOWN])
        self._filling = False
        self.table.setCurrentCell(self.table.rowCount() - 1, 0)
        self.table.setFocus()  # typing now writes the name
        self._edited()

    def remove(self, *_: Any) -> None:
        """Take the chosen clamps off the table."""
        chosen = sorted({index.row() for index in self.table.selectionModel().selectedIndexes()})
        if not chosen:
            tell(translate("StackLam", "Choose the clamps to remove: click their rows first."))
        for at in reversed(chosen):
            self.table.removeRow(at)
        self._edited()

    # --- files and preferences ---------------------------------------------------------------------------------------
    @says_no_plainly
    def load(self, *_: Any) -> None:
        """Clamps from a CSV file, besides those in the table."""
        path = ask_open(self.widget, translate("StackLam", "Clamps from a file"), self.folder)
        if not path:
            return
        found = CLAMPS.read(read_text(Path(path)), Path(path).name)
        names = {press.name for press in found}
        self.put((*(press for press in self.presses() if press.name not in names), *found))
        self._edited()
        self.say(translate("StackLam", "{} of the file's clamps are in the table.").format(len(found)))

    @says_no_plainly
    def save(self, *_: Any) -> None:
        """The table as a CSV file."""
        text = CLAMPS.write(self.presses(), self.units)
        path = ask_save(self.widget, translate("StackLam", "Clamps to a file"), self.folder / "clamps.csv")
        if path:
            with aside(path) as part:
                part.write_text(text, encoding="utf-8", newline="")
            self.say(translate("StackLam", "The clamps were written to {}.").format(path))

    @says_no_plainly
    def keep(self, *_: Any) -> None:
        """Keep the clamps for new documents."""
        preferences.remember(clamps=CLAMPS.write(self.presses()))
        self.say(translate("StackLam", "These clamps were kept: every new glue-up begins with them."))

    @says_no_plainly
    def take(self, *_: Any) -> None:
        """The clamps that were kept."""
        kept = kept_clamps()
        if not kept:
            raise Refusal(translate("StackLam", "No clamps were kept yet: list yours, then press Keep as mine."))
        self.put(kept)
        self._edited()


def kept_clamps() -> tuple[PressSettings, ...]:
    """The clamps that the maker kept with FreeCAD's preferences; none where there are none that can be read."""
    text = preferences.clamps()
    try:
        return CLAMPS.read(text, "clamps") if text else ()
    except Refusal:
        return ()
