# SPDX-License-Identifier: LGPL-2.1-or-later

"""Fields for lengths and angles, and figures in the maker's own units.

Lengths are taken as numbers (mm), as they were given or typed; the text that FreeCAD shows is rounded and never read.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Callable, Collection, Iterable
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.lamination.lengths import INCH, parse_angle, parse_length, parse_lengths
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panelparts.folding import Folding
from freecad_stacklam.workbench.panelparts.wrapping import Beside, Rows

QtWidgets = widgets()

#: 144 in³ in mm³.
BOARD_FOOT = 144 * INCH**3
#: Room between a box and its rows, pixels: left, above, right, below.
MARGINS = (6, 6, 6, 6)
#: Milliseconds of quiet before the figures follow what is typed.
PATIENCE = 150

#: Most decimals of a field in inches, enough for a fit and for sixteenths; and the fewest, FreeCAD's own.
MOST_PLACES, FEWEST_PLACES = 4, 2
#: Least width of a field, and of one of two side by side, pixels: a panel is then no wider than FreeCAD's own at first.
NARROW, NARROWER = 105, 84
#: Most width that a button or a tick asks for, pixels.
LONGEST = 170
#: Least width of a line for a text: beside a long caption its words could not be read, and it goes below.
READABLE = 150

#: The field's own value, kept beside the one that FreeCAD rounds; and why there is none, a sentence.
EXACT, FAULT = "exactValue", "fault"


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
    field.setToolTip(tip)
    set_value(field, value)
    minder = _Minder(field, unit)
    _minders.append(minder)
    minder.put_fine()
    return field


class _Minder(QtCore.QObject):
    """Reads what is typed into a field, and keeps its exact value.

    FreeCAD itself reads 1-3/4 as a subtraction, takes the locale's other decimal sign for one between thousands, drops
    what it does not understand, and rounds what it read to the decimals it shows. So a text that the maker typed is
    read by `parse_length` alone; FreeCAD gets the number when the field is left, and a change within its rounding is
    none.

    The one place that refers to a field and its line: the binding keeps what a lambda holds beyond the field's death,
    and would then hand out that dead shell for a new widget at the same place in memory.
    """

    def __init__(self, field: Any, unit: str) -> None:
        super().__init__()
        self.field, self.unit, self.length = field, unit, unit == "mm"
        self.edit = field.findChild(QtWidgets.QLineEdit)
        self.shown = self.edit.text()  # as FreeCAD wrote it last: a bare number is in its unit
        self.busy = False
        self.dropped = ""  # a bad text, which FreeCAD replaces by the value before
        self.finer = QtCore.QTimer(self)
        self.finer.setSingleShot(True)
        self.finer.timeout.connect(self.put_fine)
        self.back = QtCore.QTimer(self)
        self.back.setSingleShot(True)
        self.back.timeout.connect(self.put_back)
        self.edit.textChanged.connect(self.keep_exact)
        field.installEventFilter(self)
        self.edit.installEventFilter(self)

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Before the field is left, give FreeCAD the number that was typed; bad text stays to be mended."""
        leaves = event.type() == QtCore.QEvent.FocusOut or (
            event.type() == QtCore.QEvent.KeyPress and event.key() in (QtCore.Qt.Key_Return, QtCore.Qt.Key_Enter)
        )
        if leaves and not self.busy and self.edit.isModified():
            if self.field.property(FAULT):
                self.dropped = self.edit.text()
                self.back.start()
            else:
                self._write(value_of(self.field))
        return False

    def _write(self, value: float) -> None:
        self.busy = True
        try:
            self.field.setProperty("unit", self.unit)  # some versions took another from a bad text, such as 40 kg
            self.field.setProperty("rawValue", value)
            self.edit.setModified(False)
            self.field.setProperty(EXACT, value)
        finally:
            self.busy = False
        self.shown = self.edit.text()
        self.finer.start()

    @QtCore.Slot(str)
    def keep_exact(self, text: str) -> None:
        """After every change of the text; what FreeCAD makes of a bad one does not count."""
        if self.busy or self.back.isActive():
            return
        raw, exact = float(self.field.property("rawValue")), self.field.property(EXACT)
        if not self.edit.isModified():
            self.field.setProperty(FAULT, "")
            self.shown = text
            self.finer.start()  # once FreeCAD is done with the field
            if exact is None or abs(raw - exact) > _rounding(text, raw):
                self.field.setProperty(EXACT, raw)
            return
        try:
            self.field.setProperty(EXACT, self._read(text, raw))
            self.field.setProperty(FAULT, "")
        except Refusal as refusal:
            self.field.setProperty(FAULT, refusal.told(units_shown()))

    @QtCore.Slot()
    def put_back(self) -> None:
        """Put the bad text back, once FreeCAD is done with the field, for the maker to mend."""
        if self in _minders and alive(self.edit):
            self.edit.setText(self.dropped)
            self.edit.setModified(True)
            self.keep_exact(self.dropped)

    @QtCore.Slot()
    def put_fine(self) -> None:
        """Show the exact value, to a tenth of a thousandth, where FreeCAD rounds decimal inches: 1-1/16 in is not 1.06,
        and 0.1 mm not 0.00."""
        if not self.length or self not in _minders or not alive(self.edit) or self.edit.isModified():
            return
        shown = re.fullmatch(r"\s*-?\d+[.,]\d+(\s*in)", self.edit.text())
        if shown is None:
            return
        inches = float(self.field.property(EXACT)) / INCH
        _, _, places = f"{inches:.{MOST_PLACES}f}".partition(".")
        places = places.rstrip("0").ljust(FEWEST_PLACES, "0")
        number = QtCore.QLocale().toString(inches, "f", len(places))
        # FreeCAD, which would round it, keeps its own number.
        quiet = self.edit.blockSignals(True)
        try:
            self.edit.setText(number + shown[1])
            self.edit.setModified(False)
        finally:
            self.edit.blockSignals(quiet)
        self.shown = self.edit.text()

    def _read(self, text: str, raw: float) -> float:
        comma = QtCore.QLocale().decimalPoint() in (",", ord(","))
        try:
            if not self.length:
                return parse_angle(text)
            return parse_length(text, _unit_shown(self.shown), comma=comma)
        except Refusal:
            if "," in text or not re.search(r"[+*(]", text):
                raise
        try:  # a sum is the host's to work out
            FreeCAD.Units.Quantity(text)
        except (ValueError, OSError, RuntimeError):
            raise Refusal(translate("StackLam", "“{}” cannot be worked out: write a length.").format(text)) from None
        return raw


def _unit_shown(text: str) -> str:
    """The unit of a bare number in a field that shows `text`: its last one; feet and inches go on in inches."""
    if re.search(r"[\"″”]\s*$", text) or ("'" in text and '"' in text):
        return "in"
    found = re.search(r"(µm|μm|mm|cm|km|m|thou|in|ft|yd|mi|')\s*$", text)
    if found is None:
        return "in" if inches_are_shown() else "mm"
    return {"'": "ft", "μm": "µm"}.get(found[1], found[1])


_minders: list[_Minder] = []


def let_go() -> None:
    """Forget all fields, when a panel closes and before another is built. They are not looked at: some versions of the
    binding crash when a widget that is no more is asked anything."""
    _minders.clear()
    gc.collect()


def let_go_of(held: Collection[int]) -> None:
    """Forget the fields with these ids alone: their window goes, and a panel may be open beside it."""
    _minders[:] = [minder for minder in _minders if id(minder.field) not in held]
    gc.collect()


def _rounding(text: str, raw: float) -> float:
    """Half of the last place that a shown text has, mm or degrees."""
    if "/" in text or "'" in text:
        return INCH / 8 / 2  # eighths of an inch are the coarsest fractions FreeCAD shows unless told otherwise
    shown = re.match(r"\s*([-+]?\d*)[.,]?(\d*)", text)
    if shown is None or not (shown[1] or shown[2]):
        return 0.0
    number = abs(float(f"{shown[1] or 0}.{shown[2] or 0}"))
    unit = abs(raw) / number if number else (INCH if _unit_shown(text) == "in" else 1.0)
    return 0.501 * unit * 10.0 ** -len(shown[2])


def _new_quantity_field() -> Any:
    """FreeCAD's own field for quantities.

    Where a field of an earlier panel lay in memory, the binding may hand back that field's dead shell; it lets go of
    it once nothing in Python refers to it.
    """
    dead = []
    for _ in range(8):
        field = FreeCADGui.UiLoader().createWidget("Gui::QuantitySpinBox")
        if alive(field) and field.findChild(QtWidgets.QLineEdit) is not None:
            return field
        dead.append(field)
        gc.collect()
    raise Refusal(translate("StackLam", "FreeCAD gave no field to type in: save your work and start FreeCAD again."))


def alive(widget: Any) -> bool:
    """Whether the binding's object stands for the widget it was given for, which itself must be there."""
    try:
        widget.objectName()
    except RuntimeError:
        return False
    return True


def value_of(field: Any) -> float:
    """What the field holds, mm or degrees, as it was given or typed. Raises Refusal for a text that is no length."""
    fault = field.property(FAULT)
    if fault:
        raise Refusal(fault)
    return float(field.property(EXACT))


def set_value(field: Any, value: float) -> None:
    """Put a value, mm or degrees, into the field."""
    field.setProperty(FAULT, "")
    field.setProperty(EXACT, float(value))
    field.setProperty("rawValue", float(value))
    field.setProperty(EXACT, float(value))


def refused(field: Any) -> bool:
    """Whether what stands in a field is what is refused: a text that could not be read."""
    return bool(field.property(FAULT) or (isinstance(field, QtWidgets.QLineEdit) and field.styleSheet()))


def on_change(widget: Any, action: Callable[[], None]) -> None:
    """Call `action` whenever the maker, or the panel, changes what the widget holds."""
    if isinstance(widget, QtWidgets.QComboBox):
        widget.currentTextChanged.connect(lambda *_: action())
    elif isinstance(widget, QtWidgets.QAbstractButton):
        widget.toggled.connect(lambda *_: action())
    elif isinstance(widget, (QtWidgets.QLineEdit, QtWidgets.QPlainTextEdit)):
        widget.textChanged.connect(lambda *_: action())
    else:
        widget.findChild(QtWidgets.QLineEdit).textChanged.connect(lambda *_: action())


def later(parent: Any, action: Callable[[], Any], patience: int = PATIENCE) -> Any:
    """A timer that runs `action` once the typing has paused for `patience` milliseconds; start() it at every change."""
    timer = QtCore.QTimer(parent)
    timer.setObjectName("typingPause")
    timer.setSingleShot(True)
    timer.setInterval(patience)
    timer.timeout.connect(action)
    return timer


def shown_length(millimetres: float) -> str:
    """A length for reading, in the user's units."""
    text = str(FreeCAD.Units.Quantity(millimetres, FreeCAD.Units.Length).UserString)
    if text.endswith(("µm", "μm", "nm")):  # no length of wood: what is left of a millimetre
        return f"{QtCore.QLocale().toString(round(millimetres, 2) + 0.0, 'f', 2)} mm"
    return text


def typed_lengths(many: Iterable[float]) -> str:
    """Lengths in mm as they could have been typed, exactly: in decimal inches where these are shown and a length has no
    more places of them than a fit."""
    said = []
    for mm in many:
        inches = round(mm / INCH, MOST_PLACES)
        exact = inches_are_shown() and abs(inches * INCH - mm) < ROUNDING
        said.append(f"{inches:.12g} in" if exact else f"{mm:.12g} mm")
    return shown_decimals("; ".join(said))


def read_lengths(text: str) -> tuple[float, ...]:
    """The lengths of such a text, mm; a bare number is in the unit that is shown. Raises Refusal."""
    return parse_lengths(typed_decimals(text), units_shown())


def shown_volume(cubic_millimetres: float) -> str:
    """A volume of wood for reading: in the user's units, with board feet where inches are in use."""
    text = str(FreeCAD.Units.Quantity(cubic_millimetres, FreeCAD.Units.Volume).UserString).replace("^3", "³")
    litres = cubic_millimetres / 1e6
    if text.endswith("ml") and litres >= 0.01:  # to be compared with the litres above and below it
        text = f"{QtCore.QLocale().toString(litres, 'f', 2)} l"
    if inches_are_shown():
        text += f" ({cubic_millimetres / BOARD_FOOT:.1f} board feet)"
    return text


def inches_are_shown() -> bool:
    """Whether the user's unit schema is one in inches or feet."""
    _, factor, _ = FreeCAD.Units.Quantity(1234.5, FreeCAD.Units.Length).getUserPreferred()
    # How many mm the schema's own unit has: an inch, a foot or a yard, which are whole numbers of inches.
    inches = float(factor) / INCH
    return inches >= 1.0 - ROUNDING and abs(inches - round(inches)) < ROUNDING


def units_shown() -> str:
    """How sentences tell lengths in this window, "in" or "mm"."""
    return "in" if inches_are_shown() else "mm"


def choice(name: str, items: list[tuple[str, Any]], chosen: Any = None, tip: str = "") -> Any:
    """A drop-down list; items are (text, data), each text in the language of the window already."""
    box = QtWidgets.QComboBox()
    box.setObjectName(name)
    box.setToolTip(tip)
    for text, data in items:
        box.addItem(text, data)
    for index, (_, data) in enumerate(items):
        if data == chosen:
            box.setCurrentIndex(index)
    return box


class _Figure(QtWidgets.QLabel):  # type: ignore[name-defined]
    """A label that is as high as its lines: the panel of 0.20 keeps its height when they become more, and cuts them."""

    def setText(self, text: str) -> None:
        """See QLabel."""
        super().setText(text)
        self._fit()

    def resizeEvent(self, event: Any) -> None:
        """Called by Qt: another width may be another number of lines."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        self.setMinimumHeight(max(self.heightForWidth(self.width()), 0))


def figure(name: str) -> Any:
    """A label for a figure that follows the typing; its text can be marked and copied."""
    label = _Figure("–")
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
    return label


def group(title: str, rows: list[tuple[str, Any]], shown: bool = True) -> tuple[Any, Any]:
    """A part of a panel: rows, (caption, widget) each; a row without a caption fills the width. Under a title it folds
    away, and is `shown` until the maker says otherwise. Returns the part and the layout of its rows."""
    holder = Rows(MARGINS)
    for caption, widget in rows:
        _narrow(widget)
        if caption:
            label = QtWidgets.QLabel(caption)
            label.setMinimumWidth(1)  # it may go into several lines
            label.setBuddy(widget)
            holder.form.addRow(label, widget)
        else:
            holder.form.addRow(widget)
    if not title:
        return holder, holder.form
    first = next((name for _, widget in rows if (name := _name_in(widget))), "")
    return Folding(title, f"fold{first[:1].upper()}{first[1:]}", holder, shown), holder.form


def _name_in(widget: Any) -> str:
    """The objectName of a field, or of the first in a row of them."""
    names = (str(w.objectName()) for w in (widget, *widget.findChildren(QtWidgets.QWidget)))
    return next((name for name in names if name and not name.startswith("qt_")), "")


def _narrow(widget: Any, least: int = NARROW) -> None:
    """Let a field shrink with the panel: by itself it would be as wide as the longest text it could show."""
    if widget.minimumWidth() > 0:
        return  # it has a width of its own
    if isinstance(widget, QtWidgets.QComboBox):
        widget.setMinimumWidth(least)
        widget.view().setMinimumWidth(widget.sizeHint().width())  # its list shows every word
    elif isinstance(widget, QtWidgets.QAbstractSpinBox):
        widget.setMinimumWidth(least)
    elif isinstance(widget, QtWidgets.QAbstractButton):
        widget.setMinimumWidth(min(widget.sizeHint().width(), LONGEST))
    elif isinstance(widget, QtWidgets.QLineEdit):
        widget.setMinimumWidth(READABLE if least == NARROW else least)


def side_by_side(*widgets: Any) -> Any:
    """Widgets in one row, or one below the other where there is no room; the first takes what room there is."""
    for widget in widgets:
        _narrow(widget, NARROWER)
    return Beside(widgets, LONGEST)


def show_row(layout: Any, widget: Any, visible: bool) -> None:
    """Show or hide a row of a form layout, caption and all."""
    caption = layout.labelForField(widget)
    if caption is not None:
        caption.setVisible(visible)
    widget.setVisible(visible)
