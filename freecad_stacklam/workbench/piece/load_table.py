# SPDX-License-Identifier: LGPL-2.1-or-later

"""The maker's own loads as a table in the panel: one row a load, added and taken away."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from freecad_stacklam.lamination.lengths import parse_angle, parse_lengths
from freecad_stacklam.lamination.options.rows import NEEDED, rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.use import LoadSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.messages import tell
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panelparts.celltable import CellTable, Choices
from freecad_stacklam.workbench.panelparts.larger import Larger
from freecad_stacklam.workbench.piece.cells import (
    figure_text,
    read_figure,
    text_cell,
    tick_cell,
    ticked,
    unit_of,
    untouched,
)

QtWidgets = widgets()
ROWS = {row.name: row for row in rows_of(LoadSettings)}
#: Columns, what is changed most in front, and their least widths, pixels.
SHOWN = {
    "name": 84, "down": 68, "push": 68, "place": 78, "lasting": 46, "inset": 112, "at": 110, "direction": 78,
    "tips": 58, "bends": 70, "source": 120,
}  # fmt: skip
#: Columns of figures, with their unit inside.
FIGURES = {"down": "N", "push": "N", "inset": "mm"}
TICKS = ("lasting", "tips", "bends")
#: The unit in the head of a column.
HEADS = {**FIGURES, "at": "mm", "direction": "°"}
#: Rows in sight.
IN_SIGHT = 3


class LoadTable:
    """The table with its buttons. `changed` is called when it changes."""

    def __init__(self, loads: Sequence[LoadSettings], units: str, changed: Callable[[], None]) -> None:
        self.units, self._changed, self._filling = units, changed, False
        self.widget = QtWidgets.QWidget()
        self.table = CellTable(0, len(SHOWN))
        self.table.setObjectName("useLoads")
        self.table.setAccessibleName(translate("StackLam", "Loads of your own"))
        self.table.setTabKeyNavigation(False)  # Tab goes on through the panel; arrows move in the table
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setHighlightSections(False)
        self.table.setSelectionBehavior(QtWidgets.QAbstractItemView.SelectRows)
        for i, (name, width) in enumerate(SHOWN.items()):
            unit = unit_of(HEADS[name], units) if name in HEADS else ""
            head = QtWidgets.QTableWidgetItem(" ".join(filter(None, (_caption(name), unit))))
            head.setToolTip(say(ROWS[name].tip))
            self.table.setHorizontalHeaderItem(i, head)
            self.table.setColumnWidth(i, max(width, self.table.horizontalHeader().sectionSizeHint(i)))
        places = ROWS["place"].kind
        assert places is not None
        self.table.setItemDelegateForColumn(_at("place"), Choices(places.choices, False, self.table))
        row = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight((IN_SIGHT + 1) * row + self.table.horizontalScrollBar().sizeHint().height())
        column = QtWidgets.QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        title = QtWidgets.QLabel(translate("StackLam", "Loads of your own, besides those of its kind"))
        title.setWordWrap(True)
        column.addWidget(title)
        column.addWidget(self.table)
        buttons = QtWidgets.QHBoxLayout()
        for text, name, tip, action in (
            (translate("StackLam", "Add load"), "addLoad", translate("StackLam", "Another load of your own"), self.add),
            (
                translate("StackLam", "Remove"),
                "removeLoad",
                translate("StackLam", "Take the chosen loads off the table"),
                self.remove,
            ),
        ):
            button = QtWidgets.QPushButton(text)
            button.setObjectName(name)
            button.setToolTip(tip)
            button.setMinimumWidth(60)
            button.clicked.connect(action)
            buttons.addWidget(button)
        rows = {translate("StackLam", "Add load"): self.add, translate("StackLam", "Remove"): self.remove}
        column.addWidget(Larger(self.table, column, translate("StackLam", "Loads of your own"), rows))
        column.addLayout(buttons)
        for one in loads:
            self._put({name: getattr(one, name) for name in ROWS})
        self.table.itemChanged.connect(self._edited)

    # --- rows --------------------------------------------------------------------------------------------------------
    def _put(self, values: Mapping[str, Any]) -> int:
        """A row with the values of a load's options; the number of the row."""
        at = int(self.table.rowCount())
        self._filling = True
        self.table.insertRow(at)
        for name in SHOWN:
            self.table.setItem(at, _at(name), self._cell(name, values[name]))
        self._filling = False
        return at

    def _cell(self, name: str, value: Any) -> Any:
        if name in TICKS:
            return tick_cell(value)
        if value is None or (name in FIGURES and value == 0):
            return text_cell("", 0.0 if name in FIGURES else None)
        if name in FIGURES:
            return text_cell(figure_text(value, FIGURES[name], self.units), value)
        if name == "at":
            return text_cell("; ".join(figure_text(v, "mm", self.units) for v in value), list(value))
        return text_cell(figure_text(value, "°", self.units), value) if name == "direction" else text_cell(value)

    def loads(self) -> tuple[LoadSettings, ...]:
        """The loads as they stand; rows without a word are none. Raises Refusal with the row and the column."""
        return tuple(self._load(at) for at in range(self.table.rowCount()) if self._written(at))

    def _written(self, at: int) -> bool:
        typed = (self._text(at, name) for name in SHOWN if name not in (*TICKS, "place", "source"))
        return any(typed)

    def _text(self, at: int, name: str) -> str:
        cell = self.table.item(at, _at(name))
        return "" if cell is None else str(cell.text()).strip()

    def _load(self, at: int) -> LoadSettings:
        facts: dict[str, Any] = {}
        for name, row in ROWS.items():
            try:
                facts[name] = self._value(at, name)
                fault = row.kind.fault(facts[name]) if row.kind is not None and facts[name] is not None else ""
                if fault:
                    raise Refusal(
                        translate("StackLam", "“{}” is impossible here: {}.").format(self._text(at, name), fault)
                    )
            except Refusal as refusal:
                raise Refusal(f"{self._where(at, _caption(name).lower())}: {refusal.sentence}") from None
        try:
            return LoadSettings(**facts)
        except Refusal as refusal:
            raise Refusal(f"{self._where(at)}: {refusal.sentence}") from None

    def _where(self, at: int, column: str = "") -> str:
        return translate("StackLam", "Loads, row {}").format(at + 1) + (f", {column}" if column else "")

    def _value(self, at: int, name: str) -> Any:
        cell, text = self.table.item(at, _at(name)), self._text(at, name)
        if name in TICKS:
            return ticked(cell)
        kept = untouched(cell)
        if kept is not None:
            return tuple(kept) if name == "at" else kept
        if name in FIGURES:
            return read_figure(text, FIGURES[name], self.units) if text else 0.0
        if name == "at":
            return self._point(text) if text else None
        if name == "direction":
            return parse_angle(typed_decimals(text)) if text else None
        first = ROWS[name].first
        if not text and first is NEEDED:
            raise Refusal(translate("StackLam", "this load has no name: write one, such as two children."))
        return text or first

    def _point(self, text: str) -> tuple[float, ...]:
        found = parse_lengths(typed_decimals(text), unit_of("mm", self.units))
        if len(found) != 3:
            raise Refusal(
                translate("StackLam", "“{}” is no place: write three sizes, parted by semicolons, as in 0; 120; 450.")
                .format(shown_decimals(text))
            )  # fmt: skip
        return found

    def _edited(self, *_: Any) -> None:
        if not self._filling:
            self._changed()

    def add(self, *_: Any) -> None:
        """Another load; its force is asked for at once."""
        names = {self._text(at, "name") for at in range(self.table.rowCount())}
        number = next(n for n in range(1, len(names) + 2) if f"Load {n}" not in names)
        # No force is made up: the row says that it wants one.
        at = self._put({row.name: row.first for row in ROWS.values()} | {"name": f"Load {number}"})
        self.table.setFocus()
        self.table.setCurrentCell(at, _at("down"))
        self.table.scrollToItem(self.table.item(at, 0))
        self._edited()

    def remove(self, *_: Any) -> None:
        """Take the chosen loads off the table."""
        chosen = sorted({index.row() for index in self.table.selectionModel().selectedIndexes()})
        if not chosen:
            tell(translate("StackLam", "Choose the loads to remove: click their rows first."))
        for at in reversed(chosen):
            self.table.removeRow(at)
        self._edited()


def _caption(name: str) -> str:
    return say(ROWS[name].caption)


def _at(name: str) -> int:
    return list(SHOWN).index(name)
