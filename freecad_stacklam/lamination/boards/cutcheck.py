# SPDX-License-Identifier: LGPL-2.1-or-later

"""The judge of a cutting plan. It shares nothing with the planner but the records, and repeats none of its reasoning:
what a board is like and what the shop asks it reads from rack and settings, never from the planner's own notes.

It looks at each finished plan as at chalk marks on boards: is every piece on its board and clear of the end trim, a
kerf from its neighbours, off the knots, as large as its stave, cut once and only once; do the printed steps free the
pieces (workcheck.py); and do the staves cover the blanks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.boards.workcheck import work_faults
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, BoardsPlan, Stave
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import JUDGED, SAME_AREA, SAME_THICKNESS, SLIT

#: A blank may stick out of its staves by no more than this, mm², per island.
BARE = 0.5


def faults_of(plan: BoardsPlan, rack: Sequence[Board], shop: ShopSettings) -> list[str]:
    """Everything that is wrong with the boards of a plan; empty when it can be cut as drawn from this rack."""
    staves = {s.id: s for s in plan.staves}
    faults = [] if len(staves) == len(plan.staves) else ["two staves have the same name"]
    wanted = Counter({(s.id, copy): 1 for s in plan.staves for copy in range(1, s.copies + 1)})
    cut = Counter((p.stave, p.copy) for b in plan.plan for p in b.pieces)
    if plan.plan or plan.first_cut == "":
        faults += [f"{s} copy {c} is not cut" for s, c in (wanted - cut)]
    faults += [f"{s} copy {c} is cut {cut[s, c]} times" for s, c in (cut - wanted)]
    taken: Counter[int] = Counter()
    for board in plan.plan:
        rows = [i for i, row in enumerate(rack) if _is_of(board, row)]
        if not rows:
            faults.append(f"{board.board} is no board of the rack")
            continue
        row = next((i for i in rows if taken[i] < rack[i].count), rows[0])
        taken[row] += board.on_hand
        if board.on_hand and taken[row] > rack[row].count:
            faults.append(f"{board.board} is not on the rack so often")
        faults += _board_faults(board, rack[row], staves, shop)
    return faults


def _is_of(board: BoardCut, row: Board) -> bool:
    """Whether a board of the plan is one of a row of the rack. One that must be bought besides is like one on it."""
    sizes = zip((board.width, board.length, board.thickness), (row.width, row.length, row.thickness))
    alike = all(abs(a - b) <= JUDGED for a, b in sizes) and board.species == row.species
    return alike and board.board.rsplit(" #", 1)[0] == row.name and not (board.on_hand and row.for_sale)


def _board_faults(board: BoardCut, row: Board, staves: dict[str, Stave], shop: ShopSettings) -> list[str]:
    faults = []
    boxes = np.array([(p.x, p.y, p.x + p.length, p.y + p.width) for p in board.pieces]).reshape(-1, 4)
    trim = shop.end_trim_air if row.dried == "air" else shop.end_trim
    low, high = trim - JUDGED, board.length - trim + JUDGED
    knots = [k.box for k in row.knots] if board.on_hand or row.for_sale else []
    for piece, (x0, y0, x1, y1) in zip(board.pieces, boxes):
        who = f"{piece.stave} on {board.board}"
        if x0 < low or x1 > high or y0 < -JUDGED or y1 > board.width + JUDGED:
            faults.append(f"{who} does not lie on the board")
        stave = staves.get(piece.stave)
        if stave is not None:
            faults += _piece_faults(who, piece, stave, board, row, shop)
        for kx, ky, kdx, kdy in knots:
            if min(x1, kx + kdx) - max(x0, kx) > JUDGED and min(y1, ky + kdy) - max(y0, ky) > JUDGED:
                faults.append(f"{who} lies on a knot")
    for i in range(len(boxes)):
        others = boxes[i + 1 :]
        apart_x = np.maximum(others[:, 0] - boxes[i, 2], boxes[i, 0] - others[:, 2])
        apart_y = np.maximum(others[:, 1] - boxes[i, 3], boxes[i, 1] - others[:, 3])
        for j in np.flatnonzero(np.maximum(apart_x, apart_y) < shop.kerf - JUDGED):
            faults.append(f"{board.pieces[i].stave} and {board.pieces[i + 1 + int(j)].stave} on {board.board} are less "
                          "than a kerf apart")  # fmt: skip
    return faults or work_faults(board, row, staves, shop)


def _piece_faults(
    who: str, piece: BoardPiece, stave: Stave, board: BoardCut, row: Board, shop: ShopSettings
) -> list[str]:
    faults = []
    if piece.length < stave.length - JUDGED or piece.width < stave.width + shop.jointing * stave.glued_edges - JUDGED:
        faults.append(f"{who} is smaller than its stave")
    if board.thickness < stave.thickness - 2 * SAME_THICKNESS:
        faults.append(f"{who} is thicker than the board")
    off = board.thickness - stave.thickness
    # Nobody writes down a rough board as thick as its layer: one that says neither is flat then.
    rough = row.surface == "rough" or (row.surface == "" and off > SAME_THICKNESS)
    if rough and off < shop.least_planing - 2 * SAME_THICKNESS:
        faults.append(f"{who} leaves only {off:.1f} mm to plane off a rough board")
    if board.species and stave.species and board.species.strip().lower() != stave.species.strip().lower():
        faults.append(f"{who} is of another species than the board")
    return faults


def blank_faults(staves: Sequence[Stave], blank: MultiPolygon | Polygon, who: str) -> list[str]:
    """Whether the staves of one layer cover its blank and no two are in one place, in the blank or beside it. `blank`
    in the stack's frame, mm."""
    strips = [Polygon(s.region) for s in staves]
    faults = []
    bare = shapely.difference(blank, shapely.union_all([s.buffer(SLIT, join_style="mitre") for s in strips])).area
    if bare > BARE:
        faults.append(f"{bare:.1f} mm² of {who} are not covered by staves")
    for stave, strip in zip(staves, strips):
        if abs(strip.area - stave.width * stave.length) > SAME_AREA * max(1.0, strip.area):
            faults.append(f"the region of {stave.id} is not its width × length")
    # Drawn in a little: of two that share an edge but for its last digits the overlay may give the whole of one.
    inner = [s.buffer(-SLIT, join_style="mitre") for s in strips]
    for i, one in enumerate(inner):
        for other, stave in zip(strips[i + 1 :], staves[i + 1 :]):
            if one.intersection(other).area > BARE:
                faults.append(f"{staves[i].id} and {stave.id} overlap")
    return faults
