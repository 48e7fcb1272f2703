# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs on blanks, beside areas of discs, rectangles and fillets by closed formulas (elementary geometry)."""

from __future__ import annotations

from math import asin, atan2, cos, hypot, pi, radians, sin, sqrt

import pytest
import shapely
import solids
from shapely.geometry import MultiPolygon, Point, box

from freecad_stacklam.lamination.bandsaw.curves import least_inner_curve
from freecad_stacklam.lamination.layers.fitting import FITTED
from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.layers.tabs import with_tabs
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import BLADE_TURNS, StackSettings, TabSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE


def disc(radius: float, at: tuple[float, float] = (0.0, 0.0)) -> MultiPolygon:
    return MultiPolygon([Point(at).buffer(radius, quad_segs=512)])


def tab_area(radius: float, width: float, out: float, aside: float = 0.0) -> float:
    """What a rectangle that ends `out` beyond a disc's edge on its middle line adds to the disc: the rectangle from the
    disc's diameter less the disc under it, whose half chord sqrt(R² − y²) integrates to (y·sqrt(R² − y²) +
    R²·asin(y / R)) / 2."""

    def under(y: float) -> float:
        return (y * sqrt(radius**2 - y**2) + radius**2 * asin(y / radius)) / 2

    low, high = aside - width / 2, aside + width / 2
    return width * (sqrt(radius**2 - aside**2) + out) - (under(high) - under(low))


def fillet_area(radius: float, half: float, fillet: float) -> float:
    """What rounds the corner between a disc and a tab's side at the height `half`: the circle that touches both has its
    centre at R + r from the disc's and r above the side; the four-sided figure between both centres, the corner and
    the touching point, less the two sectors."""
    corner = sqrt(radius**2 - half**2), half
    centre = sqrt((radius + fillet) ** 2 - (half + fillet) ** 2), half + fillet
    touching = centre[0], half
    four = shapely.Polygon([(0, 0), corner, touching, centre]).area
    to_centre, to_corner = atan2(centre[1], centre[0]), atan2(corner[1], corner[0])
    at_centre = pi / 2 - to_centre  # from straight down to the disc's centre
    return four - radius**2 * (to_centre - to_corner) / 2 - fillet**2 * at_centre / 2


@pytest.mark.parametrize(("aside", "direction"), [(0.0, 0.0), (0.0, 137.0), (25.0, -60.0)])
def test_a_tab_on_a_disc_adds_a_rectangle_less_a_segment(aside, direction):
    tab = TabSettings((1,), direction=direction, width=60.0, out=40.0, aside=aside, fillet=0.0)
    (found,) = with_tabs([disc(100.0)], [tab])
    added = tab_area(100.0, 60.0, 40.0, aside)
    assert found.region.area - disc(100.0).area == pytest.approx(added, abs=0.5)
    assert found.tabs[0].area.area == pytest.approx(added, abs=0.5)
    assert len(found.region.geoms) == 1 and not found.region.geoms[0].interiors
    c, s = cos(radians(direction)), sin(radians(direction))
    end = sqrt(100.0**2 - aside**2) + 40.0
    for across in (-29.9, 29.9):
        at = end - 0.1, aside + across
        assert found.region.covers(Point(at[0] * c - at[1] * s, at[0] * s + at[1] * c))
    assert found.tabs[0].out == pytest.approx(40.0, abs=0.01)


def test_fillets_add_what_lies_between_the_tangent_circle_and_the_corner():
    fillet = 20.0
    drawn = fillet + FITTED * FIT_TOLERANCE
    (found,) = with_tabs([disc(100.0)], [TabSettings((1,), width=60.0, out=80.0, fillet=fillet)])
    added = tab_area(100.0, 60.0, 80.0) + 2 * fillet_area(100.0, 30.0, drawn)
    assert found.tabs[0].area.area == pytest.approx(added, abs=1.0)


def test_all_layers_of_a_tab_end_at_one_line_beyond_the_widest():
    tab = TabSettings((1, 2, 3), width=50.0, out=30.0)
    found = with_tabs([disc(100.0), disc(70.0), disc(90.0), disc(60.0)], [tab])
    assert [round(one.region.bounds[2], 3) for one in found] == [130.0, 130.0, 130.0, 60.0]
    assert [round(one.tabs[0].out, 1) for one in found[:3]] == [30.0, 60.0, 40.0]
    column = shapely.intersection_all([one.region for one in found[:3]])
    assert column.covers(box(100.5, -25.0, 129.9, 25.0))
    assert len({tuple(round(v, 6) for v in one.tabs[0].seat) for one in found[:1]}) == 1


def test_a_planned_stack_has_its_tab_on_the_cut_line_and_is_proven():
    mesh = solids.cylinder(100.0, 80.0)
    plain = plan_stack(mesh, StackSettings(stock=(40.0,), allowance=4.0), name="drum")
    tab = TabSettings((2,), direction=45.0, width=60.0, out=50.0)
    settings = StackSettings(stock=(40.0,), allowance=4.0, tabs=(tab,))
    plan = plan_stack(mesh, settings, name="drum")
    assert plan.containment.proven
    assert plan.containment.least_cover == pytest.approx(plain.containment.least_cover, abs=0.1)
    low, high = plan.layers
    assert low == plain.layers[0]
    assert high.without_tabs == plain.layers[1].blank
    # The drawn disc is a little wider than allowance and guard, the drawn tab a little wider than asked: by the fit.
    radius = sqrt(plain.layers[1].blank_area / pi)
    drawn = BLADE_TURNS + FITTED * FIT_TOLERANCE
    added = tab_area(radius, 60.0, 50.0) + 2 * fillet_area(radius, 30.0, drawn)
    more = high.blank_area - plain.layers[1].blank_area
    assert added - 1.0 <= more <= added + 2 * FIT_TOLERANCE * (2 * 50.0 + 60.0)
    assert high.blank_volume == high.blank_area * 40.0
    assert area_polygon(high.blank).contains(Point(135.0 * cos(pi / 4), 135.0 * sin(pi / 4)))
    # A band saw with the blade that the fillet is for turns in it.
    curve = least_inner_curve(high)
    assert BLADE_TURNS <= curve.radius <= drawn + 0.5 and curve.corners == 0
    assert preview(mesh, settings).wood_volume - preview(mesh, StackSettings(stock=(40.0,), allowance=4.0)).wood_volume
    assert preview(mesh, settings).wood_volume == pytest.approx(sum(n.blank_volume for n in plan.layers), rel=0.01)


def test_sharp_corners_are_left_where_no_fillet_is_wanted():
    settings = StackSettings(stock=(40.0,), tabs=(TabSettings((1,), fillet=0.0),))
    plan = plan_stack(solids.cylinder(100.0, 40.0), settings, name="drum")
    assert least_inner_curve(plan.layers[0]).corners == 2


@pytest.mark.parametrize(
    ("tab", "says"),
    [
        (TabSettings((1, 4)), "There is no layer 4 for the tab of layers 1, 4 at 0°: the stack has 2"),
        (TabSettings((1,), aside=120.0), "passes beside the blank of layer 1"),
        (TabSettings((2,), direction=90.0, width=60.0, out=20.0), "runs into another piece of layer 2"),
        (TabSettings((2,), direction=0.0, width=300.0, out=20.0), "ends inside the outline of layer 2"),
    ],
)  # fmt: skip
def test_a_tab_without_a_place_is_refused_with_one_sentence(tab, says):
    # Layer 2: a small disc between a long bar beside it and a wide foot at its back.
    beside = MultiPolygon([*disc(40.0).geoms, box(35.0, 45.0, 60.0, 200.0), box(-30.0, 160.0, 33.0, 161.0)])
    upright = MultiPolygon([*disc(40.0).geoms, box(25.0, 43.0, 50.0, 200.0)])
    wide = MultiPolygon([shapely.union(box(0.0, -60.0, 40.0, 60.0), box(0.0, 60.0, 100.0, 200.0))])
    second = {90.0: upright, 0.0: wide}[tab.direction] if tab.layers == (2,) else beside
    with pytest.raises(Refusal, match=says) as raised:
        with_tabs([disc(100.0), second], [tab])
    assert str(raised.value).count(". ") == 0


def test_a_tab_wider_than_its_piece_takes_it_between_its_shoulders():
    # A disc of radius 17 and a tab 46 wide: from the disc's middle outwards, less the half disc.
    (found,) = with_tabs([disc(17.0)], [TabSettings((1,), width=46.0, out=20.0, fillet=0.0)])
    assert found.tabs[0].area.area == pytest.approx(46.0 * 37.0 - pi * 17.0**2 / 2, abs=0.5)
    assert found.region.covers(Point(14.0, 0.0).buffer(13.9)) and found.region.covers(Point(14.0, 0.0).buffer(20.0))
    assert len(found.region.geoms) == 1


def test_two_tabs_that_meet_are_refused():
    tabs = [TabSettings((1,), direction=0.0), TabSettings((1,), direction=20.0)]
    with pytest.raises(Refusal, match="Two tabs of layer 1 run into each other"):
        with_tabs([disc(100.0)], tabs)
    assert len(with_tabs([disc(100.0)], [tabs[0], TabSettings((1,), direction=90.0)])[0].tabs) == 2


def test_the_formulas_of_this_test_hold_where_they_are_known():
    # A tab as wide as a disc of radius R, of no length: the square around its half less the half disc.
    assert tab_area(50.0, 100.0, 0.0) == pytest.approx(100.0 * 50.0 - pi * 50.0**2 / 2)
    # A fillet of the disc's own radius on its diameter: both centres are 2R apart, R above the line, 30°.
    four = sqrt(3) * 50.0 * 50.0 / 2  # the corner lies on the line between its neighbours
    assert hypot(sqrt(3) * 50.0, 50.0) == pytest.approx(100.0)
    sectors = 50.0**2 * (pi / 6) / 2 + 50.0**2 * (pi / 3) / 2
    assert fillet_area(50.0, 0.0, 50.0) == pytest.approx(four - sectors)


def test_the_wood_of_a_tab_is_not_carved():
    mesh = solids.cylinder(80.0, 90.0)
    tab = TabSettings((1,), width=60.0, out=40.0, fillet=0.0)
    plain, with_one = (preview(mesh, StackSettings(stock=(45.0,), tabs=tabs)) for tabs in ((), (tab,)))
    assert with_one.tab_volume == pytest.approx(45.0 * tab_area(83.2, 60.0, 40.0), rel=1e-3)  # allowance 3, guard 0.2
    assert with_one.wood_volume == pytest.approx(plain.wood_volume + with_one.tab_volume)
    assert with_one.carved_volume == pytest.approx(plain.carved_volume) and plain.tab_volume == 0.0
