# SPDX-License-Identifier: LGPL-2.1-or-later

"""How an object says no to FreeCAD.

FreeCAD marks an object as invalid only where its `execute` raises, and prints what was raised with the way to it, which
is of no use to a maker: a line "Pedestal: Give …" is. FreeCAD has no switch for that, but it asks Python for the text
of the way, and that is empty while `sys.tracebacklimit` is 0; and it begins the line with the text of the class.
"""

from __future__ import annotations

import sys
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal

_LIMIT = "tracebacklimit"


#: What holds Python back just now, and the limit that was set before the first of them.
_holding: list[int] = []
_before: list[Any] = []


class _WithoutTheWay:
    """Keeps Python from writing the way to an exception for as long as one of these lives."""

    def __init__(self) -> None:
        if not _holding:
            _before[:] = [getattr(sys, _LIMIT)] if hasattr(sys, _LIMIT) else []
        _holding.append(id(self))
        setattr(sys, _LIMIT, 0)

    def __del__(self) -> None:
        _holding.remove(id(self))
        if _holding:
            return
        if _before:
            setattr(sys, _LIMIT, _before.pop())
        elif hasattr(sys, _LIMIT):
            delattr(sys, _LIMIT)


class _Labelled(type):
    """Classes whose text is an object's label."""

    label: str

    def __str__(cls) -> str:
        return cls.label


def refused(label: str, sentence: str) -> Refusal:
    """What an object's execute raises, so that the report view says "label: sentence" and nothing else.

    To be raised at once and given no name: FreeCAD lets go of it when it has read it, and Python writes the way to
    other exceptions again.
    """
    told: Any = _Labelled("Refusal", (Refusal,), {"label": label})(sentence)
    told.silence = _WithoutTheWay()
    return told
