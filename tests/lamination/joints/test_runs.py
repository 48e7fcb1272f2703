# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a joint's axis runs in each form, against lines and solids known from their sizes."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest
import solids
from joined import joint, planned, post_and_top

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.joints.runs import Run, chain_of, runs_of
from freecad_stacklam.lamination.plan.jointaxis import joint_axis
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings


def test_through_where_a_void_lies_is_refused():
    post = solids.box(100, 100, 300, (-50, -50, -300))
    # A top with a gap in it: two plates on two walls.
    import trimesh

    from freecad_stacklam.lamination.form.mesh import gate

    whole = trimesh.creation.box((200, 200, 100))
    gap = trimesh.creation.box((160, 300, 50))
    hollow = whole.difference(gap, engine="manifold")
    hollow.apply_translation([0, 0, 50])
    meshes = {"Post": post, "Top": gate(hollow.vertices, hollow.faces)}
    with pytest.raises(Refusal, match="passes a void"):
        joint((planned(meshes), meshes))


def stretches(mesh: Mesh, point=(0.0, 0.0, 0.0), direction=(0.0, 0.0, 1.0)) -> list[tuple[float, float]]:
    settings = JointSettings("leg", through=point, axis=direction)
    stack = planned({"Piece": mesh})["Piece"]
    return [(r.low, r.high) for r in runs_of(settings, joint_axis(point, direction), stack, mesh)]


def test_an_axis_through_a_box_runs_from_face_to_face():
    mesh = solids.box(300, 200, 90, (-150, -100, 10))
    assert stretches(mesh) == [pytest.approx((10, 100))]
    # leaning by 30° it is longer by 1 / cos 30°
    lean = (0.5, 0.0, 3**0.5 / 2)
    assert stretches(mesh, (0, 0, 10), lean) == [pytest.approx((0, 90 * 2 / 3**0.5), abs=1e-4)]
    # and seen from above it runs the other way
    assert stretches(mesh, (0, 0, 0), (0, 0, -1)) == [pytest.approx((-100, -10))]


def test_an_axis_through_a_ring_on_edge_runs_in_two_stretches():
    """A torus of ring 120 and tube 40, stood up: along its middle line the tube lies from 80 to 160 on both sides."""
    ring = solids.torus(120.0, 40.0)
    standing = solids.moved(solids.moved(ring, np.array([*np.eye(4)[:2], [0, 0, 1, -40.0], [0, 0, 0, 1]])),
                            np.array([[1, 0, 0], [0, 0, -1], [0, 1, 0.0]]))  # fmt: skip
    found = stretches(standing)
    assert found == [pytest.approx((-160, -80), abs=0.15), pytest.approx((80, 160), abs=0.15)]


def test_an_axis_beside_the_form_or_along_its_layers_is_refused():
    mesh = solids.box(300, 200, 90, (-150, -100, 0))
    with pytest.raises(Refusal, match="misses Piece"):
        stretches(mesh, (200, 0, 0))
    with pytest.raises(Refusal, match="less than 30° to them"):
        stretches(mesh, (0, 0, 45), (np.cos(np.radians(29.5)), 0, np.sin(np.radians(29.5))))
    assert stretches(mesh, (0, 0, 45), (np.cos(np.radians(30.5)), 0, np.sin(np.radians(30.5))))


def run(name: str, low: float, high: float) -> Run:
    mesh = solids.box(10, 10, 10)
    return Run(replace(post_and_top()[0]["Post"], name=name), mesh, mesh.vertices, low, high, True)


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_pieces_are_put_in_order_along_the_axis(order):
    parts = [run("Foot", -60, 0), run("Post", 0.4, 300), run("Top", 300, 350)]
    chain = chain_of("leg", [[parts[i]] for i in order])
    assert [r.stack.name for r in chain] == ["Foot", "Post", "Top"]


def test_of_several_stretches_those_that_meet_are_taken():
    """A post under a ring on edge: of the ring's two stretches the lower one meets it."""
    chain = chain_of("leg", [[run("Ring", 300, 380), run("Ring", 540, 620)], [run("Post", 0, 300)]])
    assert [(r.low, r.high) for r in chain] == [(0, 300), (300, 380)]


@pytest.mark.parametrize(("low", "says"), [(301.5, "1.5 mm apart"), (297.0, "3 mm inside each other")])
def test_pieces_that_do_not_touch_or_overlap_are_refused(low, says):
    with pytest.raises(Refusal, match=f"Post and Top are {says} on its axis; move them until they touch"):
        chain_of("leg", [[run("Post", 0, 300)], [run("Top", low, 350)]])
