# SPDX-License-Identifier: LGPL-2.1-or-later

"""Areas in plan, against shapely's overlay and the sweep of a circle (elementary geometry)."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
import shapely

from freecad_stacklam.lamination.plan.areas import areas_of, blank_area, cut_plan
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import Loop, Outline, circle, polygon_of, rectangle


def test_lines_and_points_of_an_overlay_are_dropped() -> None:
    """Two plates that share an edge meet in a line, two that share a corner in a point: shapely gives both back."""
    one, beside, corner = shapely.box(0, 0, 10, 10), shapely.box(10, 0, 20, 10), shapely.box(10, 10, 20, 20)
    assert one.intersection(beside).geom_type == "LineString"
    assert areas_of(one.intersection(beside)).is_empty
    assert areas_of(one.intersection(corner)).is_empty
    mixed = shapely.GeometryCollection([one, shapely.Point(3, 3), shapely.LineString([(0, 0), (50, 50)]), corner])
    assert areas_of(mixed).area == 200.0
    assert len(areas_of(mixed).geoms) == 2
    assert areas_of(shapely.Polygon()).is_empty


def test_a_blank_is_the_union_of_its_islands() -> None:
    hole = Loop(tuple((x, y, -b) for x, y, b in reversed(circle(30.0).outer.points)))
    blank = (Outline(rectangle(80.0, 60.0).outer, (hole,)), rectangle(20.0, 20.0, (100.0, 0.0)))
    found = blank_area(blank)
    assert found.area == pytest.approx(80 * 60 - pi * 225 + 400, rel=1e-3)
    assert not found.contains(shapely.Point(0, 0)) and found.contains(shapely.Point(100, 0))


@pytest.mark.parametrize("moved", [0.0, 3.0, 40.0, 90.0])
def test_a_tilted_hole_sweeps_a_stadium(moved: float) -> None:
    """A circle of diameter d that moves by s covers π d² / 4 + s · d."""
    end = None if moved == 0.0 else circle(24.0, (moved, 0.0))
    found = cut_plan(Cut("mortise", circle(24.0), 0.0, 45.0, "leg", end))
    assert found.area == pytest.approx(pi * 144 + moved * 24.0, rel=1e-3)


def test_a_tilted_square_covers_every_place_on_its_way() -> None:
    """Sampled: the square at forty heights between its ends lies in the plan, and the plan is no larger than they."""
    start, end = rectangle(30.0, 20.0, (0.0, 0.0), 20.0), rectangle(30.0, 20.0, (25.0, -10.0), 20.0)
    found = cut_plan(Cut("mortise", start, 0.0, 45.0, None, end))
    passed = shapely.union_all([
        shapely.affinity.translate(polygon_of(start), 25.0 * t, -10.0 * t) for t in np.linspace(0.0, 1.0, 400)
    ])  # fmt: skip
    assert found.buffer(1e-9).covers(passed)
    assert found.area == pytest.approx(passed.area, rel=1e-3)
