# SPDX-License-Identifier: LGPL-2.1-or-later

"""Weights against closed forms, against solids cut by manifold3d and weighed by trimesh, and against the glue-up's own
centre of mass."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import glued
import joined
import judges
import manifold3d
import numpy as np
import pytest
import solids
import trimesh

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.weight import Body
from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.gluing.pile import pile_of
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.pressing.interfaces import interfaces_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.standing.weight import weigh

TABLE = species_table()
#: White oak at 12 %: 1.12 × 0.68 (GTR-190 Table 5-3a, GTR-282 Eq. 4-14), kg/mm³.
OAK = 761.6e-9


def plan_of(*meshes: Mesh, **settings: object) -> tuple[Plan, dict[str, Mesh]]:
    named = {f"Form {i + 1}": mesh for i, mesh in enumerate(meshes)}
    return Plan("Test", "mm", tuple(joined.planned(named, **settings).values())), named


def only(bodies: tuple[Body, ...]) -> Body:
    (body,) = bodies
    return body


def trimeshed(solid: manifold3d.Manifold) -> trimesh.Trimesh:
    made = solid.to_mesh64()
    return trimesh.Trimesh(np.asarray(made.vert_properties)[:, :3], np.asarray(made.tri_verts), process=False)


def test_a_box_of_oak() -> None:
    """200 × 100 × 90 of white oak: 1 370.9 g; I_z = m(200² + 100²)/12."""
    body = only(weigh(*plan_of(solids.box(200, 100, 90)), TABLE).finished)
    mass = 200 * 100 * 90 * OAK
    assert body.mass == pytest.approx(mass) == pytest.approx(1.3709, abs=5e-5)
    assert body.spread == pytest.approx(0.1 * mass)  # GTR-190 Table 5-6: 10 %
    assert body.middle == pytest.approx((100, 50, 45))
    assert body.inertia is not None
    assert body.inertia[2][2] == pytest.approx(mass * (200**2 + 100**2) / 12)


def test_a_ball_and_a_cone_of_oak() -> None:
    """4/3·π·150³ and π·200²·450/3 of white oak: 10.767 and 14.356 kg; middles at 150 and 112.5 mm."""
    for mesh, mass, height in ((solids.ball(150.0, 5), 10.767, 150.0), (solids.cone(), 14.356, 112.5)):
        body = only(weigh(*plan_of(mesh), TABLE).finished)
        assert body.mass == pytest.approx(mass, rel=1e-3)
        assert body.middle == pytest.approx((0, 0, height), abs=1e-3)


def test_two_woods_and_the_scatter_of_their_boards() -> None:
    """Two layers of 45 mm, oak below and walnut (0.55) above: m 0.68 and 0.55 of 1.12 g/cm³, 405 cm³ each. The middle
    varies by 10 % of each board's lever: 0.1·√((m1·d1)² + (m2·d2)²)/m, each d from the common middle."""
    plan, meshes = plan_of(solids.box(90, 100, 90))
    stack = plan.stacks[0]
    layers = (stack.layers[0], replace(stack.layers[1], species="black walnut"))
    body = only(weigh(replace(plan, stacks=(replace(stack, layers=layers),)), meshes, TABLE).finished)
    low, high = 1.12 * 0.68 * 0.405, 1.12 * 0.55 * 0.405
    assert body.mass == pytest.approx(low + high)
    middle = (low * 22.5 + high * 67.5) / (low + high)
    assert body.middle[2] == pytest.approx(middle)
    aside = 0.1 * np.hypot(low * (22.5 - middle), high * (67.5 - middle)) / (low + high)
    assert body.middle_spread == pytest.approx((0, 0, aside), abs=1e-9)


def test_moisture_weighs() -> None:
    """Ash of gravity 0.60: 672 kg/m³ at 12 % (GTR-282 Table 4-6a), so a litre 672 g; drier it is lighter."""
    plan, meshes = plan_of(solids.box(200, 100, 50), species="white ash", stock=(50.0,))
    assert only(weigh(plan, meshes, TABLE).finished).mass == pytest.approx(0.672)
    drier = only(weigh(plan, meshes, TABLE, 6.0).finished).mass
    assert drier is not None and drier < 0.672
    with pytest.raises(Refusal, match="outside 0 to 30 %"):
        weigh(plan, meshes, TABLE, 45.0)


def test_blanks_are_those_of_the_plan() -> None:
    """Their volume is area × thickness of the plan (exact for arcs); their wood is above the form's."""
    plan, meshes = plan_of(solids.ball(150.0, 4))
    findings = weigh(plan, meshes, TABLE)
    for body, layer in zip(findings.blanks, plan.stacks[0].layers):
        assert body.volume == pytest.approx(layer.blank_volume, rel=1e-5)
        assert body.mass == pytest.approx(layer.blank_volume * OAK, rel=1e-5)
        assert body.middle[2] == pytest.approx((layer.bottom + layer.top) / 2)


def drilled(stack: StackPlan) -> StackPlan:
    """A void through layers 2 and 3, and a pin between 3 and 4."""
    layers = list(stack.layers)
    for i in (1, 2):
        layers[i] = replace(
            layers[i], cuts=(*layers[i].cuts, Cut("hollow", circle(60.0, (8.0, -5.0)), layers[i].bottom, layers[i].top))
        )
    top, centre = layers[2].top, (40.0, 30.0)
    pin = PinPlan(3, centre, 10.0, 12.0, 12.5, 20.0, hole_below=10.0, hole_above=10.4, dowel=21.0)
    layers[2] = replace(layers[2], cuts=(*layers[2].cuts, Cut("pin", circle(10.0, centre), top - 12.0, top)))
    layers[3] = replace(layers[3], cuts=(*layers[3].cuts, Cut("pin", circle(10.4, centre), top, top + 12.5)))
    return replace(stack, layers=tuple(layers), pins=(pin,))


@cache
def post() -> tuple[Plan, Mapping[str, Mesh]]:
    """A post and a top with a square tenon through the top, a void and a pin in the post."""
    stacks, meshes = joined.post_and_top()
    joint = joined.joint((stacks, meshes), TABLE, clearance=0.1, section="square", size=(40.0,))
    cut = {name: cut_layers(stack, joint) for name, stack in stacks.items()}
    cut["Post"] = drilled(cut["Post"])
    return Plan("Stand", "mm", tuple(cut.values()), (joint,)), meshes


def mortised(plan: Plan, meshes: Mapping[str, Mesh], name: str) -> manifold3d.Manifold:
    """The form less its mortise, by solid difference, in the model."""
    low, high = {"Post": (223.0, 301.0), "Top": (299.0, 351.0)}[name]
    side = 40.0
    block = manifold3d.Manifold.cube((side, side, high - low)).translate((-side / 2, -side / 2, low))
    return judges.solid(meshes[name]) - block


def test_a_joint_a_void_and_a_pin_as_solids() -> None:
    """The same by manifold3d: post less mortise, void and holes plus dowel, top less mortise, tenon between. The relief
    on two walls of the mortise is set to nothing, so that the block is the mortise."""
    plan, meshes = post()
    joint = replace(plan.joints[0], members=tuple(replace(m, relief=0.0) for m in plan.joints[0].members))
    stacks = tuple(cut_layers(s, joint) for s in plan.stacks)
    plan = replace(plan, stacks=stacks, joints=(joint,))
    found = weigh(plan, meshes, TABLE)
    cylinder = manifold3d.Manifold.cylinder
    void = cylinder(90.0, 30.0, 30.0, 2000).translate((8, -5, 45))
    top = 135.0
    below = cylinder(12.0, 5.0, 5.0, 2000).translate((40, 30, top - 12.0))
    above = cylinder(12.5, 5.2, 5.2, 2000).translate((40, 30, top))
    dowel = cylinder(21.0, 5.0, 5.0, 2000).translate((40, 30, top - 12.0))
    carved = {
        "Post": ((mortised(plan, meshes, "Post") - void) - below - above) + dowel,
        "Top": mortised(plan, meshes, "Top"),
    }
    tenon = manifold3d.Manifold.cube((39.8, 39.8, 125.0)).translate((-19.9, -19.9, 225.0))
    for body in found.finished:
        judge = trimeshed(carved[body.name])
        assert body.volume == pytest.approx(judge.volume, rel=1e-5), body.name
        assert body.mass == pytest.approx(judge.volume * OAK, rel=1e-5)
        assert body.middle == pytest.approx(tuple(judge.center_mass), abs=1e-3)
        assert np.array(body.inertia) == pytest.approx(judge.moment_inertia * OAK, rel=1e-5, abs=0.01)
    assert only(found.tenons).volume == pytest.approx(trimeshed(tenon).volume)
    assert only(found.tenons).middle == pytest.approx((0, 0, 287.5))
    judge = trimeshed(carved["Post"] + carved["Top"] + tenon)
    assert found.whole is not None
    assert found.whole.mass == pytest.approx(sum(b.mass or 0.0 for b in (*found.finished, *found.tenons)))
    assert found.whole.mass == pytest.approx(judge.volume * OAK, rel=1e-5)
    assert found.whole.middle == pytest.approx(tuple(judge.center_mass), abs=1e-3)
    assert np.array(found.whole.inertia) == pytest.approx(judge.moment_inertia * OAK, rel=1e-5, abs=0.01)


def test_a_form_that_lies_on_its_side_weighs_the_same() -> None:
    """Stacked along x: the finished body is told in the model all the same."""
    mesh = solids.box(200, 100, 90, (10, 20, 30))
    named = {"Beam": mesh}
    plan = Plan("Test", "mm", (plan_stack(mesh, StackSettings(axis=(1.0, 0.0, 0.0)), name="Beam"),))
    findings = weigh(plan, named, TABLE)
    body = only(findings.finished)
    assert body.middle == pytest.approx((110, 70, 75))
    assert body.inertia is not None
    assert body.inertia[0][0] == pytest.approx((body.mass or 0) * (100**2 + 90**2) / 12)
    assert findings.whole is not None
    assert np.array(findings.whole.inertia) == pytest.approx(np.array(body.inertia))
    # Blanks are told in the stack's frame, whose z is the model's x.
    height = float(to_stack(plan.stacks[0].frame, np.array([[110.0, 70.0, 75.0]]))[0, 2])
    assert 0 < height < plan.stacks[0].height


def test_a_tilted_mortise_takes_its_own_middle_along() -> None:
    """A cut that leans 10 mm over 45: a sheared prism keeps its volume, its middle moves by half."""
    plan, meshes = plan_of(solids.cylinder(100, 45))
    stack = plan.stacks[0]
    cut = Cut("hollow", circle(30.0), 0.0, 45.0, outline_end=circle(30.0, (10.0, 0.0)))
    hollow = replace(plan, stacks=(replace(stack, layers=(replace(stack.layers[0], cuts=(cut,)),)),))
    solid, holed = only(weigh(plan, meshes, TABLE).finished), only(weigh(hollow, meshes, TABLE).finished)
    taken = solid.volume - holed.volume
    assert taken == pytest.approx(np.pi * 15**2 * 45, rel=1e-4)
    # The middles of what is left and of what is taken balance.
    assert holed.volume * holed.middle[0] + taken * 5.0 == pytest.approx(0.0, abs=1.0)


def test_runs_are_those_of_the_glue_up() -> None:
    """The worked stand's set-ups. Without cuts, mass and middle are those by which the glue-up moves such runs (its own
    sum over layers, by shapely's areas and centroids)."""
    plan = glued.glued_stand()
    assert plan.glue_up is not None
    findings = weigh(plan, {}, TABLE)
    runs = {(b.stack, b.first, b.last): b for b in findings.glued}
    assert {(s.stack, s.first, s.last) for s in plan.glue_up.set_ups if s.kind == "layers"} <= set(runs)
    assert "has no form to be weighed" in findings.notes[0]
    assert findings.whole is not None  # its tenon
    for stack in plan.stacks:
        bare = replace(stack, layers=tuple(replace(layer, cuts=()) for layer in stack.layers), pins=())
        masses = [layer.blank_volume * OAK for layer in bare.layers]
        pile = pile_of(bare, interfaces_of(bare), masses)
        for body in weigh(replace(plan, stacks=(bare,)), {}, TABLE).glued:
            assert body.mass == pytest.approx(pile.mass(body.first, body.last), rel=1e-6)
            assert body.middle == pytest.approx(pile.middle(body.first, body.last), abs=1e-3)
            cut = runs[body.stack, body.first, body.last]
            assert cut.mass is not None and body.mass is not None and 0.9 * body.mass < cut.mass <= body.mass


def test_a_wood_of_no_known_weight_is_said() -> None:
    plan, meshes = plan_of(solids.box(90, 100, 90))
    stack = plan.stacks[0]
    layers = (stack.layers[0], replace(stack.layers[1], species="bog oak"))
    findings = weigh(replace(plan, stacks=(replace(stack, layers=layers),)), meshes, TABLE)
    assert findings.unknown == ("bog oak",)
    body = only(findings.finished)
    assert (body.mass, body.spread, body.inertia) == (None, None, None)
    assert body.middle == pytest.approx((45, 50, 45))
    assert findings.whole is not None and findings.whole.mass is None
    assert findings.blanks[0].mass is not None


def test_an_empty_plan_weighs_nothing() -> None:
    findings = weigh(Plan("Nothing", "mm", ()), {}, TABLE)
    assert (findings.whole, findings.blanks, findings.finished) == (None, (), ())
