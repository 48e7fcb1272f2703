# SPDX-License-Identifier: LGPL-2.1-or-later

"""Floating tenons: where they run, what they cut, how much wood is left."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.joints.cover import Prism, cover_of
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import area
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

SHIFT = np.array([[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 300], [0, 0, 0, 1]], dtype=float)


@pytest.fixture(scope="module")
def pieces():
    meshes = {"Post": solids.cylinder(60, 300), "Top": solids.moved(solids.cylinder(150, 50), SHIFT)}
    return {n: plan_stack(m, StackSettings(stock=(45.0,)), name=n) for n, m in meshes.items()}, meshes


def joint(pieces, **changes):
    stacks, meshes = pieces
    asked = {"name": "post to top", "size": (40.0,), "embed": {"Post": 75.0, "Top": 25.0}, **changes}
    return place_joint(JointSettings(**asked), stacks, meshes)


def test_stopped_joint_has_the_lengths_that_were_asked(pieces):
    found = joint(pieces)
    post, top = found.members
    assert (post.stack, top.stack) == ("Post", "Top")
    assert (post.start, post.end) == pytest.approx((300 - 75 - 2, 300), abs=1e-9)
    assert (top.start, top.end) == pytest.approx((0, 27), abs=1e-9)
    assert found.tenon.length == pytest.approx(100)
    assert found.tenon.size == pytest.approx((39.8,))
    assert found.tenon.volume == pytest.approx(39.8**2 * 100)
    assert found.point == pytest.approx((0, 0, 300), abs=1e-9)


def test_through_joint_comes_out_flush(pieces):
    found = joint(pieces, embed={"Post": 75.0, "Top": None})
    assert found.members[1].through
    assert (found.members[1].start, found.members[1].end) == pytest.approx((0, 50), abs=1e-9)
    assert found.tenon.length == pytest.approx(125)


def test_order_and_direction_of_the_asking_do_not_matter(pieces):
    one = joint(pieces)
    other = joint(pieces, embed={"Top": 25.0, "Post": 75.0}, axis=(0, 0, -1), through=(0, 0, 123.0))
    spans = {m.stack: (m.start, m.end) for m in other.members}
    for member in one.members:
        assert spans[member.stack] == pytest.approx((member.start, member.end), abs=1e-6)
    assert other.tenon.length == pytest.approx(one.tenon.length)
    assert other.least_cover == pytest.approx(one.least_cover, abs=1e-6)


def test_mortise_is_split_over_the_layers_and_runs_through_the_waste(pieces):
    stacks, _ = pieces
    found = joint(pieces)
    post = cut_layers(stacks["Post"], found)
    cuts = {layer.number: [(c.start, c.end) for c in layer.cuts] for layer in post.layers}
    # 300 mm in layers of 45: the mortise starts at 223 in layer 5, and layer 7 stands 15 mm above the form.
    assert cuts[4] == []
    assert cuts[5] == [pytest.approx((223, 225))]
    assert cuts[6] == [pytest.approx((225, 270))]
    assert cuts[7] == [pytest.approx((270, 315))]
    assert all(c.kind == "mortise" and c.joint == "post to top" for layer in post.layers for c in layer.cuts)
    assert area(post.layers[5].cuts[0].outline) == pytest.approx(1600)
    # asked again, the same joint replaces its own cuts
    assert cut_layers(post, found) == post


def test_cover_is_the_least_distance_in_space(pieces):
    # Exact: the stopped end in the top leaves 50 − 27 mm; the corner of the square in the post leaves R − side/√2.
    assert joint(pieces).least_cover == pytest.approx(23.0, abs=1e-9)
    deep = joint(pieces, embed={"Post": 75.0, "Top": 12.0}, size=(60.0,))
    flat = 60 * np.cos(np.pi / 360)  # the mesh's own inscribed radius
    assert flat - 30 * np.sqrt(2) - 1e-6 <= deep.least_cover <= 60 - 30 * np.sqrt(2) + 1e-6


def test_cover_in_a_cone_is_in_closed_form():
    # A square of half diagonal c at height z in a cone of base radius R and height H stands (R·(1 − z/H) − c)·cos φ
    # from the
    # surface, φ the cone's wall to the axis: tan φ = R/H (elementary geometry).
    mesh = solids.cone(200, 450)
    side, top = 40.0, 250.0
    half = side / 2
    plan = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 10.0, top), mouths=[])
    exact = (200 * (1 - top / 450) - half * np.sqrt(2)) * np.cos(np.arctan2(200, 450))
    to_base = 10.0
    assert found.distance == pytest.approx(min(exact, to_base), abs=1e-6)
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 60.0, top), mouths=[])
    assert found.distance == pytest.approx(exact, abs=0.005)  # 720 flats: 200·(1 − cos(π/720)) = 0.002 mm
    assert found.place[2] == pytest.approx(top)


def test_mortise_that_breaks_out_has_a_negative_cover():
    # A post that narrows to 40 mm of radius at its top: a square of 70 mm stands 35·√2 − 40 mm out of it there.
    import numpy as np

    profile = np.array([[0, 0], [90, 0], [90, 240], [40, 300], [0, 300]], dtype=float)
    meshes = {"Post": solids.revolved(profile), "Top": solids.moved(solids.cylinder(150, 50), SHIFT)}
    stacks = {n: plan_stack(m, StackSettings(stock=(45.0,)), name=n) for n, m in meshes.items()}
    found = joint((stacks, meshes), size=(70.0,))
    # felt for at levels between the ends, so up to one level's narrowing less
    assert -(35 * np.sqrt(2) - 40) <= found.least_cover <= -(35 * np.sqrt(2) - 40) + 77 / 13 * 50 / 60
    assert found.cover_place[2] > 290


def test_cover_to_loose_triangles_is_the_judges():
    # GEOS, through shapely: triangles in planes of constant height above the prism's lid, beside it and across it.
    import shapely

    rng = np.random.default_rng(3)
    square = np.array([[-10, -10], [10, -10], [10, 10], [-10, 10]], dtype=float)
    lid = shapely.Polygon(square)
    for _ in range(40):
        flat = rng.uniform(-40, 40, (3, 2))
        height = rng.uniform(5, 30)
        corner = np.column_stack([flat, np.full(3, height)])
        found = cover_of(corner, np.array([[0, 1, 2]]), Prism(square, 0.0, 5.0), mouths=[])
        wanted = np.hypot(shapely.distance(shapely.Polygon(flat), lid), height - 5)
        assert found.distance == pytest.approx(wanted, abs=0.0011)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"through": (200.0, 0, 0)}, "misses Post"),
        ({"embed": {"Post": 75.0, "Top": 49.0}}, "only 50.0 mm thick there"),
        ({"embed": {"Post": 75.0}}, "needs two stacks"),
        ({"embed": {"Post": 75.0, "Seat": 20.0}}, "“Seat”, which is no stack"),
        ({"axis": (1, 0, 0)}, "runs across the layers"),
        ({"clearance": 20.0}, "leaves no tenon"),
        ({"clearance": 0.0}, "no room for glue"),
        ({"size": (90.0,)}, "wider than Post all along"),
        ({"section": "oval"}, "square, rectangle, round"),
        ({"section": "rectangle"}, "has two sides"),
        ({"ends": "pinned"}, "flush, proud, wedged"),
    ],
)
def test_joint_that_cannot_be_made_is_refused_with_a_sentence(pieces, changes, says):
    with pytest.raises(Refusal, match=says):
        joint(pieces, **changes)


@pytest.mark.parametrize(
    "changes", [{"size": (0.0,)}, {"size": (-4.0,)}, {"clearance": -0.1}, {"embed": {"Post": -3.0}}]
)
def test_sizes_that_are_none_are_refused(changes):
    with pytest.raises(Refusal):
        JointSettings(name="j", **changes)


def test_pieces_that_do_not_touch_are_refused(pieces):
    stacks, meshes = pieces
    apart = SHIFT.copy()
    apart[2, 3] = 310
    mesh = solids.moved(solids.cylinder(150, 50), apart)
    far = {**stacks, "Top": plan_stack(mesh, StackSettings(stock=(45.0,)), name="Top")}
    with pytest.raises(Refusal, match=r"10\.0 mm apart"):
        place_joint(JointSettings("j", embed={"Post": 75.0, "Top": 25.0}), far, {**meshes, "Top": mesh})
