# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cutting plan as plain data: the `boards` room of plan.json. mm; costs in the maker's own money."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.lamination.job.jsonfacts import maybe, number, numbers, record_facts
from freecad_stacklam.lamination.plan.boards import PLANE, BoardCut, BoardsPlan


def boards_json(boards: BoardsPlan | None) -> dict[str, Any]:
    """Staves, boards and bounds; empty where no boards are planned."""
    if boards is None:
        boards = BoardsPlan(staves=())
    bound = {"area": boards.bound_area, "lp": boards.bound_lp}
    planned = bool(boards.plan)
    return {
        "staves": [
            {
                "id": s.id, "stack": s.stack, "layer": s.layer, "region": [numbers(p) for p in s.region],
                "width": number(s.width), "length": number(s.length), "thickness": number(s.thickness),
                "grain": number(s.grain), "species": s.species, "copies": s.copies, "glued_edges": s.glued_edges,
            }
            for s in boards.staves
        ],
        "plan": [_board(b) for b in boards.plan],
        "kerf": number(boards.kerf) if boards.staves else None,
        "yield": maybe(boards.yield_),
        "cost": number(boards.cost) if planned and boards.cost is not None else None,
        "objective": {"value": number(boards.objective), "unit": boards.objective_unit} if planned else None,
        "bound": {k: maybe(v) for k, v in bound.items()},
        "seam_conflicts": [record_facts(c) for c in boards.seam_conflicts],
        "short": list(boards.short),
        "notes": list(boards.notes),
    }  # fmt: skip


def _board(board: BoardCut) -> dict[str, Any]:
    return {
        "board": board.board, "width": number(board.width), "length": number(board.length),
        "thickness": number(board.thickness), "species": board.species, "cost": maybe(board.cost),
        "on_hand": board.on_hand, "cut": board.cut, "moisture": maybe(board.moisture),
        "pieces": [record_facts(p) for p in board.pieces],
        "knots": [numbers(k) for k in board.knots],
        "operations": _operations(board),
        "offcuts": [numbers(o) for o in board.offcuts],
    }  # fmt: skip


def _operations(board: BoardCut) -> list[dict[str, Any]]:
    """The steps in their order, each with its piece as it is then: length, width, thickness."""
    last_planed = max((o.number for o in board.operations if o.what == PLANE), default=0)
    return [
        {
            "machine": o.machine, "what": o.what, "at": maybe(o.at),
            "piece": numbers((o.part[2], o.part[3], board.planed if o.number > last_planed else board.thickness)),
            "corner": numbers(o.part[:2]), "gang": list(o.staves),
        }
        for o in board.operations
    ]  # fmt: skip
