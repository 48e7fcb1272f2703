# SPDX-License-Identifier: LGPL-2.1-or-later

"""A sheet: what is drawn on one page, in page mm from the lower left corner, y up. Black on white.

Writers know how to put these few kinds of marks on paper; everything else in this house only makes marks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

Point = tuple[float, float]


@dataclass(frozen=True)
class Pen:
    """A line kind. `width` mm; `dashes` mm of line, gap, line, gap… (empty: continuous)."""

    width: float
    dashes: tuple[float, ...] = ()


#: Line widths in mm, the group 0.7 of ISO 128-2 with wide to narrow 2:1, and two narrower ones for what is not sawn.
WIDE, MEDIUM, NARROW, FINE = 0.7, 0.35, 0.25, 0.18

#: Line kinds by use, after ISO 128-2. Dashes and gaps are opened up so that the kinds can be told apart at arm's length
#: in black and white: no gap, dot or difference is less than a millimetre, what the eye resolves well at 650 mm
#: (5 minutes of arc, 0.95 mm); only trim dots are smaller.
PENS: dict[str, Pen] = {
    "cut": Pen(WIDE),
    "thin": Pen(NARROW),
    "next": Pen(NARROW, (7.0, 1.5, 2.5, 1.5)),
    "mortise": Pen(MEDIUM),
    "mortise hidden": Pen(MEDIUM, (5.0, 1.6)),
    "finished": Pen(MEDIUM, (7.5, 1.4, 1.0, 1.4, 1.0, 1.4)),
    "hidden": Pen(NARROW, (1.8, 1.4)),
    "seam": Pen(NARROW, (3.0, 4.5)),
    "tab": Pen(NARROW, (5.0, 1.4, 1.0, 1.4, 1.0, 1.4, 1.0, 1.4)),
    "centre": Pen(FINE, (12.0, 1.5, 1.0, 1.5)),
    "trim": Pen(FINE, (0.7, 2.3)),
    "little wood": Pen(FINE),
    "little wood below": Pen(FINE, (1.5, 1.0)),
    "fine": Pen(FINE),
}

#: Heights of capitals, mm, from the ISO 3098 series: note, plain, strong, large and what is read across the shop.
NOTE, PLAIN, STRONG, LARGE, HUGE = 1.8, 2.5, 3.5, 5.0, 14.0


@dataclass(frozen=True)
class Polyline:
    """A chain of straight lines: pairs, or an n × 2 array. `closed` joins the last point to the first."""

    points: Sequence[Sequence[float]] | NDArray[np.float64]
    pen: str
    closed: bool = False


@dataclass(frozen=True)
class Circle:
    """A full circle."""

    centre: Point
    radius: float
    pen: str


@dataclass(frozen=True)
class Arc:
    """Part of a circle, from `start` counter-clockwise over `sweep` degrees (clockwise when negative)."""

    centre: Point
    radius: float
    start: float
    sweep: float
    pen: str


@dataclass(frozen=True)
class Text:
    """One line of lettering. `height` is that of the capitals, mm; `at` is the left, centre or right end of the
    baseline; `turn` in degrees, counter-clockwise. A writer condenses the line until it is no longer than `fit` mm."""

    at: Point
    text: str
    height: float = PLAIN
    align: str = "left"
    turn: float = 0.0
    bold: bool = False
    fit: float | None = None


@dataclass(frozen=True)
class FilledRegion:
    """A black patch. Holes are given as further loops (odd-even rule)."""

    loops: tuple[Sequence[Sequence[float]], ...]


Mark = Polyline | Circle | Arc | Text | FilledRegion

#: Stands in a text for the page's number and for how many there are, until the book is bound.
PAGE, PAGES = "\ue000", "\ue001"  # private-use characters: no name a maker types holds them


@dataclass(frozen=True)
class Sheet:
    """One page. `paper` (width, height) mm. A sheet that shows a layer or a view also says where it lies on it:

    `origin` is the point of the stack's frame at the page's lower left corner, `turn` the degrees from the stack's x
    to the page's x, `scale` the page mm per stack mm. On a `mirrored` page, which shows an underside, both are those of
    the stack's frame with its x the other way.
    """

    kind: str
    title: str
    paper: Point
    marks: tuple[Mark, ...]
    stack: str = ""
    layer: int | None = None
    tile: str = ""
    origin: Point | None = None
    turn: float = 0.0
    scale: float | None = None
    page: int = 0
    pages: int = 0
    paper_name: str = ""
    mirrored: bool = False

    def to_stack(self, x: float, y: float) -> Point:
        """The point of the stack's frame, mm, that lies at page mm x, y."""
        if self.origin is None or self.scale is None:
            raise ValueError(f"{self.title} does not lie on a layer")
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        px, py = x / self.scale, y / self.scale
        u, v = self.origin[0] + c * px - s * py, self.origin[1] + s * px + c * py
        return (-u if self.mirrored else u), v


def number_sheets(sheets: Iterable[Sheet]) -> tuple[Sheet, ...]:
    """The sheets in the order given, each with its page number, written wherever its texts left room for it."""
    bound = tuple(sheets)
    total = len(bound)
    numbered = []
    for page, sheet in enumerate(bound, start=1):
        marks = tuple(
            replace(m, text=m.text.replace(PAGE, str(page)).replace(PAGES, str(total)))
            if isinstance(m, Text) and PAGE in m.text
            else m
            for m in sheet.marks
        )
        numbered.append(replace(sheet, marks=marks, page=page, pages=total))
    return tuple(numbered)
