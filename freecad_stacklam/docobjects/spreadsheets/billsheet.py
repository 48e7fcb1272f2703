# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill as a spreadsheet in the document: the very cells of bill.csv, so the two never disagree."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.spreadsheets.sheets import new_sheet, write_cells
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.words import say

#: Names the sheet as ours, so that a maker's own sheet is never taken for it.
_MARK = "StackLamBill"
#: Widths of the columns, pixels; those of words are wide.
_WIDTHS = (70, 190, 120, 60, 100, 100, 100, 120, 130, 90, 80, 380, 80, 80, 190, 80)
_NUMBERS = (*range(3, 11), 13, 15)


def write_bill(document: Document, rows: Sequence[BillRow], units: str = "") -> Any:
    """Write the bill into the document's bill sheet and return it. An earlier bill is rewritten; other sheets are left
    alone. units: "mm" or "in", those of the document's job if not given; the heads tell."""
    job = job_in(document)
    units = units or (job.Units if job is not None else "mm")
    sheet = next((o for o in document.Objects if _MARK in o.PropertiesList), None)
    if sheet is None:
        sheet = new_sheet(document, "Bill")
        text = say("This sheet is rewritten with the bill")
        sheet.addProperty("App::PropertyBool", _MARK, "StackLam", text, 4, True, True)
    cells = {}
    table = list(csv.reader(io.StringIO(csv_text(rows, units), newline="")))
    for number, row in enumerate(table, 1):
        for i, cell in enumerate(row):
            if cell:
                count = number > 1 and i in _NUMBERS
                # A leading apostrophe makes text of whatever follows; line breaks would end the cell.
                cells[number, i] = cell if count else "'" + " ".join(cell.split())
    write_cells(sheet, cells)
    for i, width in enumerate(_WIDTHS):
        sheet.setColumnWidth(letters(i), width)
    sheet.setStyle(f"A1:{letters(len(_WIDTHS) - 1)}1", "bold")
    sheet.recompute()
    return sheet
