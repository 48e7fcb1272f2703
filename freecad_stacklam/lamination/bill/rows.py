# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill: every blank and tenon, what wood is bought, carved away and left, and what it weighs."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from math import pi

from freecad_stacklam.lamination.bill.woodbill import wood_rows
from freecad_stacklam.lamination.cells import safe_cell
from freecad_stacklam.lamination.lengths import INCH, POUND, format_bore, format_length
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import extents
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.tally import blank_board_feet
from freecad_stacklam.lamination.wood.weights import mass_of

#: Rows are per piece; totals count every copy.
_BLANK = (
    "per piece; size is the rectangle around all islands, along and across the grain; volume = area × thickness; "
    "board feet of the rectangle, thickness up to the next 1/4 in; weight at 12 % moisture"
)
_TENON = "per piece; as it is cut, grain along its length"
_DOWEL = "per piece; grooved, or with a flat, and chamfered at both ends; thickness is its diameter; in no total"
_FORM = "of one piece, from the form's mesh"
_AWAY = "of one piece: blanks less the form; mortises not counted"
_FINISHED = "of one piece: form less its mortises and voids, at 12 % moisture; the tenons have rows of their own"


def blank_size(layer: LayerPlan) -> tuple[float, float]:
    """Length along the grain and width across it of the rectangle around all islands of a blank, mm."""
    return extents(layer.blank, layer.grain) if layer.blank else (0.0, 0.0)


def layer_board_feet(layer: LayerPlan) -> float:
    """Board feet of the rectangle a blank is sawn from, by volume; see wood/tally.py."""
    return blank_board_feet(layer.thickness, *blank_size(layer)) if layer.blank else 0.0


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


def bill_of(plan: Plan, table: Mapping[str, Species]) -> tuple[BillRow, ...]:
    """A row per blank, form, tenon and total. Rows other than the totals are per piece; `count` says how many."""
    rows: list[BillRow] = []
    bought: list[BillRow] = []
    finished: list[tuple[int, float, float | None]] = []
    for stack in plan.stacks:
        blanks = [_blank_row(stack, layer, table) for layer in stack.layers]
        bought += blanks
        rows += blanks
        rows.append(_total(f"{stack.name}: blanks", blanks, f"all blanks of {stack.copies} × {stack.name}"))
        volume = stack.form.volume
        away = sum(layer.blank_volume for layer in stack.layers) - volume
        mass = finished_mass(plan, stack, table)
        whole = mass_of(table, [(layer.species, layer.finished_volume) for layer in stack.layers])
        before = blank_mass(stack, table)
        gone = None if whole is None or before is None else before - whole
        left = volume - mortise_volume(plan, stack) - hollow_volume(stack)
        rows.append(BillRow("form", stack.name, stack.species, stack.copies, volume=volume, mass=whole, how=_FORM))
        rows.append(BillRow("carved away", stack.name, stack.species, stack.copies, volume=away, mass=gone, how=_AWAY))
        rows.append(BillRow("finished", stack.name, stack.species, stack.copies, volume=left, mass=mass, how=_FINISHED))
        finished.append((stack.copies, left, mass))
    tenons = [_tenon_row(plan, joint, table) for joint in plan.joints]
    rows += tenons
    bought += tenons
    finished += [(t.count, t.volume or 0.0, t.mass) for t in tenons]
    rows += dowel_rows(plan)
    rows.append(_total("All wood", bought, "all blanks and tenons, every copy"))
    known = [count * mass for count, _, mass in finished if mass is not None]
    rows.append(
        BillRow(
            "total", "Finished", "", 1, volume=sum(count * volume for count, volume, _ in finished),
            mass=sum(known) if len(known) == len(finished) else None,
            how="all carved pieces, every copy, mortises filled by their tenons",
        )
    )  # fmt: skip
    rows += wood_rows(plan, {j.name: tenon_count(plan, j) for j in plan.joints})
    return tuple(rows)


def _blank_row(stack: StackPlan, layer: LayerPlan, table: Mapping[str, Species]) -> BillRow:
    length, width = blank_size(layer)
    mass = mass_of(table, [(layer.species, layer.blank_volume)])
    return BillRow(
        "blank", f"{stack.name} {layer.number}", layer.species, stack.copies, layer.thickness, length, width,
        layer.blank_area, layer.blank_volume, layer_board_feet(layer), mass,
        _BLANK if mass is not None else f"{_BLANK}; weight unknown: the species is not in the table",
    )  # fmt: skip


def _tenon_row(plan: Plan, joint: JointPlan, table: Mapping[str, Species]) -> BillRow:
    tenon = joint.tenon
    sides = sorted((tenon.size[0], tenon.size[-1]))
    return BillRow(
        "tenon", joint.name, tenon.species, tenon_count(plan, joint), sides[0], tenon.length, sides[1], tenon.area,
        tenon.volume, blank_board_feet(sides[0], tenon.length, sides[1]),
        mass_of(table, [(tenon.species, tenon.volume)]), _TENON,
    )  # fmt: skip


def dowel_rows(plan: Plan) -> list[BillRow]:
    """Dowels by diameter and length, counted over every copy; their wood is bought and not in the totals."""
    counts: dict[tuple[float, float], int] = {}
    for stack in plan.stacks:
        for pin in stack.pins:
            size = (round(pin.diameter, 3), round(pin.dowel, 3))
            counts[size] = counts.get(size, 0) + stack.copies
    return [
        BillRow("dowel", _dowel_name(diameter, length, plan.units), "", n, diameter, length, diameter, how=_DOWEL)
        for (diameter, length), n in sorted(counts.items())
    ]


def _dowel_name(diameter: float, length: float, units: str) -> str:
    return f"Ø {format_bore(diameter, units)} × {format_length(length, units)}"


def _total(name: str, rows: Sequence[BillRow], how: str) -> BillRow:
    species = {r.species for r in rows}
    masses = [r.count * r.mass for r in rows if r.mass is not None]
    return BillRow(
        "total", name, species.pop() if len(species) == 1 else "", 1,
        volume=sum(r.count * (r.volume or 0.0) for r in rows),
        board_feet=round(sum(r.count * (r.board_feet or 0.0) for r in rows), 6),
        mass=sum(masses) if len(masses) == len(rows) else None, how=how,
    )  # fmt: skip


def csv_text(rows: Sequence[BillRow], units: str = "mm") -> str:
    """The bill as comma-separated text with lines ended as RFC 4180 says, sizes in mm or inches as the heads tell."""
    one, pound = (INCH, POUND) if units == "in" else (1.0, 1.0)
    unit = "in" if units == "in" else "mm"
    text = io.StringIO()
    writer = csv.writer(text)
    # Costs stand in a last column, only where something has one.
    priced = any(row.cost is not None for row in rows)
    writer.writerow([
        "item", "name", "species", "count", f"thickness {unit}", f"length {unit}", f"width {unit}", f"area {unit}2",
        f"volume {unit}3", "board feet", "mass lb" if units == "in" else "mass kg", "how",
        *(["cost"] if priced else []),
    ])  # fmt: skip
    for row in rows:
        writer.writerow([
            safe_cell(row.item), safe_cell(row.name), safe_cell(row.species), row.count,
            _figure(row.thickness, one), _figure(row.length, one), _figure(row.width, one), _figure(row.area, one**2),
            _figure(row.volume, one**3), _figure(row.board_feet, 1.0), _figure(row.mass, pound), safe_cell(row.how),
            *([_figure(row.cost, 1.0)] if priced else []),
        ])  # fmt: skip
    return text.getvalue()


def _figure(value: float | None, unit: float) -> str:
    """A number without exponent, to 1e-6, or nothing."""
    if value is None:
        return ""
    text = f"{value / unit:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
