# SPDX-License-Identifier: LGPL-2.1-or-later

"""A picture on a page of the glue-up: its marks, its scale, and what its lines mean."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Mark, Text

Box = tuple[float, float, float, float]  # x0, y0, x1, y1 on the page


@dataclass(frozen=True)
class Picture:
    """Marks drawn at 1:`n`, and a sentence on its lines; no marks where what it shows is not known."""

    marks: tuple[Mark, ...] = ()
    n: int = 1
    legend: str = ""


def fit_scale(
    width: float, height: float, room_width: float, room_height: float, scales: Sequence[int] = SCALES
) -> int:
    """The largest of some scales, as 1:n, at which width × height fits the room: of the standard ones if none are
    given."""
    return next((n for n in scales if width / n <= room_width and height / n <= room_height), scales[-1])


def lowest(marks: Iterable[Mark], otherwise: float) -> float:
    """How far down a picture reaches, page mm; `otherwise` where there is none."""
    low = otherwise
    for mark in marks:
        if isinstance(mark, Text):
            low = min(low, float(text_box(mark).bounds[1]))
        elif isinstance(mark, (Circle, Arc)):
            low = min(low, mark.centre[1] - mark.radius)
        else:
            loops = mark.loops if isinstance(mark, FilledRegion) else (mark.points,)
            low = min([low, *(float(np.asarray(loop)[:, 1].min()) for loop in loops if len(loop))])
    return low
