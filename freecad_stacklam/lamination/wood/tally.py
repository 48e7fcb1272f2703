# SPDX-License-Identifier: LGPL-2.1-or-later

"""Board feet. A blank's are a measure of volume; a board's, as it is sold, follow the rounding of the lumber trade.

Rules from the hardwood lumber grading rules of the North American hardwood trade, as taught in extension bulletins:
one board foot is 1 ft × 1 ft × 1 in; surface measure is width in inches × length in whole feet / 12, rounded to a
whole number; board feet are surface measure × thickness; anything under 1 in counts as 1 in.
"""

from __future__ import annotations

from math import ceil, floor, isfinite

from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE

#: 144 in³ in mm³.
BOARD_FOOT = 144 * INCH**3
FOOT = 12 * INCH


def _sizes(*sizes: float) -> None:
    if not all(isfinite(s) and s > 0 for s in sizes):
        raise Refusal("Board feet need a thickness, a width and a length above 0.")


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


def blank_board_feet(thickness: float, length: float, width: float) -> float:
    """Board feet of the rectangle that a blank is sawn from, sizes in mm, rounded up to 0.01.

    This is a volume measure: the true length × the true width, no foot dropped and no surface measure rounded, because
    a blank is no board; only the thickness is counted as it is bought, up to the next quarter inch and at least 1 in.
    """
    _sizes(thickness, length, width)
    feet = counted_thickness(thickness) * (length / INCH) * (width / INCH) / 144
    return ceil(feet * 100 - WHOLE) / 100
