# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where loads stand, and what several feet get of them."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from solids import cylinder

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.strength.loads import DIRECTIONS, Edges, Pushes, Surface, inner_edge, pushes_of, shared
from freecad_stacklam.lamination.strength.members import Group

PLATE = cylinder(150.0, 400.0, 180)
EDGES = Edges(Surface([(PLATE.vertices, PLATE.triangles)]))
GROUP = Group((0,), (), shapely.Point(0, 0).buffer(150.0, quad_segs=64), 400.0)


def test_an_edge_load_stands_inside_the_edge_and_pushes_outward() -> None:
    load = LoadCase("edge", 600.0, 20.0, "edge", "", inset=60.0)
    found = pushes_of(load, GROUP, 200.0, EDGES)
    assert found is not None and len(found.places) == DIRECTIONS
    assert np.hypot(*found.places[:, :2].T) == pytest.approx(90.0, rel=0.01)
    assert found.places[:, 2] == pytest.approx(400.0)
    assert found.forces[0] == pytest.approx([20.0, 0.0, -600.0])
    assert pushes_of(load, GROUP, 395.0, EDGES) is None


def test_a_load_anywhere_pushes_every_way_and_one_at_a_point_stays_there() -> None:
    load = LoadCase("any", 100.0, 10.0, "anywhere", "")
    assert len(pushes_of(load, GROUP, 0.0, EDGES).places) == DIRECTIONS**2
    point = LoadCase("point", 100.0, 10.0, "point", "", at=(50.0, 0.0, 400.0), direction=90.0)
    found = pushes_of(point, GROUP, 0.0, EDGES)
    assert np.unique(found.forces.round(9), axis=0).tolist() == [[0.0, 10.0, -100.0]]
    assert pushes_of(LoadCase("off", 1.0, 0.0, "point", "", at=(500.0, 0.0, 400.0)), GROUP, 0.0, EDGES) is None


def test_a_hole_in_a_plan_is_no_edge_and_a_narrow_plan_keeps_its_length() -> None:
    ring = shapely.Point(0, 0).buffer(150).difference(shapely.Point(0, 0).buffer(140))
    assert np.hypot(*inner_edge(ring, 50.0).T) == pytest.approx(100.0, rel=0.01)
    # 0.8 of the half width of 10 lies inside the edge: x from 8 to 12, y from 8 to 192.
    assert np.ptp(inner_edge(shapely.box(0, 0, 20, 200), 50.0), axis=0) == pytest.approx([4.0, 184.0], abs=0.5)


def test_four_feet_by_the_lever_rule() -> None:
    # 1000 N at x 100 on feet at ±200: 1000·(200 + 100)/400 = 750 on the right pair, 250 on the left.
    feet = np.array([[x, y, 0.0] for x in (-200.0, 200.0) for y in (-150.0, 150.0)])
    found = shared(Pushes(np.array([[100.0, 0.0, 400.0]]), np.array([[0.0, 0.0, -1000.0]])), feet)
    assert [-float(p.forces[0, 2]) for p, _ in found] == pytest.approx([125, 125, 375, 375])
    assert all(np.abs(c).max() < 1e-6 for _, c in found)


def test_feet_that_would_lift_let_go() -> None:
    feet = np.array([[x, y, 0.0] for x in (-200.0, 200.0) for y in (-150.0, 150.0)])
    found = shared(Pushes(np.array([[200.0, 150.0, 400.0]]), np.array([[0.0, 0.0, -1000.0]])), feet)
    down = [-float(p.forces[0, 2]) for p, _ in found]
    assert min(down) > -1e-6 and sum(down) == pytest.approx(1000.0)


def test_two_feet_hold_a_push_across_them_by_their_own_stiffness() -> None:
    # 300 N at 400 mm across the line of two feet: 120 N·m, 60 on each.
    feet = np.array([[-200.0, 0.0, 0.0], [200.0, 0.0, 0.0]])
    found = shared(Pushes(np.array([[0.0, 0.0, 400.0]]), np.array([[0.0, 300.0, 0.0]])), feet)
    for p, couple in found:
        assert p.forces[0] == pytest.approx([0.0, 150.0, 0.0])
        assert couple[0] == pytest.approx([-60e3, 0.0, 0.0])
