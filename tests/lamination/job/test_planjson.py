# SPDX-License-Identifier: LGPL-2.1-or-later

"""plan.json against the plan it was made of, and against JSON as RFC 8259 has it."""

from __future__ import annotations

import copy
import json
from dataclasses import replace
from math import hypot

import plans
import pytest
from planschema import check_schema
from shapely.geometry import Polygon

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.job.checks import checks_of
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.plan.outline import area, circle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings


def whole(plan: Plan) -> Plan:
    plan = replace(plan, bill=bill_of(plan, species_table()))
    return replace(plan, checks=checks_of(plan, species_table()))


@pytest.fixture(scope="module")
def facts() -> dict:
    return json.loads(dumps(as_dict(whole(plans.plant_stand()), Settings())))


@pytest.mark.parametrize("plan", [plans.plant_stand(), plans.legs(), Plan("Empty", "in", ())], ids=lambda p: p.title)
def test_schema_holds_after_reading_back(plan: Plan) -> None:
    assert check_schema(json.loads(dumps(as_dict(whole(plan), Settings())))) == []


def test_volumes_and_areas_are_the_plans(facts: dict) -> None:
    plan = plans.plant_stand()
    for stack, read in zip(plan.stacks, facts["stacks"]):
        for layer, told in zip(stack.layers, read["layers"]):
            assert told["blank_area"] == pytest.approx(layer.blank_area, abs=1e-6)
            assert told["blank_volume"] == pytest.approx(layer.blank_volume, abs=1e-6)
            drawn = sum(Polygon(p["outer"], p["holes"]).area for p in told["blank"])
            assert drawn == pytest.approx(layer.blank_area, rel=1e-6)


def test_bill_and_layers_agree(facts: dict) -> None:
    blanks = [r for r in facts["bill"] if r["item"] == "blank"]
    layers = [n for s in facts["stacks"] for n in s["layers"]]
    assert len(blanks) == len(layers) == 12
    for row, layer in zip(blanks, layers):
        assert row["volume"] == pytest.approx(layer["blank_volume"], abs=1e-6)
        assert row["board_feet"] == layer["board_feet"]


def test_arcs_are_sampled_to_a_hundredth_and_area_stays_exact() -> None:
    plan = plans.legs()
    round_blank = circle(200.0)
    layer = replace(plan.stacks[0].layers[0], blank=(round_blank,), blank_area=area(round_blank))
    plan = replace(plan, stacks=(replace(plan.stacks[0], layers=(layer,)),))
    told = as_dict(plan, Settings())["stacks"][0]["layers"][0]
    inner = min(hypot(x, y) for x, y in _middles(told["blank"][0]["outer"]))
    assert 99.99 <= inner <= 100.0
    assert told["blank_area"] == pytest.approx(31415.926536, abs=1e-6)  # π · 100²


def _middles(ring: list) -> list:
    return [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in zip(ring, ring[1:] + ring[:1])]


def test_joint_and_cuts_are_told(facts: dict) -> None:
    joint = facts["joints"][0]
    assert joint["axis"] == {"point": [0.0, 0.0, 450.0], "direction": [0.0, 0.0, 1.0]}
    assert [m["through"] for m in joint["members"]] == [False, True]
    assert joint["least_cover"] == {"distance": 31.5, "at": [0.0, -52.0, 400.0]}
    cuts = [c for s in facts["stacks"] for n in s["layers"] for c in n["cuts"]]
    assert {c["joint"] for c in cuts} == {joint["name"]} and len(cuts) == 4
    for cut in cuts:
        assert Polygon(cut["outline"][0]["outer"]).area == pytest.approx(plans.SIDE**2)


def test_later_rooms_are_empty_but_there(facts: dict) -> None:
    assert facts["sheets"] == facts["glue_up"] == [] == facts["stacks"][0]["pins"]
    assert facts["boards"]["staves"] == facts["carving"]["depth_holes"] == []


def test_no_nan_and_no_infinity() -> None:
    for bad in (float("nan"), float("inf")):
        plan = plans.legs()
        stack = plan.stacks[0]
        plan = replace(plan, stacks=(replace(stack, containment=replace(stack.containment, least_cover=bad)),))
        with pytest.raises(Refusal):
            dumps(as_dict(plan, Settings()))


def test_nothing_is_minus_zero() -> None:
    assert "-0.0," not in dumps(as_dict(plans.plant_stand(), Settings()))


def test_faults_are_found(facts: dict) -> None:
    def broken(change: object) -> list[str]:
        wrong = copy.deepcopy(facts)
        change(wrong)  # type: ignore[operator]
        return check_schema(wrong)

    def layer(d: dict) -> dict:
        return d["stacks"][0]["layers"][0]

    assert broken(lambda d: d.pop("carving")) == ["plan: carving is missing"]
    assert broken(lambda d: d.update(schema=2))
    assert broken(lambda d: d["stacks"][0].pop("guard"))
    assert broken(lambda d: d["stacks"][0]["frame"].pop())
    assert broken(lambda d: layer(d)["blank"][0]["outer"].reverse())
    assert broken(lambda d: layer(d)["blank"][0]["outer"].append(layer(d)["blank"][0]["outer"][0]))
    assert broken(lambda d: layer(d).update(blank_volume=1.0))
    assert broken(lambda d: layer(d).update(grain="0deg"))
    assert broken(lambda d: d["checks"][0].update(verdict="fine"))
    assert broken(lambda d: d["boards"].pop("short"))
