# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Cutting object: how the staves of all stacks are cut from the boards of the rack.

It keeps the plan that the maker accepted for as long as stacks, rack and shop are those it was made for; when one of
them changes, a quick plan takes its place. The observer keeps it in step, so it needs no links.
"""

from __future__ import annotations

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import CuttingObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.insides import finished_stacks
from freecad_stacklam.docobjects.reading.wood import boards_for, key_of, wood_settings
from freecad_stacklam.lamination.lengths import sizes
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.tolerances import SAVING
from freecad_stacklam.lamination.words import mark, say


class Cutting(Proxy):
    """The cutting plan of a document. The name of this class is written in users' files and never changes."""

    KIND = "cutting"
    PROPERTIES = (
        Property("Integer", "StaveCount", "Plan", mark("Staves to cut, every copy"), result=True),
        Property("Integer", "BoardsOnHand", "Plan", mark("Boards used from the rack"), result=True),
        Property("Integer", "BoardsToBuy", "Plan", mark("Boards to buy"), result=True),
        Property("Float", "Yield", "Plan", mark("Part of the boards' surface that becomes staves, %"), result=True),
        Property("String", "Cost", "Plan", mark("What the boards used cost, in your money"), result=True),
        Property("String", "FromBest", "Plan", mark("How far the plan may be above the best possible"), result=True),
        Property("String", "Method", "Plan", mark("How the plan was found"), result=True),
        Property("StringList", "Boards", "Plan", mark("What is cut from each board, from its left end"), result=True),
        Property(
            "StringList", "Notes", "Plan", mark("What is short, and seams that could not be kept clear"), result=True
        ),
        Property("FileIncluded", "Picture", "Plan", mark("The boards as they are cut, drawn to scale"), result=True),
        Property("String", "Kept", "Plan", mark("The plan, as JSON"), result=True, hidden=True),
        Property("String", "KeptFor", "Plan", mark("What the kept plan was made for"), result=True, hidden=True),
        Property("String", "ShownFor", "Plan", mark("What these figures were made for"), result=True, hidden=True),
    )

    def compute(self, obj: CuttingObject) -> None:
        """Show the kept plan, or a quick one where the kept one is out of date."""
        settings = wood_settings(obj.Document)
        stacks = finished_stacks(obj.Document)
        key = key_of(stacks, settings)
        set_result(obj, "ShownFor", key)
        if obj.Kept and obj.KeptFor != key:
            for name in ("Kept", "KeptFor", "Picture"):
                set_result(obj, name, "")
        try:
            if not settings.boards:
                raise Refusal(say("There are no boards on the rack: put some there, or delete the cutting plan."))
            plan = boards_for(obj.Document, stacks, settings)
        except Refusal:
            _show(obj, BoardsPlan(staves=()))
            raise
        _show(obj, plan)


def _show(obj: CuttingObject, plan: BoardsPlan) -> None:
    set_results(
        obj,
        {
            "StaveCount": sum(s.copies for s in plan.staves),
            "BoardsOnHand": sum(b.on_hand for b in plan.plan),
            "BoardsToBuy": sum(not b.on_hand for b in plan.plan),
            "Yield": round(100 * plan.yield_, 3) if plan.yield_ else 0.0,
            "Cost": cost_text(plan),
            "FromBest": gap_text(plan),
            "Method": plan.method,
            "Boards": [board_line(b, units_in(obj.Document)) for b in plan.plan],
            "Notes": notes_of(plan),
        },
    )


def cost_text(plan: BoardsPlan) -> str:
    """The cost of all boards used."""
    if not plan.plan:
        return "–"
    return f"{plan.cost:.2f}" if plan.cost is not None else say("not known: a price is missing")


def gap_text(plan: BoardsPlan) -> str:
    """How far the plan may be from the best possible, and by which bound."""
    gap = plan.gap
    if gap is None or not plan.plan:
        return "–"
    if gap <= SAVING:
        return say("none better is possible{bounded}", bounded=plan.bounded)
    bound = say("by area alone") if plan.bound_lp is None else say("by linear programming")
    if plan.least_boards:
        return say(
            "{plan} boards; no plan{bounded} needs fewer than {least_boards} ({bound})",
            plan=len(plan.plan),
            bounded=plan.bounded,
            least_boards=plan.least_boards,
            bound=bound,
        )
    return say(
        "at most {gap:.1f} % above the best possible{bounded} ({bound})",
        gap=100 * gap,
        bounded=plan.bounded,
        bound=bound,
    )


def board_line(board: BoardCut, units: str = "mm") -> str:
    """What is cut from one board."""
    size = told(sizes(board.thickness, board.width, board.length), units)
    pieces = ", ".join(
        p.stave if p.copy == 1 else say("{stave} (copy {copy})", stave=p.stave, copy=p.copy) for p in board.pieces
    )
    if board.on_hand:
        return say("{board}, {size}: {pieces}", board=board.board, size=size, pieces=pieces)
    return say("{board}, {size}, to buy: {pieces}", board=board.board, size=size, pieces=pieces)


def notes_of(plan: BoardsPlan) -> list[str]:
    """What the maker must know besides: boards that are short, seams in conflict, prices that are missing."""
    seams = [f"{c.stack} {c.layer}: {c.says}" for c in plan.seam_conflicts]
    return [*plan.short, *plan.notes, *seams]
