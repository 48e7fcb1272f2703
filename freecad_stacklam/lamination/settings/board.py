# SPDX-License-Identifier: LGPL-2.1-or-later

"""Boards on hand and boards that can be bought: the rack."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import isfinite

from freecad_stacklam.lamination.lengths import CUBIC_METRE
from freecad_stacklam.lamination.plan.boards import Rectangle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.tally import tally

PER = ("board", "board foot", "m3")
#: Part of a board that is clear by its grade (NHLA grades: 10/12, 8/12, 6/12 of the surface in clear-face cuttings).
GRADES = {"FAS": 10 / 12, "No. 1 common": 8 / 12, "No. 2 common": 6 / 12}


@dataclass(frozen=True)
class Knot:
    """A rectangle of a board to be avoided: its corner nearest the board's left end and lower edge, and its size."""

    x: float
    y: float
    dx: float
    dy: float

    @property
    def box(self) -> Rectangle:
        """As x, y, length, width."""
        return self.x, self.y, self.dx, self.dy


@dataclass(frozen=True)
class Board:
    """A board, or `count` alike. `for_sale`: it can be bought, as many as wanted where count is 0; otherwise it is on
    hand. `cost` is the price per `per`; None: not known."""

    name: str
    width: float
    length: float
    thickness: float
    species: str = ""
    cost: float | None = None
    per: str = "board"
    count: int = 1
    knots: tuple[Knot, ...] = ()
    for_sale: bool = False
    grade: str = ""

    def __post_init__(self) -> None:
        who = f"Board “{self.name}”"
        for what in ("thickness", "width", "length"):
            size = getattr(self, what)
            if not isfinite(size) or size <= 0:
                raise Refusal(f"{who} has a {what} of {size:g} mm: give its real size, more than 0 mm.")
        if self.cost is not None and (not isfinite(self.cost) or self.cost < 0):
            raise Refusal(f"{who} costs {self.cost:g}: give 0 or more, or leave the cost out.")
        if self.per not in PER:
            raise Refusal(f"{who} is priced per “{self.per}”: write {', '.join(PER[:-1])} or {PER[-1]}.")
        if self.grade and self.grade not in GRADES:
            raise Refusal(f"{who} has the grade “{self.grade}”: write {', '.join(GRADES)}, or leave it out.")
        if self.count < 0 or (self.count == 0 and not self.for_sale):
            raise Refusal(f"{who}: {self.count} boards on hand is impossible: give 1 or more.")
        for knot in self.knots:
            inside = knot.x >= 0 and knot.y >= 0 and knot.dx > 0 and knot.dy > 0
            if not inside or knot.x + knot.dx > self.length + ROUNDING or knot.y + knot.dy > self.width + ROUNDING:
                raise Refusal(
                    f"{who}: a knot at {knot.x:g}, {knot.y:g} mm of {knot.dx:g} × {knot.dy:g} mm does not lie on the "
                    f"board of {self.length:g} × {self.width:g} mm: measure x from its left end, y from its lower edge."
                )

    @property
    def volume(self) -> float:
        """Volume of one board, mm³."""
        return self.width * self.length * self.thickness

    @property
    def board_feet(self) -> float:
        """Board feet of one board as it is sold."""
        return tally(self.thickness, self.width, self.length)

    @property
    def price(self) -> float | None:
        """What one board costs; None when not known."""
        if self.cost is None:
            return None
        if self.per == "board foot":
            return self.cost * self.board_feet
        return self.cost * self.volume / CUBIC_METRE if self.per == "m3" else self.cost

    @property
    def priced(self) -> str:
        """How the price of one board comes about, in words."""
        if self.cost is None:
            return "no price given"
        if self.per == "board foot":
            return f"{self.cost:g} per board foot × {self.board_feet:g}"
        return (
            f"{self.cost:g} per m³ × {self.volume / CUBIC_METRE:.4f} m³"
            if self.per == "m3"
            else f"{self.cost:g} per board"
        )


@dataclass(frozen=True)
class Rack:
    """All boards that may be cut."""

    boards: tuple[Board, ...] = field(default=())
