# SPDX-License-Identifier: LGPL-2.1-or-later

"""Properties of the document objects: what users' files hold by name stays as it was, and rows go in and come out.

saved/properties.json is what version 0.1.0 wrote, kept from before properties were made from rows.
"""

from __future__ import annotations

import json
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

PLACES = {"Carving": "carvingguide", "GlueLines": "gluelines"}
SAVED = json.loads((Path(__file__).parent / "saved" / "properties.json").read_text(encoding="utf-8"))
#: What a step of base/migration.py has given another type.
CHANGED = {
    "Stack": {"Species": ["Enumeration", "Boards"]},
    "Joint": {"Species": ["Enumeration", "Tenon"]},
}


@pytest.mark.parametrize("name", sorted(SAVED))
def test_no_property_of_a_saved_file_has_another_type_or_group(name: str) -> None:
    module = import_module(f"freecad_stacklam.docobjects.{PLACES.get(name, name.lower())}")
    now = {p.name: [p.kind, p.group] for p in getattr(module, name).PROPERTIES}
    assert {key: now.get(key) for key in SAVED[name]} == SAVED[name] | CHANGED.get(name, {})


@pytest.fixture()
def made(request: pytest.FixtureRequest) -> Any:
    """An object with the properties of a record, and the record."""
    import FreeCAD

    from freecad_stacklam.docobjects.base.properties import add_properties
    from freecad_stacklam.docobjects.base.rowproperties import properties_of

    document = FreeCAD.newDocument("rows")
    obj = document.addObject("App::FeaturePython", "Rows")
    add_properties(obj, properties_of(request.param))
    yield obj, request.param
    FreeCAD.closeDocument(document.Name)


def records() -> list[Any]:
    from freecad_stacklam.lamination.settings.carving import CarvingSettings
    from freecad_stacklam.lamination.settings.hollow import HollowSettings
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.pins import PinSettings
    from freecad_stacklam.lamination.settings.shop import ShopSettings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    return [CarvingSettings, HollowSettings, PinSettings, ShopSettings, Settings, StackSettings]


@pytest.mark.parametrize("made", records(), indirect=True)
def test_a_new_object_says_the_first_values(made: Any) -> None:
    from freecad_stacklam.docobjects.base.rowproperties import read

    obj, record = made
    first = record()
    for name, value in read(obj, record).items():
        assert value == getattr(first, name), name


@pytest.mark.parametrize("made", records(), indirect=True)
def test_what_is_filled_in_is_read_back(made: Any) -> None:
    from freecad_stacklam.docobjects.base.rowproperties import fill, read
    from freecad_stacklam.lamination.options.rows import rows_of

    obj, record = made
    other: dict[str, Any] = {}
    for row in rows_of(record):
        if not row.property or row.kind is None:
            continue
        first = row.first
        if row.kind.choices and isinstance(first, str):
            other[row.name] = row.kind.choices[-1]
        elif isinstance(first, bool):
            other[row.name] = not first
        elif isinstance(first, int):
            other[row.name] = first + 1
        elif first is None or isinstance(first, float):
            # within the row's bounds, and where a share must stay below one
            other[row.name] = (first or 0.0) + (0.25 if row.kind.property == "Float" else 1.25)
        elif isinstance(first, str):
            other[row.name] = first + " Ä“x”"
    changed = replace(record(), **other)
    fill(obj, changed)
    found = read(obj, record)
    for name in other:
        assert found[name] == getattr(changed, name), name
    assert replace(record(), **found) == changed
