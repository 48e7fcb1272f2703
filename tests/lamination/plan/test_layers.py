# SPDX-License-Identifier: LGPL-2.1-or-later

"""Figures that a stack and its layers know of themselves; the cone of the closed form Σ π r² t, r = R (1 − k / 18)."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, replace
from math import pi

import plans
import pytest
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.layers import Containment, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area, circle


def cone() -> StackPlan:
    """R 200, H 450 in 18 layers of 25 mm: each blank is the circle at its bottom."""
    layers = []
    for k in range(18):
        blank = circle(400.0 * (1 - k / 18))
        layers.append(
            LayerPlan(k + 1, 25.0 * k, 25.0 * (k + 1), "white oak", 0.0, MultiPolygon(), (blank,), MultiPolygon(),
                      MultiPolygon(), area(blank), 0.0)
        )  # fmt: skip
    return plans.stack_of("Cone", tuple(layers))


def test_the_blanks_of_a_cone_hold_what_geometry_says() -> None:
    """20 449 441.07 mm³, 1.084877 of the cone's own π R² H / 3."""
    stack = cone()
    wood = sum(layer.blank_volume for layer in stack.layers)
    assert wood == pytest.approx(20_449_441.07, abs=0.01)
    assert wood / (pi * 200**2 * 450 / 3) == pytest.approx(1.084877, abs=1e-6)
    assert {layer.thickness for layer in stack.layers} == {25.0}
    assert stack.height == 450.0
    assert replace(stack, layers=()).height == 0.0


@pytest.mark.parametrize(
    ("uncovered", "cover", "proven"),
    [(0.0, 0.0, True), (0.0, 2.2, True), (0.01, 1.0, True), (0.011, 1.0, False), (0.0, -1e-9, False),
     (5000.0, 3.0, False), (float("nan"), 1.0, False), (0.0, float("nan"), False)],
)  # fmt: skip
def test_proof_needs_both_no_missing_wood_and_no_wall_inside(uncovered: float, cover: float, proven: bool) -> None:
    """Also where a figure could not be had: nothing is ever proven by a figure that is no number (IEEE 754)."""
    assert Containment(uncovered, cover, (0.0, 0.0, 0.0), 10, "by hand").proven is proven


def test_a_plan_once_made_cannot_be_changed() -> None:
    layer = cone().layers[0]
    with pytest.raises(FrozenInstanceError):
        layer.top = 30.0  # type: ignore[misc]
    thinner = replace(layer, top=24.6)
    assert (layer.thickness, thinner.thickness) == (25.0, pytest.approx(24.6))
    assert thinner.blank_volume == pytest.approx(pi * 200**2 * 24.6)
