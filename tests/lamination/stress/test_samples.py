# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places on a surface, evenly spread and on it."""

from __future__ import annotations

import bricks
import numpy as np
import pytest
import solids

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, body_of
from freecad_stacklam.lamination.stress.samples import places_on, spread
from freecad_stacklam.lamination.voxels.fill import voxels_of


def test_places_are_spread_by_area_and_lie_on_the_surface() -> None:
    mesh = solids.ball(100.0, 4)
    points, outward = spread(mesh.vertices, mesh.triangles, 8.0)
    assert len(points) == pytest.approx(4 * np.pi * 100**2 / 64, rel=0.01)
    away = points - np.array([0, 0, 100.0])
    assert np.abs(np.linalg.norm(away, axis=1) - 100).max() < 0.5
    assert ((away * outward).sum(axis=1) > 99).all()
    assert np.abs(points.mean(axis=0) - np.array([0, 0, 100.0])).max() < 2.0
    again, _ = spread(mesh.vertices, mesh.triangles, 8.0)
    assert np.array_equal(points, again)


def test_every_brick_at_the_surface_has_one_place() -> None:
    plan, meshes = bricks.turned([[0, 0], [30, 0], [30, 180], [0, 180]])
    cells = voxels_of(plan, meshes, 10.0)
    body = body_of(cells, species_table(), FLAT_SAWN)
    places = places_on(plan, meshes, cells, body)
    assert len(np.unique(places.brick)) == len(places.brick)
    assert np.abs(body.lattice.middles[places.brick] - places.points).max() <= 15.0
    radius = np.hypot(*places.points[:, :2].T)
    ends = (places.points[:, 2] < 1e-6) | (places.points[:, 2] > 180 - 1e-6)
    assert np.all(ends | (np.abs(radius - 30) < 0.1))
