# SPDX-License-Identifier: LGPL-2.1-or-later

"""Boards on hand and boards that can be bought: the rack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar, NamedTuple

from freecad_stacklam.lamination.lengths import CUBIC_METRE, size
from freecad_stacklam.lamination.options.kinds import (
    BOOLEAN,
    PLACE,
    TEXT,
    Kind,
    length,
    number,
    one_of,
    several,
)
from freecad_stacklam.lamination.options.quantities import percent
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option
from freecad_stacklam.lamination.plan.boards import Rectangle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.wood.tally import tally
from freecad_stacklam.lamination.words import say

PER = ("board", "board foot", "m3")
#: How a board's faces are: sawn, or planed flat by the yard. And how it was dried.
SURFACES = ("rough", "surfaced")
DRYINGS = ("kiln", "air")
#: How it was sawn from the log.
CUTS = ("flat", "rift", "quarter")
#: Part of a board that is clear by its grade (NHLA grades: 10/12, 8/12, 6/12 of the surface in clear-face cuttings).
GRADES = {"FAS": 10 / 12, "No. 1 common": 8 / 12, "No. 2 common": 6 / 12}


class Knot(NamedTuple):
    """A rectangle of a board to be avoided: its corner nearest the board's left end and lower edge, and its size."""

    x: float
    y: float
    dx: float
    dy: float

    @property
    def box(self) -> Rectangle:
        """As x, y, length, width."""
        return self.x, self.y, self.dx, self.dy


_BOXES = several(several(PLACE, 4))


def _read_knots(value: Any, unit: str) -> tuple[Knot, ...]:
    return tuple(Knot(*box) for box in _BOXES.read(value, unit))


def _knots_fault(value: Any) -> str:
    if not isinstance(value, tuple) or not all(isinstance(knot, Knot) for knot in value):
        return "give knots"
    return _BOXES.fault(value)


KNOTS = Kind("list of 4 lengths each", _read_knots, _BOXES.write, _knots_fault, "")
_CELL = "a cell of the rack's sheet"
#: A board's size: the rack's cells hold millionths, and no board is so thin.
_SIZE = length(0.1)


@dataclass(frozen=True)
class Board(Record):
    """A board, or `count` alike. `for_sale`: it can be bought, as many as wanted where count is 0; otherwise it is on
    hand. `cost` is the price per `per`; None: not known."""

    NOUN: ClassVar[str] = "board"

    name: str = option(NEEDED, TEXT, "Name", "What the board is called", by_hand=_CELL)
    width: float = option(NEEDED, _SIZE, "Width", "As the board lies on the rack", by_hand=_CELL)
    length: float = option(NEEDED, _SIZE, "Length", "As the board lies on the rack", by_hand=_CELL)
    thickness: float = option(
        NEEDED, _SIZE, "Thickness", "As the board lies on the rack, before planing", by_hand=_CELL
    )
    species: str = option("", TEXT, "Wood", "The wood, as named in the species table; left out: any", by_hand=_CELL)
    cost: float | None = option(
        None, number(0), "Cost", "In your own money, per board, board foot or m³; left out: not known", by_hand=_CELL
    )
    per: str = option("board", one_of(*PER), "per", "What the cost is for", by_hand=_CELL)
    count: int = option(
        1, number(0, whole=True), "Count", "How many alike; for boards that you can buy: left out for as many as "
        "wanted", by_hand=_CELL,
    )  # fmt: skip
    knots: tuple[Knot, ...] = option(
        (), KNOTS, "Knots", "x, y, dx, dy of each: x from the left end, y from the lower edge, and its size along "
        "x and y", by_hand=_CELL,
    )  # fmt: skip
    for_sale: bool = option(False, BOOLEAN, "For sale", "true: it can be bought; false: on hand", by_hand=_CELL)
    grade: str = option(
        "", one_of(*GRADES), "Grade", "For boards that you can buy: how much clear wood the grade promises",
        by_hand=_CELL,
    )  # fmt: skip
    surface: str = option(
        "", one_of(*SURFACES), "Surface", "Rough from the saw, or surfaced and flat; left out: surfaced where it is as "
        "thick as its layer, else rough", by_hand=_CELL,
    )  # fmt: skip
    dried: str = option(
        "", one_of(*DRYINGS), "Dried", "In a kiln, or in the air, where more is lost at the ends; left out: kiln",
        by_hand=_CELL,
    )  # fmt: skip
    cut: str = option(
        "", one_of(*CUTS), "Cut", "How it was sawn from the log; left out: not known, so both movements are told",
        by_hand=_CELL,
    )  # fmt: skip
    moisture: float | None = option(
        None, percent(1.0, 60.0), "Moisture", "As a meter showed it before gluing; left out: not known", by_hand=_CELL
    )

    def who(self) -> str:
        """See Record."""
        return say("board “{name}”", name=self.name)

    def check(self) -> None:
        """See Record."""
        who = say("Board “{name}”", name=self.name)
        if self.count == 0 and not self.for_sale:
            raise Refusal(say("{who}: 0 boards on hand is impossible: give 1 or more.", who=who))
        for knot in self.knots:
            inside = knot.x >= 0 and knot.y >= 0 and round(knot.dx, 6) > 0 and round(knot.dy, 6) > 0
            if not inside or knot.x + knot.dx > self.length + ROUNDING or knot.y + knot.dy > self.width + ROUNDING:
                raise Refusal(
                    say(
                        "{who}: a knot at {x}, {y} of {dx} × {dy} does not lie on the board of {length} × {width}: "
                        "measure x from its left end, y from its lower edge.",
                        who=who,
                        x=size(knot.x),
                        y=size(knot.y),
                        dx=size(knot.dx),
                        dy=size(knot.dy),
                        length=size(self.length),
                        width=size(self.width),
                    )
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
            return say("{cost:g} per board foot × {board_feet:g}", cost=self.cost, board_feet=self.board_feet)
        return (
            say("{cost:g} per m³ × {volume:.4f} m³", cost=self.cost, volume=self.volume / CUBIC_METRE)
            if self.per == "m3"
            else say("{cost:g} per board", cost=self.cost)
        )


@dataclass(frozen=True)
class Rack:
    """All boards that may be cut."""

    boards: tuple[Board, ...] = ()
