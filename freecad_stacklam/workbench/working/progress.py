# SPDX-License-Identifier: LGPL-2.1-or-later

"""FreeCAD's own progress bar, and Esc."""

from __future__ import annotations

from types import TracebackType
from typing import Any

import FreeCAD

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.workbench.fields.words import translate

#: What FreeCAD 0.20 raises on Esc is told from other errors by these words alone.
ABORTED = "abort progress indicator"


class Progress:
    """FreeCAD's progress bar while something is done; meanwhile FreeCAD hears Esc, and takes no other key or click.

    what: said beside the bar. steps: how many there are, 0 where nobody knows.
    """

    def __init__(self, what: str, steps: int = 0) -> None:
        self._what, self._steps = what, steps
        self._bar: Any = None

    def __enter__(self) -> Progress:
        self._bar = FreeCAD.Base.ProgressIndicator()
        self._bar.start(f"{self._what}…", self._steps)
        return self

    def on(self) -> None:
        """One step is done: let the window paint and hear. Raises a Refusal where the maker pressed Esc and said that
        it was meant."""
        try:
            self._bar.next(True)
        except Exception as error:
            if type(error).__name__ != "FreeCADAbort" and ABORTED not in str(error):
                raise
            raise Refusal(translate("StackLam", "Stopped: nothing was changed.")) from None

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._bar.stop()
        self._bar = None
