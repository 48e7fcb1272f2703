# SPDX-License-Identifier: LGPL-2.1-or-later

"""What touches the floor: areas and hulls of forms whose feet are known exactly."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

import numpy as np
import pytest
import shapely
from furniture import four_legs, legs_round, lifted, ring_base
from shapely import Polygon
from solids import ball, box, cone, cylinder, torus

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.standing.floor import contacts_of, feet_of, support_of
from freecad_stacklam.lamination.tops.outlines import Stood


def stood(meshes: Mapping[str, Mesh]) -> list[Stood]:
    return [Stood(name, mesh.vertices, mesh) for name, mesh in meshes.items()]


def test_four_legs_are_four_feet_and_their_hull_is_the_support() -> None:
    contacts = contacts_of(stood(four_legs(130.0)))
    assert sorted(round(c.area.area) for c in contacts) == [1600] * 4
    assert all(c.face and c.gap == 0 for c in contacts)
    assert support_of(contacts).equals(shapely.box(-150, -150, 150, 150))
    feet = feet_of(contacts, (0.0, 0.0), (0.0,) * 4, 0.0)
    assert [tuple(np.sign(foot.at)) for foot in feet] == [(1, 1), (-1, 1), (-1, -1), (1, -1)]
    assert [foot.number for foot in feet] == [1, 2, 3, 4]


def test_a_short_leg_is_a_foot_that_hangs() -> None:
    contacts = contacts_of(stood(four_legs(130.0, short=2.0)))
    assert sorted(round(c.gap, 6) for c in contacts) == [0.0, 0.0, 0.0, 2.0]
    # Over the three that touch only: a square less a triangle.
    assert support_of(contacts).area == pytest.approx(300**2 - 260**2 / 2)
    assert support_of(contacts, 10.0).area == pytest.approx(300**2)


def test_a_hollow_base_stands_on_its_ring() -> None:
    (contact,) = contacts_of(stood(ring_base()))
    assert contact.face
    assert contact.area.area == pytest.approx(pi * (200**2 - 150**2), rel=0.001)
    assert len(shapely.get_parts(contact.area)[0].interiors) == 1
    assert support_of([contact]).area == pytest.approx(pi * 200**2, rel=0.001)


def test_a_rounded_ring_stands_along_a_line() -> None:
    (contact,) = contacts_of(stood({"Torus": torus(120.0, 40.0)}))
    assert not contact.face
    hull = support_of([contact])
    assert hull.area == pytest.approx(pi * 120**2, rel=0.01)


def test_a_ball_touches_in_a_point() -> None:
    (contact,) = contacts_of(stood({"Ball": ball(150.0)}))
    assert not contact.face
    assert shapely.minimum_bounding_radius(support_of([contact])) < 1.0


def test_four_balls_are_four_points() -> None:
    balls = {f"Ball {i}": ball(20.0, 4) for i in range(4)}
    for i, (name, mesh) in enumerate(balls.items()):
        matrix = mesh.vertices + [150 * (-1) ** i, 100 * (-1) ** (i // 2), 0]
        balls[name] = Mesh(matrix, mesh.triangles, mesh.twins, mesh.volume)
    contacts = contacts_of(stood(balls))
    assert len(contacts) == 4
    assert not any(c.face for c in contacts)
    hull = support_of(contacts)
    assert isinstance(hull, Polygon)
    assert hull.area == pytest.approx(300 * 200, rel=0.01)


def test_a_flat_base_is_one_face_and_what_hangs_high_is_no_foot() -> None:
    drum = cylinder(100, 200)
    (contact,) = contacts_of(stood({"Drum": drum, "Arm": lifted(box(50, 50, 50, (200, 0, 0)), 30.0)}))
    assert contact.area.area == pytest.approx(drum.volume / 200, rel=0.001)
    (contact,) = contacts_of(stood({"Cone": cone(200, 450)}))
    assert contact.area.area == pytest.approx(pi * 200**2, rel=0.001)


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_feet_on_a_circle_have_the_inner_radius_of_their_polygon(count: int) -> None:
    # r · cos(π / n), exact geometry: 0.5, 0.7071, 0.8090, 0.8660 r. The pins are 2 mm thick.
    hull = support_of(contacts_of(stood(legs_round(count, 150.0))))
    inner = -hull.exterior.distance(shapely.Point(0, 0)) + 150 * np.cos(pi / count)
    assert abs(inner) < 1.5
