# SPDX-License-Identifier: LGPL-2.1-or-later

"""One line of the bill."""

from __future__ import annotations

from dataclasses import dataclass

#: Name of the row of the quote that sums it up; more words follow where something has no price.
TOTAL = "Total"


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
