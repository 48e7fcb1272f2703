# SPDX-License-Identifier: LGPL-2.1-or-later

"""How mortises are bored, against plane geometry by shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids
from joined import joint, planned, post_and_top

from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.joints.boring import borings_of


def test_square_mortise_of_one_bit_leaves_the_chisel_its_corners():
    pieces = post_and_top()
    # A square bored with one bit of its width: 1 − π/4 is left (elementary geometry). 35 mm wide, 38 mm deep is a usual
    # size (common practice, no source).
    found = joint(pieces, size=(35.0,), embed=(("Post", 36.0), ("Top", None)))
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
    assert borings_of(found, [pieces[0][m.stack] for m in found.members], bits) == found.drilling


@pytest.mark.parametrize(
    ("width", "bits", "bit"),
    [(40.0, (), 40.0), (43.0, (), 40.0), (34.0, (), 32.0), (60.0, (10.0, 25.4), 25.4), (25.4, (25.4,), 25.4),
     (8.0, (12.0, 16.0), 12.0)],
)  # fmt: skip
def test_the_largest_bit_that_goes_in(width, bits, bit):
    """Of those that shops keep (common practice, no source), or of the maker's own; too large only where there is no
    smaller one."""
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
