# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wood around many pins of one form, against distances in closed form and by manifold3d."""

from __future__ import annotations

from math import hypot, sqrt

import judges
import manifold3d
import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.joints.surfacecover import SurfaceCover
from freecad_stacklam.lamination.plan.insides import PinPlan

#: What the search may leave on the table, mm: it gives its figure this much short and never overstates it.
SHORT = 0.045


def pin(x: float, y: float, diameter: float = 10.0, down: float = 12.0, up: float = 12.0) -> PinPlan:
    return PinPlan(1, (x, y), diameter, down, up, 0.0)


def test_a_pin_in_a_box_is_as_far_from_its_sides_as_it_was_put() -> None:
    mesh = solids.box(300, 200, 90)
    cover = SurfaceCover(mesh.vertices, mesh.triangles)
    # to the side x = 0, to the side y = 200, and up to the top when the glue line lies at 70 mm
    for height, where, wanted in (
        (45.0, (30.0, 100.0), 25.0),
        (45.0, (150.0, 170.0), 25.0),
        (70.0, (150.0, 100.0), 8.0),
    ):
        assert wanted - SHORT <= cover.of_pin(height, pin(*where)) <= wanted
        nearest = cover.nearest(height, pin(*where))
        assert wanted <= nearest.distance <= wanted + SHORT
        # The point of the pin that is nearest lies so far from that side.
        x, y, z = nearest.place
        assert min(x, 300 - x, y, 200 - y, z, 90 - z) == pytest.approx(nearest.distance)


def test_a_pin_in_a_ball_comes_nearest_with_the_rim_of_its_end() -> None:
    """Ball R 150 about (0, 0, 150): the rim of a pin's end at (d + r, z) lies R − √((d + r)² + (z − 150)²) inside; the
    facets of the mesh lie inside the ball by their sag."""
    mesh = solids.ball(150.0, 5)
    sag = 150.0 - np.linalg.norm(mesh.vertices[mesh.triangles].mean(axis=1) - [0, 0, 150], axis=1).min()
    cover = SurfaceCover(mesh.vertices, mesh.triangles)
    for x, y, height, down, up in ((60.0, 0.0, 225.0, 12.0, 12.0), (-40.0, 40.0, 100.0, 30.0, 8.0)):
        rims = [hypot(hypot(x, y) + 5.0, z - 150.0) for z in (height - down, height + up)]
        found = cover.of_pin(height, pin(x, y, 10.0, down, up))
        assert 150.0 - max(rims) - sag - SHORT <= found <= 150.0 - max(rims)


def test_a_pin_beside_the_hole_of_a_ring_is_the_judges() -> None:
    """manifold3d's least gap between the pin and the air around the ring."""
    mesh = solids.torus(120.0, 40.0)
    cover = SurfaceCover(mesh.vertices, mesh.triangles)
    air = manifold3d.Manifold.cube((900, 900, 900), True) - judges.solid(mesh)
    for at in ((120.0, 0.0), (0.0, 132.0)):
        body = manifold3d.Manifold.cylinder(20.0, 5.0, circular_segments=128).translate((*at, 30.0))
        found = cover.of_pin(40.0, pin(*at, 10.0, 10.0, 10.0))
        assert found == pytest.approx(air.min_gap(body, 100.0), abs=SHORT)
    # by hand: the pin's outer edges at ring ± 5, z ± 10 of the tube's middle
    assert cover.of_pin(40.0, pin(120.0, 0.0, 10.0, 10.0, 10.0)) == pytest.approx(40 - sqrt(125), abs=0.1)
