# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill's file: read back as a spreadsheet would, with figures as they are worked to."""

from __future__ import annotations

import csv
import io

import plans
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.cells import safe_cell
from freecad_stacklam.lamination.plan.bill import BillRow


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "=cmd|' /C calc'!A0"])
def test_cells_are_never_formulas(text: str) -> None:
    assert safe_cell(text) == "'" + text
    made = csv_text([BillRow("blank", text, text, 1, volume=-2.0)])
    cells = list(csv.reader(io.StringIO(made, newline="")))[1]
    assert cells[1] == cells[2] == "'" + text
    assert cells[8] == "-2"  # a number stays a number


def test_csv_reads_back_in_both_units() -> None:
    plan = plans.plant_stand()
    rows = bill_of(plan, species_table())
    for units, inch in (("mm", 1.0), ("in", 25.4)):
        text = csv_text(rows, units)
        assert text.endswith("\r\n")
        read = list(csv.DictReader(io.StringIO(text, newline="")))
        assert len(read) == len(rows)
        for cells, row in zip(read, rows):
            assert float(cells[f"volume {units}3"]) * inch**3 == pytest.approx(row.volume, abs=900.0)
            if row.length is not None:
                assert float(cells[f"length {units}"]) * inch == pytest.approx(row.length, abs=0.4)


def test_awkward_names_stay_in_their_cells() -> None:
    row = BillRow("blank", 'A "big", wide\nname', "white oak", 2)
    assert list(csv.reader(io.StringIO(csv_text([row]), newline="")))[1][1] == 'A "big", wide\nname'


def test_figures_as_they_are_worked_to() -> None:
    """45.27 mm is 45.3, or 57/32 in (1.78125); 1.2345 kg is 1.23 kg, or 1.2345 / 0.45359237 = 2.72 lb."""
    row = BillRow("blank", "A", "oak", 2, 45.27, 300.04, 100.0, mass=1.2345, cost=40.005, per="12 per board foot × 3")
    mm, inches = (next(csv.DictReader(io.StringIO(csv_text([row], units)))) for units in ("mm", "in"))
    assert (mm["thickness mm"], mm["length mm"], mm["width mm"], mm["mass kg"]) == ("45.3", "300", "100", "1.23")
    assert (inches["thickness in"], inches["mass lb"]) == ("1.78125", "2.72")
    assert (mm["price"], mm["cost"]) == ("12 per board foot × 3", "80.01")


def test_how_is_told_once_for_each_kind() -> None:
    read = list(csv.DictReader(io.StringIO(csv_text(bill_of(plans.plant_stand(), species_table())))))
    told = [cells["how"] for cells in read if cells["how"]]
    assert len(told) == len(set(told)) < len(read)
    blanks = [cells for cells in read if cells["item"] == "blank"]
    assert blanks[0]["how"] and not any(cells["how"] for cells in blanks[1:])
