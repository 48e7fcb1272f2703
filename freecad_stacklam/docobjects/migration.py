"""Objects saved by earlier releases, brought to today's properties one step at a time.

A release that renames or reinterprets a property raises CURRENT and adds a step for every kind of object it touches;
properties that are merely new need no step, they are added with their first value. Release 0.1.0 writes version 1.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

#: The version that this release writes.
CURRENT = 1

#: (class name, version) → the function that takes such an object to the next version, named step_1_to_2 and so on.
STEPS: dict[tuple[str, int], Callable[[Any], None]] = {}


def migrate(obj: Any, kind: str) -> None:
    """Take `obj` step by step to CURRENT. Objects of a newer release are left as they are."""
    version = obj.SchemaVersion
    while version < CURRENT:
        step = STEPS.get((kind, version))
        if step is not None:
            step(obj)
        version += 1
        obj.SchemaVersion = version
