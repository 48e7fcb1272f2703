# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a load can stand: forms of known measures, by arithmetic. Standing, sections and deep check find the same."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
import shapely
from solids import box, cone, revolved
from weakforms import arch, armchair, bowl, boxes, mushroom

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.strength.loads import Edges, Surface
from freecad_stacklam.lamination.strength.members import levels_of
from freecad_stacklam.lamination.strength.planes import areas_at
from freecad_stacklam.lamination.stress.loads import loads_of
from freecad_stacklam.lamination.tops.outlines import Stood, arms_of, tops_of
from freecad_stacklam.lamination.tops.seat import Seat, seat_of
from freecad_stacklam.lamination.usage.edges import inside_edge


def step_of(seat: Seat) -> float:
    """Between two lines, mm."""
    return float(seat.inside.min()) * 2


def shelf() -> Mesh:
    """A top 440 × 300 at 450 on four legs, with a shelf under it at 220."""
    legs = [(x, y, 40, 40, 0, 420) for x in (-180, 180) for y in (-120, 120)]
    return boxes([(0, 0, 440, 300, 420, 450), (0, 0, 400, 280, 200, 220), *legs])


def test_an_armchair_is_leant_on_at_its_arms_and_sat_on_between_them() -> None:
    seat = seat_of([armchair()])
    step = step_of(seat)
    assert np.allclose(seat.sat[:, 2], 400.0)
    # 460 less two arms that hang 230 − 190 over it, by the 400 before the back.
    assert len(seat.sat) * step**2 == pytest.approx((460 - 80) * 400, rel=0.04)
    heights = sorted({round(float(z)) for z in seat.points[~seat.wide][:, 2]})
    assert heights == [645, 800]
    arms = seat.points[np.abs(seat.points[:, 2] - 645) < 1]
    assert set(np.round(np.abs(arms[:, 0]) / 40)) <= {5.0, 6.0}
    # On an arm that hangs from the back a load near its free end is the worst: the end is at y = −180.
    loads = loads_of([LoadCase("edge", 600.0, 0.0, "edge", "", inset=60.0)], seat)
    ends = [load for load in loads if abs(load.place[2] - 645) < 1 and load.place[1] < -130]
    assert {np.sign(load.place[0]) for load in ends} == {-1.0, 1.0}
    # Sitting down anywhere is not on an arm.
    anywhere = loads_of([LoadCase("a", 1300.0, 0.0, "anywhere", "", inset=100.0)], seat)
    assert {round(load.place[2]) for load in anywhere} == {400}


def test_of_a_bowl_the_rim_is_left() -> None:
    seat = seat_of([bowl()])
    assert seat.points[:, 2].min() > 150.0 - step_of(seat)  # the first line inside it counts too
    assert len(seat.points) * step_of(seat) ** 2 == pytest.approx(pi * (180**2 - 170**2), rel=0.15)


def test_a_slope_is_a_place_up_to_thirty_degrees() -> None:
    def ridge(rise: float) -> Mesh:
        turned = box(400, 300, 200, (-200, -150, 200))
        points = turned.vertices.copy()
        points[:, 2] += rise * points[:, 0]
        return gate(points, turned.triangles)

    gentle = seat_of([ridge(0.55)])  # 28.8°
    assert gentle.wide.any() and len(gentle.points) * step_of(gentle) ** 2 == pytest.approx(400 * 300, rel=0.03)
    steep = ridge(0.6)  # 31.0°: tan 30° = 1 / √3 = 0.577
    assert not tops_of([Stood("", steep.vertices, steep)])[0].level


def test_a_cone_is_loaded_at_its_tip_and_nothing_at_all_is_refused() -> None:
    seat = seat_of([cone(100, 450)])
    assert seat.points[:, 2].min() > 420.0
    needle = cone(20, 450)  # its highest part is narrower than a line is from the next
    try:
        assert seat_of([needle]).points[:, 2].min() > 420.0
    except Refusal as refusal:
        assert "turn it the way it stands" in refusal.sentence


@pytest.mark.parametrize(
    ("form", "flat"),
    [(mushroom(), True), (arch(width=120.0, crown=60.0), True), (armchair(), False), (shelf(), True), (bowl(), False)],
    ids=["mushroom", "bench", "armchair", "shelf", "bowl"],
)
def test_standing_sections_and_deep_check_load_the_same_places(form: Mesh, flat: bool) -> None:
    stood = [Stood("", form.vertices, form)]
    tops = tops_of(stood)
    seat = seat_of([form])
    step = step_of(seat)
    assert len(tops) == 1
    outline = shapely.Polygon(tops[0].outline)
    # All that is sat on lies in the top that standing tips over, as high, and reaches to its edge.
    plan = shapely.points(seat.sat[:, :2])
    assert shapely.contains(shapely.buffer(outline, step), plan).all()
    assert np.abs(seat.sat[:, 2] - tops[0].height).max() < step
    assert shapely.distance(shapely.convex_hull(outline), shapely.multipoints(seat.sat[:, :2])) < step
    if flat:
        assert arms_of(stood, tops) == () and seat.wide.all()
        assert len(seat.sat) * step**2 == pytest.approx(outline.area, rel=0.03)
        # An edge load of each, farthest to the right: of the sections, of standing, of the deep check.
        heights = [50.0, 0.9 * tops[0].height, tops[0].height - 1.0]
        levels = levels_of(heights, [[area] for area in areas_at(form.vertices, form.triangles, heights)])
        (group,) = levels[-1].groups
        cut = Edges(Surface([(form.vertices, form.triangles)])).of(group, 30.0)
        tipped = inside_edge(outline, 30.0)
        loads = loads_of([LoadCase("e", 600.0, 0.0, "edge", "", inset=30.0)], seat)
        right = max(load.place[0] for load in loads)
        assert cut[:, 0].max() == pytest.approx(tipped.bounds[2], abs=1.0)
        assert right == pytest.approx(tipped.bounds[2], abs=2 * step)
        # Sections know a group's top to their highest cut, here 1 mm under it.
        assert np.abs(cut[:, 2] - tops[0].height).max() <= 1.0
        assert {round(load.place[2]) for load in loads} == {tops[0].height}


def test_the_steep_step_of_a_dish_is_no_edge_of_the_seat() -> None:
    """A load 60 mm inside the edge stands 60 mm inside the outer edge, not inside that of the dish's level bottom."""
    profile = np.array([(0, 0), (180, 0), (180, 345), (102, 345), (88, 320), (0, 312)], dtype=np.float64)
    seat = seat_of([revolved(profile)])
    far = np.hypot(*seat.points[:, :2].T)
    step = step_of(seat)
    # By the circle's radius alone: 180 mm less how far a place is inside.
    assert np.allclose(far, 180.0 - seat.inside, atol=2.0 * step)
    loads = loads_of([LoadCase("edge", 600.0, 0.0, "edge", "own", inset=60.0)], seat)
    assert loads and all(110.0 < np.hypot(*one.place[:2]) < 130.0 for one in loads)
