# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lines for times, temperatures, pressures, forces, weights and percents, and for any option that may be left out.

A line is read as its key in a settings file is: "8 min", "66 °F", "100 psi". A bare number is in the unit that is
shown; an empty line leaves the option out.
"""

from __future__ import annotations

from typing import Any

from freecad_stacklam.lamination.lengths import POUND, format_fine, parse_length, parse_number
from freecad_stacklam.lamination.options.kinds import plain
from freecad_stacklam.lamination.options.rows import Row
from freecad_stacklam.lamination.quantities import (
    POUND_FORCE,
    PSI,
    parse_force,
    parse_mass,
    parse_percent,
    parse_pressure,
    parse_temperature,
    parse_time,
)
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import typed_lengths, units_shown
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()
#: How a line looks whose text was refused: the sentence may stand out of sight. A red that reads on white (4.5 to 1, by
#: WCAG 2.1 §1.4.3) and on the dark style (3.9 to 1).
_REFUSED = "color: #d83c3c;"
_PARSE = {
    "s": parse_time, "°C": parse_temperature, "MPa": parse_pressure, "N": parse_force, "kg": parse_mass,
    "%": parse_percent,
}  # fmt: skip
#: The units of figures that are lines wherever they are asked.
QUANTITIES = tuple(_PARSE)
#: Unit inside → unit shown and its worth, metric and in inches.
_SHOWN = {
    "MPa": (("MPa", 1.0), ("psi", PSI)),
    "N": (("kN", 1000.0), ("lbf", POUND_FORCE)),
    "kg": (("kg", 1.0), ("lb", POUND)),
}
#: From how many seconds on a time is told in minutes, and from how many in hours.
_MINUTES, _HOURS = 120.0, 7200.0
#: Significant digits of a shown figure.
_DIGITS = 5


class _Line(QtWidgets.QLineEdit):  # type: ignore[name-defined]
    """A line that writes the unit behind a bare number when it is left. `unit`: of its option, as used inside."""

    unit = ""

    def focusOutEvent(self, event: Any) -> None:
        """Called by Qt."""
        text, told = self.text().strip(), str(self.property("told"))
        if text[-1:].isdigit() and text != told and (named := _bare_unit(self.unit, told)):
            quiet = self.blockSignals(True)  # it says what it said
            self.setText(f"{text} {named}")
            self.blockSignals(quiet)
        super().focusOutEvent(event)


def quantity_text(row: Row, value: Any) -> str:
    """A value as it could have been typed, in the user's units and decimal sign; "" for none."""
    return shown_decimals(_text(row, value))


def usual_text(row: Row, value: Any) -> str:
    """A value as it is told where it need not be read again: a length in the user's units, rounded as fits are."""
    if row.kind is not None and row.kind.unit == "mm" and value is not None:
        return shown_decimals(format_fine(value, units_shown()))
    return quantity_text(row, value)


def _text(row: Row, value: Any) -> str:
    assert row.kind is not None
    if value is None:
        return ""
    inches, unit = units_shown() == "in", row.kind.unit
    if unit == "mm":
        return typed_lengths([value])
    if unit == "s":
        named, worth = ("h", 3600.0) if value >= _HOURS else ("min", 60.0) if value >= _MINUTES else ("s", 1.0)
    elif unit == "°C":
        return f"{value * 1.8 + 32:.{_DIGITS}g} °F" if inches else f"{value:.{_DIGITS}g} °C"
    elif unit in _SHOWN:
        named, worth = _SHOWN[unit][inches]
    else:
        return " ".join(filter(None, (plain(value), unit)))
    return f"{value / worth:.{_DIGITS}g} {named}"


def quantity_field(row: Row, value: Any, name: str, usual: str = "") -> Any:
    """A line for one option; `usual` is shown, greyed, where it is left out."""
    text = quantity_text(row, value)
    line = _Line(text)
    line.unit = "" if row.kind is None else row.kind.unit
    line.setObjectName(name)
    line.setPlaceholderText(usual or translate("StackLam", "none"))
    line.setToolTip(say(row.tip))
    line.setProperty("told", text)
    return line


def quantity_value(row: Row, line: Any, start: Any) -> Any:
    """What a line says; `start` as long as its text is the first. Raises Refusal where it says nothing that can be, and
    marks the line."""
    try:
        found = _said(row, line, start)
    except Refusal:
        line.setStyleSheet(_REFUSED)
        raise
    if line.styleSheet():
        line.setStyleSheet("")
    return found


def _said(row: Row, line: Any, start: Any) -> Any:
    assert row.kind is not None
    text = line.text().strip()
    if text == line.property("told"):
        return start
    if not text and row.first is None:
        return None
    try:
        found = _parsed(row, typed_decimals(text), str(line.property("told")))
        fault = row.kind.fault(found)
    except Refusal as refusal:
        raise Refusal(f"“{row.caption}”: {refusal.sentence}") from None
    if fault and row.kind.least is not None and row.kind.most is not None and _has_unit(row):
        bounds = quantity_text(row, row.kind.least), quantity_text(row, row.kind.most)
        fault = translate("StackLam", "give {} to {}").format(*bounds)
    if fault:
        raise Refusal(translate("StackLam", "“{}” cannot be {}: {}.").format(row.caption, text, fault))
    return found


def _has_unit(row: Row) -> bool:
    """Whether an option's figures are shown in another unit than the one inside, which its own refusals would name."""
    return row.kind is not None and row.kind.unit in QUANTITIES


def _parsed(row: Row, text: str, told: str) -> Any:
    assert row.kind is not None
    unit = row.kind.unit
    if unit == "mm":
        return parse_length(text, units_shown())
    if unit in _PARSE:
        return _PARSE[unit](f"{text} {_bare_unit(unit, told)}" if text[-1:].isdigit() else text)
    found = parse_number(text)
    if row.kind.property == "Integer":
        if found != int(found):
            raise Refusal(translate("StackLam", "“{}” is no whole number.").format(text))
        return int(found)
    return found


def _bare_unit(unit: str, told: str) -> str:
    """The unit of a bare number: that of the text that stood there before, or the usual one; "" for a plain figure."""
    inches = units_shown() == "in"
    if unit in ("%", "mm"):
        return unit if unit == "%" else units_shown()
    if unit == "s":
        return told.rpartition(" ")[2] or "min"
    if unit == "°C":
        return "°F" if inches else "°C"
    return _SHOWN[unit][inches][0] if unit in _SHOWN else ""
