# SPDX-License-Identifier: LGPL-2.1-or-later

"""Work on a document in steps: whoever runs it may want to hear between two of them, a window above all."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

_wanted: list[Callable[[], None]] = []


@contextmanager
def heard_between_steps(on: Callable[[], None]) -> Iterator[None]:
    """Within it `on` is called between two steps; what it raises ends the work. Not for what FreeCAD recomputes: what
    is raised there goes astray."""
    _wanted.append(on)
    try:
        yield
    finally:
        _wanted.pop()


def breathe() -> None:
    """A step is done."""
    if _wanted:
        _wanted[-1]()
