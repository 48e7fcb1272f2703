# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is found about the finished piece as plan.json tells it: the fields of the findings, by their names. mm, kg, N,
MPa, N·m, degrees; moisture %."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.jsonfacts import number
from freecad_stacklam.lamination.refusal import told

#: Fields for pictures alone: thousands of points.
_PICTURES = frozenset({"influence", "surface"})
#: Field of the findings → its key.
_KEYS = {"weight": "weight", "strength": "strength", "deep": "strength_deep", "standing": "stability",
         "seasons": "climate", "finish": "finish", "quote": "quote", "budgets": "allowance_budget"}  # fmt: skip


def piece_json(found: PieceFindings | None) -> dict[str, Any]:
    """A key for each part, null where there is none of it."""
    if found is None:
        return dict.fromkeys(_KEYS.values())
    return {key: _plain(getattr(found, name)) or None for name, key in _KEYS.items()}


def _plain(value: Any) -> Any:
    """Records as objects, tuples as lists, figures rounded; what is no figure is null."""
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value) if not _is_picture(value, f.name)}
    if isinstance(value, Mapping):
        return {str(key): _plain(v) for key, v in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(v) for v in value]
    if isinstance(value, str):
        return told(value)
    if value is None or isinstance(value, (bool, int)):
        return value
    return number(value) if isfinite(value) else None


def _is_picture(record: Any, name: str) -> bool:
    return name in _PICTURES and type(record).__name__ == "DeepFindings"
