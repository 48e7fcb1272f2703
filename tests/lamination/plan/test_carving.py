# SPDX-License-Identifier: LGPL-2.1-or-later

"""Figures that follow from carving records: the steps of a cone and the wood around a ball, in closed form."""

from __future__ import annotations

from math import pi

import pytest

from freecad_stacklam.lamination.plan.carving import CarvingPlan, DepthHole, Offset, Removed


def row(**faces: float | None) -> Offset:
    sides = {"radius_below": None, "radius_above": None, "edge_below": None, "edge_above": None, **faces}
    return Offset("Cone", 1, 2, 25.0, 1, "azimuth", (0.0, 0.0), "axis", 0.0, 0.0, **sides)  # type: ignore[arg-type]


def test_steps_of_a_cone_are_its_run_in_a_layer() -> None:
    """R 200, H 450, 25 mm layers: the wall runs in by t / tan θ = 200 / 450 · 25 = 11.11 mm a layer, so at the first
    glue line the lower blank (of the circle at z 0) stands out that much and the upper blank not at all."""
    radius = 200.0 * (1 - 25.0 / 450.0)
    found = row(radius_below=radius, radius_above=radius, edge_below=200.0, edge_above=radius)
    assert found.cut_below == pytest.approx(11.111, abs=1e-3)
    assert found.cut_above == pytest.approx(0.0)
    assert found.cut == pytest.approx(11.111, abs=1e-3)
    assert found.radius == pytest.approx(188.889, abs=1e-3)


def test_a_face_that_is_not_there_has_no_cut() -> None:
    lid = row(radius_below=80.0, edge_below=84.0)
    assert (lid.cut_below, lid.cut_above, lid.cut, lid.radius) == (4.0, None, 4.0, 80.0)
    running_on = row(radius_below=80.0, radius_above=60.0)  # the blank runs on into another piece
    assert (running_on.cut_below, running_on.cut_above, running_on.cut) == (None, None, None)
    assert running_on.radius == 80.0


def test_a_hole_ends_below_a_top_and_above_an_underside() -> None:
    top = DepthHole("Top", "top", 0.0, 0.0, 90.0, 22.5, 22.7, 1, "twist 8")
    under = DepthHole("Top", "bottom", 0.0, 0.0, 0.0, 22.5, 22.7, 1, "twist 8")
    assert (top.tip, under.tip) == (67.5, 22.5)


def test_wood_and_hours_around_a_ball() -> None:
    """Ball of radius 150 in 25 mm layers: the blanks hold 15 806 138.04 mm³ (Σ π r² t of the widest circles), the ball
    4 / 3 π R³; at two litres an hour the difference takes 0.8345 h."""
    ball = 4 / 3 * pi * 150**3
    plan = CarvingPlan(removed=(Removed("Ball", 1, 15_806_138.04, ball),), rate=2.0)
    assert plan.removed[0].volume == pytest.approx(1_668_971.0, abs=1.0)
    assert plan.hours == pytest.approx(0.83449, abs=1e-5)
    assert CarvingPlan(removed=plan.removed).hours is None
    assert Removed("Ball", 1, 100.0, 100.0 + 1e-9).volume == 0.0  # rounding is no wood to glue on
