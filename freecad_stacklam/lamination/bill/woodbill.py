# SPDX-License-Identifier: LGPL-2.1-or-later

"""The buying list: boards to buy and from the rack, what is wasted, spare staves, tenon stock and glue.

Figures are per piece and `count` says how many, as in the rest of the bill; totals count all.
"""

from __future__ import annotations

from math import ceil

import shapely

from freecad_stacklam.lamination.lengths import SQUARE_METRE, format_area, format_spread, format_volume
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.board import GRADES
from freecad_stacklam.lamination.tolerances import SEAM_TOUCH, WHOLE
from freecad_stacklam.lamination.wood.tally import blank_board_feet, rough_size, tally
from freecad_stacklam.lamination.words import say, say_many

#: Added to a tenon's length at each end, mm, for sawing to length (common practice, no source).
TENON_TRIM = 25.0


def wood_rows(plan: Plan, planing: float) -> list[BillRow]:
    """Rows for the boards of a plan, nothing where no boards were planned. planing: at least, mm."""
    boards = plan.boards
    if boards is None:
        return []
    rows = _board_rows(boards)
    if boards.plan:
        rows += _totals(boards) + _grade_rows(boards, plan.units)
        rows.append(_waste(plan, boards))
    rows += _spare_rows(boards, planing)
    if plan.glue_up is None:  # its own rows say more
        rows.append(_glue(plan, boards))
    return rows


def _kind(board: BoardCut) -> tuple[str, bool]:
    return board.board.rsplit(" #", 1)[0], board.on_hand


def _kinds(boards: BoardsPlan) -> dict[tuple[str, bool], list[BoardCut]]:
    kinds: dict[tuple[str, bool], list[BoardCut]] = {}
    for board in sorted(boards.plan, key=lambda b: b.on_hand):
        kinds.setdefault(_kind(board), []).append(board)
    return kinds


def _board_rows(boards: BoardsPlan) -> list[BillRow]:
    rows = []
    for (name, on_hand), alike in _kinds(boards).items():
        b = alike[0]
        feet = tally(b.thickness, b.width, b.length)
        how = say(
            "per board; board feet as sold: width × whole feet of length / 12 to the nearest whole, × "
            "thickness up to the next 1/4 in"
        )
        rows.append(
            BillRow(
                "board on hand" if on_hand else "board to buy", name, b.species, len(alike), b.thickness, b.length,
                b.width, b.length * b.width, b.thickness * b.length * b.width, feet, None, how, b.cost,
                per=b.priced or say("no price given"),
            )
        )  # fmt: skip
    return rows


def _totals(boards: BoardsPlan) -> list[BillRow]:
    rows = []
    for name, kinds in (
        (say("Boards to buy"), (False,)),
        (say("Boards on hand"), (True,)),
        (say("All boards"), (False, True)),
    ):
        mine = [b for b in boards.plan if b.on_hand in kinds]
        if not mine or (len(kinds) > 1 and len({b.on_hand for b in mine}) == 1):
            continue
        known = [b.cost for b in mine if b.cost is not None]
        species = {b.species for b in mine}
        rows.append(
            BillRow(
                "total",
                name,
                species.pop() if len(species) == 1 else "",
                1,
                volume=sum(b.thickness * b.length * b.width for b in mine),
                board_feet=sum(tally(b.thickness, b.width, b.length) for b in mine),
                cost=sum(known) if len(known) == len(mine) else None,
                how=say_many("{count} board", "{count} boards", len(mine))
                + ("" if len(known) == len(mine) else "; " + say("a price is missing, so no cost")),
            )
        )
    return rows


def _grade_rows(boards: BoardsPlan, units: str) -> list[BillRow]:
    """Boards to buy besides where the grade promises less clear wood than the plan cuts from them."""
    rows = []
    for (name, on_hand), alike in _kinds(boards).items():
        b = alike[0]
        if on_hand or b.grade not in GRADES or b.knots:
            continue
        clear = GRADES[b.grade]
        pieces = sum(p.length * p.width for board in alike for p in board.pieces)
        more = ceil(pieces / (clear * b.length * b.width) - WHOLE) - len(alike)
        how = say(
            "per board; {grade} is {clear:.1f} % clear by its grade (NHLA), so at least {added:.0f} % is "
            "added to the pieces' {pieces}; a floor, not a promise",
            grade=b.grade,
            clear=100 * clear,
            added=100 * (1 / clear - 1),
            pieces=format_area(pieces, units),
        )
        feet = tally(b.thickness, b.width, b.length)
        if more > 0:
            rows.append(
                BillRow(
                    "board for its grade",
                    name,
                    b.species,
                    more,
                    b.thickness,
                    b.length,
                    b.width,
                    b.length * b.width,
                    b.thickness * b.length * b.width,
                    feet,
                    None,
                    how,
                    b.cost,
                    per=b.priced,
                )
            )
    return rows


def _waste(plan: Plan, boards: BoardsPlan) -> BillRow:
    bought = sum(b.thickness * b.length * b.width for b in boards.plan)
    blanks = sum(s.copies * sum(n.blank_volume for n in s.layers) for s in plan.stacks)
    share = 100 * (bought / blanks - 1) if blanks else 0.0
    kept = sum(b.thickness * dx * dy for b in boards.plan for _, _, dx, dy in b.offcuts)
    return BillRow(
        "waste",
        say("Boards less blanks"),
        "",
        1,
        volume=bought - blanks,
        how=say(
            "all boards used less all blanks as sawn, {share:.0f} % of the blanks; {kept} of it are offcuts "
            "worth keeping",
            share=share,
            kept=format_volume(kept, plan.units),
        ),
    )


def _spare_rows(boards: BoardsPlan, planing: float) -> list[BillRow]:
    return [
        BillRow(
            "spare stave",
            s.id,
            s.species,
            s.copies,
            s.thickness,
            s.length,
            s.width,
            s.length * s.width,
            s.length * s.width * s.thickness,
            blank_board_feet(s.thickness, s.length, s.width, planing),
            how=say("cut once more than needed; it is in the boards above"),
            rough=rough_size(s.thickness, planing).name,
        )
        for s in boards.staves
        if s.stack == ""
    ]


def tenon_stock(joint: JointPlan, count: int, planing: float) -> BillRow:
    """The stick that a joint's tenon is made of, its grain along the length. planing: at least, mm."""
    tenon = joint.tenon
    side, other = sorted((tenon.size[0], tenon.size[-1]))
    length = tenon.length + 2 * TENON_TRIM
    return BillRow(
        "tenon stock",
        joint.name,
        tenon.species,
        count,
        side + planing,
        length,
        other + planing,
        length * (other + planing),
        (side + planing) * (other + planing) * length,
        blank_board_feet(side, length, other + planing, planing),
        how=say(
            "per stick, as sawn, grain along the length; the tenon with the least planing on thickness and "
            "width, and with wood to saw off at each end; not in the boards"
        ),
        rough=rough_size(side, planing).name,
    )


def _glue(plan: Plan, boards: BoardsPlan) -> BillRow:
    faces = edges = 0.0
    for stack in plan.stacks:
        blanks = [area_polygon(layer.blank) for layer in stack.layers]
        faces += stack.copies * sum(one.intersection(two).area for one, two in zip(blanks[:-1], blanks[1:]))
    layers: dict[tuple[str, int], list[int]] = {}
    for i, s in enumerate(boards.staves):
        if s.stack:
            layers.setdefault((s.stack, s.layer), []).append(i)
    for mine in layers.values():
        strips = [shapely.Polygon(boards.staves[i].region) for i in mine]
        for n, i in enumerate(mine):
            for strip in strips[n + 1 :]:
                touch = strips[n].buffer(SEAM_TOUCH, join_style="mitre").intersection(strip)
                if not touch.is_empty:
                    edges += touch.length / 2 * boards.staves[i].thickness * boards.staves[i].copies
    area = faces + edges
    return BillRow(
        "glue",
        say("Glue"),
        "",
        1,
        area=area,
        mass=area / SQUARE_METRE * boards.glue_spread / 1000,
        how=say(
            "{faces} between layers and {edges} between staves, at {glue_spread} on one face; squeeze-out is not added",
            faces=format_area(faces, plan.units),
            edges=format_area(edges, plan.units),
            glue_spread=format_spread(boards.glue_spread, plan.units),
        ),
    )
