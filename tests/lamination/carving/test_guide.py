# SPDX-License-Identifier: LGPL-2.1-or-later

"""Steps, corner lines and volumes to carve, and blades in inner curves, against closed forms and another library."""

from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest
import shapely
import solids
from jobs import plan_job
from planschema import check_schema
from settingstext import write_settings

from freecad_stacklam.lamination.carving.guide import (
    carving_steps,
    plan_carving,
    removed_from,
    seams_between,
)
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings, PickedPlane
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE, GUARD

OUTSIDE = GUARD + 2.2 * FIT_TOLERANCE + 0.01


def planned(mesh, stock=25.0, allowance=0.0, **more):
    return plan_stack(mesh, StackSettings(stock=(stock,), allowance=allowance, **more), name="Form")


def test_steps_of_a_cone():
    # Exact: a layer of 25 mm on a flank at θ = atan(450 / 200) from level runs 25 / tan θ = 11.11 mm, and its outer
    # corner stands 25 · cos θ = 10.15 mm square to the flank (elementary geometry), further by what a blank is larger.
    mesh = solids.cone(200.0, 450.0, 360)
    theta = np.arctan2(450.0, 200.0)
    steps = carving_steps(planned(mesh), mesh)
    assert [s.interface for s in steps] == list(range(1, 18))
    for step in steps[:-1]:
        assert step.ledge == pytest.approx(25.0 / np.tan(theta), abs=2.2 * FIT_TOLERANCE)
        low, high = step.outer
        square = 25.0 * np.cos(theta)
        assert square + GUARD * np.sin(theta) - 0.01 <= low <= high <= square + OUTSIDE * np.sin(theta) + 0.01
        # The inner corner is the next blank at its own bottom: only the guard and the fit stand on the flank.
        assert GUARD * np.sin(theta) - 0.01 <= step.inner[0] <= step.inner[1] <= OUTSIDE * np.sin(theta) + 0.01
        assert all(c.closed for c in step.corners)
        for corner in step.corners:
            near = np.array(corner.nearest)
            assert np.hypot(near[:, 0], near[:, 1]) == pytest.approx(200 * (1 - near[:, 2] / 450), abs=0.02)
            apart = np.linalg.norm(near - np.array(corner.corner), axis=1)
            assert apart == pytest.approx(np.array(corner.distance))


def test_flush_faces_have_no_steps():
    mesh = solids.cylinder(100.0, 75.0)
    for step in carving_steps(planned(mesh, allowance=3.0), mesh):
        assert (step.outer, step.inner, step.corners, step.ledge) == (None, None, (), 0.0)
        assert len(step.glue_line) == 1


def test_corner_lines_of_a_ball_lie_on_it():
    # Exact: the distance of a point from a ball is its distance from the centre less R. On the lower half the corners
    # hang under the layer above.
    mesh = solids.ball(150.0, 5)
    sag = 150.0 - np.linalg.norm(mesh.vertices[mesh.triangles].mean(axis=1) - [0, 0, 150], axis=1).min()
    steps = carving_steps(planned(mesh, allowance=2.0), mesh)
    assert len(steps) == 11
    for step in steps:
        for corner in step.corners:
            at = np.array(corner.corner)
            assert at[:, 2] == pytest.approx(step.height)
            exact = np.linalg.norm(at - [0, 0, 150], axis=1) - 150.0
            assert np.array(corner.distance) == pytest.approx(exact, abs=sag + 1e-6)
            assert np.linalg.norm(np.array(corner.nearest) - [0, 0, 150], axis=1) == pytest.approx(150.0, abs=sag)


def test_removed_wood_is_blanks_less_form():
    # Exact: all of it together is the sum of the blanks less the cone, π R² H / 3.
    mesh = solids.cone(200.0, 450.0)
    plan = planned(mesh, allowance=3.0)
    rows = removed_from(plan, rate=0.8)
    total = sum(r.volume for r in rows)
    blanks = sum(layer.blank_volume for layer in plan.layers)
    assert total == pytest.approx(blanks - np.pi * 200.0**2 * 450.0 / 3, rel=1e-4)
    assert sum(r.hours for r in rows) == pytest.approx(total / 1e6 / 0.8)
    assert all(r.hours is None for r in removed_from(plan))


def test_a_whole_job():
    one, two = solids.cone(200.0, 450.0, 180), solids.ball(100.0, 4)
    plans = [planned(one), replace(planned(two), name="Ball")]
    settings = CarvingSettings(
        azimuth_step=30.0, station=50.0, depth_holes=(("Ball", "both"),), rate=1.2, level_templates=True,
        planes=(PickedPlane("slant", (0, 0, 100), (1, 0, 1)),),
    )  # fmt: skip
    made = plan_carving(plans, [one, two], settings)
    assert {o.kind for o in made.offsets} == {"azimuth", "station"}
    assert {o.stack for o in made.offsets} == {"Form", "Ball"}
    assert [(m.stack, m.face) for m in made.depth_maps] == [("Ball", "top"), ("Ball", "bottom")]
    assert sum(t.kind == "level" for t in made.templates) == 17 + 7
    assert sum(t.kind == "plane" for t in made.templates) == 2
    assert len(made.steps) == 17 + 7
    assert made.hours == pytest.approx(sum(r.volume for r in made.removed) / 1.2e6)
    assert made == plan_carving(plans, [one, two], settings)
    with pytest.raises(Refusal, match="no stack here"):
        plan_carving(plans, [one, two], CarvingSettings(depth_holes=(("Lid", "top"),)))


def test_a_job_computes_the_guide_only_when_asked_and_tells_it():
    forms = [Form("Ball", solids.ball(100.0, 4)), Form("Cone", solids.cone(100.0, 150.0, 180))]
    assert plan_job(forms, Settings(), {}).carving is None
    text = """
    [[stack]]
    stock = ["25mm"]
    [shop]
    band_saw = {blade = "12mm"}
    [carving]
    depth_holes = {Ball = "top"}
    templates = ["0deg", "45deg"]
    planes = [{name = "Slant", point = ["0mm", "0mm", "60mm"], normal = [1, 0, 1]}]
    rate = 0.9
    """
    settings = read_settings(text)
    plan = plan_job(forms, settings, {})
    facts = json.loads(dumps(as_dict(plan, settings)))
    assert check_schema(facts) == []
    told = facts["carving"]
    assert sum(s["count"] for s in told["stops"]) == len(told["depth_holes"]) > 0
    assert {t["name"] for t in told["templates"]} == {"at 0°", "at 45°", "Slant"}
    assert told["offsets"][0].keys() >= {"stack", "height", "azimuth", "radius", "cut"}
    assert sum(r["volume"] for r in told["removed_volume"]) / 0.9e6 == pytest.approx(told["hours"])
    assert any("band saw" in c.name for c in plan.checks)


def test_no_depth_hole_meets_a_seam_of_the_staves():
    form = Form("Ball", solids.ball(120.0, 4))
    settings = read_settings(
        """
        [[stack]]
        stock = ["30mm"]
        [shop]
        max_stave = "90mm"
        [carving]
        depth_holes = "top"
        pitch = "20mm"
        cover = "6mm"
        """
    )
    plan = plan_job([form], settings, {})
    assert plan.boards is not None
    seams = seams_between(plan.boards.staves)["Ball"]
    assert sum(map(len, seams.values())) > 8
    bare = plan_carving(plan.stacks, [form.mesh], settings.carving)
    held = {(h.x, h.y) for h in plan.carving.depth_maps[0].holes}
    assert held < {(h.x, h.y) for h in bare.depth_maps[0].holes}
    for hole in plan.carving.depth_maps[0].holes:
        for layer in plan.stacks[0].layers:
            if layer.top > hole.tip and layer.bottom < hole.surface:
                for seam in seams.get(layer.number, ()):
                    assert seam.distance(shapely.Point(hole.x, hole.y)) >= 6.0 + 4.0 - 1e-6


@pytest.mark.parametrize(
    "text,says",
    [
        ('pitsch = "20mm"', "line 2: pitsch: there is no such key; did you mean “pitch”?"),
        ('leave = "-1mm"', "line 2: leave: “-1mm” is impossible here"),
        ('depth_holes = {Top = "side"}', "line 2: depth_holes: a face is needed"),
        ('point = "spade"', "line 2: point: “spade” is not known here"),
        ('depth_holes = "top"\npoint = "rim"', "line 1: carving: The point of a rim bit must be measured"),
        ("planes = [{point = [0, 0, 0]}]", "this plane has no name"),
        ('planes = [{name = "A", normal = [0, 0, 0]}]', "line 2: normal: an axis of"),
        ('gauges = ["front"]', "line 2: gauges: “front” is not known here"),
        ("rate = 0.0", "line 2: rate: 0 is impossible here: give more than 0."),
    ],
)
def test_bad_settings_are_refused_with_their_line(text, says):
    with pytest.raises(Refusal) as refusal:
        read_settings(f"[carving]\n{text}\n")
    assert says in str(refusal.value)


def test_settings_read_back_as_written():
    guide = CarvingSettings(
        azimuths=(0.0, 12.5), station=50.0, templates=(), planes=(PickedPlane("A \"b\"", (1, 2, 3), (0, 0, 1)),),
        level_templates=True, gauges=("above",), depth_holes=(("Top", "both"), ("Foot", "bottom")), point="brad point",
        point_length=2.5, stop_step=0.25, rate=1.25, leave=25.4 / 16, bit_length=75.0,
    )  # fmt: skip
    for carving in (guide, CarvingSettings(), CarvingSettings(depth_holes=(("", "top"),)), None):
        settings = Settings(carving=carving)
        assert read_settings(write_settings(settings)) == settings
