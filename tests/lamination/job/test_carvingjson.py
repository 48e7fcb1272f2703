# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide as it stands in plan.json, against the guide it was made of and a cone's own figures."""

from __future__ import annotations

import json
from math import hypot

import pytest
import solids
from shapely.geometry import Polygon

from freecad_stacklam.lamination.carving.guide import plan_carving
from freecad_stacklam.lamination.job.carvingjson import carving_json
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


@pytest.fixture(scope="module")
def told() -> dict:
    """A cone of radius 200 and height 200 with its guide, through JSON and back."""
    mesh = solids.cone(200.0, 200.0)
    stack = plan_stack(mesh, StackSettings(stock=(40.0,), allowance=3.0), name="Cone")
    settings = CarvingSettings(azimuth_step=90.0, templates=(0.0,), depth_holes=(("", "top"),), rate=4.0, pitch=40.0)
    return json.loads(json.dumps(carving_json(plan_carving([stack], [mesh], settings))))


def test_without_a_guide_every_key_is_there() -> None:
    none = carving_json(None)
    assert none["rate"] is none["hours"] is None
    assert not any(none[key] for key in none if key not in ("rate", "hours"))


def test_offsets_are_the_cones_radii(told: dict) -> None:
    """At the height h the cone has the radius 200 − h, in every direction."""
    rows = [row for row in told["offsets"] if 0 < row["height"] < 200]
    assert {row["azimuth"] for row in rows} == {0.0, 90.0, 180.0, 270.0}
    for row in rows:
        assert row["radius"] == pytest.approx(200.0 - row["height"], abs=0.01)
        assert row["edge_below"] >= row["radius"] + 3.0


def test_the_template_is_the_cones_triangle(told: dict) -> None:
    (template,) = told["templates"]
    (outline,) = template["outline"]
    assert Polygon(outline["outer"]).area == pytest.approx(200.0 * 200.0, rel=1e-3)
    assert hypot(*template["plane"]["across"]) == pytest.approx(1.0)
    assert hypot(*template["plane"]["up"]) == pytest.approx(1.0)


def test_hours_are_litres_at_the_rate(told: dict) -> None:
    litres = sum(row["volume"] for row in told["removed_volume"]) / 1e6
    assert told["rate"] == 4.0
    assert told["hours"] == pytest.approx(litres / 4.0, abs=1e-4)
    assert sum(row["hours"] for row in told["removed_volume"]) == pytest.approx(told["hours"], abs=1e-4)


def test_every_hole_has_its_stop(told: dict) -> None:
    stops = {(s["face"], s["stop"]): s for s in told["stops"]}
    assert sum(s["count"] for s in told["stops"]) == len(told["depth_holes"]) > 0
    for hole in told["depth_holes"]:
        stop = stops[hole["face"], hole["stop"]]
        assert hole["depth"] == stop["depth"]
        # The tip stays clear of the cone by what is left, measured square to its slope of 45°.
        tip = hole["surface"] - hole["depth"]
        assert (tip - (200.0 - hypot(hole["x"], hole["y"]))) / 2**0.5 >= stop["leave"] - 0.01
