# SPDX-License-Identifier: LGPL-2.1-or-later

"""A board with knots as clear rectangles."""

from __future__ import annotations

from freecad_stacklam.lamination.packing.lot import ClearBoard
from freecad_stacklam.lamination.tolerances import ROUNDING

Room = tuple[float, float, float, float]  # a0, b0, a1, b1


def rooms_of(board: ClearBoard, kerf: float) -> list[list[Room]]:
    """Ways to see a board as clear rectangles, in each way a kerf or more apart: stretches between its blocks; and
    round one block, the board ripped beside it, from one of its ends or the other or all along."""
    runs: list[Room] = []
    at = 0.0
    for low, _, high, _ in sorted(board.blocks):
        if low > at + ROUNDING:
            runs.append((at, 0.0, low, board.b))
        at = max(at, high, low + kerf)
    if board.a > at + ROUNDING:
        runs.append((at, 0.0, board.a, board.b))
    ways = [runs]
    if len(board.blocks) == 1:
        a0, b0, a1, b1 = board.blocks[0]
        thin = max(0.0, kerf - (b1 - b0)) / 2
        beside = [(low, high) for low, high in ((0.0, b0 - thin), (b1 + thin, board.b)) if high > low + ROUNDING]
        ways.append([(0.0, low, board.a, high) for low, high in beside])
        if a0 > ROUNDING:
            ways.append([(0.0, 0.0, a0, board.b), *((a0 + kerf, low, board.a, high) for low, high in beside)])
        if a1 < board.a - ROUNDING:
            ways.append([*((0.0, low, a1 - kerf, high) for low, high in beside), (a1, 0.0, board.a, board.b)])
    clear = [[r for r in way if r[2] > r[0] + ROUNDING] for way in ways]
    return [way for way in clear if way]
