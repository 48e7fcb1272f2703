# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a key of the settings file may hold: how it is read into mm, minutes, newtons, and how it is written back."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.lengths import parse_angle, parse_length, parse_volume
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import FACES

AXES = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}
#: Newtons in what forces are written in; the pound-force is 0.45359237 kg × 9.80665 m/s² (ISO 80000-4).
FORCES = {"N": 1.0, "kN": 1000.0, "lbf": 0.45359237 * 9.80665}
MINUTES = {"s": 1 / 60, "min": 1.0, "h": 60.0}


@dataclass(frozen=True)
class Kind:
    """`read` takes a TOML value and the unit of bare numbers ("" : none) and raises Refusal; `write` takes it back."""

    read: Callable[[Any, str], Any]
    write: Callable[[Any], Any] = lambda value: value


def plain(value: float) -> str:
    """A number in full, without exponent."""
    return format(Decimal(repr(float(value))), "f")


def _length(value: Any, unit: str) -> float:
    if not isinstance(value, (str, int, float)):
        raise Refusal(f'a length is needed, as in "45mm" or "1-3/4in", not {_shown(value)}.')
    return parse_length(value, unit)


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"“{value}”" if isinstance(value, str) else str(value)


def length(least: float | None = None, above: bool = False) -> Kind:
    """A length in mm, of at least `least`, or more than it."""

    def read(value: Any, unit: str) -> float:
        size = _length(value, unit)
        if least is not None and (size < least or (above and size <= least)):
            wanted = f"more than {least:g} mm" if above else f"{least:g} mm or more"
            raise Refusal(f"{_shown(value)} is impossible here: give {wanted}.")
        return size

    return Kind(read, lambda mm: f"{plain(mm)}mm")


def number(least: float | None = None, whole: bool = False) -> Kind:
    """A plain number."""

    def read(value: Any, unit: str) -> float | int:
        fits = not isinstance(value, bool) and isinstance(value, (int, float)) and isfinite(value)
        if not fits or (whole and not isinstance(value, int)):
            kind = "whole number" if whole else "number"
            raise Refusal(f"a {kind} is needed, without quotes or unit, not {_shown(value)}.")
        if least is not None and value < least:
            raise Refusal(f"{value} is impossible here: give {least:g} or more.")
        return value if whole else float(value)

    return Kind(read)


def one_of(*choices: str) -> Kind:
    """One of a few words."""

    def read(value: Any, unit: str) -> str:
        if value not in choices:
            raise Refusal(f"{_shown(value)} is not known here: write {' or '.join(repr(c)[1:-1] for c in choices)}.")
        return str(value)

    return Kind(read)


def several(kind: Kind, count: int | None = None) -> Kind:
    """A list, of `count` values where that is given; a single value stands for a list of one where it is not."""

    def read(value: Any, unit: str) -> tuple[Any, ...]:
        if not isinstance(value, list):
            if count is not None:
                raise Refusal(f"a list of {count} values in [ ] is needed, not {_shown(value)}.")
            value = [value]
        if count is not None and len(value) != count:
            raise Refusal(f"a list of {count} values is needed, not of {len(value)}.")
        return tuple(kind.read(v, unit) for v in value)

    return Kind(read, lambda values: [kind.write(v) for v in values])


def measured(what: str, units: Mapping[str, float], written: str, example: str) -> Kind:
    """A figure above 0 with its unit in text, as in "10min"."""
    pattern = re.compile(rf"(\d+(?:\.\d*)?|\.\d+)\s*({'|'.join(units)})")

    def read(value: Any, unit: str) -> float:
        found = pattern.fullmatch(value.strip()) if isinstance(value, str) else None
        if not found:
            raise Refusal(f'{_shown(value)} is not a {what}: write it as in "{example}".')
        return float(found[1]) * units[found[2]]

    return Kind(read, lambda figure: f"{plain(figure)}{written}")


def _text(value: Any, unit: str) -> str:
    if not isinstance(value, str):
        raise Refusal(f"text in quotes is needed, not {_shown(value)}.")
    return value


def _date(value: Any, unit: str) -> str:
    return value.isoformat() if isinstance(value, datetime.date) else _text(value, unit)


def _boolean(value: Any, unit: str) -> bool:
    if not isinstance(value, bool):
        raise Refusal(f"true or false is needed, without quotes, not {_shown(value)}.")
    return value


def _angle(value: Any, unit: str) -> float:
    if not isinstance(value, (str, int, float)):
        raise Refusal(f'an angle is needed, as in "15deg", not {_shown(value)}.')
    return parse_angle(value)


def _volume(value: Any, unit: str) -> float:
    if not isinstance(value, str):
        raise Refusal(f'a volume with its unit is needed, as in "0.3 l", not {_shown(value)}.')
    return parse_volume(value)


def _axis(value: Any, unit: str) -> tuple[float, float, float]:
    if isinstance(value, str) and value in AXES:
        return AXES[value]
    if isinstance(value, list) and len(value) == 3:
        x, y, z = (float(NUMBER.read(v, "")) for v in value)
        if x or y or z:
            return x, y, z
        raise Refusal('an axis of [0, 0, 0] has no length: write "x", "y", "z" or a direction.')
    raise Refusal(f'{_shown(value)} is not an axis: write "x", "y", "z" or a direction as in [0, 0, 1].')


def _write_axis(axis: tuple[float, float, float]) -> Any:
    return next((name for name, known in AXES.items() if known == tuple(axis)), list(axis))


def _embed(value: Any, unit: str) -> dict[str, float | None]:
    if not isinstance(value, dict):
        raise Refusal(
            f'a depth for each stack is needed, as in {{Pedestal = "75mm", Top = "through"}}, not {_shown(value)}.'
        )
    return {k: None if v == "through" else SIZE.read(v, unit) for k, v in value.items()}


def _faces(value: Any, unit: str) -> dict[str, str]:
    asked = value if isinstance(value, dict) else {"": value}
    for face in asked.values():
        if face not in FACES:
            raise Refusal(
                f'a face is needed, "top", "bottom" or "both", or one for each stack as in {{Top = "top"}}, not '
                f"{_shown(face)}."
            )
    return dict(asked)


NUMBER = number()
COUNT = number(1, whole=True)
SIZE = length(0.0, above=True)
ROOM = length(0.0)
PLACE = length()
TEXT = Kind(_text)
DATE = Kind(_date)
BOOLEAN = Kind(_boolean)
ANGLE = Kind(_angle, lambda degrees: f"{plain(degrees)}deg")
VOLUME = Kind(_volume, lambda mm3: f"{plain(mm3)}mm3")
AXIS = Kind(_axis, _write_axis)
FACE = Kind(_faces, lambda faces: faces[""] if list(faces) == [""] else dict(faces))
TIME = measured("time", MINUTES, "min", "10min")
FORCE = measured("force", FORCES, "N", "1.65kN")
EMBED = Kind(_embed, lambda depths: {k: "through" if v is None else SIZE.write(v) for k, v in depths.items()})
