# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill against the plan's own records and simple solids worked by hand."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.plan.whole import Plan


def rows_named(plan: Plan, item: str) -> list[BillRow]:
    return [r for r in bill_of(plan, species_table()) if r.item == item]


def test_every_blank_and_tenon_has_a_row_and_a_reason() -> None:
    plan = plans.plant_stand()
    rows = bill_of(plan, species_table())
    names = [f"{s.name} {n.number}" for s in plan.stacks for n in s.layers]
    assert [r.name for r in rows if r.item == "blank"] == names
    assert [r.name for r in rows if r.item == "tenon"] == ["Pedestal to top"]
    assert all(r.how for r in rows)


def test_volumes_are_the_plans() -> None:
    plan = plans.plant_stand()
    layers = [n for s in plan.stacks for n in s.layers]
    blanks = rows_named(plan, "blank")
    for row, layer in zip(blanks, layers):
        assert row.volume == pytest.approx(layer.blank_volume, abs=1e-6)
        assert row.area == layer.blank_area
    wood = next(r for r in rows_named(plan, "total") if r.name == "All wood")
    tenon = plan.joints[0].tenon.volume
    assert wood.volume == pytest.approx(sum(n.blank_volume for n in layers) + tenon, abs=1e-6)
    for stack in plan.stacks:
        away = next(r for r in rows_named(plan, "carved away") if r.name == stack.name)
        assert away.volume == pytest.approx(sum(n.blank_volume for n in stack.layers) - stack.form.volume, abs=1e-6)


def test_length_runs_along_the_grain() -> None:
    """A 300 × 100 rectangle turned by 30°: its own sides along a grain of 30°, the other way round at 120°."""
    stack = plans.legs().stacks[0]
    for grain, wanted in ((30.0, (300, 100)), (120.0, (100, 300))):
        layer = replace(stack.layers[0], blank=(rectangle(300, 100, turn=30.0),), grain=grain)
        plan = Plan("One", "mm", (replace(stack, layers=(layer,)),))
        row = rows_named(plan, "blank")[0]
        assert (row.length, row.width) == pytest.approx(wanted)


def test_islands_are_measured_together() -> None:
    """Four squares of 70 mm, 800 × 440 mm apart, 3.2 mm of wood around: 876.4 × 516.4."""
    row = rows_named(plans.legs(), "blank")[0]
    assert (row.length, row.width) == pytest.approx((876.4, 516.4), abs=0.05)


def test_weights_by_hand() -> None:
    """White oak at 12 % moisture: 1.12 × 0.68 = 761.6 kg/m³ (FPL-GTR-282 (2021) Eq. 4-14, gravity of Table 5-3a)."""
    plan = plans.plant_stand()
    for row in rows_named(plan, "blank"):
        assert row.mass == pytest.approx(row.volume * 761.6e-9)
    pedestal = next(r for r in rows_named(plan, "finished") if r.name == "Pedestal")
    layers = plan.stacks[0].layers
    form = sum(n.finished_volume for n in layers)
    assert pedestal.mass == pytest.approx((form - 40 * 40 * 75) * 761.6e-9)
    finished = next(r for r in rows_named(plan, "total") if r.name == "Finished")
    parts = rows_named(plan, "finished") + rows_named(plan, "tenon")
    assert finished.mass == pytest.approx(sum(r.mass for r in parts))


def test_copies_count_in_totals_only() -> None:
    one = plans.legs()
    three = replace(one, stacks=(replace(one.stacks[0], copies=3),))
    assert [r.volume for r in rows_named(three, "blank")] == [r.volume for r in rows_named(one, "blank")]
    for name in ("All wood", "Finished"):
        single, triple = (next(r for r in rows_named(p, "total") if r.name == name) for p in (one, three))
        assert triple.volume == pytest.approx(3 * single.volume)
        assert triple.mass == pytest.approx(3 * single.mass)


def test_an_unknown_species_has_no_weight_and_says_so() -> None:
    plan = plans.legs()
    layers = tuple(replace(n, species="driftwood") for n in plan.stacks[0].layers)
    plan = replace(plan, stacks=(replace(plan.stacks[0], layers=layers),))
    row = rows_named(plan, "blank")[0]
    assert row.mass is None and "not in the table" in row.how
    assert all(r.mass is None for r in rows_named(plan, "total"))


def test_the_rough_size_stands_by_its_board_feet() -> None:
    """45 mm with 3 mm to plane is from 8/4 (50.8 mm), with 6 mm from 10/4: a quarter more board feet (to 0.01)."""
    plan = plans.plant_stand()
    usual = rows_named(plan, "blank")[0]
    more = next(r for r in bill_of(plan, species_table(), 6.0) if r.item == "blank")
    assert (usual.thickness, usual.rough, more.rough) == (45.0, "8/4", "10/4")
    assert usual.board_feet is not None and more.board_feet == pytest.approx(1.25 * usual.board_feet, abs=0.02)


def test_dowels_are_counted_over_copies_by_diameter_and_length() -> None:
    """Three pins in each of two stacks: two of 12 + 12 - 3 = 21 mm, one of 9 + 9 - 3 = 15 mm, both stacks twice."""
    stack = replace(
        plans.pedestal(), copies=2,
        pins=tuple(
            PinPlan(1, (x, 0.0), 10.0, d, d, 9.0, dowel=2 * d - 3.0) for x, d in ((0, 12.0), (9, 12.0), (50, 9.0))
        ),
    )  # fmt: skip
    plan = Plan("Two", "mm", (stack, replace(stack, name="Other")))
    rows = rows_named(plan, "dowel")
    assert [(r.count, r.thickness, r.length, r.name) for r in rows] == [
        (4, 10.0, 15.0, "Ø 10 mm × 15 mm"), (8, 10.0, 21.0, "Ø 10 mm × 21 mm"),
    ]  # fmt: skip
    assert all("grooved" in r.how and "chamfered" in r.how for r in rows)


def test_a_layer_thicker_than_is_sold_says_so() -> None:
    stack = plans.legs().stacks[0]
    plan = Plan("One", "mm", (replace(stack, layers=(replace(stack.layers[0], top=stack.layers[0].bottom + 120.0),)),))
    row = rows_named(plan, "blank")[0]
    assert row.rough == "over 16/4" and "ask the yard" in row.how and "counted at 20/4" in row.how  # 123 / 6.35 = 19.4


def test_tenon_stock_is_there_without_boards_too() -> None:
    """A 40 mm square tenon: sticks of 43 mm from 8/4 (40 + 3 > 38.1), 25 mm longer at each end."""
    plan = plans.plant_stand()
    tenon = plan.joints[0].tenon
    (row,) = rows_named(plan, "tenon stock")
    assert (row.thickness, row.width, row.length, row.count) == (43.0, 43.0, tenon.length + 50.0, 1)
    assert row.rough == "8/4" and "grain along the length" in row.how
