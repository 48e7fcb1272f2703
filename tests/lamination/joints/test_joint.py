# SPDX-License-Identifier: LGPL-2.1-or-later

"""Floating tenons: where they run, what they cut, how much wood is left."""

from __future__ import annotations

import numpy as np
import pytest
import solids
from joined import SHIFT, joint, planned, post_and_top

from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import area, polygon_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


@pytest.fixture(scope="module")
def pieces():
    return post_and_top(60.0)


def test_a_mortise_far_larger_than_its_pieces_is_refused_at_once():
    """150 m, a slip of the unit: no hole of it is set out."""
    with pytest.raises(Refusal, match=r"is 150000 mm wide, more than (Post|Top) is in any direction"):
        joint(post_and_top(), size=(150_000.0,))
    with pytest.raises(Refusal, match="is 9000 mm wide"):
        joint(post_and_top(), section="rectangle", size=(20.0, 9000.0))


def stopped(pieces, **changes):
    stacks, meshes = pieces
    asked = {"name": "post to top", "size": (40.0,), "embed": (("Post", 75.0), ("Top", 25.0)), **changes}
    return place_joint(JointSettings(**asked), stacks, meshes)


def test_stopped_joint_has_the_lengths_that_were_asked(pieces):
    found = stopped(pieces)
    post, top = found.members
    assert (post.stack, top.stack) == ("Post", "Top")
    assert (post.start, post.end) == pytest.approx((300 - 75 - 2, 300), abs=1e-9)
    assert (top.start, top.end) == pytest.approx((0, 27), abs=1e-9)
    assert found.tenon.length == pytest.approx(100)
    assert found.tenon.size == pytest.approx((39.8,))
    assert found.tenon.volume == pytest.approx(39.8**2 * 100)
    assert found.point == pytest.approx((0, 0, 300), abs=1e-9)


def test_through_joint_comes_out_flush(pieces):
    found = stopped(pieces, embed=(("Post", 75.0), ("Top", None)))
    assert found.members[1].through
    assert (found.members[1].start, found.members[1].end) == pytest.approx((0, 50), abs=1e-9)
    assert found.tenon.length == pytest.approx(125)


def test_order_and_direction_of_the_asking_do_not_matter(pieces):
    one = stopped(pieces)
    other = stopped(pieces, embed=(("Top", 25.0), ("Post", 75.0)), axis=(0, 0, -1), through=(0, 0, 123.0))
    spans = {m.stack: (m.start, m.end) for m in other.members}
    for member in one.members:
        assert spans[member.stack] == pytest.approx((member.start, member.end), abs=1e-6)
    assert other.tenon.length == pytest.approx(one.tenon.length)
    assert other.least_cover == pytest.approx(one.least_cover, abs=1e-6)


def test_mortise_is_split_over_the_layers_and_runs_through_the_waste(pieces):
    stacks, _ = pieces
    found = stopped(pieces)
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
    # Exact: the stopped end in the top leaves 50 − 27 mm, and the bit's point leads by 4; the corner of the square in
    # the post leaves R − side/√2.
    assert stopped(pieces).least_cover == pytest.approx(19.0, abs=1e-9)
    deep = stopped(pieces, embed=(("Post", 75.0), ("Top", 12.0)), size=(60.0,))
    flat = 60 * np.cos(np.pi / 360)  # the mesh's own inscribed radius
    assert flat - 30 * np.sqrt(2) - 1e-6 <= deep.least_cover <= 60 - 30 * np.sqrt(2) + 1e-6


def test_mortise_that_breaks_out_has_a_negative_cover():
    # A post that narrows to 40 mm of radius at its top: a square of 70 mm stands 35·√2 − 40 mm out of it there.
    import numpy as np

    profile = np.array([[0, 0], [90, 0], [90, 240], [40, 300], [0, 300]], dtype=float)
    meshes = {"Post": solids.revolved(profile), "Top": solids.moved(solids.cylinder(150, 50), SHIFT)}
    stacks = {n: plan_stack(m, StackSettings(stock=(45.0,)), name=n) for n, m in meshes.items()}
    found = stopped((stacks, meshes), size=(70.0,))
    # felt for at levels between the ends, so up to one level's narrowing less
    assert -(35 * np.sqrt(2) - 40) <= found.least_cover <= -(35 * np.sqrt(2) - 40) + 77 / 13 * 50 / 60
    assert found.cover_place[2] > 290


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"through": (200.0, 0, 0)}, "misses Post"),
        ({"embed": (("Post", 75.0), ("Top", 49.0))}, "only 50 mm thick there"),
        ({"embed": (("Post", 75.0),)}, "needs two stacks"),
        ({"embed": (("Post", 75.0), ("Seat", 20.0))}, "“Seat”, which is no stack"),
        ({"axis": (1, 0, 0)}, "runs across the layers"),
        ({"clearance": 1.0, "size": (2.0,)}, "leaves no tenon"),
        ({"clearance": 0.0}, "no room for glue"),
        ({"size": (90.0,)}, "wider than Post all along"),
        ({"section": "oval"}, "square, rectangle or round"),
        ({"section": "rectangle"}, "has two sides"),
        ({"ends": "pinned"}, "flush, proud or wedged"),
    ],
)
def test_joint_that_cannot_be_made_is_refused_with_a_sentence(pieces, changes, says):
    with pytest.raises(Refusal, match=says):
        stopped(pieces, **changes)


@pytest.mark.parametrize(
    "changes", [{"size": (0.0,)}, {"size": (-4.0,)}, {"clearance": -0.1}, {"embed": (("Post", -3.0),)}]
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
    with pytest.raises(Refusal, match=r"10 mm apart"):
        place_joint(JointSettings("j", embed=(("Post", 75.0), ("Top", 25.0))), far, {**meshes, "Top": mesh})


def test_rectangle_turned_about_its_axis():
    pieces = post_and_top()
    found = joint(pieces, section="rectangle", size=(60.0, 30.0), turn=90.0)
    (cut,) = cut_layers(pieces[0]["Top"], found).layers[0].cuts
    low_x, low_y, high_x, high_y = polygon_of(cut.outline).bounds
    assert (high_x - low_x, high_y - low_y) == pytest.approx((30, 60))
    assert found.tenon.size == pytest.approx((59.8, 29.8))
    # the corner of a rectangle: R − √(30² + 15²)
    assert found.least_cover == pytest.approx(80 * np.cos(np.pi / 360) - np.hypot(30, 15), abs=0.02)


def test_round_tenon():
    pieces = post_and_top()
    found = joint(pieces, section="round", size=(40.0,))
    cuts = [c for layer in cut_layers(pieces[0]["Post"], found).layers for c in layer.cuts]
    assert all(area(c.outline) == pytest.approx(np.pi * 400) for c in cuts)
    assert all(p[2] == 1.0 for c in cuts for p in c.outline.outer.points)
    # the mesh is a prism of 360 sides about the post's axis
    assert found.least_cover == pytest.approx(80 * np.cos(np.pi / 360) - 20, abs=0.002)
    assert found.tenon.volume == pytest.approx(np.pi / 4 * 39.8**2 * 125)


def test_through_three_pieces():
    meshes = {
        "Foot": solids.box(300, 300, 60, (-150, -150, -60)),
        "Post": solids.cylinder(80, 300),
        "Top": solids.moved(solids.cylinder(150, 50), SHIFT),
    }
    stacks = planned(meshes)
    found = joint((stacks, meshes), embed=(("Top", 30.0), ("Foot", None), ("Post", None)), size=(30.0,))
    assert [m.stack for m in found.members] == ["Foot", "Post", "Top"]
    assert found.tenon.length == pytest.approx(60 + 300 + 30)
    with pytest.raises(Refusal, match="must go through Post"):
        joint((stacks, meshes), embed=(("Top", 30.0), ("Foot", 40.0), ("Post", 200.0)))


def test_proud_end_is_longer_and_flush_is_not():
    pieces = post_and_top()
    assert joint(pieces).tenon.length == pytest.approx(125)
    assert joint(pieces, ends="proud", proud=6.0).tenon.length == pytest.approx(131)


@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, 270.0])
def test_turned_pieces_have_turned_mortises(turn):
    matrix = np.eye(4)
    matrix[:3, :3] = solids.turn_z(turn)
    low = solids.box(300, 200, 90, (-100, -60, -90))
    high = solids.box(260, 200, 90, (-90, -70, 0))
    place = np.array([20.0, 15.0, 0.0])
    meshes = {"Low": solids.moved(low, matrix), "High": solids.moved(high, matrix)}
    found = joint(
        (planned(meshes), meshes), through=tuple(matrix[:3, :3] @ place), embed=(("Low", 40.0), ("High", None)),
        section="rectangle", size=(50.0, 30.0), turn=turn,
    )  # fmt: skip
    still = joint(
        (planned({"Low": low, "High": high}), {"Low": low, "High": high}), through=tuple(place),
        embed=(("Low", 40.0), ("High", None)), section="rectangle", size=(50.0, 30.0),
    )  # fmt: skip
    assert found.least_cover == pytest.approx(still.least_cover, abs=1e-6)
    assert np.allclose(np.array(found.cover_place)[2], np.array(still.cover_place)[2])
    assert found.tenon == still.tenon
