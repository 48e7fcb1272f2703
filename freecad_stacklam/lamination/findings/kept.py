# SPDX-License-Identifier: LGPL-2.1-or-later

"""Findings as plain JSON values, and back: how what took long is kept in a file.

Records become objects by the names of their fields, tuples become arrays; figures keep every digit. What is read must
fit the record's types, or it is none: a file of another release, or one that was cut short, is never half believed.
"""

from __future__ import annotations

import types
from collections.abc import Hashable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from sys import float_info
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

_T = TypeVar("_T")


class Unreadable(ValueError):
    """What was kept does not fit what it should be."""


def plain(value: Any) -> Any:
    """A finding as JSON values; numbers of any kind as Python's own."""
    if value is None or isinstance(value, (str, bool)):
        return value
    if is_dataclass(value):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, (list, tuple)):
        return [plain(one) for one in value]
    return int(value) if hasattr(value, "__index__") else float(value)


def record_from(record: type[_T], value: Any) -> _T:
    """The finding that `plain` made these values of. Raises Unreadable."""
    if not isinstance(value, Mapping):
        raise Unreadable(f"no {record.__name__}")
    kinds, needed = _kinds(record)  # type: ignore[arg-type]
    if not set(value) <= set(kinds):
        raise Unreadable(f"a {record.__name__} with {', '.join(sorted(set(value) - set(kinds)))}")
    if not needed <= set(value):
        raise Unreadable(f"a {record.__name__} without {', '.join(sorted(needed - set(value)))}")
    return record(**{name: _read(kinds[name], one) for name, one in value.items()})


@cache
def _kinds(record: Hashable) -> tuple[dict[str, Any], frozenset[str]]:
    """The types of a record's fields by their names, and which have no first value."""
    hints: dict[str, Any] = get_type_hints(record)
    known = fields(record)  # type: ignore[arg-type]
    needed = frozenset(f.name for f in known if f.default is MISSING and f.default_factory is MISSING)
    return {f.name: hints[f.name] for f in known}, needed


def _read(kind: Any, value: Any) -> Any:
    if get_origin(kind) in (Union, types.UnionType):
        kinds = get_args(kind)
        if value is None and type(None) in kinds:
            return None
        (kind,) = (k for k in kinds if k is not type(None))
    if get_origin(kind) is tuple:
        return _tuple(get_args(kind), value)
    if is_dataclass(kind) and isinstance(kind, type):
        return record_from(kind, value)
    if kind is float and isinstance(value, (int, float)) and not isinstance(value, bool):
        if not abs(value) <= float_info.max:  # JSON as Python reads it knows NaN, infinity, and figures of any length
            raise Unreadable("a figure that is no number")
        return float(value)
    if kind in (str, bool, int) and type(value) is kind:
        return value
    raise Unreadable(f"{type(value).__name__} where {getattr(kind, '__name__', kind)} should be")


def _tuple(kinds: tuple[Any, ...], value: Any) -> tuple[Any, ...]:
    if not isinstance(value, list):
        raise Unreadable(f"{type(value).__name__} where a list should be")
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(_read(kinds[0], one) for one in value)
    if len(kinds) != len(value):
        raise Unreadable(f"{len(value)} values where {len(kinds)} should be")
    return tuple(map(_read, kinds, value))
