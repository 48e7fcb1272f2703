# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables of offsets of forms whose radii are known exactly."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids

from freecad_stacklam.lamination.carving.offsets import offsets_by_azimuth, offsets_by_station
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE, GUARD

# A blank stands at least the guard and at most this outside the shadow grown by the allowance (see test_stack).
OUTSIDE = GUARD + 2.2 * FIT_TOLERANCE + 0.01
AZIMUTHS = tuple(15.0 * i for i in range(24))


def planned(mesh, stock=25.0, allowance=3.0, name="form"):
    return plan_stack(mesh, StackSettings(stock=(stock,), allowance=allowance), name=name)


def joined(*meshes):
    points, faces, count = [], [], 0
    for mesh in meshes:
        points.append(mesh.vertices)
        faces.append(mesh.triangles + count)
        count += len(mesh.vertices)
    return gate(np.vstack(points), np.vstack(faces))


def test_a_cone_has_the_radii_of_similar_triangles():
    # Exact: r = R · (1 − z / H); the blank of layer k is as wide as the cone at the layer's bottom (elementary
    # geometry).
    plan = planned(solids.cone(200.0, 450.0))
    rows = offsets_by_azimuth(plan, AZIMUTHS)
    sag = 200.0 * (1 - np.cos(np.pi / 720))
    assert len(rows) == 18 * 24  # the top plane touches the apex only
    for row in rows:
        exact = 200.0 * (1 - row.height / 450.0)
        assert row.radius == pytest.approx(exact, abs=sag + 1e-6)
        assert (row.centre, row.about, row.piece, row.inner) == ((0.0, 0.0), "axis", 1, ())
        if row.below is not None:
            at_bottom = 200.0 * (1 - (row.height - 25.0) / 450.0)
            assert at_bottom + 3.0 + GUARD - sag <= row.edge_below <= at_bottom + 3.0 + OUTSIDE
            assert row.cut == pytest.approx(row.edge_below - row.radius_below)
            # The run of a layer on a wall at 66.04° from level is 11.11 mm (25 / tan 66.04°).
            assert row.cut_below - row.cut_above == pytest.approx(11.11, abs=2.5 * FIT_TOLERANCE)


def test_a_ball_has_the_radii_of_its_circles():
    # Exact: r = √(R² − (z − R)²) (Pythagoras).
    mesh = solids.ball(150.0)
    rows = offsets_by_azimuth(planned(mesh), AZIMUTHS)
    sag = 150.0 - np.linalg.norm(mesh.vertices[mesh.triangles].mean(axis=1) - [0, 0, 150], axis=1).min()
    assert {r.height for r in rows} == {25.0 * k for k in range(1, 12)}
    for row in rows:
        exact = np.sqrt(150.0**2 - (row.height - 150.0) ** 2)
        # A chord's sag widens the error of the radius where the surface lies flatter.
        assert row.radius == pytest.approx(exact, abs=2 * sag * 150.0 / exact)
        assert row.cut > 3.0


def test_a_ring_lists_its_inner_surface_and_says_so():
    # Exact: at mid height a torus of ring 120 and tube 40 lies between the radii 80 and 160.
    rows = [r for r in offsets_by_azimuth(planned(solids.torus(), 40.0), (0.0, 30.0)) if r.height == 40.0]
    assert len(rows) == 2
    for row in rows:
        assert row.about == "axis"
        assert row.radius == pytest.approx(160.0, abs=0.05)
        assert row.inner == pytest.approx((80.0,), abs=0.05)
        assert "2 times" in row.note


def test_legs_beside_the_axis_have_tables_about_their_own_middles():
    legs = joined(solids.box(60, 40, 50, (-230, -20, 0)), solids.box(60, 40, 50, (170, -20, 0)))
    rows = [r for r in offsets_by_azimuth(planned(legs), (0.0, 90.0, 45.0)) if r.height == 25.0]
    assert [(r.piece, r.about) for r in rows] == [(1, "own centre")] * 3 + [(2, "own centre")] * 3
    assert sorted({r.centre for r in rows}) == [pytest.approx((-200.0, 0.0)), pytest.approx((200.0, 0.0))]
    # Half the sides of the legs, and on the diagonal to the nearer side.
    assert [r.radius for r in rows[:3]] == pytest.approx([30.0, 20.0, 20.0 * 2**0.5])
    for row in rows[:2]:
        assert 3.0 + GUARD <= row.cut <= 3.0 + OUTSIDE


def test_pieces_in_one_blank_have_no_edge_between_them():
    legs = joined(solids.box(60, 40, 50, (-64, -20, 0)), solids.box(60, 40, 50, (4, -20, 0)))
    plan = planned(legs, allowance=5.0)
    assert len(plan.layers[0].blank) == 1
    rows = [r for r in offsets_by_azimuth(plan, (0.0, 180.0)) if r.height == 25.0]
    between = [r for r in rows if np.cos(np.radians(r.at)) * r.centre[0] < 0]
    assert len(between) == 2
    for row in between:
        assert row.cut is None
        assert "another piece" in row.note


def test_a_step_on_a_glue_line_has_two_radii():
    # A cylinder of radius 100 with one of 60 on it, the step exactly on the glue line.
    profile = np.array([[0, 0], [100, 0], [100, 50], [60, 50], [60, 100], [0, 100]], dtype=float)
    rows = [r for r in offsets_by_azimuth(planned(solids.revolved(profile, 360)), (0.0, 10.0)) if r.height == 50.0]
    for row in rows:
        assert (row.radius_below, row.radius_above) == pytest.approx((100.0, 60.0), abs=0.01)
        assert "step" in row.note
        assert 3.0 + GUARD - 0.01 <= row.cut_above <= 3.0 + OUTSIDE


def test_stations_give_half_breadths():
    # Exact: half the chord of a circle at s is √(r² − s²).
    rows = [r for r in offsets_by_station(planned(solids.cylinder(100.0, 50.0)), 20.0) if r.height == 25.0]
    assert sorted({r.at for r in rows}) == [-80.0, -60.0, -40.0, -20.0, 0.0, 20.0, 40.0, 60.0, 80.0]
    assert {r.direction for r in rows} == {90.0, 270.0}
    for row in rows:
        assert row.radius == pytest.approx(np.sqrt(100.0**2 - row.at**2), abs=0.02)


def test_offsets_agree_with_rays_cut_by_another_library():
    # Outside judge: GEOS intersections of long lines with the same areas.
    angle = np.arange(360) * np.pi / 180
    r = 80 * (1 + 0.2 * np.cos(3 * angle))
    bottom = np.column_stack([r * np.cos(angle), r * np.sin(angle)])
    top = bottom * 0.6
    points = np.vstack([np.column_stack([bottom, np.zeros(360)]), np.column_stack([top, np.full(360, 90.0)]),
                        [[0, 0, 0], [0, 0, 90]]])  # fmt: skip
    faces = []
    for i in range(360):
        j = (i + 1) % 360
        faces += [(i, j, 360 + j), (i, 360 + j, 360 + i), (720, j, i), (721, 360 + i, 360 + j)]
    plan = planned(gate(points, np.array(faces)), 30.0)
    for row in offsets_by_azimuth(plan, (7.0, 61.5, 200.0)):
        heading = np.array([np.cos(np.radians(row.at)), np.sin(np.radians(row.at))])
        line = shapely.LineString([(0, 0), heading * 1000])
        if row.below is not None:
            layer = plan.layers[row.below - 1]
            assert row.radius_below == pytest.approx(line.intersection(layer.finished_top).length, abs=1e-6)
            assert row.edge_below == pytest.approx(line.intersection(area_polygon(layer.blank)).length, abs=1e-6)


def test_turning_the_form_turns_the_table():
    mesh = solids.box(120, 60, 50, (-60, -30, 0))
    plain = {(r.height, r.at): r.radius for r in offsets_by_azimuth(planned(mesh), (0.0, 30.0, 60.0))}
    turned = planned(solids.moved(mesh, solids.turn_z(30.0)))
    for row in offsets_by_azimuth(turned, (30.0, 60.0, 90.0)):
        assert row.radius == pytest.approx(plain[row.height, row.at - 30.0], abs=1e-4)


def test_bad_steps_are_refused():
    plan = planned(solids.box(100, 100, 50))
    with pytest.raises(Refusal, match="at least one direction"):
        offsets_by_azimuth(plan, ())
    with pytest.raises(Refusal, match="Stations"):
        offsets_by_station(plan, 0.0)
