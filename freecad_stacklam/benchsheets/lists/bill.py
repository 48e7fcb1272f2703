# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill of wood."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, number, unit_name
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Sheet, Text
from freecad_stacklam.benchsheets.pages.listpage import TableRow, list_page, rows_per_page, table
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.lengths import INCH, POUND
from freecad_stacklam.lamination.plan.bill import BillRow


def _figures(row: BillRow, units: Units) -> TableRow:
    def length(value: float | None) -> str:
        return "" if value is None else number(value, units)

    volume = (
        ""
        if row.volume is None
        else f"{row.volume / (INCH**3 if in_inches(units) else 1e6):.{1 if in_inches(units) else 2}f}"
    )
    return TableRow(
        (
            f"{row.item} {row.name}" if row.item not in ("blank", "total") else row.name,
            row.species,
            str(row.count),
            length(row.thickness),
            length(row.length),
            length(row.width),
            volume,
            "" if row.board_feet is None else f"{row.board_feet:.2f}",
            "" if row.mass is None else f"{row.mass / (POUND if in_inches(units) else 1.0):.2f}",
        ),
        bold=row.item == "total",
    )


def bill_sheets(book: Book) -> list[Sheet]:
    """The bill of wood, a row per blank, tenon and total."""
    paper, units = book.desk.portrait(), book.units
    unit, volume = unit_name(units), "in³" if in_inches(units) else "litres"
    heads = (
        "piece",
        "species",
        "no.",
        f"thick {unit}",
        f"long {unit}",
        f"wide {unit}",
        volume,
        "bd ft",
        "lb" if in_inches(units) else "kg",
    )
    shares = (44.0, 28.0, 9.0, 18.0, 20.0, 20.0, 16.0, 15.0, 13.0)
    left = (True, True, *[False] * 7)
    rows = [_figures(row, units) for row in book.plan.bill]
    size = rows_per_page(paper) - 1
    sheets = []
    for first in range(0, len(rows), size):
        part = rows[first : first + size]
        marks = table(paper, heads, shares, left, part)
        space = drawing_space(paper)
        note = "Long is along the grain. Blanks are net sizes: add what your saw, jointer and planer take."
        marks.append(Text((space.x + 2.0, space.y + 2.5), note, PLAIN, fit=space.width - 4.0))
        sheets.append(list_page(book, "bill", "Bill of wood", marks, "Bill"))
    return sheets
