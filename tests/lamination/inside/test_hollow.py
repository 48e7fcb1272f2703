# SPDX-License-Identifier: LGPL-2.1-or-later

"""Hollow layers: volumes in closed form, walls measured in space by manifold3d, and what is said about them."""

from __future__ import annotations

from dataclasses import replace

import judges
import manifold3d
import numpy as np
import pytest
import shapely
import solids
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.inside.checks import hollow_checks
from freecad_stacklam.lamination.inside.hollow import fit_inside, hollow_stack, reversed_loop
from freecad_stacklam.lamination.inside.pins import finish_stack
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import Loop, Outline, area, circle, loop_area, polygon_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def planned(mesh, stock=45.0, name="Piece", **more):
    return plan_stack(mesh, StackSettings(stock=(stock,), **more), name=name)


def hollowed(mesh, stock=45.0, **asked):
    return hollow_stack(planned(mesh, stock), mesh, HollowSettings(**asked))


def voids_of(stack):
    """All voids as manifold3d sees them, vents left out."""
    hollow = {n for v in stack.hollow.voids for n in v.layers}
    prisms = [
        judges.extruded(polygon_of(c.outline), c.start, c.end)
        for layer in stack.layers if layer.number in hollow
        for c in layer.cuts if c.kind == "hollow"
    ]  # fmt: skip
    return manifold3d.Manifold.batch_boolean(prisms, manifold3d.OpType.Add)


def air_around(mesh, stack):
    return manifold3d.Manifold.cube((2000, 2000, 2000), True) - judges.solid(mesh, stack.frame)


def vase():
    """A turned form with a belly, a neck and a lip, so that walls lean both ways."""
    z = np.linspace(0, 400, 21)
    r = 130 + 45 * np.sin(z / 60) - 20 * np.cos(z / 23)
    return solids.revolved(np.vstack([[0, 0], np.stack([r, z], axis=1), [0, 400]]), 48)


def ring():
    """A ring 180 mm high with a round section."""
    mesh = trimesh.creation.torus(170, 90, major_sections=48, minor_sections=24)
    return solids.gate(mesh.vertices + [0, 0, 90], mesh.faces)


def leaning():
    """A leaning oblong block: its neighbours' sections are shifted."""
    shear = np.eye(4)
    shear[0, 2], shear[1, 2] = 0.35, -0.2
    return solids.moved(solids.box(300, 260, 360), shear)


def test_hollow_of_a_cylinder_in_closed_form():
    # Radius 150, wall 40: each void is π·110²·t. The guard (0.2 mm) and the fit (0.25 mm at most) may take from it,
    # never add to it.
    stack = hollowed(solids.cylinder(150, 405), wall=40.0, caps=2)
    assert [layer.number for layer in stack.layers if layer.cuts] == [3, 4, 5, 6, 7]
    most, least = np.pi * 110**2 * 45, np.pi * 109.5**2 * 45
    for layer in stack.layers[2:7]:
        (cut,) = layer.cuts
        assert (cut.kind, cut.start, cut.end) == ("hollow", layer.bottom, layer.top)
        assert least <= area(cut.outline) * 45 <= most
    assert stack.hollow.volume == pytest.approx(sum(area(n.cuts[0].outline) * 45 for n in stack.layers[2:7]))
    (void,) = stack.hollow.voids
    assert void.layers == (3, 4, 5, 6, 7)
    ring = np.pi * (150**2 - 110**2)
    for line in stack.hollow.glue_lines:
        assert line.whole == pytest.approx(np.pi * 150**2, rel=1e-3)
        if 2 <= line.interface <= 7:
            assert ring * 0.999 <= line.left <= ring + np.pi * (110**2 - 109.5**2)
        else:
            assert line.left == line.whole


@pytest.mark.parametrize(
    ("mesh", "asked"),
    [
        (solids.cylinder(150, 405, 90), {"wall": 40.0, "caps": 1}),
        (solids.ball(200, 3), {"wall": 45.0, "caps": 1}),
        (vase(), {"wall": 30.0, "caps": 0, "turn": 10.0}),
        (leaning(), {"wall": 35.0, "caps": 1}),
        (ring(), {"wall": 25.0, "caps": 0, "least": 1000.0}),
    ],
    ids=["cylinder", "ball", "vase", "leaning", "torus"],
)
@pytest.mark.parametrize("stock", [pytest.param(27.0, marks=pytest.mark.slow), 45.0])
def test_wall_is_nowhere_thinner_than_asked(mesh, asked, stock):
    stack = hollowed(mesh, stock, **asked)
    voids, form = voids_of(stack), judges.solid(mesh, stack.frame)
    assert (voids - form).volume() == pytest.approx(0.0, abs=1e-6)
    gap = voids.min_gap(air_around(mesh, stack), 300.0)
    assert gap >= asked["wall"]
    assert gap >= stack.hollow.least_wall - 1e-6
    assert stack.hollow.least_wall >= asked["wall"]


def test_blanks_less_their_voids_by_another_kernel():
    mesh = vase()
    stack = hollowed(mesh, wall=30.0, caps=0, turn=10.0, web=20.0)
    rest = judges.blanks(stack) - voids_of(stack)
    assert rest.volume() == pytest.approx(sum(n.blank_volume for n in stack.layers) - stack.hollow.volume, rel=1e-4)


@given(st.floats(90, 160), st.floats(0.0, 0.3), st.integers(2, 5), st.floats(20, 50))
@settings(max_examples=8, deadline=None)
def test_void_of_a_prism_is_its_plan_offset_inwards(radius, depth, lobes, wall):
    # The plan of a prism is the same at every height, so the void is the plan offset inwards and opened: shapely's own.
    a = 2 * np.pi * np.arange(180) / 180
    r = radius * (1 + depth * np.cos(lobes * a))
    plan = shapely.Polygon(np.stack([r * np.cos(a), r * np.sin(a)], axis=1))
    solid = judges.extruded(plan, 0.0, 135.0).to_mesh64()
    mesh = solids.gate(np.asarray(solid.vert_properties)[:, :3], np.asarray(solid.tri_verts).astype(np.int64))
    inner = plan.buffer(-wall, quad_segs=64)
    opened = inner.buffer(-16, quad_segs=64).buffer(16, quad_segs=64)
    expected = sum(p.area for p in shapely.get_parts(opened) if p.area >= 2500)
    asked = HollowSettings(wall=wall, caps=1, turn=16.0)
    stack = planned(mesh)
    if wall > 44.8 or not expected:
        with pytest.raises(Refusal):
            hollow_stack(stack, mesh, asked)
        return
    found = hollow_stack(stack, mesh, asked)
    made = sum(area(c.outline) for c in found.layers[1].cuts)
    assert made <= expected + 1e-6
    assert made >= expected - 0.6 * opened.length - 1.0
    assert opened.buffer(1e-6).covers(shapely.union_all([polygon_of(c.outline) for c in found.layers[1].cuts]))


def test_saw_turns_in_every_corner():
    stack = hollowed(solids.box(320, 260, 225), wall=40.0, caps=1, turn=20.0)
    for layer in stack.layers[1:4]:
        (cut,) = layer.cuts
        plan = polygon_of(cut.outline)
        rolled = plan.buffer(-19.5, quad_segs=64).buffer(19.5, quad_segs=64)
        assert plan.difference(rolled.buffer(0.05)).area == pytest.approx(0.0, abs=0.5)


def test_small_voids_are_dropped():
    mesh = solids.box(300, 150, 135)
    assert hollowed(mesh, wall=40.0, caps=1, least=100.0).hollow.volume > 0
    with pytest.raises(Refusal, match="smaller than 200 cm²"):
        hollowed(mesh, wall=40.0, caps=1, least=20000.0)


def test_web_runs_across_the_grain():
    mesh = solids.box(400, 300, 135)
    for grain, inner in ((0.0, [(40, 190), (210, 360)]), (90.0, None)):
        stack = hollow_stack(planned(mesh), mesh, HollowSettings(wall=40.0, caps=1, web=20.0), grain)
        plans = sorted(polygon_of(c.outline).bounds for c in stack.layers[1].cuts)
        assert len(plans) == 2
        if inner:
            for bounds, (low, high) in zip(plans, inner):
                assert (bounds[0], bounds[2]) == pytest.approx((low, high), abs=0.6)
        else:
            assert sorted(b[1] for b in plans) == pytest.approx([40, 160], abs=0.6)


def joined():
    post, top = solids.cylinder(150, 360, 90), solids.cylinder(150, 90, 90)
    top = solids.moved(top, np.array([*np.eye(4)[:2], [0, 0, 1, 360], [0, 0, 0, 1.0]]))
    stacks, meshes = {"Post": planned(post, name="Post"), "Top": planned(top, name="Top")}, {"Post": post, "Top": top}
    joint = place_joint(
        JointSettings("post to top", size=(40.0,), embed=(("Post", 200.0), ("Top", 60.0))), stacks, meshes
    )
    return cut_layers(stacks["Post"], joint), post


def test_voids_keep_clear_of_joints_and_pins_of_voids():
    stack, mesh = joined()
    asked = StackSettings(hollow=HollowSettings(40.0, 1, 8.0, 12.0), pins=PinSettings(margin=9.0))
    done = finish_stack(stack, mesh, asked)
    cuts = [(c.kind, judges.extruded(polygon_of(c.outline), c.start, c.end)) for n in done.layers for c in n.cuts]
    hollow = manifold3d.Manifold.batch_boolean([m for k, m in cuts if k == "hollow"], manifold3d.OpType.Add)
    mortise = manifold3d.Manifold.batch_boolean([m for k, m in cuts if k == "mortise"], manifold3d.OpType.Add)
    pins = manifold3d.Manifold.batch_boolean([m for k, m in cuts if k == "pin"], manifold3d.OpType.Add)
    assert hollow.min_gap(mortise, 100.0) >= 12.0 - 1e-6
    assert pins.min_gap(mortise, 100.0) >= 9.0 - 0.01
    assert pins.min_gap(hollow, 100.0) >= 9.0 - 0.01
    # Two pins in the ring between the void and the surface lie on nearly one circle and fit a layer turned over.
    assert {sum(p.interface == n for p in done.pins) for n in range(2, 7)} == {3}
    assert all(m.held for m in done.misfits)
    # done again, everything is made anew
    assert finish_stack(done, mesh, asked) == done


def test_vent_is_bored_or_said():
    mesh = solids.cylinder(150, 405)
    closed = hollowed(mesh, wall=40.0, caps=2)
    (void,) = closed.hollow.voids
    assert void.vent == 0
    assert np.hypot(*void.vent_place) < 100
    says = {c.name: c for c in hollow_checks(closed, {})}
    assert says["Piece: vents"].verdict == "caution"
    assert "bore a vent" in says["Piece: vents"].says
    vented = hollowed(mesh, wall=40.0, caps=2, vent=8.0)
    for layer in vented.layers[:2]:
        (cut,) = layer.cuts
        assert area(cut.outline) == pytest.approx(np.pi * 16)
        assert (cut.start, cut.end) == (layer.bottom, layer.top)
    assert {c.name: c.verdict for c in hollow_checks(vented, {})}["Piece: vents"] == "ok"


@pytest.mark.parametrize(
    ("mesh", "asked", "says"),
    [
        (solids.cylinder(60, 405), {"wall": 70.0, "caps": 1}, "thicker than the body"),
        (solids.cylinder(150, 90), {"wall": 20.0, "caps": 1}, "leave none to hollow"),
        (solids.cylinder(60, 405), {"wall": 50.0, "caps": 1}, "too narrow for a saw"),
    ],
)
def test_impossible_hollows_are_refused(mesh, asked, says):
    with pytest.raises(Refusal) as refused:
        hollowed(mesh, **asked)
    assert says in str(refused.value)
    assert str(refused.value).count(". ") == 0


@pytest.mark.parametrize("asked", [{"wall": 0.0}, {"caps": -1}, {"web": -1.0}, {"turn": float("nan")}, {"wall": "30"}])
def test_impossible_settings_are_refused(asked):
    with pytest.raises(Refusal):
        HollowSettings(**asked)


def test_fitted_void_keeps_its_island_and_never_leaves_its_region():
    region = shapely.MultiPolygon([
        shapely.Point(0, 0).buffer(100, quad_segs=64).difference(shapely.Point(10, 0).buffer(30, quad_segs=64)),
        shapely.box(150, -40, 260, 40).buffer(10),
    ])  # fmt: skip
    found = fit_inside(region)
    assert sorted(len(o.holes) for o in found) == [0, 1]
    made = shapely.union_all([polygon_of(o) for o in found])
    assert region.covers(made)
    assert made.area >= region.area - 0.3 * region.length
    for outline in found:
        assert loop_area(outline.outer) > 0
        assert all(loop_area(h) < 0 for h in outline.holes)
        assert len(outline.outer.points) <= 8


def test_loop_run_backwards_is_the_same_loop():
    for loop in (circle(30, (4, 5)).outer, Loop(((0, 0, 0.3), (50, 0, 0.0), (60, 40, -0.2), (0, 30, 0.1)))):
        back = reversed_loop(loop)
        assert loop_area(back) == pytest.approx(-loop_area(loop))
        assert polygon_of(Outline(back)).symmetric_difference(polygon_of(Outline(loop))).area == pytest.approx(
            0, abs=1e-6
        )


def test_voids_and_pins_of_a_large_form_keep_its_own_guard_from_the_surface():
    """A block of 2.4 m, as if meshed with 0.24 mm: walls and margins are 0.48 mm thicker on the mesh, so that they are
    whole on the form; of a block whose mesh is exact the wall measures just so much."""
    mesh = replace(solids.box(2400, 300, 180), guard=0.48)
    stack = planned(mesh, allowance=2.0)
    assert stack.guard == 0.48
    assert shapely.union_all([polygon_of(o) for o in stack.layers[0].blank]).bounds[0] <= -2.0 - 0.48
    hollow = hollow_stack(stack, mesh, HollowSettings(wall=40.0, caps=1))
    assert hollow.hollow.least_wall == pytest.approx(40.48, abs=0.02)
    pinned = finish_stack(stack, mesh, StackSettings(pins=PinSettings(margin=8.0)))
    assert min(pin.least_cover for pin in pinned.pins) >= 8.48 - 0.02
