# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cells of the panel's tables: figures that keep every digit until they are typed anew, and boxes to tick."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.lamination.lengths import INCH, parse_length
from freecad_stacklam.lamination.options.kinds import plain
from freecad_stacklam.lamination.quantities import POUND_FORCE, parse_force, parse_percent, parse_temperature
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals

QtWidgets = widgets()
#: Unit inside → the unit shown, metric and in inches.
UNITS = {"N": ("N", "lbf"), "mm": ("mm", "in"), "°C": ("°C", "°F"), "%": ("%", "%"), "°": ("°", "°")}
_WORTH = {"N": POUND_FORCE, "mm": INCH}
#: Places that a figure is shown with: more than a rule or a scale has.
_PLACES = {"N": 1, "mm": 4, "°C": 1, "%": 1, "°": 2}
#: Places that a temperature keeps: 68.9 °F are 20.5 °C, not 20.500000000000004.
_KEPT = 6
_EXACT, _SHOWN = QtCore.Qt.UserRole, QtCore.Qt.UserRole + 1


def unit_of(inside: str, units: str) -> str:
    """The unit that figures are shown in where lengths are in "mm" or "in"."""
    return UNITS[inside][units == "in"]


def figure_text(value: float, inside: str, units: str) -> str:
    """A figure as its column shows it, without its unit."""
    if units == "in" and inside == "°C":
        value = value * 1.8 + 32
    elif units == "in":
        value /= _WORTH.get(inside, 1.0)
    return shown_decimals(plain(round(value, _PLACES[inside])))


def read_figure(text: str, inside: str, units: str) -> float:
    """A typed figure; a bare one is in the unit shown. Raises Refusal."""
    text = typed_decimals(text.strip())
    if inside == "mm":
        return parse_length(text, unit_of(inside, units))
    if inside == "%":
        return parse_percent(text)
    if text[-1:].isdigit():
        text = f"{text} {unit_of(inside, units)}"
    return parse_force(text) if inside == "N" else round(parse_temperature(text), _KEPT)


def text_cell(text: str, exact: Any = None) -> Any:
    """A cell with a text; `exact` is what it stands for while nobody types in it."""
    cell = QtWidgets.QTableWidgetItem(text)
    if exact is not None:
        cell.setData(_EXACT, exact)
        cell.setData(_SHOWN, text)
        cell.setTextAlignment(QtCore.Qt.AlignRight | QtCore.Qt.AlignVCenter)
    return cell


def untouched(cell: Any) -> Any:
    """What a cell stands for, None where something was typed in it since."""
    return cell.data(_EXACT) if cell is not None and cell.text() == cell.data(_SHOWN) else None


def tick_cell(on: bool) -> Any:
    """A cell with a box to tick, by the mouse or with the space bar."""
    cell = QtWidgets.QTableWidgetItem()
    cell.setFlags(QtCore.Qt.ItemIsEnabled | QtCore.Qt.ItemIsSelectable | QtCore.Qt.ItemIsUserCheckable)
    cell.setCheckState(QtCore.Qt.Checked if on else QtCore.Qt.Unchecked)
    return cell


def ticked(cell: Any) -> bool:
    """Whether such a cell is ticked."""
    return bool(cell is not None and cell.checkState() == QtCore.Qt.Checked)
