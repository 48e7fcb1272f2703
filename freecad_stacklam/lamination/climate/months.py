# SPDX-License-Identifier: LGPL-2.1-or-later

"""Best months to cut, glue and deliver: when the wood is near to what it will settle at, and little changes soon after.

The workshop is taken to have the climate of the room. Common practice, no source, put into figures: points of moisture
that the wood is off, and half of those that the weeks after bring.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from freecad_stacklam.lamination.climate.diffusion import Body
from freecad_stacklam.lamination.climate.periodic import run_years
from freecad_stacklam.lamination.climate.piece import Piece
from freecad_stacklam.lamination.findings.seasons import MONTHS, MonthAdvice, Year
from freecad_stacklam.lamination.tolerances import NO_DIFFUSION
from freecad_stacklam.lamination.usage.climate import BEST, ClimateSettings
from freecad_stacklam.lamination.words import mark, say

#: Slices of half a board's thickness.
SLICES = 8
#: Months after the work over which a change counts, and its share beside being off at once.
AHEAD = {"cut": 1, "glue": 2, "deliver": 3}
SHARE = 0.5
#: Points that two months may differ by and be as good.
ALIKE = 0.1
#: Moisture further from another than this, points, is not near to it (common practice, no source).
NEAR = 1.0

_ANY = {
    "cut": mark("Cut in any month: the room hardly changes over the year."),
    "glue": mark("Glue in any month: the room hardly changes over the year."),
    "deliver": mark("Deliver in any month: the room hardly changes over the year."),
}
_BEST = {
    "cut": mark(
        "Cut in {month}: boards kept in such a room are then at {board:.1f} %, near to the {settles:.1f} % about which "
        "the piece settles, and change by {change:.1f} points in the month after; {worst} is the worst month."
    ),
    "glue": mark(
        "Glue in {month}: boards kept in such a room are then at {board:.1f} %, near to the {settles:.1f} % about "
        "which the piece settles, and change by {change:.1f} points in the {count} months after; {worst} is the "
        "worst month."
    ),
    "deliver": mark(
        "Deliver in {month}: the room then asks for {room:.1f} %, {off:.1f} points off the {moisture:.1f} % it "
        "was glued at, and changes by {change:.1f} points in the {count} months after; {worst} is the worst month."
    ),
}
_NEAR_TO = mark(
    "Deliver in {month}: the room then asks for {room:.1f} %, near to the {moisture:.1f} % it was glued at, and "
    "changes by {change:.1f} points in the {count} months after; {worst} is the worst month."
)


def board_year(room: Year, thickness: float, settings: ClimateSettings) -> Year:
    """Mean moisture of a stickered board over the settled year, both its faces in the air of the room."""
    half = thickness / 2 / SLICES
    heights = np.array([0.0, 1.0])
    shape = (2 * SLICES, 1, 1)
    part = np.zeros(shape, dtype=np.int16)
    body = Body(np.ones(shape), half, heights, part, np.array([[settings.across, NO_DIFFUSION, NO_DIFFUSION]]))
    piece = Piece(body, part, part - 1, np.zeros(shape), 1, 1, 0)
    found = run_years(piece, room, float(np.mean(room)), 0, settings.surface).settled[:, 0]
    return tuple(float(v) for v in found)


def _ahead(year: Sequence[float], month: int, many: int) -> float:
    """Range of the months from one on."""
    seen = [year[(month + i) % 12] for i in range(many + 1)]
    return max(seen) - min(seen)


def advice(settings: ClimateSettings, room: Year, board: Year, settles: float) -> tuple[MonthAdvice, ...]:
    """Months to cut, glue and deliver. board: moisture of the boards by month; settles: what the piece varies about."""
    moisture = settings.moisture
    off = {
        "cut": [abs(m - settles) for m in board],
        "glue": [abs(m - settles) for m in board],
        "deliver": [abs(m - moisture) for m in room],
    }
    moves = {"cut": board, "glue": board, "deliver": room}
    chosen = {"cut": settings.cut_in, "glue": settings.glue_in, "deliver": settings.deliver_in}
    found = []
    for work, many in AHEAD.items():
        cost = tuple(a + SHARE * _ahead(moves[work], m, many) for m, a in enumerate(off[work]))
        best = int(np.argmin(cost))
        mine = best if chosen[work] == BEST else MONTHS.index(chosen[work])
        says = _why(work, best, mine, cost, room, board, settles, moisture)
        found.append(MonthAdvice(work, best, mine, cost, says))
    return tuple(found)


def best_to_glue(settings: ClimateSettings, board: Year, settles: float) -> int:
    """The month, from 0, in which it is glued: the chosen one, or the best."""
    if settings.glue_in != BEST:
        return MONTHS.index(settings.glue_in)
    return int(np.argmin([abs(m - settles) + SHARE * _ahead(board, i, AHEAD["glue"]) for i, m in enumerate(board)]))


def _why(work: str, best: int, mine: int, cost: Year, room: Year, board: Year, settles: float, moisture: float) -> str:
    """One sentence."""
    ahead = _ahead(room if work == "deliver" else board, best, AHEAD[work])
    if max(cost) - min(cost) < ALIKE:
        return say(_ANY[work])
    near = abs(room[best] - moisture) < NEAR
    why = say(
        _NEAR_TO if work == "deliver" and near else _BEST[work],
        month=say(MONTHS[best]), room=room[best], off=abs(room[best] - moisture), moisture=moisture,
        board=board[best], settles=settles, change=ahead, count=AHEAD[work], worst=say(MONTHS[int(np.argmax(cost))]),
    )  # fmt: skip
    if mine == best:
        return why
    chosen = say(
        "{month} was chosen, {cost:.1f} points worse than the best.",
        month=say(MONTHS[mine]),
        cost=cost[mine] - cost[best],
    )
    return f"{chosen} {why}"
