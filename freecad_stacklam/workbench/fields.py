"""Fields for lengths and angles, and figures in the maker's own units.

Lengths are taken as numbers (mm) from the field's raw value; the text FreeCAD shows is rounded and is never read back.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Callable
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()

#: Litres in a board foot do not matter here; mm³ do (144 in³).
BOARD_FOOT = 144 * 25.4**3
#: Milliseconds of quiet before the figures follow what is typed.
PATIENCE = 150

# A whole number and a fraction of an inch as makers write it: 1-3/4 or 1 3/4. FreeCAD itself would read a subtraction.
_MIXED = re.compile(r"^\s*(\d+)(?:\s*-\s*|\s+)(\d+)/(2|4|8|16|32|64)(\D.*)?$")


def length_field(name: str, value: float, tip: str = "") -> Any:
    """A field for a length in mm, in the user's units; `name` is its objectName."""
    return _field(name, value, "mm", tip)


def angle_field(name: str, value: float, tip: str = "") -> Any:
    """A field for an angle in degrees."""
    return _field(name, value, "deg", tip)


def _field(name: str, value: float, unit: str, tip: str) -> Any:
    field = _new_quantity_field()
    field.setObjectName(name)
    field.setProperty("unit", unit)
    field.setProperty("rawValue", float(value))
    field.setToolTip(tip)
    edit = field.findChild(QtWidgets.QLineEdit)
    if unit == "mm":
        edit.textEdited.connect(lambda text: _write_as_decimal(edit, text))
    return field


def _new_quantity_field() -> Any:
    """FreeCAD's own field for quantities.

    Where a field of an earlier panel lay in memory, the binding may hand back that field's dead shell; it lets go of
    it once nothing in Python refers to it.
    """
    dead = []
    for _ in range(8):
        field = FreeCADGui.UiLoader().createWidget("Gui::QuantitySpinBox")
        if alive(field):
            return field
        dead.append(field)
        gc.collect()
    raise Refusal("FreeCAD gave no field to type in: save your work and start FreeCAD again.")


def alive(widget: Any) -> bool:
    """Whether there still is a widget behind the binding's object."""
    try:
        widget.objectName()
    except RuntimeError:
        return False
    return True


def _write_as_decimal(edit: Any, text: str) -> None:
    decimal = decimal_text(text)
    if decimal != text:
        edit.setText(decimal)


def decimal_text(text: str) -> str:
    """The same length with a mixed number ("1-3/4 in") written as a decimal ("1.75 in"); other texts as they are."""
    mixed = _MIXED.match(text)
    if mixed is None:
        return text
    whole, over, under, rest = mixed.groups()
    return f"{int(whole) + int(over) / int(under):g}{rest or ''}"


def value_of(field: Any) -> float:
    """What the field holds, mm or degrees."""
    return float(field.property("rawValue"))


def set_value(field: Any, value: float) -> None:
    """Put a value, mm or degrees, into the field."""
    field.setProperty("rawValue", float(value))


def on_change(widget: Any, action: Callable[[], None]) -> None:
    """Call `action` whenever the maker, or the panel, changes what the widget holds."""
    if isinstance(widget, QtWidgets.QComboBox):
        widget.currentTextChanged.connect(lambda *_: action())
    elif isinstance(widget, QtWidgets.QAbstractButton):
        widget.toggled.connect(lambda *_: action())
    elif isinstance(widget, QtWidgets.QLineEdit):
        widget.textChanged.connect(lambda *_: action())
    else:
        widget.findChild(QtWidgets.QLineEdit).textChanged.connect(lambda *_: action())


def later(parent: Any, action: Callable[[], None], patience: int = PATIENCE) -> Any:
    """A timer that runs `action` once the typing has paused for `patience` milliseconds; start() it at every change."""
    timer = QtCore.QTimer(parent)
    timer.setSingleShot(True)
    timer.setInterval(patience)
    timer.timeout.connect(action)
    return timer


def shown_length(millimetres: float) -> str:
    """A length for reading, in the user's units."""
    return str(FreeCAD.Units.Quantity(millimetres, FreeCAD.Units.Length).UserString)


def shown_volume(cubic_millimetres: float) -> str:
    """A volume of wood for reading: in the user's units, with board feet where inches are in use."""
    text = str(FreeCAD.Units.Quantity(cubic_millimetres, FreeCAD.Units.Volume).UserString)
    if inches_are_shown():
        text += f" ({cubic_millimetres / BOARD_FOOT:.1f} board feet)"
    return text


def inches_are_shown() -> bool:
    """Whether the user's unit schema is one in inches or feet."""
    return any(mark in shown_length(1234.5) for mark in ('"', "in", "'", "ft", "yd"))


def choice(name: str, items: list[tuple[str, Any]], chosen: Any = None, tip: str = "") -> Any:
    """A drop-down list; items are (text, data)."""
    box = QtWidgets.QComboBox()
    box.setObjectName(name)
    box.setToolTip(tip)
    for text, data in items:
        box.addItem(text, data)
    for index, (_, data) in enumerate(items):
        if data == chosen:
            box.setCurrentIndex(index)
    return box


def figure(name: str) -> Any:
    """A label for a figure that follows the typing; its text can be marked and copied."""
    label = QtWidgets.QLabel("–")
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
    return label


def group(title: str, rows: list[tuple[str, Any]]) -> tuple[Any, Any]:
    """A titled box of rows, (caption, widget) each; a row without a caption fills the width. Returns box and layout."""
    box = QtWidgets.QGroupBox(title)
    layout = QtWidgets.QFormLayout(box)
    layout.setFieldGrowthPolicy(QtWidgets.QFormLayout.AllNonFixedFieldsGrow)
    for caption, widget in rows:
        if caption:
            layout.addRow(caption, widget)
        else:
            layout.addRow(widget)
    return box, layout
