# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the glue-up uses: sums by hand, and the bill's CSV read back by Python's own reader (RFC 4180)."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from plans import pedestal, top
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.bill.gluesupplies import copies_of, supply_rows
from freecad_stacklam.lamination.plan.gluing import JOINT, LAYERS, Caul, ClampPlace, Clock, GlueUpPlan, SetUp
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.presses import PressSettings

CLOCK = Clock(480.0, 900.0, 60.0, 240.0)
ROD = PressSettings("rod M16", kind="rod", force=12_000.0)


def caul(length: float, bar: bool = True, crown: float = 0.0) -> Caul:
    return Caul("top", bar, MultiPolygon(), length, 50.0, 36.0, crown)


def set_up(number: int, round_: int, stack: str = "Pedestal", glue: float = 20.0, **more: object) -> SetUp:
    one = SetUp(number, round_, LAYERS, stack, 1, 3, ((1, 1), (2, 2), (3, 3)), (1, 2), CLOCK, glue, 1e5)
    return replace(one, **more)  # type: ignore[arg-type]


def plan_of(*set_ups: SetUp) -> GlueUpPlan:
    return GlueUpPlan("yellow glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, set_ups, (1, 1), True)


STACKS = (replace(pedestal(), copies=3), top())


def test_glue_of_every_copy_and_its_price() -> None:
    """3 × 20 g + 10 g and, for a joint, 3 × 2 g are 76 g: at 9 a kilogram 0.684."""
    joint = set_up(3, 2, glue=2.0, kind=JOINT, joint="J", stacks=("Pedestal", "Top"))
    plan = plan_of(set_up(1, 1), set_up(2, 1, "Top", 10.0), joint)
    (row,) = supply_rows(plan, STACKS, GlueSettings(price=9.0))
    assert (row.item, row.name, row.count) == ("glue", "yellow glue", 1)
    assert row.mass == pytest.approx(0.076)
    assert row.area == pytest.approx(7e5)
    assert row.cost == pytest.approx(0.684)
    assert row.per == "9 per kg × 0.076 kg"
    assert "15 %" in row.how
    (unpriced,) = supply_rows(plan, STACKS, GlueSettings())
    assert (unpriced.cost, unpriced.per) == (None, "")
    assert copies_of(joint, {"Pedestal": 3, "Top": 1}) == 3


def test_nothing_glued_is_no_row() -> None:
    assert supply_rows(plan_of(), STACKS, GlueSettings(price=9.0)) == ()


def test_cauls_are_used_again_from_round_to_round() -> None:
    """Two set-ups of round 1 want 2 and 2 of 400 mm at once; round 2 wants 3: four are made."""
    two, three = (caul(400.0),) * 2, (caul(400.02),) * 3
    plan = plan_of(
        set_up(1, 1, cauls=two), set_up(2, 1, cauls=two), set_up(3, 2, cauls=(*three, caul(300.0, False), caul(500.0)))
    )
    rows = [(r.name, r.length, r.count) for r in supply_rows(plan, STACKS, GlueSettings())[1:]]
    assert rows == [("board", 300.0, 1), ("bar", 500.0, 1), ("bar", 400.0, 4)]


def test_the_crown_of_a_bar_is_told_in_the_units() -> None:
    plan = plan_of(set_up(1, 1, cauls=(caul(400.0, crown=0.8),)))
    assert "0.8 mm higher" in supply_rows(plan, STACKS, GlueSettings())[1].how
    assert "0.031 in higher" in supply_rows(plan, STACKS, GlueSettings(), units="in")[1].how  # 0.8 / 25.4 = 0.0315


def test_rods_that_are_used_at_once_and_their_length() -> None:
    place = ClampPlace("rod M16", (0.0, 0.0), 12_000.0, 40.0, 0.0, 200.0)
    bar = replace(place, press="bar clamp")
    plan = plan_of(
        set_up(1, 1, places=(place, bar), opening=272.0), set_up(2, 1, places=(place,), opening=480.0),
        set_up(3, 2, places=(place,), opening=300.0),
    )  # fmt: skip
    (_, row) = supply_rows(plan, STACKS, GlueSettings(), (ROD, PressSettings("bar clamp")))
    assert (row.item, row.name, row.count, row.length) == ("rod", "rod M16", 2, 480.0)
    own = replace(ROD, opening=1000.0)
    assert supply_rows(plan, STACKS, GlueSettings(), (own,))[1].length == 1000.0


def test_the_rows_go_into_the_bill() -> None:
    plan = plan_of(set_up(1, 1, cauls=(caul(400.0),)))
    read = list(csv.DictReader(io.StringIO(csv_text(supply_rows(plan, STACKS, GlueSettings(price=9.0))))))
    assert [(r["item"], r["name"], r["mass kg"], r["cost"]) for r in read] == [
        ("glue", "yellow glue", "0.06", "0.54"), ("caul", "bar", "", "")
    ]  # fmt: skip
