# SPDX-License-Identifier: LGPL-2.1-or-later

"""The verdict on the least wood, and its words in mm and in inches."""

from __future__ import annotations

from dataclasses import replace

import plans

from freecad_stacklam.lamination.job.woodcheck import wood_checks
from freecad_stacklam.lamination.plan.layers import LeastWood, SquareCost


def stack(least, cost=None, **changes):
    first = plans.plant_stand().stacks[0]
    return replace(first, containment=replace(first.containment, least_wood=least, square=cost), **changes)


def test_nothing_is_said_of_what_was_not_measured():
    assert wood_checks(stack(None), "mm") == []


def test_enough_wood_is_ok_and_thin_wood_a_caution_with_place_and_remedy():
    place = (10.0, -20.0, 44.5)
    (ok,) = wood_checks(stack(LeastWood(1.5, place, "step", 2, -1, 1.5)), "mm")
    assert (ok.verdict, ok.figure, ok.limit) == ("ok", 1.5, 1.5)
    thin = stack(LeastWood(0.768, place, "step", 1, 1, 1.5), SquareCost(1.92e6, 0.47, 0.768))
    (check,) = wood_checks(thin, "mm")
    assert check.verdict == "caution"
    for words in ("only 0.76 mm", "uncovered upper face of layer 1", "(10, -20, 44.5)", "1.92 l", "47.0 %"):
        assert words in check.says
    (inch,) = wood_checks(thin, "in")
    # 0.768 mm = 0.0302 in, rounded down; 1.92 l / 16 387.064 mm³ = 117 in³.
    assert "0.030 in" in inch.says and "117 in³" in inch.says and " mm" not in inch.says


def test_square_allowance_says_what_it_costs_beside_what_level_leaves():
    made = stack(LeastWood(3.1, (0.0, 0.0, 5.0), "wall", 1, 0, 3.0), SquareCost(1e6, 0.1, 0.9), square=True)
    (check,) = wood_checks(made, "mm")
    assert check.verdict == "ok"
    assert "1.00 l more wood" in check.says and "would leave 0.9 mm" in check.says
    (short,) = wood_checks(replace(made, containment=replace(made.containment, square=None, least_wood=replace(
        made.containment.least_wood, distance=2.0))), "mm")  # fmt: skip
    assert short.verdict == "caution" and "more allowance" in short.says
