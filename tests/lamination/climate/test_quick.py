# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rules of thumb: size · C · swing by Eq. 13-2, and that the found movement is never more than they say."""

from __future__ import annotations

from dataclasses import replace

import pytest
from seasons import seasons

from freecad_stacklam.lamination.climate.quick import quick_change, quick_rules, season_swing, swing_of


def test_a_rule_is_size_times_coefficient_times_swing() -> None:
    # 60 mm white oak, 4 points, C_T 0.00376 (FPL-GTR-282, 2021, Table 13-5): 0.90 mm.
    assert quick_change(60.0, 10.5, 4.0) == pytest.approx(0.903, abs=0.001)
    assert season_swing((7.0, 11.0, 9.0)) == 4.0
    assert swing_of(None) is None
    assert swing_of((1.0, -2.0)) == 3.0


def test_what_is_found_is_less_than_the_rule_for_wood_takes_its_time() -> None:
    found = seasons()
    rules = quick_rules(found.equilibrium, found.stacks, found.layers, found.joints)
    assert {r.what.split(": ")[1] for r in rules} >= {"moisture", "height", "tenon in Post"}
    for rule in rules:
        assert 0.0 < rule.found <= rule.quick * 1.001
    # The rule for the height, by hand: quarter sawn at worst, 270 mm · C_T · swing.
    height = next(r for r in rules if r.what == "Post: height")
    assert height.quick == pytest.approx(quick_change(270.0, 10.5, season_swing(found.equilibrium)), rel=0.03)


def test_the_height_follows_the_layers_it_is_stacked_of_and_not_the_wood_it_is_made_of() -> None:
    """A broad slow foot holds most of the wood and little of the height, so the whole wood swings less than the layers.
    The rule is height · C_T · the room's swing all the same (Eq. 13-2 of FPL-GTR-282, 2021)."""
    found = seasons()
    post = next(s for s in found.stacks if s.stack == "Post")
    slow = replace(post, moisture=replace(post.moisture, mean=tuple(8 + (m - 8) / 2 for m in post.moisture.mean)))
    (height,) = (r for r in quick_rules(found.equilibrium, (slow,), found.layers, ()) if r.what == "Post: height")
    assert height.quick == pytest.approx(quick_change(270.0, 10.5, season_swing(found.equilibrium)), rel=0.03)
