# SPDX-License-Identifier: LGPL-2.1-or-later

"""What moves: against the worked example of the Wood Handbook, FPL-GTR-190 (2010), chapter 13, and plain arithmetic."""

from __future__ import annotations

from dataclasses import replace

import pytest
from seasons import post_and_top, seasons

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.climate.moves import (
    added,
    change,
    free_cup,
    height_change,
    joint_season,
    pin_seasons,
    width_across,
    width_change,
)
from freecad_stacklam.lamination.wood.species import Species, movement_coefficient

EVEN = tuple([8.0] * 11 + [12.0])


def test_the_handbooks_floor_board_swells_as_printed() -> None:
    # White fir, flat-grain, 232 mm, 8 to 11 %: +1.7 mm, with C_T 0.00245 (S 7.0 %: 1 / (3000 / 7 − 20) = 0.002448).
    assert movement_coefficient(7.0) == pytest.approx(0.00245, abs=5e-6)
    assert change(232.0, 7.0, 8.0, (8.0, 11.0)) == pytest.approx((0.0, 1.7), abs=0.05)


def test_a_stack_of_oak_moves_in_height_as_by_hand() -> None:
    # White oak, 8 to 12 %: 270 · 4 / (3000 / 5.6 − 20) = 2.094 mm flat, 270 · 4 / (3000 / 10.5 − 20) = 4.065 quarter.
    plan, _ = post_and_top()
    post = plan.stacks[0]
    found = height_change(post, species_table(), 8.0, [EVEN] * len(post.layers))
    assert found is not None
    assert found.flat[-1] == pytest.approx(270 * 4 / (3000 / 5.6 - 20), abs=1e-6)
    assert found.quarter[-1] == pytest.approx(270 * 4 / (3000 / 10.5 - 20), abs=1e-6)
    assert found.flat[0] == 0.0


def test_a_width_is_taken_square_to_the_grain() -> None:
    plan, _ = post_and_top()
    layer = plan.stacks[1].layers[0]
    assert width_across(layer) == pytest.approx(300.0, abs=0.1)
    found = width_change(plan.stacks[1], layer, species_table(), 8.0, EVEN)
    assert found is not None
    assert found.flat[-1] == pytest.approx(width_across(layer) * 4 / (3000 / 10.5 - 20), abs=1e-6)


def test_a_free_layer_cups_as_a_bent_strip() -> None:
    # w² / 8 · ((C_T − C_R) · 4 / r + C_T · slope): 300 mm, rings at 100 mm, one point in 27 mm. By hand.
    plan, _ = post_and_top()
    layer = plan.stacks[1].layers[0]
    c_t, c_r = 1 / (3000 / 10.5 - 20), 1 / (3000 / 5.6 - 20)
    dry = tuple([8.0] * 11 + [7.0])
    found = free_cup(plan.stacks[1], layer, species_table(), 8.0, dry, [0.0] * 11 + [1 / 27], 100.0)
    assert found is not None
    w = width_across(layer)
    assert found.flat[-1] == pytest.approx(w**2 / 8 * ((c_t - c_r) / 100 + c_t / 27), rel=0.01)
    assert found.quarter[-1] == pytest.approx(w**2 / 8 * c_r / 27, rel=0.01)
    wet = free_cup(plan.stacks[1], layer, species_table(), 8.0, EVEN, [0.0] * 12, 100.0)
    assert wet is not None
    assert wet.flat[-1] < 0.0  # round on the bark side as it swells


def test_the_tenon_moves_along_the_grain_and_the_layers_along_the_tenon() -> None:
    plan, _ = post_and_top()
    (joint,) = plan.joints
    found = joint_season(joint, joint.members[0], plan.stacks[0], species_table(), 8.0, EVEN, EVEN)
    c_t, c_r = 1 / (3000 / 10.5 - 20), 1 / (3000 / 5.6 - 20)
    assert found.along is not None and found.across is not None and found.height is not None
    assert found.along[-1] == pytest.approx(joint.tenon.size[0] * 4 * c_t, abs=1e-6)
    assert abs(found.across[-1]) == pytest.approx(joint.tenon.size[0] * 4 * (c_t - c_r), abs=1e-6)
    assert found.height[-1] == pytest.approx(joint.members[0].embed * 4 * c_t, abs=1e-6)
    # A tenon that stays drier than the wood around it opens across the grain.
    dry = joint_season(joint, joint.members[0], plan.stacks[0], species_table(), 8.0, (8.0,) * 12, EVEN)
    assert dry.across is not None
    assert dry.across[-1] < 0.0
    wedged = [j for j in seasons().joints if j.wedged is not None]
    assert len(wedged) == 1
    assert wedged[0].stack == "Top"
    assert wedged[0].spread > 0


def test_dowels_stay_and_layers_shrink_along_them() -> None:
    plan, _ = post_and_top()
    found = pin_seasons(plan.stacks[0], species_table(), 8.0, [tuple([8.0] * 11 + [6.0])] * 6)
    assert len(found) == 5
    # 24 mm of oak, quarter sawn at worst, 2 points: 24 · 2 · 0.00376 = 0.181 mm.
    assert found[0].change[-1] == pytest.approx(-found[0].deep * 2 / (3000 / 10.5 - 20), abs=1e-6)
    assert found[0].room > 0


def test_wood_of_unknown_shrinkage_says_nothing() -> None:
    plan, _ = post_and_top()
    table: dict[str, Species] = {}
    post = plan.stacks[0]
    assert height_change(post, table, 8.0, [EVEN] * 6) is None
    assert width_change(post, post.layers[0], table, 8.0, EVEN) is None
    assert free_cup(post, post.layers[0], table, 8.0, EVEN, [0.0] * 12, 100.0) is None
    assert pin_seasons(post, table, 8.0, [EVEN] * 6) == ()
    found = joint_season(plan.joints[0], plan.joints[0].members[0], post, table, 8.0, EVEN, EVEN)
    assert (found.along, found.across, found.height) == (None, None, None)
    assert added((1.0, 2.0), (3.0, 4.0)) == (4.0, 6.0)
    assert replace(found, joint="x").joint == "x"
