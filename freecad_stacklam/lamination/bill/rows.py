# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill: every blank and tenon, what wood is bought, carved away and left, and what it weighs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import pi

from freecad_stacklam.lamination.bill.woodbill import tenon_stock, wood_rows
from freecad_stacklam.lamination.lengths import format_bit, format_length, rounded_down
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import extents
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.tally import blank_board_feet, rough_size
from freecad_stacklam.lamination.wood.weights import mass_of
from freecad_stacklam.lamination.words import mark, say

#: Rows are per piece; totals count every copy.
_BLANK = mark(
    "per piece; size is the rectangle around all its pieces, along and across the grain; volume = area × thickness; "
    "board feet of the rectangle, at the rough size sold that holds the thickness and the least planing; weight at "
    "12 % moisture"
)
#: Where no rough size that is sold holds it.
_OVER = mark(
    "thicker than the thickest rough size sold, 16/4: ask the yard, or plan thinner layers; counted at {quarters}/4"
)
#: What is planed off a rough board at least, mm, where no shop says another.
LEAST_PLANING = ShopSettings().least_planing
_TENON = mark("per piece; as it is cut, grain along its length")
_DOWEL = mark("per piece; grooved, or with a flat, and chamfered at both ends; thickness is its diameter; in no total")
_FORM = mark("of one piece, from the form's mesh")
_AWAY = mark("of one piece: blanks less the form; mortises not counted")
_FINISHED = mark("of one piece: form less its mortises and voids, at 12 % moisture; the tenons have rows of their own")


def blank_size(layer: LayerPlan) -> tuple[float, float]:
    """Length along the grain and width across it of the rectangle around all its pieces of a blank, mm."""
    return extents(layer.blank, layer.grain) if layer.blank else (0.0, 0.0)


def layer_board_feet(layer: LayerPlan, planing: float = LEAST_PLANING) -> float:
    """Board feet of the rectangle a blank is sawn from, by volume; see wood/tally.py. planing: at least, mm."""
    return blank_board_feet(layer.thickness, *blank_size(layer), planing) if layer.blank else 0.0


def tenon_count(plan: Plan, joint: JointPlan) -> int:
    """As many tenons as the most copied stack that the joint meets."""
    copies = {s.name: s.copies for s in plan.stacks}
    return max((copies[m.stack] for m in joint.members if m.stack in copies), default=1)


def mortise_volume(plan: Plan, stack: StackPlan) -> float:
    """What the joints take out of one stack's form, mm³."""
    total = 0.0
    for joint in plan.joints:
        area = pi * joint.size[0] ** 2 / 4 if joint.section == "round" else joint.size[0] * joint.size[-1]
        total += sum(area * (m.end - m.start) for m in joint.members if m.stack == stack.name)
    return total


def hollow_volume(stack: StackPlan) -> float:
    """What the voids take out of one stack's form, mm³."""
    return stack.hollow.volume if stack.hollow is not None else 0.0


def finished_mass(plan: Plan, stack: StackPlan, table: Mapping[str, Species]) -> float | None:
    """Mass, kg, of one carved piece without its tenons."""
    parts = [(layer.species, layer.finished_volume) for layer in stack.layers]
    return mass_of(table, [*parts, (stack.species, -mortise_volume(plan, stack) - hollow_volume(stack))])


def blank_mass(stack: StackPlan, table: Mapping[str, Species]) -> float | None:
    """Mass, kg, of one glued stack before carving."""
    return mass_of(table, [(layer.species, layer.blank_volume) for layer in stack.layers])


def bill_of(plan: Plan, table: Mapping[str, Species], planing: float = LEAST_PLANING) -> tuple[BillRow, ...]:
    """A row per blank, form, tenon and total. Rows other than the totals are per piece; `count` says how many.

    planing: what is planed off a rough board at least, mm.
    """
    rows: list[BillRow] = []
    bought: list[BillRow] = []
    finished: list[tuple[int, float, float | None]] = []
    for stack in plan.stacks:
        blanks = [_blank_row(stack, layer, table, planing) for layer in stack.layers]
        bought += blanks
        rows += blanks
        rows.append(
            _total(
                say("{stack}: blanks", stack=stack.name),
                blanks,
                say("all blanks of {copies} × {stack}", copies=stack.copies, stack=stack.name),
            )
        )
        volume = stack.form.volume
        away = sum(layer.blank_volume for layer in stack.layers) - volume
        mass = finished_mass(plan, stack, table)
        whole = mass_of(table, [(layer.species, layer.finished_volume) for layer in stack.layers])
        before = blank_mass(stack, table)
        gone = None if whole is None or before is None else before - whole
        left = volume - mortise_volume(plan, stack) - hollow_volume(stack)
        rows.append(BillRow("form", stack.name, stack.species, stack.copies, volume=volume, mass=whole, how=say(_FORM)))
        rows.append(
            BillRow("carved away", stack.name, stack.species, stack.copies, volume=away, mass=gone, how=say(_AWAY))
        )
        rows.append(
            BillRow("finished", stack.name, stack.species, stack.copies, volume=left, mass=mass, how=say(_FINISHED))
        )
        finished.append((stack.copies, left, mass))
    tenons = [_tenon_row(plan, joint, table, planing) for joint in plan.joints]
    rows += tenons
    bought += tenons
    finished += [(t.count, t.volume or 0.0, t.mass) for t in tenons]
    rows += dowel_rows(plan)
    rows.append(_total(say("All wood"), bought, say("all blanks and tenons, every copy")))
    known = [count * mass for count, _, mass in finished if mass is not None]
    rows.append(
        BillRow(
            "total",
            say("Finished"),
            "",
            1,
            volume=sum(count * volume for count, volume, _ in finished),
            mass=sum(known) if len(known) == len(finished) else None,
            how=say("all carved pieces, every copy, mortises filled by their tenons"),
        )
    )
    rows += [tenon_stock(joint, tenon_count(plan, joint), planing) for joint in plan.joints]
    rows += wood_rows(plan, planing)
    return tuple(rows)


def _blank_row(stack: StackPlan, layer: LayerPlan, table: Mapping[str, Species], planing: float) -> BillRow:
    length, width = blank_size(layer)
    mass = mass_of(table, [(layer.species, layer.blank_volume)])
    rough = rough_size(layer.thickness, planing)
    how = say(_BLANK)
    if mass is None:
        how += "; " + say("weight unknown: the species is not in the table")
    if not rough.sold:
        how += "; " + say(_OVER, quarters=rough.quarters)
    return BillRow(
        "blank", f"{stack.name} {layer.number}", layer.species, stack.copies, layer.thickness, length, width,
        layer.blank_area, layer.blank_volume, layer_board_feet(layer, planing), mass,
        how, rough=rough.name,
    )  # fmt: skip


def _tenon_row(plan: Plan, joint: JointPlan, table: Mapping[str, Species], planing: float) -> BillRow:
    tenon = joint.tenon
    sides = sorted((tenon.size[0], tenon.size[-1]))
    return BillRow(
        "tenon", joint.name, tenon.species, tenon_count(plan, joint), sides[0], tenon.length, sides[1], tenon.area,
        tenon.volume, blank_board_feet(sides[0], tenon.length, sides[1], planing),
        mass_of(table, [(tenon.species, tenon.volume)]), say(_TENON), rough=rough_size(sides[0], planing).name,
    )  # fmt: skip


def dowel_rows(plan: Plan) -> list[BillRow]:
    """Dowels by diameter and length, counted over every copy; their wood is bought and not in the totals. Lengths are
    rounded down as they are read, so that no dowel is cut too long for its holes."""
    counts: dict[tuple[float, float], int] = {}
    for stack in plan.stacks:
        for pin in stack.pins:
            size = (round(pin.diameter, 3), rounded_down(round(pin.dowel, 3), plan.units))
            counts[size] = counts.get(size, 0) + stack.copies
    return [
        BillRow("dowel", _dowel_name(diameter, length, plan.units), "", n, diameter, length, diameter, how=say(_DOWEL))
        for (diameter, length), n in sorted(counts.items())
    ]


def _dowel_name(diameter: float, length: float, units: str) -> str:
    return f"Ø {format_bit(diameter, units)} × {format_length(length, units)}"


def _total(name: str, rows: Sequence[BillRow], how: str) -> BillRow:
    species = {r.species for r in rows}
    masses = [r.count * r.mass for r in rows if r.mass is not None]
    return BillRow(
        "total", name, species.pop() if len(species) == 1 else "", 1,
        volume=sum(r.count * (r.volume or 0.0) for r in rows),
        board_feet=round(sum(r.count * (r.board_feet or 0.0) for r in rows), 6),
        mass=sum(masses) if len(masses) == len(rows) else None, how=how,
    )  # fmt: skip
