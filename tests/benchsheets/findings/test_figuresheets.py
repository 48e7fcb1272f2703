# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pages of weights, of the allowance's budget and of the finish: their figures done again by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest
from plans import plant_stand

from freecad_stacklam.benchsheets.drawing.book import Book, book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.findings.budgetsheet import budget_sheets
from freecad_stacklam.benchsheets.findings.finishsheet import finish_sheets
from freecad_stacklam.benchsheets.findings.weightsheet import weight_sheets
from freecad_stacklam.lamination.findings.budget import AllowanceBudget, BudgetItem
from freecad_stacklam.lamination.findings.finishing import FinishFindings, Surface
from freecad_stacklam.lamination.findings.weight import MODEL, STACK, Body, WeightFindings

ITEMS = (BudgetItem("Saw", 3.0, "How far it strays"), BudgetItem("Carving", 4.0, "How far a tool goes in"))
ENOUGH = AllowanceBudget("Pedestal", ITEMS, hypot(3.0, 4.0), 7.0, 6.0)
SHORT = AllowanceBudget("Top", ITEMS, hypot(3.0, 4.0), 7.0, 3.5)
#: 1.135 m², of it 0.045 m² end grain, as a board of 1000 × 500 × 45 has.
FINISH = FinishFindings(
    "oil", (Surface("Board", 1.135e6, 0.045e6, (0.045e6, *[0.0] * 7, 1.09e6)),), 3, 0.24878, 0.18659, 0.31098,
    ((80, 4), (120, 4)), ("Spread rags flat.",), 12.0, 2.0, 30.0, 0.6, 0.15, 0.3,
)  # fmt: skip


def body(kind: str, name: str, mass: float | None, frame: str = STACK) -> Body:
    spread = None if mass is None else mass / 10
    return Body(
        kind, name, "Pedestal", 1, 1, frame, 1e6 * (mass or 1.0), mass, spread, (1.0, 2.0, 254.0), (0.1, 0.1, 2.0)
    )


WEIGHTS = WeightFindings(
    8.0, (body("blank", "Pedestal 1", 2.5), body("blank", "Pedestal 2", None)),
    (body("glued", "Pedestal 1 to 2", 5.5),), (body("finished", "Pedestal", 4.0, MODEL),),
    (body("tenon", "Joint", 0.25, MODEL),),
    body("whole", "Stand", 4.25, MODEL), ("old pear",), (), "Eq. 4-14",
)  # fmt: skip


def book(units: str = "mm", paper: str = "A4") -> Book:
    return book_of(plant_stand(), paper_named(paper), units)


def words(of: Sequence[Sheet]) -> str:
    return " ".join(" ".join(m.text for s in of for m in s.marks if isinstance(m, Text)).split())


def test_the_budget_tells_steps_sums_and_verdicts() -> None:
    """3 and 4 are likely 5, at worst 7; of 3.5 mm there 1.5 mm lack."""
    told = words(budget_sheets(book(), (ENOUGH, SHORT)))
    for part in ("Saw How far it strays 3 3", "Carving", "Likely the root of the sum of their squares 5 5",
                 "Worst their sum 7 7", "There the least wood left 6 3.5", "Lacking for the likely sum – 1.5",
                 "give 1.5 mm more allowance", "root-sum-square", "all sizes in mm"):  # fmt: skip
        assert part in told, part
    told = words(budget_sheets(book("in", "Letter"), (ENOUGH, SHORT)))
    # 5/25.4 = 0.197 in, 7/25.4 = 0.2756 in up to 0.276.
    assert "0.197" in told and "0.276" in told and " mm" not in told.replace("100 mm", "")


def test_bars_are_as_long_as_the_sums() -> None:
    (sheet,) = budget_sheets(book(), (ENOUGH,))
    bars = [m.points for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise" and m.closed]
    bars += [m.loops[0] for m in sheet.marks if isinstance(m, FilledRegion) and len(m.loops[0]) == 4][:1]
    lengths = [max(p[0] for p in bar) - min(p[0] for p in bar) for bar in bars]
    assert [length / lengths[0] for length in lengths[:3]] == pytest.approx([1.0, 7 / 5, 6 / 5])


def test_the_litres_can_be_done_again_from_the_page() -> None:
    """1.135 + 0.045 = 1.18 m²; 1 + 2·0.6 = 2.2 coats; 15 % lost: 1.18·2.2·1.15/12 = 0.249 l."""
    told = words(finish_sheets(book(), FINISH))
    for part in ("12 m² per litre", "0.25 l", "between 0.19 l and 0.31 l", "1.180 m² of side grain", "2.2 first ones",
                 "15% stays", "0° to 10°", "0.045", "1.090", "4% of it end grain", "grit 80 4",
                 "Spread rags flat."):  # fmt: skip
        assert part in told, part
    told = words(finish_sheets(book("in", "Letter"), FINISH))
    # 12 m²/l · 10.7639 ft²/m² · 3.785412 l/gal = 489 ft² a gallon, a quarter of it 122 (NIST SP 811, B.8).
    for part in ("122 sq ft per quart (489 per gallon)", "8.4 fl oz", "12.22"):
        assert part in told, part
    assert "m²" not in told and " l " not in told


def test_without_a_surface_there_is_no_page_of_the_finish() -> None:
    assert finish_sheets(book(), replace(FINISH, surfaces=())) == []
    assert weight_sheets(book(), replace(WEIGHTS, whole=None)) == []


def test_weights_are_told_with_how_far_they_may_be_off() -> None:
    told = words(weight_sheets(book(), WEIGHTS))
    for part in ("Stand, whole 4.25 l 4.25 ± 0.42 1 2 254", "Pedestal, carved", "tenon of Joint 0.25 l 0.25 ± 0.03",
                 "Pedestal 1 to 2", "Pedestal 2 1.00 l not known", "old pear", "8 % of moisture",
                 "Eq. 4-14"):  # fmt: skip
        assert part in told, part
    # 4.25 kg / 0.45359237 = 9.37 lb; 254 mm are 10 in (NIST SP 811, B.8).
    told = words(weight_sheets(book("in", "Letter"), WEIGHTS))
    assert "9.37 ± 0.94" in told and " 10 " in told and "kg" not in told


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_each_is_one_page_and_nothing_covers_anything(units: str, paper: str) -> None:
    on = book(units, paper)
    many = tuple(body("blank", f"Pedestal {i}", 2.5) for i in range(1, 26))
    for of in (budget_sheets(on, (ENOUGH, SHORT)), finish_sheets(on, FINISH),
               weight_sheets(on, replace(WEIGHTS, blanks=many))):  # fmt: skip
        (sheet,) = of
        texts = [m for m in sheet.marks if isinstance(m, Text)]
        for text in texts:
            x0, y0, x1, y1 = text_box(text).bounds
            assert x0 > 5 and y0 > 5 and x1 < sheet.paper[0] - 5 and y1 < sheet.paper[1] - 5, text.text
        boxes = [text_box(text, -0.2) for text in texts]
        assert not any(a.intersects(b) for a, b in combinations(boxes, 2))


def test_many_stacks_go_on_further_pages() -> None:
    many = tuple(replace(ENOUGH, stack=f"Leg {i}") for i in range(1, 31))
    of = budget_sheets(book(), many)
    assert len(of) > 1 and all(f"Leg {i}" in words(of) for i in range(1, 31))
