# SPDX-License-Identifier: LGPL-2.1-or-later

"""A quote by sums written out here, and the lengths of outlines by shapely."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import glued
import plans
import pytest
from pseudo import Pseudo, plain, unsaid

from freecad_stacklam.lamination.bill.finishing import finish_rows
from freecad_stacklam.lamination.bill.quote import outline_length, quote_of, quote_rows, work_hours
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.findings.finishing import FinishFindings, Surface
from freecad_stacklam.lamination.plan.bill import BillRow, sums_up
from freecad_stacklam.lamination.plan.carving import CarvingPlan, Removed
from freecad_stacklam.lamination.plan.outline import circle, polygon_of, rectangle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.words import speaking

#: 2 m² in 3 coats, 4 grits.
FOUND = FinishFindings(
    "oil", (Surface("Pedestal", 2e6, 1e5, (0.0,) * 9),), 3, 0.5, 0.4, 0.6, tuple((g, 7) for g in (80, 120, 180, 240))
)
FINISH = FinishSettings(litre_price=30.0, sheet_price=0.5)
ROWS = (
    BillRow("board to buy", "Wide", "white oak", 3, cost=80.0),
    BillRow("board on hand", "Short", "white oak", 1, cost=20.0),
    BillRow("total", "All boards", "", 1, cost=260.0),
    BillRow("glue", "yellow glue", "", 1, cost=4.0),
    *finish_rows(FOUND, FINISH),
)


def test_the_sum_of_a_quote() -> None:
    """Wood 3·80 + 20 = 260 (the total row is not counted again), glue 4, finish 15, abrasives 28·0.5 = 14: 293. Work 12
    layers × 0.5 h = 6 h at 40: 240. 533, and 10 % on top: 586.3."""
    plan = replace(plans.plant_stand(), glue_up=None, joints=())
    quote = quote_of(plan, ROWS, RateSettings(hour_price=40.0, markup=10.0, layer_hours=0.5), FOUND)
    assert {line.what: line.cost for line in quote.lines} == {
        "wood": 260.0, "glue": 4.0, "finish": 15.0, "abrasives": 14.0, "work": 240.0,
    }  # fmt: skip
    assert (quote.markup, quote.total) == (pytest.approx(53.3), pytest.approx(586.3))
    assert quote.complete
    rows = quote_rows(quote, RateSettings(hour_price=40.0, markup=10.0))
    assert [row.name for row in rows] == ["layout", "wood", "glue", "finish", "abrasives", "work", "on top", "Total"]
    assert (rows[0].cost, rows[0].per) == (240.0, "6.00 h × 40")
    assert rows[-1].cost == pytest.approx(586.3)


def test_hours_of_every_kind_of_work() -> None:
    """Set-ups, joints, litres, m² and metres of the worked stand; two pedestals."""
    plan = glued.glued_stand()
    foot, head = plan.stacks
    plan = replace(
        plan, stacks=(replace(foot, copies=2), head),
        carving=CarvingPlan(removed=(Removed("Pedestal", 1, 5e6, 2e6), Removed("Top", 1, 4e6, 2e6)), rate=1.6),
    )  # fmt: skip
    rates = RateSettings(
        layer_hours=0.5, sawing_rate=10.0, set_up_hours=0.75, joint_hours=3.0, sanding_rate=2.0, coating_rate=4.0,
        other_hours=5.0,
    )  # fmt: skip
    hours = {one.what: one.hours for one in work_hours(plan, rates, FOUND)}
    assert hours["layout"] == pytest.approx((2 * 10 + 2) * 0.5)
    metres = sum(
        (2 if s.name == "Pedestal" else 1) * polygon_of(o).length
        for s in plan.stacks
        for n in s.layers
        for o in n.blank
    )
    assert hours["sawing"] == pytest.approx(metres / 1000 / 10)
    assert plan.glue_up is not None
    # Every set-up of the pedestal and the joint's twice, the top's once.
    once = sum(s.stack == "Top" for s in plan.glue_up.set_ups)
    assert hours["gluing"] == pytest.approx((2 * (len(plan.glue_up.set_ups) - once) + once) * 0.75)
    assert hours["joints"] == 2 * 3.0
    assert hours["carving"] == pytest.approx((2 * 3 + 2) / 1.6)
    assert hours["sanding"] == pytest.approx(4 * 2.0 / 2.0)
    assert hours["finishing"] == pytest.approx(3 * 2.0 / 4.0)
    assert hours["other work"] == 5.0


def test_without_rates_nothing_is_guessed() -> None:
    plan = plans.plant_stand()
    quote = quote_of(plan, plan.bill, RateSettings())
    assert quote.hours == ()
    assert quote.total == 0.0
    assert not quote.complete
    row = quote_rows(quote, RateSettings())[-1]
    assert (row.name, row.cost) == ("Total so far", None)  # no sum of nothing: a page must not say that it costs 0.00
    said = " ".join(quote.missing)
    for words in ("no boards are planned", "no finish is chosen", "no rate of your own is given"):
        assert words in said
    assert quote_rows(quote, RateSettings())[-1].how.startswith("short of: ")


def test_what_has_no_price_is_named() -> None:
    rows = (*ROWS, BillRow("board to buy", "Bargain", "white oak", 1), BillRow("tenon stock", "J", "white oak", 1))
    quote = quote_of(plans.plant_stand(), rows, RateSettings(layer_hours=0.5), FOUND)
    said = " ".join(quote.missing)
    assert "No price is given for Bargain." in said
    assert "the wood of tenons" in said
    assert "6.0 h of work have no price" in said
    assert next(line for line in quote.lines if line.what == "work").cost is None


def test_outlines_are_as_long_as_they_are() -> None:
    """A circle of 100 mm: 314.16; a rectangle 2·(a + b)."""
    assert outline_length(circle(100.0)) == pytest.approx(100 * pi, rel=1e-4)
    assert outline_length(rectangle(40.0, 25.0, turn=30.0)) == pytest.approx(130.0)


def test_an_empty_plan_has_a_quote() -> None:
    quote = quote_of(Plan("Nothing", "mm", ()), (), RateSettings(hour_price=40.0, other_hours=2.0))
    assert quote.total == 80.0


def test_how_a_bill_is_reckoned_is_said_whole_in_any_language() -> None:
    """Names of the maker's own and amounts stand as they are."""
    rates = RateSettings(hour_price=40.0, markup=10.0, layer_hours=0.5, sawing_rate=10.0, set_up_hours=1.0)

    def rows() -> list[BillRow]:
        plan = replace(glued.glued_stand(), boards=None)
        bill = [*bill_of(plan, {}), *finish_rows(FOUND, FINISH)]
        short = quote_of(plan, bill, rates, FOUND)
        whole = quote_of(plan, [*bill, *ROWS], rates, FOUND)
        return [*bill, *quote_rows(short, rates), *quote_rows(whole, rates)]

    english = rows()
    with speaking("en", Pseudo()):
        marked = rows()
        assert sum(map(sums_up, marked)) == 2
    assert [plain(row.how).rstrip(".") for row in marked] == [row.how for row in english]
    assert not [row.how for row in marked if any(sign.isalpha() for sign in unsaid(row.how).replace("h", ""))]
    assert {row.item for row in marked} == {row.item for row in english}
    assert sum(map(sums_up, english)) == 2
