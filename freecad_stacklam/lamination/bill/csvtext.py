# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill as comma-separated text: figures as they are worked to at the bench, 0.1 mm, 1/32 in, 0.01 kg.

plan.json has them in full. How a figure is found stands in the first row of its kind alone.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from freecad_stacklam.lamination.cells import safe_cell
from freecad_stacklam.lamination.lengths import INCH, POUND
from freecad_stacklam.lamination.plan.bill import BillRow

#: A length is shown in steps of this, in its own unit.
STEPS = {"mm": 0.1, "in": 1 / 32}


def csv_text(rows: Sequence[BillRow], units: str = "mm") -> str:
    """The bill with lines ended as RFC 4180 says, sizes in mm or inches as the heads tell."""
    one, unit, mass = (INCH, "in", POUND) if units == "in" else (1.0, "mm", 1.0)
    step = STEPS[unit]
    # An inch's fraction squared is too fine to be worth a figure; a square millimetre is whole.
    places = 1 if units == "in" else 0
    text = io.StringIO()
    writer = csv.writer(text)
    # Costs stand in the last columns, only where something has one.
    priced = any(row.cost is not None for row in rows)
    writer.writerow([
        "item", "name", "species", "count", f"thickness {unit}", f"length {unit}", f"width {unit}", f"area {unit}2",
        f"volume {unit}3", "board feet", f"mass {'lb' if units == 'in' else 'kg'}", "how", "rough size",
        *(["cost each", "price", "cost"] if priced else []),
    ])  # fmt: skip
    told: set[str] = set()
    for row in rows:
        how = "" if row.how in told else row.how
        told.add(row.how)
        cost = None if row.cost is None else row.count * row.cost
        writer.writerow([
            safe_cell(row.item), safe_cell(row.name), safe_cell(row.species), row.count,
            *(_stepped(size, one, step) for size in (row.thickness, row.length, row.width)),
            _figure(row.area, one**2, places), _figure(row.volume, one**3, places), _figure(row.board_feet, 1.0, 2),
            _figure(row.mass, mass, 2), safe_cell(how), row.rough,
            *([_figure(row.cost, 1.0, 2), safe_cell(row.per), _figure(cost, 1.0, 2)] if priced else []),
        ])  # fmt: skip
    return text.getvalue()


def _stepped(value: float | None, unit: float, step: float) -> str:
    """A length to the nearest step: 0.1, or 1/32 written as a decimal."""
    return "" if value is None else _figure(round(value / unit / step) * step, 1.0, 5)


def _figure(value: float | None, unit: float, places: int) -> str:
    """A number without exponent, to so many places, or nothing."""
    if value is None:
        return ""
    text = f"{value / unit:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
