# SPDX-License-Identifier: LGPL-2.1-or-later

"""The climate of the room: one that is bundled, or twelve months of the maker's own in a table."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.data import climate_table
from freecad_stacklam.lamination.findings.seasons import MONTHS
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.climate import COLDEST, HOTTEST, Months
from freecad_stacklam.lamination.words import say
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.fields import choice
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panelparts.celltable import CellTable
from freecad_stacklam.workbench.piece.cells import figure_text, read_figure, text_cell, unit_of, untouched

QtWidgets = widgets()
OWN = QT_TRANSLATE_NOOP("StackLam", "own months")
#: Columns, with their unit inside, and the least and the most that can be.
COLUMNS = (
    (QT_TRANSLATE_NOOP("StackLam", "Temperature"), "°C", COLDEST, HOTTEST),
    (QT_TRANSLATE_NOOP("StackLam", "Humidity"), "%", 0.0, 100.0),
)
TIPS = (
    QT_TRANSLATE_NOOP("StackLam", "Of the room where it will stand, as a room thermometer shows it by day"),
    QT_TRANSLATE_NOOP("StackLam", "Relative humidity of that room, as a hygrometer shows it"),
)


class MonthTable:
    """The choice and, where it is the maker's own, the table. `changed` is called when either changes."""

    def __init__(self, months: str | Months, units: str, changed: Callable[[], None]) -> None:
        self.units, self._changed, self._filling = units, changed, False
        self._bundled = climate_table()
        self._own = None if isinstance(months, str) else months
        names: list[tuple[str, Any]] = [(shown(name), name) for name in self._bundled]
        if isinstance(months, str) and months not in self._bundled:  # of another table: refused until one is chosen
            names.append((months, months))
        names.append((translate("StackLam", OWN), ""))
        tip = translate("StackLam", "Bundled climates are invented; your own months begin with those chosen last")
        self.choice = choice("climateMonths", names, months if isinstance(months, str) else "", tip)
        self.table = CellTable(len(MONTHS), len(COLUMNS))
        self.table.setObjectName("climateTable")
        self.table.setAccessibleName(translate("StackLam", "Temperature and humidity of your own months"))
        self.table.setTabKeyNavigation(False)
        for i, ((caption, inside, *_), tip) in enumerate(zip(COLUMNS, TIPS)):
            said = (
                translate("StackLam", "Air") if inside == "°C" else translate("StackLam", caption)
            )  # in a narrow panel
            head = QtWidgets.QTableWidgetItem(f"{said} {unit_of(inside, units)}")
            head.setToolTip(translate("StackLam", tip))
            self.table.setHorizontalHeaderItem(i, head)
        self.table.setVerticalHeaderLabels([say(name)[:3] for name in MONTHS])
        self.table.horizontalHeader().setSectionResizeMode(QtWidgets.QHeaderView.Stretch)
        self.table.setHorizontalScrollBarPolicy(QtCore.Qt.ScrollBarAlwaysOff)
        self.table.setVerticalScrollBarPolicy(QtCore.Qt.ScrollBarAlwaysOff)
        self.table.horizontalHeader().setHighlightSections(False)
        self.table.verticalHeader().setHighlightSections(False)
        rows = self.table.verticalHeader().length() + self.table.horizontalHeader().sizeHint().height()
        self.table.setFixedHeight(rows + 2 * self.table.frameWidth())
        self._show(self._started())
        self.table.setVisible(not self.choice.currentData())
        self._last = self.choice.currentData()
        self.choice.currentIndexChanged.connect(self._chosen)
        self.table.itemChanged.connect(self._edited)

    def _started(self) -> Months:
        """What the table begins with: the maker's own, or those of the climate that is chosen."""
        if self._own is not None:
            return self._own
        named = self._bundled.get(self.choice.currentData() or "")
        return (named or next(iter(self._bundled.values()))).months

    def _show(self, months: Months) -> None:
        self._filling = True
        for at, month in enumerate(months):
            for i, ((_, inside, *_), value) in enumerate(zip(COLUMNS, month)):
                self.table.setItem(at, i, text_cell(figure_text(value, inside, self.units), value))
        self._filling = False

    def months(self) -> str | Months:
        """A bundled climate's name, or twelve months. Raises Refusal with the month and the column."""
        named = self.choice.currentData()
        if named:
            return str(named)
        return tuple((self._figure(at, 0), self._figure(at, 1)) for at in range(len(MONTHS)))

    def _figure(self, at: int, column: int) -> float:
        cell = self.table.item(at, column)
        kept = untouched(cell)
        if kept is not None:
            return float(kept)
        caption, inside, least, most = COLUMNS[column]
        text = "" if cell is None else cell.text()
        try:
            found = read_figure(text, inside, self.units)
            if not least <= found <= most:
                bounds = (f"{figure_text(v, inside, self.units)} {unit_of(inside, self.units)}" for v in (least, most))
                raise Refusal(translate("StackLam", "“{}” is impossible here: give {} to {}.").format(text, *bounds))
        except Refusal as refusal:
            where = translate("StackLam", "Climate, {}, {}").format(
                say(MONTHS[at]), translate("StackLam", caption).lower()
            )
            raise Refusal(f"{where}: {refusal.sentence}") from None
        return found

    def _chosen(self, *_: Any) -> None:
        named = self.choice.currentData()
        if named and not self._last:  # what was typed stays for when it is wanted again
            try:
                self._own = tuple((self._figure(at, 0), self._figure(at, 1)) for at in range(len(MONTHS)))
            except Refusal:
                self._own = None
        self._last = named
        self._show(self._started())
        self.table.setVisible(not named)
        self._changed()

    def _edited(self, *_: Any) -> None:
        if not self._filling:
            self._changed()
