# SPDX-License-Identifier: LGPL-2.1-or-later

"""One line of the bill."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.words import mark, say

#: Name of the row of the quote that sums it up, and where something has no price.
TOTAL, SO_FAR = mark("Total"), mark("Total so far")


@dataclass(frozen=True)
class BillRow:
    """One line of the bill. Lengths mm, area mm², volume mm³, mass kg; None where a figure has no meaning for the
    row."""

    item: str  # "blank", "tenon", "total", …
    name: str  # "Pedestal 3"
    species: str
    count: int
    thickness: float | None = None
    length: float | None = None  # along the grain
    width: float | None = None
    area: float | None = None
    volume: float | None = None
    board_feet: float | None = None
    mass: float | None = None
    how: str = ""  # how the row was computed
    cost: float | None = None  # of one, in the maker's money
    rough: str = ""  # the rough size that is bought for it, "8/4"
    per: str = ""  # what the cost is for: "12 per board foot × 8"


def sums_up(row: BillRow) -> bool:
    """Whether a row is the quote's own sum."""
    return row.item == "quote" and row.name in (say(TOTAL), say(SO_FAR))
