# SPDX-License-Identifier: LGPL-2.1-or-later

"""At which heights a piece is cut, and its glue lines."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from weakforms import hourglass, planned

from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.strength.along import BESIDE, body_of, glue_lines, heights_of, layer_at


def body(mesh, **how):
    plan, meshes = planned({"A": mesh}, **how)
    return body_of(plan.stacks[0], meshes["A"])


def near(heights, wanted) -> bool:
    return any(abs(h - wanted) < 0.005 for h in heights)


def test_both_sides_of_every_glue_line_and_the_least_between() -> None:
    heights = heights_of([body(hourglass(at=187.0))], ())
    for line in np.arange(45.0, 400.0, 45.0):
        assert near(heights, line - BESIDE) and near(heights, line + BESIDE)
    assert min(abs(h - 187.0) for h in heights) < 2.0  # to 1/20 of the bracket, by the golden section
    assert heights == sorted(heights)


def test_just_beyond_a_void() -> None:
    from dataclasses import replace

    one = body(hourglass())
    layer = replace(one.stack.layers[3], cuts=(Cut("hollow", circle(20.0), 140.0, 170.0),))
    one = replace(one, stack=replace(one.stack, layers=(*one.stack.layers[:3], layer, *one.stack.layers[4:])))
    heights = heights_of([one], ())
    assert near(heights, 140.0 - BESIDE) and near(heights, 170.0 + BESIDE)
    assert layer_at(one, 150.0).number == 4


def test_glue_line_overlap_less_what_is_cut() -> None:
    from dataclasses import replace

    one = body(hourglass())
    lower, upper = one.stack.layers[:2]
    pin = Cut("pin", circle(10.0, (20.0, 0.0)), lower.top - 12.0, lower.top)
    one = replace(one, stack=replace(one.stack, layers=(replace(lower, cuts=(pin,)), upper)))
    (line,) = glue_lines(one)
    assert line.overlap == pytest.approx(lower.finished_top.area, rel=1e-6)
    assert line.overlap - line.left == pytest.approx(np.pi * 25, rel=0.01)
    assert shapely.area(upper.finished_bottom) == pytest.approx(line.overlap, rel=1e-4)
