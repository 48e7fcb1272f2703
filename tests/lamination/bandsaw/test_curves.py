# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blades in inner curves: curves of known radius, and the charts that two blade makers print."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest
import shapely
import solids

from freecad_stacklam.lamination.bandsaw.curves import (
    BLADES,
    least_inner_curve,
    least_radius_of,
    saw_checks,
    widest_blade_for,
)
from freecad_stacklam.lamination.layers.fitting import fit_outside
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import Outline, circle, rectangle, straight
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE


def planned(mesh, stock=25.0, allowance=0.0, **more):
    return plan_stack(mesh, StackSettings(stock=(stock,), allowance=allowance, **more), name="Form")


def layer_with(*outlines):
    plan = planned(solids.box(100, 100, 25))
    return replace(plan.layers[0], blank=tuple(outlines))


def test_the_tightest_inner_curve_is_found():
    assert least_inner_curve(layer_with(circle(80.0))).radius == inf
    assert least_inner_curve(layer_with(rectangle(80.0, 60.0))) == replace(
        least_inner_curve(layer_with(circle(80.0))), corners=0
    )
    ring = straight(shapely.box(-100, -100, 100, 100).difference(shapely.box(-30, -30, 30, 30)))
    square_hole = least_inner_curve(layer_with(ring))
    assert (square_hole.radius, square_hole.corners) == (inf, 4)
    hole = circle(50.0).outer
    turned = type(hole)(tuple((x, y, -b) for x, y, b in hole.points[::-1]))
    found = least_inner_curve(layer_with(Outline(circle(200.0).outer, (turned,))))
    assert found.radius == pytest.approx(25.0)
    assert found.in_hole
    assert found.place == pytest.approx((0.0, 0.0))


@pytest.mark.parametrize("radius", [12.0, 40.0, 90.0])
def test_a_bay_of_known_radius_is_found_in_a_fitted_blank(radius):
    # Exact: a half-round bay in a plate, drawn as the program draws its blanks.
    plate = shapely.box(-200, -100, 200, 100).difference(shapely.Point(0, 100).buffer(radius, quad_segs=90))
    found = least_inner_curve(layer_with(*fit_outside(shapely.MultiPolygon([plate]))))
    assert found.radius == pytest.approx(radius, abs=3 * FIT_TOLERANCE)
    assert found.place == pytest.approx((0.0, 100.0), abs=0.5)


def test_blades_follow_the_charts():
    # Two blade makers' charts, the larger value: 1/4 in turns in 5/8 in, 1/2 in in 2-1/2 in, 3/4 in in 5-1/2 in.
    assert least_radius_of(25.4 / 4) == pytest.approx(25.4 * 5 / 8)
    assert least_radius_of(25.4 / 2) == pytest.approx(25.4 * 2.5)
    assert least_radius_of(25.4 * 3 / 4) == pytest.approx(25.4 * 5.5)
    assert least_radius_of(10.0) == least_radius_of(25.4 / 2)  # between two widths: the wider
    assert widest_blade_for(25.4 * 2.5) == pytest.approx(25.4 / 2)
    assert widest_blade_for(25.4 * 2.4) == pytest.approx(25.4 * 3 / 8)
    assert widest_blade_for(3.0) is None
    assert list(BLADES) == sorted(BLADES)


def test_a_blade_too_wide_is_a_caution_and_never_a_stop():
    plate = shapely.box(-200, -100, 200, 100).difference(shapely.Point(0, 100).buffer(40, quad_segs=90))
    stack = planned(solids.box(100, 100, 25))
    stack = replace(stack, layers=(replace(stack.layers[0], blank=fit_outside(shapely.MultiPolygon([plate]))),))
    plan = Plan("Job", "mm", (stack,))
    (wide,) = saw_checks(plan, 25.4 / 2)
    assert (wide.verdict, wide.limit) == ("caution", pytest.approx(63.5))
    assert wide.figure == pytest.approx(40.0, abs=0.3)
    assert "manuals" in wide.says and "9.5 mm" in wide.says
    (narrow,) = saw_checks(plan, 25.4 / 4)
    assert narrow.verdict == "ok"
    (own,) = saw_checks(plan, 25.4 / 2, radius=35.0)
    assert (own.verdict, own.limit) == ("ok", 35.0)
    (round_,) = saw_checks(Plan("Job", "mm", (planned(solids.cylinder(80.0, 25.0)),)), 25.4)
    assert round_.verdict == "ok" and "no inner curves" in round_.says
