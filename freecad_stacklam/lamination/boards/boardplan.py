# SPDX-License-Identifier: LGPL-2.1-or-later

"""From stacks and the rack to the whole wood plan: staves, cutting plan, bounds, and the judge's word on all of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.boards.cutting import NoRoom, plan_cutting
from freecad_stacklam.lamination.boards.onecut import dealt_out
from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER, mixed
from freecad_stacklam.lamination.boards.staves import plan_staves
from freecad_stacklam.lamination.boards.stock import same_wood
from freecad_stacklam.lamination.plan.boards import BoardsPlan, SeamConflict, Stave
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Defect, Refusal, told
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.words import say


def wanted(settings: Settings) -> bool:
    """Whether the settings say anything about boards or staves."""
    return bool(settings.boards) or settings.shop.wants_staves


def plan_boards(
    stacks: Sequence[StackPlan],
    settings: Settings,
    *,
    rounds: int = 0,
    progress: Callable[[float], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    lp_bound: bool = False,
) -> BoardsPlan:
    """Staves of every stack cut from the rack in the settings. Without boards the staves alone are planned.

    rounds, progress, cancelled, lp_bound: as in plan_cutting. Raises Refusal when a stave cannot be had.
    """
    plan = boards_for(
        stacks, Rack(settings.boards), settings.shop, rounds=rounds, progress=progress,
        cancelled=cancelled, lp_bound=lp_bound,
    )  # fmt: skip
    units = settings.units
    return replace(
        plan,
        short=tuple(told(line, units) for line in plan.short),
        seam_conflicts=tuple(replace(one, says=told(one.says, units)) for one in plan.seam_conflicts),
    )


def boards_for(
    stacks: Sequence[StackPlan],
    rack: Rack,
    shop: ShopSettings,
    *,
    rounds: int = 0,
    progress: Callable[[float], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    lp_bound: bool = False,
) -> BoardsPlan:
    """As plan_boards, from records: rounds of search, 0 for the quick answer. Raises Refusal when a stave cannot be
    had."""
    staves, conflicts = _staves(stacks, rack.boards, shop)
    if not rack.boards:
        return BoardsPlan(
            staves=tuple(staves),
            kerf=shop.kerf,
            jointing=shop.jointing,
            shortest_to_machine=shop.shortest_to_machine,
            first_cut=shop.first_cut,
            glue_spread=shop.glue_spread,
            seam_conflicts=tuple(conflicts),
            short=(
                say("There are no boards on the rack: add those on hand, or those you can buy, to plan the cutting."),
            ),
        )
    try:
        plan = plan_cutting(staves, rack, shop)
    except NoRoom:
        # Too many staves for the few widest or longest boards: make them for boards that do not run out.
        staves, conflicts = _staves(stacks, _lasting(rack.boards, shop), shop)
        plan = plan_cutting(staves, rack, shop)
    used = rack
    for other in _one_cut(rack) if mixed(plan) else ():
        # A panel that mixes flat and quarter is avoided where the rack alone has boards enough of one.
        try:
            made, conflicting = _staves(stacks, other.boards, shop)
            found = plan_cutting(made, other, shop)
        except Refusal:
            continue
        if not mixed(found) and not found.short and (mixed(plan) or found.objective < plan.objective):
            plan, staves, conflicts, used = found, made, conflicting, other
    avoided: dict[str, str] = {}
    for dealt in dealt_out(staves, rack.boards, shop) if mixed(plan) else ():
        # Neither cut is enough for all, but each may be for whole panels.
        try:
            found = plan_cutting(staves, rack, shop, avoided=dealt)
        except Refusal:
            continue
        if len(mixed(found)) < len(mixed(plan)) and (plan.short or not found.short):
            plan, avoided = found, dealt
    if rounds > 0 or lp_bound:
        plan = plan_cutting(
            staves, used, shop, rounds=rounds, progress=progress, cancelled=cancelled, lp_bound=lp_bound,
            avoided=avoided,
        )  # fmt: skip
    return replace(plan, seam_conflicts=tuple(conflicts))


def _one_cut(rack: Rack) -> list[Rack]:
    """The rack without its quarter-sawn boards, and without its flat-sawn ones."""
    return [Rack(tuple(b for b in rack.boards if b.cut != cut)) for cut in (QUARTER, FLAT)]


def _staves(
    stacks: Sequence[StackPlan], boards: Sequence[Board], shop: ShopSettings
) -> tuple[list[Stave], list[SeamConflict]]:
    staves: list[Stave] = []
    conflicts: list[SeamConflict] = []
    for stack in stacks:
        made = plan_staves(stack, boards, shop)
        _judge(stack, made.staves)
        staves += made.staves
        conflicts += made.conflicts
    return staves, conflicts


def _lasting(boards: Sequence[Board], shop: ShopSettings) -> list[Board]:
    """Boards for sale, and those on hand for which there is none for sale."""
    sale = [b for b in boards if b.for_sale and b.count == 0]

    def is_sold(board: Board) -> bool:
        return any(same_wood(s, board.species) and abs(s.thickness - board.thickness) <= shop.planing for s in sale)

    return [b for b in boards if b in sale or not is_sold(b)]


def _judge(stack: StackPlan, staves: Sequence[Stave]) -> None:
    for layer in stack.layers:
        mine = [s for s in staves if s.layer == layer.number]
        faults = cutcheck.blank_faults(mine, area_polygon(layer.blank), f"{stack.name} {layer.number}")
        if faults:
            raise Defect(f"The staves ({faults[0]})")
