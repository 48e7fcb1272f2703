# SPDX-License-Identifier: LGPL-2.1-or-later

"""Registration pins: where they may lie, how much wood is over them, and whether they keep layers the right way round.

Outside judges: shapely's own rotation, mirror and symmetric difference for the wrong ways, tried one by one; manifold3d
for distances in space and for volumes.
"""

from __future__ import annotations

from json import loads

import judges
import manifold3d
import numpy as np
import pytest
import shapely
import solids
from jobs import plan_job
from laidwrong import SHAPES, tried_one_by_one
from planschema import check_schema
from settingstext import write_settings
from shapely import affinity

from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.inside.pins import finish_stack, pin_stack
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import area, polygon_of
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

SHARE = 0.1


def extruded(shape, height):
    """A form with the same plan at every height."""
    return of_solid(judges.extruded(shape, 0.0, height))


def of_solid(solid):
    mesh = solid.to_mesh64()
    return gate(np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts).astype(np.int64))


def planned(mesh, stock=45.0, name="Piece", allowance=3.0):
    return plan_stack(mesh, StackSettings(stock=(stock,), allowance=allowance), name=name)


def test_a_stack_of_one_layer_has_no_glue_line_and_no_pins():
    mesh = solids.box(200, 150, 40)
    for asked in (PinSettings(), PinSettings(waste=True)):
        stack = pin_stack(planned(mesh, stock=40.0), mesh, asked)
        assert stack.pins == stack.misfits == ()
    with pytest.raises(Refusal, match="glue line 1, but Piece is of one layer and has no glue line"):
        pin_stack(planned(mesh, stock=40.0), mesh, PinSettings(at=((1.0, 0.0, 0.0),)))


def arch():
    """Two legs of 80 × 80 mm, 200 mm high, under a bridge of 320 × 80 × 100 mm."""
    legs = [manifold3d.Manifold.cube((80, 80, 201)).translate((x, 0, 0)) for x in (0, 240)]
    return of_solid(legs[0] + legs[1] + manifold3d.Manifold.cube((320, 80, 100)).translate((0, 0, 200)))


def bored(pin, height):
    """What a pin's two holes take out: Ø 10 below, 0.4 mm looser above, each with a brad point's tip, Ø 6, 4 mm on."""
    parts = []
    for radius, low, high in (
        (5.0, -pin.depth_down, 0.0), (5.2, 0.0, pin.depth_up),
        (3.0, -pin.depth_down - 4.0, 0.0), (3.0, 0.0, pin.depth_up + 4.0),
    ):  # fmt: skip
        part = manifold3d.Manifold.cylinder(high - low, radius, circular_segments=256)
        parts.append(part.translate((*pin.centre, height + low)))
    return parts[0] + parts[1] + parts[2] + parts[3]


@pytest.mark.parametrize("name", SHAPES)
def test_every_wrong_way_is_found_and_the_misfit_holds(name):
    mesh = extruded(SHAPES[name], 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings())
    (misfit,) = stack.misfits
    pins = np.array([p.centre for p in stack.pins])
    piece = polygon_of(stack.layers[1].blank[0])
    # The outlines are compared at steps of 2°: between two of them the farthest pin moves by no more than 1° of its
    # circle. The share is sampled too, so ways within 3 % of the limit may count or not.
    step = np.hypot(*(pins - np.array(piece.centroid.coords[0])).T).max() * np.radians(1.0)
    surely, perhaps = (tried_one_by_one(piece, pins, SHARE + d) for d in (-0.03, 0.03))
    stated = np.inf if misfit.distance is None else misfit.distance
    assert perhaps - step <= stated
    assert stated <= surely + step or surely == np.inf
    assert misfit.held
    assert stated >= 15.0


def test_outline_that_shows_every_wrong_way_needs_nothing_of_the_pins():
    mesh = extruded(shapely.Polygon([(0, 0), (300, 0), (300, 60), (90, 90), (60, 200), (0, 180)]), 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings(share=0.03))
    (misfit,) = stack.misfits
    assert misfit.distance is None
    assert misfit.held
    assert len(stack.pins) == 2


def test_layer_turned_over_never_meets_the_pins_below_with_its_upper_holes():
    mesh = extruded(SHAPES["square"], 135)
    stack = pin_stack(planned(mesh), mesh, PinSettings())
    low, high = (np.array([p.centre for p in stack.pins if p.interface == n]) for n in (1, 2))
    for axis in range(0, 180, 45):
        over = affinity.rotate(shapely.MultiPoint(high), -axis, origin=(0, 0))
        over = affinity.rotate(affinity.scale(over, 1, -1, origin=(0, 0)), axis, origin=(0, 0))
        apart = np.hypot(*(low[:, None] - shapely.get_coordinates(over)[None]).transpose(2, 0, 1))
        assert apart.min(axis=1).max() >= 15.0


def test_a_glue_line_that_is_not_there_cannot_be_left_without_pins():
    plan = planned(extruded(shapely.box(0, 0, 300, 200), 100))
    with pytest.raises(Refusal, match="“Piece” has 3 layers, so there is no glue line on layer 99"):
        pin_stack(plan, extruded(shapely.box(0, 0, 300, 200), 100), PinSettings(skip=(99,)))


@pytest.mark.parametrize(
    "mesh", [solids.ball(150, 4), solids.cone(200, 450, 120), solids.cylinder(80, 180, 90)],
    ids=["ball", "cone", "cylinder"],
)  # fmt: skip
def test_cover_is_the_distance_in_space(mesh):
    plan = planned(mesh)
    asked = PinSettings(skip=(9,) if len(plan.layers) > 9 else ())
    stack = pin_stack(plan, mesh, asked)
    assert {p.interface for p in stack.pins} == set(range(1, len(plan.layers))) - {9}
    form = judges.solid(mesh, plan.frame)
    air = manifold3d.Manifold.cube((900, 900, 900), True).translate((0, 0, 250)) - form
    for pin in stack.pins[:: max(1, len(stack.pins) // 4)]:
        height = plan.layers[pin.interface - 1].top
        body = bored(pin, height)
        assert (body - form).volume() == pytest.approx(0.0, abs=1e-6)
        # The judge looks 1 mm further than the figure, and would say so much where there is more.
        assert pin.least_cover == pytest.approx(air.min_gap(body, pin.least_cover + 1.0), abs=0.04)
        assert pin.least_cover >= asked.margin


def test_holes_are_cut_in_both_layers():
    mesh = solids.cylinder(100, 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings(depth=15.0, diameter=12.0))
    assert [p.interface for p in stack.pins] == [1, 1]
    below, above = stack.layers
    assert [(c.kind, c.start, c.end) for c in below.cuts] == [("pin", 30.0, 45.0)] * 2
    assert [(c.kind, c.start, c.end) for c in above.cuts] == [("pin", 45.0, 60.0)] * 2
    for cut, over, pin in zip(below.cuts, above.cuts, stack.pins):
        # The hole below fits the dowel, the one above is 0.3 to 0.5 mm looser, and the dowel is the depths less 3 mm
        # (common practice, no source): 15 + 15 - 3 = 27.
        assert area(cut.outline) == pytest.approx(np.pi * 6.0**2)
        assert area(over.outline) == pytest.approx(np.pi * 6.2**2)
        assert (pin.hole_below, pin.hole_above, pin.dowel) == pytest.approx((12.0, 12.4, 27.0))
        assert polygon_of(cut.outline).centroid.coords[0] == pytest.approx(pin.centre)
    # asked again, the holes are made anew
    assert pin_stack(stack, mesh, PinSettings(depth=15.0, diameter=12.0)) == stack


def test_pins_keep_clear_of_a_mortise():
    meshes = {
        "Post": solids.cylinder(60, 270, 60),
        "Top": solids.moved(solids.cylinder(150, 54, 90), np.array([*np.eye(4)[:2], [0, 0, 1, 270], [0, 0, 0, 1.0]])),
    }
    stacks = {"Post": planned(meshes["Post"], name="Post"), "Top": planned(meshes["Top"], 27.0, name="Top")}
    joint = place_joint(
        JointSettings("post to top", size=(40.0,), embed=(("Post", 120.0), ("Top", None))), stacks, meshes
    )
    for name, mesh in meshes.items():
        stack = pin_stack(cut_layers(stacks[name], joint), mesh, PinSettings())
        counts = [sum(p.interface == n for p in stack.pins) for n in range(1, len(stack.layers))]
        assert set(counts) <= {2, 3}  # a third where two about the mortise would fit a layer turned over
        assert all(m.held for m in stack.misfits)
        for layer in stack.layers:
            mortises = [polygon_of(c.outline) for c in layer.cuts if c.kind == "mortise"]
            for pin in (c for c in layer.cuts if c.kind == "pin"):
                assert all(polygon_of(pin.outline).distance(m) >= 8.0 for m in mortises)


def test_pins_of_neighbouring_glue_lines_do_not_meet_in_a_thin_layer():
    mesh = solids.cylinder(90, 95)
    stack = pin_stack(planned(mesh, 19.0), mesh, PinSettings(depth=12.0))
    for layer in stack.layers[1:-1]:
        cuts = [c for c in layer.cuts if c.kind == "pin"]
        under = [c for c in cuts if c.start == layer.bottom]
        over = [c for c in cuts if c.end == layer.top]
        assert len(under) == len(over) == 2
        for one in under:
            for other in over:
                if other.start - one.end < 8.0:
                    assert polygon_of(one.outline).distance(polygon_of(other.outline)) >= 8.0 - 0.02


def test_every_island_has_its_own_pins_and_the_bridge_cannot_be_turned():
    mesh = arch()
    stack = pin_stack(planned(mesh, 50.0), mesh, PinSettings())
    by_line = {n: [p.centre for p in stack.pins if p.interface == n] for n in range(1, 6)}
    assert [len(by_line[n]) for n in range(1, 6)] == [4, 4, 4, 4, 2]
    for n in range(1, 5):
        legs = [polygon_of(o) for o in stack.layers[n - 1].blank]
        assert [sum(leg.contains(shapely.Point(p)) for p in by_line[n]) for leg in legs] == [2, 2]
    bridge = polygon_of(stack.layers[4].blank[0])
    found = tried_one_by_one(bridge, np.array(by_line[4]), SHARE - 0.03, 2.0)
    assert found >= stack.misfits[3].distance - 3.0
    assert all(m.held for m in stack.misfits)


def test_pins_in_waste_stand_outside_the_form():
    mesh = solids.box(200, 140, 90)
    stack = pin_stack(planned(mesh, allowance=20.0), mesh, PinSettings(diameter=8.0, waste=True))
    waste = [p for p in stack.pins if p.waste]
    assert len(waste) == 2
    for pin in waste:
        disc = shapely.Point(pin.centre).buffer(4.2)  # the looser hole, 8.4 mm
        for layer in stack.layers:
            assert polygon_of(layer.blank[0]).contains(disc)
            assert layer.shadow.distance(disc) >= 2.0 - 0.01
            assert layer.shadow.distance(disc) == pytest.approx(pin.least_cover, abs=0.05)
    narrow = pin_stack(planned(mesh, allowance=3.0), mesh, PinSettings(diameter=8.0, waste=True))
    assert not [p for p in narrow.pins if p.waste]


def test_more_pins_on_request():
    mesh = solids.cylinder(100, 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings(count=3))
    centres = np.array([p.centre for p in stack.pins])
    assert len(centres) == 3
    apart = np.hypot(*(centres[:, None] - centres[None]).transpose(2, 0, 1))
    assert apart[np.triu_indices(3, 1)].min() >= 20.0


@pytest.mark.parametrize(
    ("mesh", "asked", "says"),
    [
        (solids.cylinder(12, 90), {}, "nowhere 26 mm wide"),
        (solids.cylinder(18.5, 90), {}, "do not fit side by side"),
        (solids.cylinder(100, 90), {"depth": 95.0}, "comes through"),
        (solids.cylinder(100, 50), {}, "nowhere 26 mm wide (a pin and its margins) over their whole depth"),
    ],
)
def test_impossible_pins_are_refused_with_the_rule(mesh, asked, says):
    with pytest.raises(Refusal) as refused:
        pin_stack(planned(mesh), mesh, PinSettings(**asked))
    assert says in str(refused.value)
    assert str(refused.value).count(". ") == 0


def test_mortise_that_fills_the_section_is_the_rule_that_forbids():
    mesh = solids.cylinder(60, 270, 60)
    top = solids.moved(solids.cylinder(60, 270, 60), np.array([*np.eye(4)[:2], [0, 0, 1, 270], [0, 0, 0, 1.0]]))
    stacks, meshes = {"Post": planned(mesh, name="Post"), "Top": planned(top, name="Top")}, {"Post": mesh, "Top": top}
    joint = place_joint(JointSettings("tight", size=(68.0,), embed=(("Post", 120.0), ("Top", 120.0))), stacks, meshes)
    # The mortise runs down 120 of 270 mm, through three glue lines of five: the two below it are pinned.
    found = pin_stack(cut_layers(stacks["Post"], joint), mesh, PinSettings())
    assert {p.interface for p in found.pins} == {1, 2}
    (bare,) = found.left_out
    assert "between layers 3 and 4 of Post" in bare.says
    assert "joints and voids leave no strip of wood 26 mm wide" in told(bare.says)
    assert bare.says.endswith("Nor do they fit at glue line 4, 5.")
    assert pin_stack(found, mesh, PinSettings()).left_out == found.left_out


@pytest.mark.parametrize(
    "asked", [{"diameter": 0.0}, {"depth": -1.0}, {"margin": -1.0}, {"count": 1}, {"share": 1.0}, {"waste": 1}]
)
def test_impossible_settings_are_refused(asked):
    with pytest.raises(Refusal):
        PinSettings(**asked)


def test_job_file_and_json_carry_pins_and_hollow():
    chosen = read_settings(
        '[[stack]]\nstock = ["45mm"]\nhollow = {wall = "40mm", caps = 1, vent = "8mm", web = "20mm", least = 2000.0}\n'
        'pins = {diameter = "10mm", depth = "12mm", margin = "8mm", count = 2, waste = true, skip = [1]}\n'
    )
    assert read_settings(write_settings(chosen)) == chosen
    plan = plan_job([Form("Drum", solids.cylinder(150, 270, 90))], chosen, {})
    facts = as_dict(plan, chosen)
    assert check_schema(facts) == []
    (stack,) = facts["stacks"]
    assert sorted({p["interface"] for p in stack["pins"]}) == [2, 3, 4, 5]
    assert [m["interface"] for m in stack["misfit"]] == [2, 3, 4, 5]
    assert stack["hollow"]["voids"][0]["layers"] == [2, 3, 4, 5]
    assert {c["kind"] for n in stack["layers"] for c in n["cuts"]} == {"pin", "hollow"}
    named = {c["name"]: c for c in facts["checks"]}
    assert named["Drum: pins keep layers the right way round"]["verdict"] == "ok"
    assert named["Drum: cover of the pins"]["figure"] >= 8.0
    assert named["Drum: wall around the voids"]["figure"] >= 40.0
    assert named["Drum: vents"]["verdict"] == "ok"
    finished = next(r for r in facts["bill"] if r["item"] == "finished")
    form = next(r for r in facts["bill"] if r["item"] == "form")
    assert finished["volume"] == pytest.approx(form["volume"] - stack["hollow"]["volume"])
    loads(dumps(facts))


def test_finish_without_pins_and_hollow_changes_nothing():
    mesh = solids.cylinder(60, 90)
    stack = planned(mesh)
    assert finish_stack(stack, mesh, StackSettings()) is stack
