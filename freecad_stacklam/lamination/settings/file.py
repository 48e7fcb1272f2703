# SPDX-License-Identifier: LGPL-2.1-or-later

"""The settings file: TOML text into Settings and back. Whatever it refuses, it says on which line and what is right.

A length is text with its unit. A bare number is taken as mm where units = "mm" and refused where units = "in". Nothing
in the file is ever executed.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import POINTS, SIDES, CarvingSettings, PickedPlane
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    COUNT,
    DATE,
    EMBED,
    FACE,
    FORCE,
    PLACE,
    ROOM,
    SIZE,
    TEXT,
    TIME,
    VOLUME,
    Kind,
    number,
    one_of,
    several,
)
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.settings.tomllines import Path, key_lines, line_of, toml_value

#: A table's keys: what each holds, a table of its own, or a list (of one table) of tables.
Schema = Mapping[str, Any]

HOLLOW: Schema = {
    "wall": SIZE, "caps": number(0, whole=True), "vent": ROOM, "margin": ROOM, "web": ROOM, "turn": ROOM,
    "least": number(0),
}  # fmt: skip
PINS: Schema = {
    "diameter": SIZE, "depth": SIZE, "margin": ROOM, "count": COUNT, "waste": BOOLEAN, "skip": several(COUNT),
    "share": number(0), "ratio": number(0),
}  # fmt: skip
STACK: Schema = {
    "form": TEXT, "stock": several(SIZE), "thicknesses": several(SIZE), "copies": COUNT, "glue_line_worth": VOLUME,
    "pick": one_of("least wood", "fewest layers"), "axis": AXIS, "allowance": ROOM, "species": TEXT, "grain": ANGLE,
    "fill_holes": BOOLEAN, "forced": several(PLACE), "forbidden": several(several(PLACE, 2)),
    "hollow": HOLLOW, "pins": PINS,
}  # fmt: skip
JOINT: Schema = {
    "name": TEXT, "through": several(PLACE, 3), "axis": AXIS, "section": one_of("square", "rectangle", "round"),
    "size": several(SIZE), "embed": EMBED, "clearance": ROOM, "end_room": ROOM, "species": TEXT, "turn": ANGLE,
    "ends": one_of("flush", "proud", "wedged"), "proud": ROOM, "swing": number(0), "relief": ROOM,
    "chisel_reach": SIZE,
}  # fmt: skip
CLAMP: Schema = {"kind": TEXT, "count": COUNT, "force": FORCE, "opening": SIZE, "throat": SIZE, "pad": SIZE}
BAND_SAW: Schema = {"blade": SIZE, "radius": SIZE, "height": SIZE, "throat": SIZE, "smallest_part": SIZE}
BIT: Schema = {
    "name": TEXT, "diameter": SIZE, "kind": one_of("twist", "brad point", "rim"), "angle": ANGLE, "point": ROOM,
    "length": SIZE,
}  # fmt: skip
SHOP: Schema = {
    "kerf": ROOM, "end_trim": ROOM, "jointing": ROOM, "stave_trim": ROOM, "stagger": ROOM, "max_stave": SIZE,
    "min_stave": SIZE, "seam_margin": ROOM, "planing": ROOM, "first_cut": one_of("crosscut", "rip", "better"),
    "spare_staves": number(0, whole=True), "glue_spread": number(0), "open_time": TIME, "close_time": TIME,
    "clamps": [CLAMP], "clamp_opening": SIZE, "clamp_throat": SIZE, "band_saw": BAND_SAW, "bits": [BIT],
}  # fmt: skip
BOARD: Schema = {
    "name": TEXT, "species": TEXT, "thickness": SIZE, "width": SIZE, "length": SIZE, "cost": number(0),
    "count": COUNT, "knots": several(several(PLACE, 4)), "per": one_of("board", "board foot", "m3"),
    "for_sale": BOOLEAN, "grade": one_of("FAS", "No. 1 common", "No. 2 common"),
}  # fmt: skip
PLANE: Schema = {"name": TEXT, "point": several(PLACE, 3), "normal": AXIS}
CARVING: Schema = {
    "azimuth_step": ANGLE, "azimuths": several(ANGLE), "station": SIZE, "stations_along": ANGLE,
    "templates": several(ANGLE), "planes": [PLANE], "level_templates": BOOLEAN, "gauges": several(one_of(*SIDES)),
    "clearance": ROOM, "margin": SIZE, "depth_holes": FACE, "pitch": SIZE, "leave": ROOM, "cover": ROOM,
    "landing": ROOM, "least_depth": SIZE, "bit": SIZE, "point": one_of(*POINTS), "angle": ANGLE,
    "point_length": ROOM, "bit_length": SIZE, "stop_step": SIZE, "rate": number(0),
}  # fmt: skip
FILE: Schema = {
    "title": TEXT, "units": one_of("mm", "in"), "paper": TEXT, "paper_full": TEXT, "date": DATE, "author": TEXT,
    "stack": [STACK], "joint": [JOINT], "shop": SHOP, "board": [BOARD],
    "carving": CARVING,
}  # fmt: skip


class _Reader:
    """Walks a parsed file by its schema; knows the file's name, the lines of its keys and the unit of bare numbers."""

    def __init__(self, name: str, lines: Mapping[Path, int], unit: str) -> None:
        self.name, self.lines, self.unit = name, lines, unit

    def refusal(self, path: Path, says: str) -> Refusal:
        line = line_of(self.lines, path)
        key = ".".join(p for p in path[-1:] if isinstance(p, str))
        return Refusal(f"{self.name}, line {line or 1}: {key + ': ' if key else ''}{says}")

    def table(self, facts: Any, schema: Schema, path: Path) -> dict[str, Any]:
        if not isinstance(facts, dict):
            raise self.refusal(path, 'a table of keys is needed here, as in {key = "value"}.')
        return {key: self.value(value, key, schema, (*path, key)) for key, value in facts.items()}

    def value(self, value: Any, key: str, schema: Schema, path: Path) -> Any:
        if key not in schema:
            near = get_close_matches(key, schema, 1, 0.5)
            hint = f"did you mean “{near[0]}”?" if near else f"the keys here are {', '.join(schema)}."
            raise self.refusal(path[:-1] + (key,), f"there is no such key; {hint}")
        kind = schema[key]
        if isinstance(kind, Kind):
            try:
                return kind.read(value, self.unit)
            except Refusal as error:
                raise self.refusal(path, str(error)) from None
        if isinstance(kind, list):
            if not isinstance(value, list):
                head = f"[[{key}]]" if len(path) == 1 else f"a list of tables, {key} = [{{…}}]"
                raise self.refusal(path, f"write {head}, because there can be several.")
            return tuple(self.table(v, kind[0], (*path, i)) for i, v in enumerate(value))
        return self.table(value, kind, path)


def read_settings(text: str, name: str = "settings") -> Settings:
    """Settings from the text of a TOML file called `name`. Raises Refusal: "name, line 7: …"."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        facts = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax(str(error), text, name) from None
    except RecursionError:
        raise Refusal(f"{name}, line 1: brackets are nested too deep: write the file as the README shows.") from None
    reader = _Reader(name, key_lines(text), "mm" if facts.get("units", "mm") == "mm" else "")
    read = reader.table(facts, FILE, ())
    stacks = tuple(_made(reader, StackSettings, s, ("stack", i)) for i, s in enumerate(read.pop("stack", ())))
    joints = []
    for i, joint in enumerate(read.pop("joint", ())):
        if not joint.get("name"):
            raise reader.refusal(("joint", i), 'this joint has no name: add one, as in name = "Pedestal to top".')
        joints.append(_made(reader, JointSettings, joint, ("joint", i)))
    carving = _carving(reader, read.pop("carving")) if "carving" in read else None
    return Settings(
        stacks=stacks, joints=tuple(joints), shop=read.pop("shop", {}), boards=read.pop("board", ()), carving=carving,
        **read,
    )  # fmt: skip


def _carving(reader: _Reader, table: dict[str, Any]) -> CarvingSettings:
    planes = []
    for i, plane in enumerate(table.pop("planes", ())):
        path = ("carving", "planes", i)
        if not plane.get("name"):
            raise reader.refusal(path, 'this plane has no name: add one, as in name = "Through the arm".')
        planes.append(_made(reader, PickedPlane, plane, path))
    made: CarvingSettings = _made(reader, CarvingSettings, {**table, "planes": tuple(planes)}, ("carving",))
    return made


def _made(reader: _Reader, record: Any, values: dict[str, Any], path: Path) -> Any:
    try:
        return record(**values)
    except Refusal as error:
        raise reader.refusal(path, str(error)) from None


def _syntax(message: str, text: str, name: str) -> Refusal:
    found = re.search(r"\(at line (\d+)", message)
    line = int(found[1]) if found else text.count("\n") + 1
    what = re.sub(r"\s*\(at .*", "", message.splitlines()[0]).rstrip(".")
    return Refusal(f'{name}, line {line}: this is not TOML ({what}): write key = "value", with text in quotes.')


def write_settings(settings: Settings) -> str:
    """The text of a settings file that reads back as the same settings."""
    lines = []
    for key in ("title", "units", "paper", "paper_full", "date", "author"):
        lines.append(f"{key} = {toml_value(getattr(settings, key))}")
    for head, schema, tables in (
        ("[[stack]]", STACK, [_fields(s, STACK) for s in settings.stacks]),
        ("[[joint]]", JOINT, [_fields(j, JOINT) for j in settings.joints]),
        ("[shop]", SHOP, [settings.shop] if settings.shop else []),
        ("[[board]]", BOARD, list(settings.boards)),
        ("[carving]", CARVING, [_guide(settings.carving)] if settings.carving else []),
    ):
        for table in tables:
            lines += ["", head]
            lines += [f"{key} = {toml_value(value)}" for key, value in _written(table, schema).items()]
    return "\n".join(lines) + "\n"


def _fields(record: StackSettings | JointSettings, schema: Schema) -> dict[str, Any]:
    """The keys of a record that say something: no empty words, no tables that are not there."""
    values = {key: getattr(record, key) for key in schema}
    left_out = {"pick", "hollow", "pins", "thicknesses", "forced", "forbidden"}
    return {k: v for k, v in values.items() if v is not None and (v or isinstance(v, Mapping) or k not in left_out)}


def _guide(carving: CarvingSettings) -> dict[str, Any]:
    values = {key: getattr(carving, key) for key in CARVING}
    values["planes"] = [{key: getattr(plane, key) for key in PLANE} for plane in carving.planes]
    return {key: value for key, value in values.items() if value is not None}


def _written(table: Mapping[str, Any], schema: Schema) -> dict[str, Any]:
    made = {}
    for key, value in table.items():
        kind = schema[key]
        if isinstance(kind, Kind):
            made[key] = kind.write(value)
        elif isinstance(kind, list):
            made[key] = [_written(v, kind[0]) for v in value]
        else:
            made[key] = _written(value, kind)
    return made
