# SPDX-License-Identifier: LGPL-2.1-or-later

"""How mortises are bored, against plane geometry by shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids
from joined import joint, planned, post_and_top

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.joints.boring import bit_for, bored_at, borings_of, point_bodies
from freecad_stacklam.lamination.joints.checks import joint_checks
from freecad_stacklam.lamination.settings.shop import Bit


def test_square_mortise_of_one_bit_leaves_the_chisel_its_corners():
    pieces = post_and_top()
    # A square bored with one bit of its width: 1 − π/4 is left (elementary geometry). 35 mm wide, 38 mm deep is a usual
    # size (common practice, no source).
    found = joint(pieces, size=(35.0,), embed=(("Post", 36.0), ("Top", None)), before_glue_up=False)
    post, top = found.drilling
    assert (post.diameter, post.layer, post.when) == (35.0, None, "after glue-up")
    assert post.chisel == pytest.approx(1 - np.pi / 4, abs=1e-4)
    assert post.centres == (pytest.approx((0, 0)),)
    assert post.side == "top"
    assert post.depth == pytest.approx(36 + 2 + 15)  # with the waste that stands over the form
    assert top.through
    assert top.depth == pytest.approx(90)


def test_a_bit_nearly_as_wide_bores_one_hole():
    pieces = post_and_top()
    found = joint(pieces, size=(36.0,), bits=(35.0,), embed=(("Post", 36.0), ("Top", None)))
    assert all(row.centres == (pytest.approx((0, 0)),) for row in found.drilling)
    assert found.drilling[0].chisel == pytest.approx(1 - np.pi / 4 * (35 / 36) ** 2, abs=1e-4)


def test_deep_mortise_is_bored_layer_by_layer():
    pieces = post_and_top()
    found = joint(pieces, embed=(("Post", 150.0), ("Top", 20.0)), chisel_reach=60.0)
    rows = [r for r in found.drilling if r.stack == "Post"]
    assert [r.layer for r in rows] == [4, 5, 6, 7]
    assert all(r.when == "before glue-up" for r in rows)
    assert [r.through for r in rows] == [False, True, True, True]
    assert rows[0].depth == pytest.approx(180 - 148)
    assert rows[0].side == "top"
    assert sum(r.depth for r in rows) == pytest.approx(315 - 148)


def test_a_leaning_mortise_is_bored_as_deep_along_its_axis_as_the_tenon_needs():
    """12° from square, depth and room for glue 40 + 2 along the axis, from where it passes the face: the drill's stop
    is set to 42, not to the 41.1 + 2.5 + … that the lowest corner of the bottom lies below the face."""
    stacks, meshes = post_and_top()
    lean = np.radians(12.0)
    found = joint(
        (stacks, meshes), axis=(np.sin(lean), 0, np.cos(lean)), through=(0, 0, 300), section="rectangle",
        size=(24.0, 36.0), embed=(("Post", 40.0), ("Top", None)),
    )  # fmt: skip
    post, top = found.drilling
    assert post.when == top.when == "after glue-up"
    assert found.members[0].start == pytest.approx(300 - 42 * np.cos(lean) - 12 * np.sin(lean))
    waste = 15  # the last layer of the post stands so far over the form
    assert post.depth == pytest.approx(42 + waste / np.cos(lean))
    assert top.depth == pytest.approx(90 / np.cos(lean))


@pytest.mark.parametrize(
    ("size", "bits"), [((43.0,), (20.0, 38.0)), ((60.0, 24.0), (24.0,)), ((50.0, 30.0), (12.0, 16.0))]
)
def test_holes_stay_inside_and_touch_every_wall(size, bits):
    pieces = post_and_top()
    section = "square" if len(size) == 1 else "rectangle"
    found = joint(pieces, section=section, size=size, bits=bits, embed=(("Post", 40.0), ("Top", 20.0)))
    half = (size[0] / 2, size[-1] / 2)
    for row in found.drilling:
        holes = shapely.union_all([shapely.Point(c).buffer(row.diameter / 2, quad_segs=64) for c in row.centres])
        assert shapely.box(-half[0], -half[1], half[0], half[1]).buffer(1e-6).contains(holes)
        assert holes.bounds == pytest.approx((-half[0], -half[1], half[0], half[1]))
        assert row.chisel == pytest.approx(1 - holes.area / (4 * half[0] * half[1]), abs=2e-3)
    assert borings_of(found, [pieces[0][m.stack] for m in found.members], [Bit(b) for b in bits]) == found.drilling


@pytest.mark.parametrize(
    ("width", "bits", "bit"),
    [(40.0, (), 40.0), (43.0, (), 40.0), (34.0, (), 32.0), (60.0, (10.0, 25.4), 25.4), (25.4, (25.4,), 25.4),
     (8.0, (12.0, 16.0), 8.0)],
)  # fmt: skip
def test_the_largest_bit_that_goes_in(width, bits, bit):
    """Of those that shops keep (common practice, no source), or of the maker's own where one of them goes in."""
    pieces = post_and_top()
    found = joint(pieces, size=(width,), bits=bits, embed=(("Post", 60.0), ("Top", None)))
    assert {row.diameter for row in found.drilling} == {bit}


def test_a_round_mortise_of_its_own_bit_leaves_nothing_to_the_chisel():
    pieces = post_and_top()
    whole = joint(pieces, section="round", size=(40.0,), embed=(("Post", 60.0), ("Top", None)))
    assert all(row.chisel == pytest.approx(0.0, abs=1e-3) for row in whole.drilling)
    # and with a smaller one a ring of 1 − (30 / 40)² is left
    small = joint(pieces, section="round", size=(40.0,), bits=(30.0,), embed=(("Post", 60.0), ("Top", None)))
    assert all(row.chisel == pytest.approx(1 - 0.5625, abs=1e-3) for row in small.drilling)


def test_centres_walk_with_a_leaning_axis():
    """By tan θ for each millimetre of height, told on the face that is bored from."""
    lean = np.tan(np.radians(12.0))
    meshes = {"Low": solids.box(300, 200, 90, (-150, -100, -90)), "High": solids.box(300, 200, 90, (-150, -100, 0))}
    stacks = planned(meshes)
    found = joint(
        (stacks, meshes), axis=(lean, 0, 1), size=(30.0,), section="round", embed=(("Low", 50.0), ("High", 40.0))
    )
    low, high = found.drilling
    assert (low.side, high.side) == ("top", "bottom")
    for row, stack in ((low, stacks["Low"]), (high, stacks["High"])):
        face = stack.height if row.side == "top" else 0.0
        model = to_model(stack.frame, np.array([[*row.centres[0], face]]))[0]
        assert model[0] == pytest.approx(lean * model[2], abs=1e-3)
        assert model[1] == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize(
    ("bit", "lead"),
    # A twist bit's point is a cone of 118°: D / 2 / tan 59° = 0.3004 · D, 12.02 mm at 40 mm; 0.2071 · D at 135°.
    [(Bit(40.0, "twist"), 12.017), (Bit(40.0, "twist", 135.0), 8.284), (Bit(40.0, "twist", point=9.0), 9.0),
     (Bit(40.0), 4.0), (Bit(25.0, "rim", point=2.5), 2.5), (Bit(8.0, "spade"), 12.0)],
)  # fmt: skip
def test_points_lead_their_bits(bit, lead):
    assert bit.lead == pytest.approx(lead, abs=1e-3)


def test_a_twist_bits_cone_stands_in_its_bodies():
    bit = Bit(40.0, "twist")
    bodies = point_bodies(bit, np.array([[5.0, -3.0]]), 100.0, down=True)
    assert max(b.end for b in bodies) == 100.0
    assert min(b.start for b in bodies) == pytest.approx(100.0 - bit.lead)
    for depth in np.linspace(0.0, bit.lead, 200):
        cone = 20.0 * (1 - depth / bit.lead)
        there = [b.radius for b in bodies if b.start - 1e-9 <= 100.0 - depth <= b.end + 1e-9]
        assert cone - 1e-9 <= max(there) <= cone + 20.0 / 16 + 1e-9


@pytest.mark.parametrize(("kind", "cover"), [("twist", 20.0 - 12.017), ("rim", 16.0), ("spade", 8.0)])
def test_the_tip_counts_against_the_wood_left_over_a_stopped_mortise(kind, cover):
    """A post 300 high: 278 deep and 2 mm of room leave 20 mm under the walls, and the tip takes its lead of them."""
    pieces = post_and_top()
    from freecad_stacklam.lamination.joints.joint import place_joint
    from freecad_stacklam.lamination.settings.joint import JointSettings

    asked = JointSettings("j", size=(40.0,), embed=(("Post", 278.0), ("Top", None)))
    found = place_joint(asked, *pieces, None, [Bit(40.0, kind)])
    assert found.least_cover == pytest.approx(cover, abs=0.02)
    assert {row.kind for row in found.drilling} == {kind}


def test_a_stopped_mortise_that_ends_on_a_glue_line_is_cut_before_glue_up():
    """Layers of 45 mm: 60 mm and 2 mm of room go down from 300 to 238 mm, no glue line; 73 and 2 to 225 mm, which is
    one."""
    deep = joint(post_and_top(), embed=(("Post", 60.0), ("Top", None)), before_glue_up=False)
    line = joint(post_and_top(), embed=(("Post", 73.0), ("Top", None)), before_glue_up=False)
    assert [r.when for r in deep.drilling if r.stack == "Post"] == ["after glue-up"]
    rows = [r for r in line.drilling if r.stack == "Post"]
    assert {r.when for r in rows} == {"before glue-up"} and all(r.through for r in rows)


def test_a_mortise_square_to_its_layers_is_cut_before_glue_up():
    """From 300 down to 238 mm in layers of 45 mm: layer 7 (270 to 315) is bored through, layer 6 (225 to 270) 32 mm
    deep from its own top face, which lies free then. A leaning one is cut in the glued stack."""
    found = joint(post_and_top(), embed=(("Post", 60.0), ("Top", None)))
    rows = [r for r in found.drilling if r.stack == "Post"]
    assert [(r.layer, r.through, round(r.depth, 3), r.side, r.when) for r in rows] == [
        (6, False, 32.0, "top", "before glue-up"), (7, True, 45.0, "top", "before glue-up")
    ]  # fmt: skip
    leaning = joint(post_and_top(), axis=(0.1, 0.0, 1.0), through=(0, 0, 300), embed=(("Post", 60.0), ("Top", None)))
    assert {r.when for r in leaning.drilling} == {"after glue-up"}


def test_shops_that_work_in_inches_keep_inch_bits():
    """1-3/8 and 1-1/2 in are shop standards beside 35 and 38 mm (common practice, no source)."""
    assert bit_for((36.0,), (), "in").diameter == pytest.approx(34.925)  # 11/8 × 25.4
    assert bit_for((40.0,), (), "in").diameter == pytest.approx(38.1)
    assert bit_for((36.0,), (Bit(35.0),), "in").diameter == 35.0  # the maker's own list wins


def test_the_largest_bit_of_the_shop_that_fits():
    shop = [Bit(12.0), Bit(38.0, "spade"), Bit(45.0)]
    assert bit_for((40.0,), shop) == shop[1]
    # A bit wider than the mortise would bore into its walls: what shops keep, else one of the mortise's own size.
    assert bit_for((10.0,), shop).diameter == 10.0
    assert bit_for((10.0,), shop, "in").diameter == pytest.approx(9.525)  # 3/8 in
    assert bit_for((4.5,), shop).diameter == bit_for((4.5,)).diameter == 4.5
    assert len(bored_at("square", (40.0,), 38.0)) == 1


def test_bits_that_are_all_too_wide_are_told():
    """Ø 25 alone for a round mortise of 16.8: its table is for 16, and the plan says that this one is wanted."""
    table = species_table()
    found = joint(post_and_top(), table, bits=(25.0,), section="round", size=(16.8,))
    assert {row.diameter for row in found.drilling} == {16.0}
    (said,) = [check for check in joint_checks(found) if check.name == "j: bit"]
    assert said.verdict == "caution" and "Ø 16 mm" in said.says
    for bits in ((), (25.0, 12.0)):
        fine = joint(post_and_top(), table, bits=bits, section="round", size=(16.8,))
        assert not any(check.name == "j: bit" for check in joint_checks(fine))
