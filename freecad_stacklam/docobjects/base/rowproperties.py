# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rows of settings as properties of document objects: made, filled and read.

Where an option may be left out (None), the property's 0 stands for that. Options that behave in their own way say so in
their rows; the objects hold them by hand.
"""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.lamination.options.rows import Record, Row, rows_of


def properties_of(record: type[Record]) -> tuple[Property, ...]:
    """A property for each row that a property can hold, in the order of the rows."""
    return tuple(
        Property(row.kind.property, row.property, row.group, row.tip, _first(row), unit=_unit(row))
        for row in rows_of(record)
        if row.property and row.kind is not None
    )


def _unit(row: Row) -> str:
    """The unit of a plain figure, which FreeCAD shows without."""
    return row.kind.unit if row.kind is not None and row.kind.property == "Float" else ""


def fill(obj: Any, settings: Record) -> None:
    """Write the settings into the properties of their rows."""
    for row in rows_of(type(settings)):
        if row.property:
            _choose(obj, row.property, _held(getattr(settings, row.name), row))


def read(obj: Any, record: type[Record]) -> dict[str, Any]:
    """The values of the rows that properties hold, by the fields' names."""
    return {row.name: _value(getattr(obj, row.property), row) for row in rows_of(record) if row.property}


def _choose(obj: Any, name: str, value: Any) -> None:
    """Write a value; what a list does not offer, such as a wood that no table has, is added to it."""
    if isinstance(value, str) and obj.getTypeIdOfProperty(name) == "App::PropertyEnumeration":
        offered = list(obj.getEnumerationsOfProperty(name) or ())
        if value not in offered:
            setattr(obj, name, [*offered, value])
    setattr(obj, name, value)


def _first(row: Row) -> Any:
    if row.kind is not None and row.kind.property == "Enumeration":
        return list(row.kind.choices)
    return _held(row.first, row) if row.first else None


def _held(value: Any, row: Row) -> Any:
    """A value as FreeCAD's property takes it."""
    kind = row.kind.property if row.kind is not None else ""
    if kind in ("Vector", "VectorDistance"):
        return FreeCAD.Vector(*value)
    if isinstance(value, tuple):
        return list(value)
    if value is None:
        return 0 if kind == "Integer" else 0.0
    return value


def _value(held: Any, row: Row) -> Any:
    """What a property holds, as the record takes it."""
    if isinstance(held, FreeCAD.Vector):
        return held.x, held.y, held.z
    if isinstance(held, (list, tuple)):
        return tuple(held)
    plain = getattr(held, "Value", held)
    return None if row.first is None and not plain else plain
