# SPDX-License-Identifier: LGPL-2.1-or-later

"""Board feet. A blank's are a measure of volume; a board's, as it is sold, follow the rounding of the lumber trade.

Rules from the hardwood lumber grading rules of the North American hardwood trade, as taught in extension bulletins:
one board foot is 1 ft × 1 ft × 1 in; surface measure is width in inches × length in whole feet / 12, rounded to a
whole number; board feet are surface measure × thickness; anything under 1 in counts as 1 in. Hardwood is sold rough in
few thicknesses, named in quarters of an inch (the same bulletins; 10/4 and 16/4 common practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, isfinite

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.words import say

#: 144 in³ in mm³.
BOARD_FOOT = 144 * INCH**3
FOOT = 12 * INCH
#: Rough thicknesses that are sold, in quarters of an inch.
ROUGH_QUARTERS = (4, 5, 6, 8, 10, 12, 16)


def _sizes(*sizes: float) -> None:
    if not all(isfinite(s) and s > 0 for s in sizes):
        raise Refusal(say("Board feet need a thickness, a width and a length above 0."))


def counted_thickness(thickness: float) -> float:
    """Thickness in inches as it is paid for: up to the next quarter inch, and never less than 1. `thickness` in mm."""
    return max(1.0, ceil((thickness - ROUNDING) / INCH * 4) / 4)


def surface_measure(width_in: float, length_ft: float) -> int:
    """Surface measure of a board, whole square feet: its odd part of a foot dropped, its width with all fractions.

    An exact half is rounded up. (In export tallies exact halves go alternately up and down, a rule for whole lots
    that a single board cannot follow.)
    """
    _sizes(width_in, length_ft)
    return floor(width_in * floor(length_ft + WHOLE) / 12 + 0.5 + WHOLE)


def tally(thickness: float, width: float, length: float) -> float:
    """Board feet of a whole board as it is bought, sizes in mm: surface measure × counted thickness."""
    _sizes(thickness, width, length)
    return surface_measure(width / INCH, (length + ROUNDING) / FOOT) * counted_thickness(thickness)


@dataclass(frozen=True)
class RoughSize:
    """The rough thickness that a planed piece is got from. quarters: in quarters of an inch. sold: whether boards of it
    are sold; where none that is sold holds the piece, the next whole quarter is counted."""

    quarters: int
    sold: bool

    @property
    def name(self) -> str:
        """As the yard says it, "8/4"; "over 16/4" where it is not sold."""
        return f"{self.quarters}/4" if self.sold else say("over {rough_quarters}/4", rough_quarters=ROUGH_QUARTERS[-1])

    @property
    def inches(self) -> float:
        """Thickness in inches."""
        return self.quarters / 4


def rough_size(thickness: float, planing: float) -> RoughSize:
    """The least rough size sold that holds a planed thickness and what is planed off it, both mm."""
    needed = (thickness + planing - ROUNDING) / INCH * 4
    found = next((q for q in ROUGH_QUARTERS if q >= needed), None)
    return RoughSize(ceil(needed), False) if found is None else RoughSize(found, True)


def blank_board_feet(thickness: float, length: float, width: float, planing: float) -> float:
    """Board feet of the rectangle that a blank is sawn from, sizes in mm, rounded up to 0.01.

    This is a volume measure: the true length × the true width, no foot dropped and no surface measure rounded, because
    a blank is no board; only the thickness is counted as it is bought, at the rough size that holds the planed
    thickness and the `planing`.
    """
    _sizes(thickness, length, width)
    feet = rough_size(thickness, planing).inches * (length / INCH) * (width / INCH) / 144
    return ceil(feet * 100 - WHOLE) / 100
