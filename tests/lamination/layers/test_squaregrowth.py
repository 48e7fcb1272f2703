# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blanks of the form grown by a ball, against exact grown forms and an independent judge."""

from __future__ import annotations

import judges
import numpy as np
import pytest
import solids
from shapely.geometry import Point

from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.layers.squaregrowth import grown_square
from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD, WOOD_TOLERANCE


def regions(mesh, planes, margin):
    found = slice_surface(mesh.vertices, mesh.triangles, mesh.twins, planes, sections=False)
    return grown_square(mesh.vertices, mesh.triangles, mesh.twins, found.shadows, planes, margin)


def test_a_ball_grown_is_the_larger_ball():
    # The ball of 100 about height 100, grown by 5, is the ball of 105 about it: a slab needs the largest circle in it.
    planes = [0.0, 20.0, 50.0, 80.0, 120.0, 160.0, 200.0]
    mesh = solids.ball(100.0)
    for region, low, high in zip(regions(mesh, planes, 5.0), planes, planes[1:]):
        off = 0.0 if low <= 100.0 <= high else min(abs(low - 100.0), abs(high - 100.0))
        exact = np.sqrt(105.0**2 - off**2)
        assert region.covers(Point(0, 0).buffer(exact - 0.05))  # the ball's facets
        assert Point(0, 0).buffer(exact + 1.5, 64).covers(region)


@pytest.mark.parametrize("margin", [1.0, 3.2, 4.2, 5.0, 6.3, 25.0 / 3.0])
def test_a_cone_grown_is_the_larger_cone(margin: float) -> None:
    # Its side stands margin/sin s farther out at every height, tan s = 50/200. 25 − 3.2 is no number that a computer
    # holds: the middle of the lower layer once counted as within 3.2 of the upper one.
    planes = [0.0, 25.0, 50.0]
    _, upper = regions(solids.cone(200.0, 50.0), planes, margin)
    radius = 100.0 + margin / np.sin(np.arctan(50 / 200))
    assert upper.covers(Point(0, 0).buffer(radius - 0.3))  # the facets of cone and circle
    assert Point(0, 0).buffer(radius + max(1.0, 0.2 * margin), 64).covers(upper)


def test_upright_walls_need_no_more_than_the_level_allowance():
    mesh = solids.cylinder(80.0, 100.0)
    for region in regions(mesh, [0.0, 50.0, 100.0], 4.0):
        x0, _, x1, _ = region.bounds
        assert x1 - x0 == pytest.approx(168.0, abs=0.05)


def test_an_organic_form_keeps_the_allowance_by_an_independent_judge():
    # A lumpy body: a ball whose radius swells and sinks; the judge is the solid library's own least gap,
    # between the mesh and thin plates laid on all step faces of the drawn blanks.
    ball = solids.ball(100.0, 5)
    v = ball.vertices - [0, 0, 100]
    out = np.hypot(v[:, 0], v[:, 1]) / 100
    r = 1 + 0.18 * out * np.sin(3 * np.arctan2(v[:, 1], v[:, 0])) + 0.1 * np.cos(v[:, 2] / 25)
    mesh = gate(v * r[:, None], ball.triangles)
    left = {}
    for square in (False, True):
        settings = StackSettings(stock=(25.0,), allowance=4.0, square=square)
        plan = plan_stack(mesh, settings, name="lump")
        assert plan.containment.proven and plan.square is square
        least = plan.containment.least_wood
        areas = [area_polygon(layer.blank) for layer in plan.layers]
        plates = []
        for i, low in enumerate((layer.bottom for layer in plan.layers[1:]), start=1):
            plates.append(judges.extruded(areas[i - 1] - areas[i], low, low + 0.01))
            plates.append(judges.extruded(areas[i] - areas[i - 1], low - 0.01, low))
        body = judges.solid(mesh, plan.frame)
        apart = min(body.min_gap(plate, 20.0) for plate in plates if not plate.is_empty())
        left[square] = apart, least, plan
    judged, least, _ = left[False]
    assert least.kind == "step"
    assert judged - 3 * WOOD_TOLERANCE <= least.distance <= judged
    judged, least, plan = left[True]
    assert judged >= 4.0 and least.distance >= 4.0 and least.asked == 4.0
    cost = plan.containment.square
    level = sum(layer.blank_volume for layer in left[False][2].layers)
    wide = sum(layer.blank_volume for layer in plan.layers)
    assert cost.wood == pytest.approx(wide - level, rel=0.05)
    assert cost.level == pytest.approx(left[False][1].distance, abs=0.4)  # before outlines are fitted
    assert cost.level < GUARD + 4.0
    wood = preview(mesh, StackSettings(stock=(25.0,), allowance=4.0, square=True)).wood_volume
    assert wood == pytest.approx(wide, rel=0.01)
