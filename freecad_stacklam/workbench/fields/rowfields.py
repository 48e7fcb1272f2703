# SPDX-License-Identifier: LGPL-2.1-or-later

"""Fields of a panel made from the rows of a record: caption, tip, kind and bounds are written once, at the row.

A field's objectName is the row's property with a small first letter (pinDiameter where the prefix is "pin"). What
behaves in its own way is left out here and built by the panel itself.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from typing import Any

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.options.rows import Record, Row, rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.decimals import comma_is_decimal, shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import angle_field, choice, length_field, units_shown, value_of
from freecad_stacklam.workbench.fields.quantityfields import QUANTITIES, quantity_field, quantity_value
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()
#: Largest whole number and largest figure where a row has no bound.
MOST_COUNT, MOST_FIGURE = 999, 1e6
#: An area is typed in cm² or in², a volume in cm³ or in³: how many mm² and mm³ these are, and the places shown.
_TYPED_IN = {
    "mm": {"Area": (100.0, " cm²", 0), "Volume": (1000.0, " cm³", 0)},
    "in": {"Area": (INCH**2, " in²", 1), "Volume": (INCH**3, " in³", 1)},
}
_SPACES = tuple(_TYPED_IN["mm"])


def _typed_in(kind: str) -> tuple[float, str, int]:
    """The unit of a figure in mm², mm³ or none, its sign, and how many places of it are shown."""
    return _TYPED_IN[units_shown()].get(kind, (1.0, "", 3))


class RowFields:
    """The fields of one record, with the values of `start`.

    without: rows that the panel builds by hand. words: for options of a few words, what is shown for each. usual: for
    options that may be left out, what then holds; they are lines of text, in which it is shown greyed.
    """

    def __init__(
        self,
        start: Record,
        prefix: str = "",
        without: Collection[str] = (),
        words: Mapping[str, Mapping[str, str]] | None = None,
        usual: Mapping[str, str] | None = None,
    ) -> None:
        self._start, self._usual = start, dict(usual or {})
        self.rows = {row.name: row for row in rows_of(type(start)) if row.property and row.name not in without}
        self.fields: dict[str, Any] = {}
        for name, row in self.rows.items():
            shown, told = (words or {}).get(name, {}), getattr(start, name)
            if self._is_line(row):
                self.fields[name] = quantity_field(row, told, _object_name(prefix, row), self._usual.get(name, ""))
            else:
                self.fields[name] = _field(row, told, _object_name(prefix, row), shown)

    def __getitem__(self, name: str) -> Any:
        """The field of one row."""
        return self.fields[name]

    def lines(self, *names: str) -> list[tuple[str, Any]]:
        """Caption and field of these rows, or of all, for `group`."""
        return [("" if _is_check(row) else _caption(row), self.fields[row.name]) for row in self._chosen(names)]

    def of_group(self, title: str) -> list[tuple[str, Any]]:
        """Caption and field of the rows of one group."""
        return self.lines(*(name for name, row in self.rows.items() if row.group == title))

    def values(self) -> dict[str, Any]:
        """What the fields hold, by the names of the record's fields. Raises Refusal where a text is no such value."""
        return {
            name: (quantity_value if self._is_line(row) else _value)(row, self.fields[name], getattr(self._start, name))
            for name, row in self.rows.items()
        }

    def _is_line(self, row: Row) -> bool:
        return row.name in self._usual or (row.kind is not None and row.kind.unit in QUANTITIES)

    def __iter__(self) -> Iterator[Any]:
        return iter(self.fields.values())

    def _chosen(self, names: tuple[str, ...]) -> list[Row]:
        return [self.rows[name] for name in names] if names else list(self.rows.values())


def _object_name(prefix: str, row: Row) -> str:
    return prefix + row.property if prefix else row.property[0].lower() + row.property[1:]


def _caption(row: Row) -> str:
    """The caption, with what 0 means where it is no measure."""
    said = say(row.caption)
    return f"{said} (0: {say(row.nothing)})" if row.nothing else said


def _is_check(row: Row) -> bool:
    return row.kind is not None and row.kind.property == "Bool"


def _field(row: Row, value: Any, name: str, words: Mapping[str, str]) -> Any:
    assert row.kind is not None
    kind = row.kind.property
    if kind in ("Length", "Distance"):
        return length_field(name, value or 0.0, say(row.tip))
    if kind == "Angle":
        return angle_field(name, value, say(row.tip))
    if kind == "Enumeration":
        return choice(
            name,
            [(translate("StackLam", words[c]) if c in words else say(c), c) for c in row.kind.choices],
            value,
            say(row.tip),
        )
    if kind == "Bool":
        field = QtWidgets.QCheckBox(say(row.caption))
        field.setChecked(value)
    elif kind == "Integer":
        field = QtWidgets.QSpinBox()
        field.setRange(int(row.kind.least or 0), int(row.kind.most or MOST_COUNT))
        field.setValue(value)
    elif kind in ("Float", *_SPACES):
        field = _figure_field(row, value)
    elif kind == "String":
        field = QtWidgets.QLineEdit(value)
    else:
        parted = "; " if comma_is_decimal() else ", "
        field = QtWidgets.QLineEdit(parted.join(shown_decimals(f"{v:.12g}") for v in value))
        field.setPlaceholderText(translate("StackLam", "none"))
    field.setObjectName(name)
    field.setToolTip(say(row.tip))
    return field


def _figure_field(row: Row, value: float | None) -> Any:
    """A field for a plain number; where the option may be left out, its least value stands for that."""
    assert row.kind is not None
    field = QtWidgets.QDoubleSpinBox()
    _, suffix, places = _typed_in(row.kind.property)
    field.setDecimals(places)
    field.setRange(row.kind.least or 0.0, row.kind.most or MOST_FIGURE)
    field.setSingleStep(0.1)
    if row.first is None:
        field.setSpecialValueText(translate("StackLam", "none"))
    if suffix:
        field.setSuffix(suffix)
    elif row.kind.unit:
        field.setSuffix(" " + say(row.kind.unit))
    field.setValue(_typed(row, value))
    return field


def _typed(row: Row, value: float | None) -> float:
    assert row.kind is not None
    scale, _, places = _typed_in(row.kind.property)
    return round((value or 0.0) / scale, places)


def _value(row: Row, field: Any, start: Any) -> Any:
    assert row.kind is not None
    kind = row.kind.property
    if kind in ("Length", "Distance", "Angle"):
        held = value_of(field)
        return held or None if row.first is None else held
    if kind == "Enumeration":
        return field.currentData()
    if kind == "Bool":
        return field.isChecked()
    if kind == "Integer":
        return field.value()
    if kind == "String":
        return field.text().strip()
    if kind in ("Float", *_SPACES):
        # The field shows fewer places than a value may have; what was not touched keeps its own.
        if field.value() == _typed(row, start):
            return start
        held = field.value() * _typed_in(kind)[0]
        return held or None if row.first is None else held
    return _numbers(row, field.text())


def _numbers(row: Row, text: str) -> tuple[Any, ...]:
    words = [word.rstrip("°") for word in re.split(r"[\s,;]+", typed_decimals(text)) if word]
    whole = row.kind is not None and row.kind.property == "IntegerList"
    try:
        return tuple(int(word) if whole else float(word) for word in words)
    except ValueError:
        raise Refusal(
            translate("StackLam", "“{}”: “{}” are no {}numbers: {}.").format(
                row.caption, text, "whole " if whole else "", row.tip
            )
        ) from None
