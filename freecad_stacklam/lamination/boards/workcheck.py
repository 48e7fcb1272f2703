# SPDX-License-Identifier: LGPL-2.1-or-later

"""The judge of the work on a board: every printed step is done on an uncut board, and what comes off is looked at.

It shares nothing with the planner but the records. What a board is like and what the machines take it reads from the
rack and the settings. A step must find the part it works on; a jointer, a planer and a fence take no part shorter than
they may, jointer and planer none wider than their knives; a fence needs a straight edge and a planer a flat face; and
in the end each piece is alone in its part, planed, and where it is glued jointed and of its width.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from freecad_stacklam.lamination.plan.boards import (
    BAND_SAW,
    CROSSCUT,
    CROSSCUT_SAW,
    FLATTEN,
    HAND_PLANE,
    JOINT,
    JOINTER,
    LONG_WORK,
    PLANE,
    PLANER,
    RIP,
    STRAIGHTEN,
    TABLE_SAW,
    BoardCut,
    BoardPiece,
    Operation,
    Stave,
)
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import JUDGED, SAME_THICKNESS, SAME_WIDTH

#: What each step may be done with.
MACHINES = {
    CROSSCUT: (CROSSCUT_SAW,), RIP: (TABLE_SAW, BAND_SAW), FLATTEN: (JOINTER, HAND_PLANE),
    STRAIGHTEN: (JOINTER, HAND_PLANE), PLANE: (PLANER, HAND_PLANE), JOINT: (JOINTER, HAND_PLANE),
}  # fmt: skip


@dataclass(frozen=True)
class _Part:
    """A part of the board as it lies on the bench: its corners, and what was done to it."""

    low: tuple[float, float]
    high: tuple[float, float]
    flat: bool
    straight: bool = False
    planed: bool = False
    jointed: bool = False

    def is_at(self, step: Operation) -> bool:
        x, y, length, width = step.part
        ends = (self.low[0] - x, self.low[1] - y, self.high[0] - x - length, self.high[1] - y - width)
        return max(map(abs, ends)) <= JUDGED

    def holds(self, piece: BoardPiece) -> bool:
        return (
            piece.x >= self.low[0] - JUDGED and piece.x + piece.length <= self.high[0] + JUDGED
            and piece.y >= self.low[1] - JUDGED and piece.y + piece.width <= self.high[1] + JUDGED
        )  # fmt: skip


def work_faults(board: BoardCut, row: Board, staves: Mapping[str, Stave], shop: ShopSettings) -> list[str]:
    """What is wrong with the steps of one board; empty when they free every piece and send nothing to a machine that it
    must not take.

    row: the board as it stands on the rack. staves: by name.
    """
    wanted = [staves[p.stave].thickness for p in board.pieces if p.stave in staves]
    as_thick = bool(wanted) and all(abs(row.thickness - t) <= SAME_THICKNESS for t in wanted)
    flat = row.surface == "surfaced" or (row.surface == "" and as_thick)
    parts = [_Part((0.0, 0.0), (row.length, row.width), flat=flat, planed=flat and as_thick)]
    for number, step in enumerate(board.operations, 1):
        who = f"step {number} on {board.board}"
        found = next((p for p in parts if p.is_at(step)), None)
        if step.number != number:
            return [f"{who} is numbered {step.number}"]
        if found is None:
            return [f"{who} works on a part that is not there"]
        fault = _step_fault(step, found, shop)
        if fault:
            return [f"{who} {fault}"]
        parts.remove(found)
        parts += _worked(step, found, shop.kerf)
    return [fault for piece in board.pieces for fault in _piece_faults(piece, parts, board, staves)]


def _step_fault(step: Operation, part: _Part, shop: ShopSettings) -> str:
    length, width = (high - low for high, low in zip(part.high, part.low))
    if step.machine not in MACHINES.get(step.what, ()):
        return f"sends “{step.what}” to the {step.machine}"
    if step.machine in LONG_WORK and length < shop.shortest_to_machine - JUDGED:
        return (
            f"sends a part of {length:.0f} mm to the {step.machine}, which takes {shop.shortest_to_machine:g} mm and "
            "more"
        )
    # A jointed edge stands on the table: only a face must find room on the knives.
    knives = {FLATTEN: shop.jointer_width, PLANE: shop.planer_width}.get(step.what)
    if step.machine in (JOINTER, PLANER) and knives is not None and width > knives + JUDGED:
        return f"sends a part {width:.0f} mm wide to the {step.machine}, which takes {knives:g} mm"
    if step.what in (CROSSCUT, RIP) and step.at is None:
        return "does not say where it cuts"
    if step.machine == TABLE_SAW and not part.straight:
        return "rips a part that has no straight edge for the fence"
    if step.what == PLANE and not part.flat:
        return "planes a part that lies on no flat face"
    return ""


def _worked(step: Operation, part: _Part, kerf: float) -> Iterator[_Part]:
    """What a step leaves of its part."""
    if step.at is None:
        yield replace(
            part, flat=part.flat or step.what == FLATTEN, straight=part.straight or step.what in (FLATTEN, STRAIGHTEN),
            planed=part.planed or step.what == PLANE, jointed=part.jointed or step.what == JOINT,
        )  # fmt: skip
        return
    i = 0 if step.what == CROSSCUT else 1
    for low, high in ((part.low[i], step.at), (step.at + kerf, part.high[i])):
        if min(high, part.high[i]) - max(low, part.low[i]) > JUDGED:
            one, other = list(part.low), list(part.high)
            one[i], other[i] = max(low, part.low[i]), min(high, part.high[i])
            yield replace(part, low=(one[0], one[1]), high=(other[0], other[1]))


def _piece_faults(piece: BoardPiece, parts: list[_Part], board: BoardCut, staves: Mapping[str, Stave]) -> Iterator[str]:
    who = f"{piece.stave} on {board.board}"
    mine = [p for p in parts if p.holds(piece)]
    if len(mine) != 1:
        yield f"the cuts run through {who}"
        return
    part = mine[0]
    if sum(part.holds(other) for other in board.pieces) > 1:
        yield f"{who} is not parted from the others"
    if not part.planed:
        yield f"{who} is not planed"
    stave = staves.get(piece.stave)
    if stave is None:
        return
    if abs(stave.thickness - board.planed) > SAME_THICKNESS:
        yield f"{who} is planed to {board.planed:g} mm, not to {stave.thickness:g}"
    if stave.glued_edges and not part.jointed:
        yield f"the glued edges of {who} are not jointed"
    if stave.glued_edges and part.high[1] - part.low[1] - piece.width > SAME_WIDTH:
        yield f"{who} is not ripped to its width"
