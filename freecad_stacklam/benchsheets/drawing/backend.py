# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a writer of marks must know: one method for each kind. Only `draw` tells the kinds apart."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Mark, Polyline, Text


class Backend(Protocol):
    """Puts marks on paper, into a file, or somewhere else on the page. Marks come in the order in which they lie."""

    def polyline(self, mark: Polyline) -> None:
        """Draw a chain of lines."""

    def circle(self, mark: Circle) -> None:
        """Draw a full circle."""

    def arc(self, mark: Arc) -> None:
        """Draw part of a circle."""

    def text(self, mark: Text) -> None:
        """Write a line of lettering."""

    def region(self, mark: FilledRegion) -> None:
        """Fill a patch."""


def draw(marks: Iterable[Mark], backend: Backend) -> None:
    """Give every mark to the backend. Raises TypeError for what is no mark."""
    for mark in marks:
        if isinstance(mark, Polyline):
            backend.polyline(mark)
        elif isinstance(mark, Text):
            backend.text(mark)
        elif isinstance(mark, FilledRegion):
            backend.region(mark)
        elif isinstance(mark, Circle):
            backend.circle(mark)
        elif isinstance(mark, Arc):
            backend.arc(mark)
        else:
            raise TypeError(f"{type(mark).__name__} is no mark")
