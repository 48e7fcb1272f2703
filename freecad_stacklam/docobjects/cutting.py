# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Cutting object: how the staves of all stacks are cut from the boards of the rack.

It keeps the plan that the maker accepted for as long as stacks, rack and shop are those it was made for; when one of
them changes, a quick plan takes its place. The watcher keeps it in step, so it needs no links.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.base.properties import Property, set_result
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.views import kind_of
from freecad_stacklam.docobjects.cuts import belongs_to, pinned_plan
from freecad_stacklam.docobjects.hollow import settings_of_hollow
from freecad_stacklam.docobjects.pins import settings_of_pins
from freecad_stacklam.docobjects.shop import settings_of_shop, shop_in
from freecad_stacklam.docobjects.spreadsheets.rack import boards_in
from freecad_stacklam.lamination.boards.boardplan import plan_boards
from freecad_stacklam.lamination.boards.keptplan import plan_text, read_plan
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings

_KEPT = 24
#: Plans that were made, by what they were made for.
_made: OrderedDict[tuple[str, str], BoardsPlan] = OrderedDict()


class Cutting(Proxy):
    """The cutting plan of a document. The name of this class is written in users' files and never changes."""

    KIND = "cutting"
    PROPERTIES = (
        Property("Integer", "StaveCount", "Plan", "Staves to cut, every copy", result=True),
        Property("Integer", "BoardsOnHand", "Plan", "Boards used from the rack", result=True),
        Property("Integer", "BoardsToBuy", "Plan", "Boards to buy", result=True),
        Property("Float", "Yield", "Plan", "Part of the boards' surface that becomes staves, %", result=True),
        Property("String", "Cost", "Plan", "What the boards used cost, in your money", result=True),
        Property("String", "FromBest", "Plan", "How far the plan may be above the best possible", result=True),
        Property("String", "Method", "Plan", "How the plan was found", result=True),
        Property("StringList", "Boards", "Plan", "What is cut from each board, from its left end", result=True),
        Property("StringList", "Notes", "Plan", "What is short, and seams that could not be kept clear", result=True),
        Property("FileIncluded", "Picture", "Plan", "The boards as they are cut, drawn to scale", result=True),
        Property("String", "Kept", "Plan", "The plan, as JSON", result=True, hidden=True),
        Property("String", "KeptFor", "Plan", "What the kept plan was made for", result=True, hidden=True),
        Property("String", "ShownFor", "Plan", "What these figures were made for", result=True, hidden=True),
    )

    def __init__(self, obj: Any) -> None:
        super().__init__(obj)
        watcher.install()

    def onDocumentRestored(self, obj: Any) -> None:
        """Called by FreeCAD when a file was opened."""
        super().onDocumentRestored(obj)
        watcher.install()

    def compute(self, obj: Any) -> None:
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
                raise Refusal("There are no boards on the rack: put some there, or delete the cutting plan.")
            plan = boards_for(obj.Document, stacks, settings)
        except Refusal:
            _show(obj, BoardsPlan(staves=()))
            raise
        _show(obj, plan)


def _show(obj: Any, plan: BoardsPlan) -> None:
    for name, value in (
        ("StaveCount", sum(s.copies for s in plan.staves)),
        ("BoardsOnHand", sum(b.on_hand for b in plan.plan)),
        ("BoardsToBuy", sum(not b.on_hand for b in plan.plan)),
        ("Yield", round(100 * plan.yield_, 3) if plan.yield_ else 0.0),
        ("Cost", cost_text(plan)),
        ("FromBest", gap_text(plan)),
        ("Method", plan.method),
        ("Boards", [board_line(b) for b in plan.plan]),
        ("Notes", notes_of(plan)),
    ):
        set_result(obj, name, value)


# --- in words -----------------------------------------------------------------------------------------------------


def cost_text(plan: BoardsPlan) -> str:
    """The cost of all boards used."""
    if not plan.plan:
        return "–"
    return f"{plan.cost:.2f}" if plan.cost is not None else "not known: a price is missing"


def gap_text(plan: BoardsPlan) -> str:
    """How far the plan may be from the best possible, and by which bound."""
    gap = plan.gap
    if gap is None or not plan.plan:
        return "–"
    if gap <= 1e-9:
        return "none better is possible"
    bound = "by area alone" if plan.bound_lp is None else "by linear programming"
    if plan.least_boards:
        return f"{len(plan.plan)} boards; no plan needs fewer than {plan.least_boards} ({bound})"
    return f"at most {100 * gap:.1f} % above the best possible ({bound})"


def board_line(board: BoardCut) -> str:
    """What is cut from one board."""
    size = f"{board.thickness:g} × {board.width:g} × {board.length:g} mm"
    pieces = ", ".join(p.stave if p.copy == 1 else f"{p.stave} (copy {p.copy})" for p in board.pieces)
    return f"{board.board}, {size}{'' if board.on_hand else ', to buy'}: {pieces}"


def notes_of(plan: BoardsPlan) -> list[str]:
    """What the maker must know besides: boards that are short, seams in conflict, prices that are missing."""
    seams = [f"{c.stack} {c.layer}: {c.says}" for c in plan.seam_conflicts]
    return [*plan.short, *plan.notes, *seams]


# --- the plan for a document --------------------------------------------------------------------------------------


def cutting_in(document: Any) -> Any:
    """The document's cutting plan, or None."""
    return next((o for o in document.Objects if kind_of(o) == "cutting"), None)


def wood_settings(document: Any) -> Settings:
    """The boards and the shop of a document. Raises Refusal."""
    return Settings(shop=settings_of_shop(shop_in(document)), boards=boards_in(document))


def finished_stacks(document: Any) -> list[StackPlan]:
    """Every stack with its mortises, voids and pin holes, planned once. Raises Refusal."""
    stacks = watcher.stacks_in(document)
    if not stacks:
        raise Refusal("There is no stack in this document: pick a form and slice it first.")
    return [_finished(stack) for stack in stacks]


def _finished(stack: Any) -> StackPlan:
    hollow, pins = watcher.in_use(stack, "hollow"), watcher.in_use(stack, "pins")
    return pinned_plan(
        stack,
        watcher.joints_of(stack),
        settings_of_hollow(hollow) if belongs_to(hollow, stack) else None,
        settings_of_pins(pins) if belongs_to(pins, stack) else None,
    )


def key_of(stacks: Sequence[StackPlan], settings: Settings) -> str:
    """What a cutting plan is made for, in few characters: it changes when anything does that the plan depends on."""
    told = [
        (s.name, s.copies, [(n.number, n.bottom, n.top, n.species, n.grain, n.blank, n.cuts) for n in s.layers])
        for s in stacks
    ]
    return sha256(repr(_plain((told, settings.boards, settings.shop))).encode()).hexdigest()[:32]


def _plain(value: Any) -> Any:
    """Records, lists and numbers of any kind as plain ones; figures to 1e-6, so that a last bit changes nothing."""
    if value is None or isinstance(value, (str, bool)):
        return value
    if is_dataclass(value):
        return [_plain(getattr(value, f.name)) for f in fields(value)]
    if isinstance(value, Mapping):
        return [(k, _plain(v)) for k, v in sorted(value.items())]
    if isinstance(value, (list, tuple)):
        return [_plain(v) for v in value]
    return f"{float(value):.6f}"


def boards_for(document: Any, stacks: Sequence[StackPlan], settings: Settings) -> BoardsPlan:
    """The plan that the document keeps for these stacks and this wood, else a quick one. Raises Refusal."""
    key = key_of(stacks, settings)
    kept = cutting_in(document)
    text = kept.Kept if kept is not None and kept.KeptFor == key else ""
    known = key, sha256(text.encode()).hexdigest() if text else ""
    if known not in _made:
        _made[known] = (read_plan(text) if text else None) or plan_boards(stacks, settings)
        while len(_made) > _KEPT:
            _made.popitem(last=False)
    _made.move_to_end(known)
    return _made[known]


def keep_cutting(document: Any, plan: BoardsPlan, key: str, picture: str | Path = "") -> Any:
    """Keep a plan in the document; the object is made if there is none. Part of the caller's undo step if one is open.

    key: key_of what the plan was made for. picture: a file with the boards drawn, copied into the document. Raises
    Refusal.
    """
    cutting = cutting_in(document)
    if cutting is None:
        cutting = document.addObject("App::FeaturePython", "Cutting")
        Cutting(cutting)
        cutting.Label = "Cutting plan"
    set_result(cutting, "Kept", plan_text(plan))
    set_result(cutting, "KeptFor", key)
    if picture:
        cutting.Picture = str(picture)
    cutting.recompute()
    cutting.purgeTouched()
    return cutting


def match_cutting(document: Any) -> None:
    """Bring the cutting plan up to date when anything that it depends on has changed."""
    cutting = cutting_in(document)
    if cutting is None:
        return
    try:
        key = key_of(finished_stacks(document), wood_settings(document))
    except Refusal:
        key = ""  # what is wrong is said by the object itself
    if key != cutting.ShownFor or "Invalid" in cutting.State:
        cutting.recompute()
        if "Invalid" not in cutting.State:
            cutting.purgeTouched()
