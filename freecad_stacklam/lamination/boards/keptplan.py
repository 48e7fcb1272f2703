# SPDX-License-Identifier: LGPL-2.1-or-later

"""A cutting plan as text that a document can keep, and back. Figures survive to the last bit."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, BoardsPlan, Operation, SeamConflict, Stave
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings


def plan_text(plan: BoardsPlan) -> str:
    """The plan as JSON."""
    return json.dumps(asdict(plan), ensure_ascii=False)


def read_plan(text: str, rack: Sequence[Board], shop: ShopSettings) -> BoardsPlan | None:
    """The plan that a text holds; None when it holds none, or one that cannot be cut as drawn from this rack."""
    try:
        facts = json.loads(text)
        rooms: dict[str, Any] = {"staves": Stave, "seam_conflicts": SeamConflict, "short": None, "notes": None}
        made: dict[str, Any] = {k: tuple(_record(kind, v) for v in facts.pop(k)) for k, kind in rooms.items()}
        plan = BoardsPlan(**made, plan=tuple(_board(b) for b in facts.pop("plan")), **facts)
        return None if cutcheck.faults_of(plan, rack, shop) else plan
    except (ValueError, TypeError, KeyError, AttributeError):  # a word in a figure's place shows in the judge's hands
        return None


def _record(kind: Any, facts: Any) -> Any:
    if kind is None:
        return facts
    return kind(**{k: tuple(tuple(p) for p in v) if k == "region" else v for k, v in facts.items()})


def _board(facts: Mapping[str, Any]) -> BoardCut:
    made: dict[str, Any] = {"pieces": tuple(BoardPiece(**v) for v in facts["pieces"])}
    made["operations"] = tuple(_operation(v) for v in facts["operations"])
    made |= {k: tuple(tuple(r) for r in facts[k]) for k in ("knots", "offcuts")}
    return BoardCut(**{**facts, **made})


def _operation(facts: Mapping[str, Any]) -> Operation:
    return Operation(**{**facts, **{k: tuple(facts[k]) for k in ("part", "staves")}})
