# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cut line by compass, on outlines whose centres and radii are known exactly."""

from __future__ import annotations

from math import hypot, pi, sqrt, tan

import numpy as np
import pytest
import shapely
from plans import plant_stand
from shapely import MultiPolygon, Point

from freecad_stacklam.benchsheets.layers.compass import edges
from freecad_stacklam.lamination.layers.fitting import fit_outside, grown
from freecad_stacklam.lamination.plan.outline import Loop, circle, loop_area


def test_a_circle_has_one_centre_and_one_radius() -> None:
    (found,) = edges(circle(300.0, (12.0, -7.0)).outer)
    assert found.whole
    assert (*found.centre, found.radius) == pytest.approx((12.0, -7.0, 150.0))
    quarter = tan(pi / 8)  # the bulge of a quarter circle
    four = Loop(((150.0, 0.0, quarter), (0.0, 150.0, quarter), (-150.0, 0.0, quarter), (0.0, -150.0, quarter)))
    (found,) = edges(four)
    assert found.whole
    assert abs(found.sweep) == pytest.approx(360.0)
    assert (*found.centre, found.radius) == pytest.approx((0.0, 0.0, 150.0), abs=1e-9)


def test_a_slot_is_two_straights_and_two_arcs() -> None:
    """A slot 160 × 60: half circles of radius 30 about (±50, 0)."""
    found = edges(Loop(((-50.0, -30.0, 0.0), (50.0, -30.0, 1.0), (50.0, 30.0, 0.0), (-50.0, 30.0, 1.0))))
    assert [round(e.radius, 9) for e in found] == [0.0, 30.0, 0.0, 30.0]
    assert [e.centre for e in found if e.radius] == [pytest.approx((50.0, 0.0)), pytest.approx((-50.0, 0.0))]
    assert found[1].middle == pytest.approx((80.0, 0.0))
    assert found[1].outward == pytest.approx((1.0, 0.0))
    assert found[0].outward == pytest.approx((0.0, -1.0))


def test_a_reuleaux_triangle() -> None:
    """Three arcs of radius 200, each about the opposite corner; the area is (π − √3) / 2 · 200²."""
    corners = [(200 / sqrt(3) * np.cos(a), 200 / sqrt(3) * np.sin(a)) for a in np.radians([90, 210, 330])]
    loop = Loop(tuple((float(x), float(y), tan(pi / 12)) for x, y in corners))  # 60° arcs
    found = edges(loop)
    assert [e.radius for e in found] == pytest.approx([200.0] * 3)
    for edge, opposite in zip(found, [corners[2], corners[0], corners[1]]):
        assert edge.centre == pytest.approx(opposite)
        assert hypot(*np.subtract(edge.start, edge.centre)) == pytest.approx(200.0)
    assert loop_area(loop) == pytest.approx((pi - sqrt(3)) / 2 * 200**2)


def test_a_round_form_is_drawn_with_one_compass_setting() -> None:
    """A cylinder of radius 120 with allowance 4: the whole chain from its section to the sheet."""
    shadow = MultiPolygon([Point(0, 0).buffer(120.0, quad_segs=400)])
    (outline,) = fit_outside(grown(shadow, 4.2))
    (found,) = edges(outline.outer)
    assert found.whole
    assert found.centre == pytest.approx((0.0, 0.0), abs=0.01)
    assert 124.2 <= found.radius <= 124.2 + 0.35


def test_arcs_are_the_outline() -> None:
    """Points on the listed arcs lie on the outline, for an outline fitted to a lobed form."""
    shadow = plant_stand().stacks[0].layers[0].shadow
    outlines = fit_outside(grown(shadow, 3.2))
    for outline in outlines:
        found = edges(outline.outer)
        assert 6 <= len(found) <= 60
        ring = shapely.Polygon(shadow.geoms[0].exterior).buffer(3.2, quad_segs=64)
        for edge in found:
            if edge.radius:
                assert hypot(*np.subtract(edge.end, edge.centre)) == pytest.approx(edge.radius, abs=1e-6)
            assert 0.0 <= ring.distance(Point(edge.middle)) <= 0.5
            assert not ring.buffer(-0.01).contains(Point(edge.middle))
