# SPDX-License-Identifier: LGPL-2.1-or-later

"""Offsets for a batten and arcs for a compass, on outlines whose figures are known by arithmetic."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
import shapely
from plans import lobed, plant_stand
from shapely import MultiPolygon, Point

from freecad_stacklam.benchsheets.drawing.lettering import units_of
from freecad_stacklam.benchsheets.layers.stations import (
    arc_block,
    arcs_of,
    compass_line,
    extremes,
    offset_blocks,
    stations,
    step_of,
)
from freecad_stacklam.lamination.layers.fitting import fit_outside, grown
from freecad_stacklam.lamination.plan.outline import Outline, area_polygon, circle, straight

MM = units_of("mm")


def ring(outer: float, inner: float) -> MultiPolygon:
    return MultiPolygon(
        [Point(0, 0).buffer(outer, quad_segs=2000).difference(Point(0, 0).buffer(inner, quad_segs=2000))]
    )


def test_a_ring_is_crossed_four_times_where_its_hole_is() -> None:
    """Arithmetic: at x the circle of radius R stands at ±√(R² − x²)."""
    found = stations(ring(100.0, 45.0), 20.0, 0)
    assert [s.at for s in found] == [20.0 * k for k in range(-4, 5)]  # at ±100 it only touches
    for s in found:
        wanted = [sqrt(r * r - s.at**2) for r in (45.0, 100.0) if r > abs(s.at)]
        assert s.crossings == pytest.approx(sorted([*wanted, *(-v for v in wanted)]), abs=0.01)


def test_stations_along_y_have_only_what_is_steep() -> None:
    """A circle is steeper than 45° where |y| < R / √2: of R 100 that are the stations up to ±60."""
    found = stations(ring(100.0, 1.0), 20.0, 1, steep=True)
    assert [s.at for s in found] == [20.0 * k for k in range(-3, 4)]
    assert found[0].crossings == pytest.approx((-80.0, 80.0), abs=0.01)  # 60, 80, 100


def test_islands_are_all_crossed() -> None:
    area = MultiPolygon([shapely.box(-70, -30, -30, 30), shapely.box(30, -30, 70, 30)])
    (middle,) = (s for s in stations(area, 20.0, 1) if s.at == 0.0)
    assert middle.crossings == (-70.0, -30.0, 30.0, 70.0)
    assert [s.at for s in stations(area, 20.0, 0)] == [-60.0, -40.0, 40.0, 60.0]


def test_every_offset_lies_on_the_cut_line() -> None:
    for layer in plant_stand().stacks[0].layers[::3]:
        area = area_polygon(layer.blank)
        for across, steep in ((0, False), (1, True)):
            for s in stations(area, 20.0, across, steep):
                for v in s.crossings:
                    at = (s.at, v) if across == 0 else (v, s.at)
                    assert shapely.distance(area.boundary, Point(at)) < 1e-6


def test_between_the_offsets_no_long_part_of_the_line_is_left_without_a_point() -> None:
    """By either table the next point is at most step · √2 away along a line that bends little."""
    area = MultiPolygon([lobed(120.0, 0.05)])
    points = [(s.at, v) for s in stations(area, 20.0, 0) for v in s.crossings]
    points += [(v, s.at) for s in stations(area, 20.0, 1, steep=True) for v in s.crossings]
    edge = area.geoms[0].exterior
    along = np.sort([edge.project(Point(p)) for p in points])
    assert np.diff(along, append=along[0] + edge.length).max() < 20.0 * sqrt(2.0) * 1.05


def test_steps_follow_the_rule_that_is_used() -> None:
    assert step_of(0.0, MM) == 20.0
    assert step_of(0.0, units_of("in")) == pytest.approx(19.05)  # 3/4 in
    assert step_of(25.4, units_of("in")) == 25.4


def test_the_table_has_figures_side_by_side() -> None:
    (block,) = offset_blocks(MultiPolygon([Point(0, 0).buffer(100.0, quad_segs=2000)]), 20.0, MM)
    assert block.rows[0] == ("-80", "-60", "60", "", "-60", "-80", "80")
    assert block.title == "Cut line every 20 mm from the centre lines"
    few, many = offset_blocks(ring(100.0, 90.0), 20.0, MM)
    assert few.rows[4] == ("0", "-100", "-90", "90", "100")
    assert many.rows


def test_furthest_points() -> None:
    said = extremes(MultiPolygon([shapely.box(-70, -30, 50, 40)]), MM)
    assert "left -70, " in said and "right 50, " in said and "back " in said


@pytest.mark.parametrize("within", [0.0, 0.4, 1.0, 2.5])
def test_a_compass_line_stays_outside_and_within_its_tolerance(within: float) -> None:
    """Judged by areas: nothing of the blank lies outside it, and all of it lies in the blank grown by `within`."""
    held = 0
    for shape in (lobed(90.0, 0.02), lobed(110.0, 0.12), shapely.box(-60, -40, 60, 40), Point(5, 5).buffer(80)):
        blank = fit_outside(grown(MultiPolygon([shape]), 3.2))
        drawn = compass_line(blank, within)
        if drawn is None:
            assert len(arcs_of(blank)) > 8
            continue
        held += 1
        assert len(arcs_of(drawn)) <= 8
        region, found = area_polygon(blank), area_polygon(drawn)
        assert region.difference(found).area < 1e-6
        assert found.difference(region.buffer(within + 0.01, quad_segs=64)).area < 1e-6
    assert held >= 2


def test_brackets_mark_a_centre_off_the_wood() -> None:
    """A lens of two arcs of radius 100 about (0, ∓60): both centres lie outside the lens. A disc's lies in it."""
    lens = Point(0, -60).buffer(100, quad_segs=2000).intersection(Point(0, 60).buffer(100, quad_segs=2000))
    blank = fit_outside(MultiPolygon([lens]), 0.1)
    block = arc_block(blank, area_polygon(blank), MM)
    radii = [row[3] for row in block.rows if row[3]]
    assert radii and all(r.startswith("(") for r in radii)
    assert "lies off the wood" in block.title
    disc = arc_block((circle(100.0),), area_polygon((circle(100.0),)), MM)
    assert [row[3] for row in disc.rows] == ["50"]
    assert "off the wood" not in disc.title
    square: tuple[Outline, ...] = (straight(shapely.box(0, 0, 10, 10)),)
    assert [row[1] for row in arc_block(square, area_polygon(square), MM).rows] == ["start", *["straight"] * 4]
