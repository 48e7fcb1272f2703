# SPDX-License-Identifier: LGPL-2.1-or-later

"""From pieces on a board to the cuts that free them, in cutting order, and the offcuts that remain.

Every cut runs straight through the part it divides, as a saw does. A part is divided across or along wherever a kerf
passes between its pieces, first the way the shop begins, then the other way, until each part is one piece.
"""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.plan.boards import BoardPiece, Rectangle, SawCut
from freecad_stacklam.lamination.tolerances import ROUNDING

#: An offcut worth keeping is at least this long and wide, mm.
OFFCUT_LENGTH = 150.0
OFFCUT_WIDTH = 40.0

Box = tuple[float, float, float, float]  # x0, y0, x1, y1


class Unsawable(ValueError):
    """Pieces that no straight cuts from edge to edge can part."""


def saw(
    length: float, width: float, pieces: Sequence[BoardPiece], kerf: float, across_first: bool
) -> tuple[tuple[SawCut, ...], tuple[Rectangle, ...]]:
    """The cuts of one board, numbered in order, and its offcuts worth keeping (x, y, length, width).

    length, width: of the board; kerf: of the saw, mm. across_first: whether crosscuts come before rips. Raises
    Unsawable when no straight cuts from edge to edge part the pieces.
    """
    boxes = [(p.x, p.y, p.x + p.length, p.y + p.width) for p in pieces]
    cuts: list[tuple[bool, float, float, float]] = []
    offcuts: list[Box] = []
    parts: list[tuple[Box, list[Box], bool]] = [((0.0, 0.0, length, width), boxes, across_first)]
    while parts:
        part, inside, across = parts.pop(0)
        if not inside:
            offcuts.append(part)
            continue
        divided = _divide(part, inside, kerf, across) or _divide(part, inside, kerf, not across)
        if divided is None:
            if len(inside) > 1 or any(abs(a - b) > kerf + ROUNDING for a, b in zip(part, inside[0])):
                raise Unsawable
            continue
        made, shares, way = divided
        cuts += made
        parts += [(box, mine, not way) for box, mine in shares]
    numbered = tuple(SawCut(n + 1, a, at, low, high) for n, (a, at, low, high) in enumerate(cuts))
    kept = tuple(
        (x0, y0, x1 - x0, y1 - y0)
        for x0, y0, x1, y1 in offcuts
        if x1 - x0 >= OFFCUT_LENGTH - ROUNDING and y1 - y0 >= OFFCUT_WIDTH - ROUNDING
    )
    return numbered, kept


def _divide(
    part: Box, inside: list[Box], kerf: float, across: bool
) -> tuple[list[tuple[bool, float, float, float]], list[tuple[Box, list[Box]]], bool] | None:
    """All cuts one way through a part, and the parts between them; None where there is none to make."""
    i = 0 if across else 1
    first, last = part[i], part[i + 2]
    ends = (part[1], part[3]) if across else (part[0], part[2])
    groups: list[tuple[float, float, list[Box]]] = []
    for box in sorted(inside, key=lambda b: (b[i], b[i + 2])):
        if groups and box[i] < groups[-1][1] + kerf - ROUNDING:
            low, high, mine = groups[-1]
            groups[-1] = (low, max(high, box[i + 2]), [*mine, box])
        else:
            groups.append((box[i], box[i + 2], [box]))
    cuts: list[tuple[bool, float, float, float]] = []
    shares: list[tuple[Box, list[Box]]] = []

    def between(low: float, high: float) -> Box:
        return (low, part[1], high, part[3]) if across else (part[0], low, part[2], high)

    at = first
    for low, high, mine in groups:
        if low - at > ROUNDING:
            cuts.append((across, low - kerf, *ends))
            if low - kerf > at + ROUNDING:
                shares.append((between(at, low - kerf), []))
        shares.append((between(low, high), mine))
        at = high
        if last - high > ROUNDING:
            cuts.append((across, high, *ends))
            at = min(last, high + kerf)
    if last - at > ROUNDING:
        shares.append((between(at, last), []))
    return (cuts, shares, across) if cuts else None
