# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blanks of forms that are known exactly, and the figures of a stack."""

from __future__ import annotations

from functools import cache

import judges
import numpy as np
import pytest
import shapely
import solids

from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE, GUARD

# What a blank may stand outside the exact form with allowance 0: the guard, the fit (2.5 tolerances at worst, 2.1 as
# a rule),
# and the chords of offset arcs. What the mesh may lie inside the exact form: the sag of its chords, given per solid.
OUTSIDE = GUARD + 2.2 * FIT_TOLERANCE + 0.01


def radii(plan, tool=np.max):
    return [
        float(tool(np.hypot(*shapely.get_coordinates(area_polygon(layer.blank).boundary).T))) for layer in plan.layers
    ]


@cache
def cone_plan():
    return plan_stack(solids.cone(), StackSettings(stock=(25.0,)), name="cone")


@pytest.mark.parametrize("stock", [25.0])
def test_ball_blanks_have_the_exact_radii(stock):
    # Exact: the blank of a slab of a ball is the largest circle in it (elementary geometry; the project's trade
    # table §9.1).
    exact = [150.0, 147.902, 141.421, 129.904, 111.803, 82.916]
    mesh = solids.ball(150.0)
    sag = 150.0 - np.linalg.norm(mesh.vertices[mesh.triangles].mean(axis=1) - [0, 0, 150], axis=1).min()
    plan = plan_stack(mesh, StackSettings(stock=(stock,), allowance=0.0), name="ball")
    assert len(plan.layers) == 12
    for found, low, wanted in zip(radii(plan), radii(plan, np.min), exact[::-1] + exact):
        assert wanted + GUARD - sag <= low
        assert found <= wanted + OUTSIDE
    total = sum(layer.blank_volume for layer in plan.layers)
    # 15 806 138.04 mm³ without guard, mesh and fit; each may move the radius of every blank by as much as stated above.
    around = sum(2 * np.pi * r * stock for r in exact * 2)
    assert (
        15_806_138.04 + (GUARD - sag) * around
        <= total
        <= 15_806_138.04 + OUTSIDE * around + 12 * stock * np.pi * OUTSIDE**2
    )


def test_cone_blanks_have_the_exact_radii():
    # Exact: layer k of a cone needs the circle at its bottom, R·(1 − k/18) (elementary geometry).
    mesh = solids.cone()
    plan = plan_stack(mesh, StackSettings(stock=(25.0,), allowance=0.0), name="cone")
    assert len(plan.layers) == 18
    wanted = [200.0 * (1 - k / 18) for k in range(18)]
    sag = 200.0 * (1 - np.cos(np.pi / 720))
    for r, found, low in zip(wanted, radii(plan), radii(plan, np.min)):
        assert r + GUARD - sag <= low
        assert found <= r + OUTSIDE
    total = sum(layer.blank_volume for layer in plan.layers)
    around = sum(2 * np.pi * r * 25 for r in wanted)
    assert (
        20_449_441.07 + (GUARD - sag) * around
        <= total
        <= 20_449_441.07 + OUTSIDE * around + 18 * 25 * np.pi * OUTSIDE**2
    )


def test_a_full_circle_is_drawn_as_a_circle():
    for layer in cone_plan().layers[:-1]:
        (blank,) = layer.blank
        assert [p[2] for p in blank.outer.points] == [1.0, 1.0]


@pytest.mark.parametrize("mesh", [solids.box(300, 200, 100), solids.cylinder(60, 100)], ids=["box", "cylinder"])
def test_straight_sided_forms_need_no_more_than_themselves(mesh):
    plan = plan_stack(mesh, StackSettings(stock=(25.0,), allowance=3.0), name="straight")
    assert len(plan.layers) == 4
    first = area_polygon(plan.layers[0].blank)
    form = plan.layers[0].finished_bottom
    assert form.area == pytest.approx(mesh.volume / 100, rel=1e-6)
    for layer in plan.layers:
        blank = area_polygon(layer.blank)
        # the same but for where an arc of a rounded corner begins
        assert blank.symmetric_difference(first).area < 4 * FIT_TOLERANCE * np.pi * (3.0 + GUARD)
        assert blank.contains(form.buffer(3.0 + GUARD - 0.01))
        assert form.buffer(3.0 + OUTSIDE, quad_segs=64).contains(blank)


def test_flat_step_on_a_glue_line_does_not_widen_its_neighbour():
    # A wide plate of 25 mm under a post: the layer above the step needs the post alone.
    profile = np.array([[0, 0], [150, 0], [150, 25], [50, 25], [50, 100], [0, 100]], dtype=float)
    plan = plan_stack(solids.revolved(profile), StackSettings(stock=(25.0,), allowance=0.0), name="step")
    found = radii(plan)
    assert found[0] == pytest.approx(150 + GUARD, abs=OUTSIDE - GUARD)
    assert found[1] == pytest.approx(50 + GUARD, abs=OUTSIDE - GUARD)
    # and the finished outlines at the step are each layer's own
    assert plan.layers[0].finished_top.area == pytest.approx(np.pi * 150**2, rel=1e-3)
    assert plan.layers[1].finished_bottom.area == pytest.approx(np.pi * 50**2, rel=1e-3)


def test_neck_inside_a_layer_is_covered_where_it_is_widest():
    # An hourglass whose waist lies at half a layer, and a bulge that lies at half a layer: both faces of the layer are
    # smaller than the bulge.
    profile = np.array([[0, 0], [50, 0], [50, 20], [90, 37.5], [50, 55], [50, 75], [0, 75]], dtype=float)
    plan = plan_stack(solids.revolved(profile), StackSettings(stock=(25.0,), allowance=0.0), name="bulge")
    assert radii(plan, np.min)[1] >= 90.0
    assert plan.layers[1].finished_bottom.area < np.pi * 62**2
    assert plan.containment.proven


def test_torus_keeps_its_hole_and_may_have_it_filled():
    mesh = solids.torus()
    plan = plan_stack(mesh, StackSettings(stock=(20.0,), allowance=0.0), name="ring")
    assert all(len(layer.blank) == 1 and len(layer.blank[0].holes) == 1 for layer in plan.layers)
    # Exact shadow of a slab of a torus: ring ± sqrt(tube² − z²) at its fattest height (elementary geometry).
    outer, inner = 120 + 40.0, 120 - 40.0
    ring = area_polygon(plan.layers[1].blank).area
    assert np.pi * (outer**2 - inner**2) < ring < np.pi * ((outer + OUTSIDE) ** 2 - (inner - OUTSIDE) ** 2)
    filled = plan_stack(mesh, StackSettings(stock=(20.0,), allowance=0.0, fill_holes=True), name="ring")
    assert all(not o.holes for layer in filled.layers for o in layer.blank)
    assert filled.containment.proven


def test_two_legs_stay_two_islands():
    # A two-legged arch: legs below, a bridge above.
    import trimesh

    whole = trimesh.creation.box((200, 60, 120))
    gap = trimesh.creation.box((100, 80, 80))
    gap.apply_translation([0, 0, -20])
    arch = whole.difference(gap, engine="manifold")
    from freecad_stacklam.lamination.form.mesh import gate

    plan = plan_stack(gate(arch.vertices, arch.faces), StackSettings(stock=(20.0,), allowance=3.0), name="arch")
    assert [len(layer.blank) for layer in plan.layers] == [2, 2, 2, 2, 1, 1]
    assert plan.containment.proven


@pytest.mark.parametrize("axis", [(1, 0, 0), (0, 1, 0), (0, 0, -1), (1, 2, 3), (-0.3, 0.1, -2)])
def test_any_axis_gives_a_proven_stack_in_its_own_frame(axis):
    mesh = solids.moved(solids.cylinder(60, 300), np.diag([1.0, 0.7, 1.0]))
    plan = plan_stack(mesh, StackSettings(stock=(30.0,), axis=axis, allowance=2.0), name="oval")
    matrix = np.array(plan.frame).reshape(4, 4)
    assert np.allclose(matrix[:3, :3] @ matrix[:3, :3].T, np.eye(3))
    assert np.linalg.det(matrix) == pytest.approx(1.0)
    assert np.allclose(matrix[:3, 2], np.array(axis) / np.linalg.norm(axis))
    assert plan.containment.proven
    assert plan.containment.least_cover >= 2.0
    assert judges.uncovered(mesh, plan) <= 0.01


def test_volumes_of_layers_sum_to_the_form():
    for mesh in (solids.ball(200, 4), solids.cone(), solids.torus()):
        plan = plan_stack(mesh, StackSettings(stock=(22.0,), axis=(0.2, 0.1, 1)), name="form")
        assert sum(layer.finished_volume for layer in plan.layers) == pytest.approx(mesh.volume, rel=1e-12)


def test_cone_layers_hold_the_exact_volumes():
    # Frustum volumes, exact for the cone; the mesh is a pyramid of 720 sides, smaller by a known factor.
    plan = cone_plan()
    shrink = 720 / (2 * np.pi) * np.sin(2 * np.pi / 720)
    for k, layer in enumerate(plan.layers):
        r0, r1 = 200 * (1 - k / 18), 200 * (1 - (k + 1) / 18)
        assert layer.finished_volume == pytest.approx(shrink * np.pi * 25 / 3 * (r0**2 + r0 * r1 + r1**2), rel=1e-9)


def test_preview_agrees_with_the_plan():
    mesh = solids.torus()
    settings = StackSettings(stock=(18.0,), axis=(1, 0, 0.2))
    plan, quick = plan_stack(mesh, settings, name="ring"), preview(mesh, settings)
    assert quick.layers == len(plan.layers)
    assert quick.form_volume == mesh.volume
    wood = sum(layer.blank_volume for layer in plan.layers)
    assert quick.wood_volume <= wood
    assert quick.wood_volume == pytest.approx(wood, rel=0.01)
    assert quick.carved_volume == pytest.approx(quick.wood_volume - mesh.volume)


def test_planed_thicknesses_win_from_the_bottom():
    plan = plan_stack(solids.cone(), StackSettings(stock=(45.0,), thicknesses=(44.6, 44.8)), name="cone")
    assert [layer.thickness for layer in plan.layers[:3]] == pytest.approx([44.6, 44.8, 45.0])
    assert plan.height >= 450.0
    assert plan.layers[-1].thickness == pytest.approx(45.0)


@pytest.mark.parametrize(("stock", "says"), [(500.0, "thicker"), (0.3, "more than 400")])
def test_impossible_stock_is_refused_with_a_sentence(stock, says):
    with pytest.raises(Refusal, match=says):
        plan_stack(solids.cone(), StackSettings(stock=(stock,)), name="cone")


@pytest.mark.parametrize("stock", [0.0, -5.0, float("nan"), float("inf")])
def test_stock_that_is_no_thickness_is_refused(stock):
    with pytest.raises(Refusal, match="more than 0 mm" if np.isfinite(stock) else "give a number"):
        StackSettings(stock=(stock,))


def test_axis_without_length_is_refused():
    with pytest.raises(Refusal, match="has no length"):
        StackSettings(axis=(0, 0, 0))


def test_a_top_that_nearly_reaches_gets_a_layer_more_and_rounding_gets_none():
    # Found by a random form: a stack that ended 0.0098 mm under a flat top was called proven.
    mesh = solids.cylinder(15, 5)
    short = plan_stack(mesh, StackSettings(stock=(4.9902,)), name="disc")
    assert len(short.layers) == 2
    assert judges.uncovered(mesh, short) <= 0.01
    rounded = plan_stack(mesh, StackSettings(stock=(4.9999,)), name="disc")
    assert len(rounded.layers) == 1


def test_height_is_that_of_the_modelled_surface():
    # The mesh of a ball lies inside it: with points of the true surface the stack is as high as the ball.
    mesh = solids.ball(150.0, 3)
    exact = np.array([[0, 0, 300.2], [0, 0, -0.1], [150.1, 0, 150]])
    plan = plan_stack(mesh, StackSettings(stock=(150.1,), allowance=2.0), name="ball", exact_points=exact)
    assert len(plan.layers) == 3
    assert plan.frame[11] == pytest.approx(-0.1)
    assert plan.containment.proven


def test_pieces_one_above_the_other_are_refused():
    from freecad_stacklam.lamination.form.mesh import gate

    low, high = solids.box(100, 80, 20), solids.box(100, 80, 20, (0, 0, 80))
    both = gate(
        np.vstack([low.vertices, high.vertices]), np.vstack([low.triangles, high.triangles + len(low.vertices)])
    )
    with pytest.raises(Refusal, match=r"between 20 mm and 40 mm"):
        plan_stack(both, StackSettings(stock=(20.0,)), name="two")


def test_an_allowance_wider_than_the_form_is_refused_with_the_width() -> None:
    slim = solids.box(300.0, 40.0, 90.0)
    with pytest.raises(Refusal, match=r"45 mm all round is more than Slat is wide \(40 mm\): give less"):
        plan_stack(slim, StackSettings(stock=(45.0,), allowance=45.0), name="Slat")
    assert plan_stack(slim, StackSettings(stock=(45.0,), allowance=40.0), name="Slat").allowance == 40.0


@pytest.mark.parametrize("short", [0.0, 0.0005, 0.001])
def test_measured_layers_a_hair_short_of_the_form_are_proven(short: float) -> None:
    """Within PLANE_SNAP the layers count as whole, for the planes and for the proof alike; 119.999 was told short."""
    chosen = StackSettings(stock=(60.0,), thicknesses=(60.0, 60.0 - short))
    plan = plan_stack(solids.box(200, 150, 120), chosen, name="box")
    assert len(plan.layers) == 2 and plan.containment.proven
    assert plan.containment.least_cover == pytest.approx(3.2, abs=0.2)
