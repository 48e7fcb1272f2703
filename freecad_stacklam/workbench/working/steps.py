# SPDX-License-Identifier: LGPL-2.1-or-later

"""Work on a document, which only the window's own thread may do: in steps, under FreeCAD's progress bar, and taken back
as a whole when the maker presses Esc."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.workbench.fields.messages import one_undo_step
from freecad_stacklam.workbench.working.progress import Progress


@contextmanager
def undone_by_escape(document: Document, name: str, steps: int = 0) -> Iterator[Callable[[], None]]:
    """One step for undo, done in many: what is given is called after each, lets the window hear, and raises a Refusal
    where the maker pressed Esc; then nothing of it has happened. name: of the step for undo, and at the bar."""
    with one_undo_step(document, name), Progress(name, steps) as progress:
        yield progress.on
