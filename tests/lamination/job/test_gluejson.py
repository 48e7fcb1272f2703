# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up in plan.json: what a set-up holds is what was planned, in minutes and with counts of clamps.

The arithmetic is done beside the records: two clamps of 4 670 N on 9 340 mm² press with 1 MPa.
"""

from __future__ import annotations

import json

import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.job.gluejson import glue_up_json, gluing_json
from freecad_stacklam.lamination.plan.gluing import (
    LAYERS,
    BrokenLimit,
    Burden,
    Caul,
    ClampPlace,
    Clock,
    Condition,
    GlueUpPlan,
    LinePressure,
    Move,
    SetUp,
)

SQUARE = MultiPolygon([shapely.box(0, 0, 93.4, 100)])
FORCE = 4670.0
PLACES = tuple(ClampPlace("Pipe 900", (x, 50.0), FORCE, 40.0, 0.0, 90.0) for x in (25.0, 70.0))
LINE = LinePressure(1, SQUARE.area, 2 * FORCE / SQUARE.area, 0.4, 0.5, 1.0, MultiPolygon(), (0.7, 1.7), 0.05, 0.1)
ONE = SetUp(
    1, 1, LAYERS, "Stand", 1, 2, ((1, 1), (2, 2)), (1,),
    Clock(480.0, 900.0, 120.0, 300.0, (Move(0.0, 60.0, "spread", 1),)), 12.5, SQUARE.area, PLACES, (LINE,),
    (Caul("top", True, SQUARE, 100.0, 40.0, 36.0, 0.3),), Burden(90.0, 4.0, (1.0, 2.0, 45.0)), 162.0,
    (BrokenLimit("clamps", 3, 2, "", "Borrow 1 clamp."),),
)  # fmt: skip
PLAN = GlueUpPlan(
    "yellow glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, (ONE,), (1, 2), True,
    (Condition("room", "go", 8.0, 2.0, "%", "Go."),), water=(("Stand", 1, 0.29, 2.0),),
)  # fmt: skip


def test_a_set_up_tells_what_was_planned() -> None:
    (found,) = glue_up_json(PLAN)
    assert found["clamps"] == [{"kind": "Pipe 900", "count": 2, "force": 4670.0}]
    assert found["pressure"] == 1.0 and found["pressure_wanted"] == [0.7, 1.7]
    assert found["minutes"]["close"] == 5.0 and found["minutes"]["open_time"] == 8.0
    assert found["joins"] == [[1, 1], [2, 2]] and found["glue_lines"] == [1]
    assert found["limits_broken"][0]["name"] == "clamps" and found["centre"] == [1.0, 2.0, 45.0]


def test_the_whole_is_json_and_empty_without_a_glue_up() -> None:
    facts = gluing_json(PLAN)
    assert json.loads(json.dumps(facts)) == facts
    assert facts["minutes"]["cured"] == 24 * 60 and facts["rounds"] == [1, 2] and facts["water"][0]["points"] == 0.29
    assert glue_up_json(None) == [] and gluing_json(None) == {}
