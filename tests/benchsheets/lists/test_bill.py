# SPDX-License-Identifier: LGPL-2.1-or-later

"""The quote on the bill's pages: sums written out here."""

from __future__ import annotations

from dataclasses import replace

import plans

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Text
from freecad_stacklam.benchsheets.lists.bill import bill_sheets
from freecad_stacklam.lamination.plan.bill import BillRow

ROWS = (
    BillRow("finish", "oil", "", 1, how="3 coats", cost=15.0, per="30 per litre × 0.500 l"),
    BillRow("abrasive", "grit 80", "", 4, how="sheets", cost=0.5, per="0.5 per sheet"),
    BillRow("work", "sawing", "", 1, how="6 m at 12 m an hour", cost=20.0, per="0.50 h × 40"),
    BillRow("quote", "Total", "", 1, how="all that this bill knows of", cost=37.0),
)


def words(rows: tuple[BillRow, ...]) -> list[str]:
    plan = replace(plans.plant_stand(), bill=rows)
    sheets = bill_sheets(book_of(plan, paper_named("A4"), "mm"))
    return [mark.text for sheet in sheets for mark in sheet.marks if isinstance(mark, Text)]


def test_the_quote_stands_apart_from_the_wood() -> None:
    """4 sheets at 0.50 are 2.00; 15 + 2 + 20 = 37. None of it is a piece of wood."""
    told = words((*plans.plant_stand().bill, *ROWS))
    for text in ("Quote", "finish: oil", "abrasive: grit 80", "15.00", "2.00", "20.00", "37.00"):
        assert text in told, text
    assert "6 m at 12 m an hour: 0.50 h × 40" in told
    assert "finish oil" not in told
    assert any("all that this bill knows of" in text for text in told)


def test_without_a_quote_there_is_none() -> None:
    assert "Quote" not in words(plans.plant_stand().bill)
