# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wood between a joint and the finished surface, against closed forms, shapely and manifold3d."""

from __future__ import annotations

import numpy as np
import pytest
import solids
from joined import joint, planned

from freecad_stacklam.lamination.joints.cover import Prism, cover_of


def test_tilted_cover_in_a_slab_is_in_closed_form():
    # A round hole of diameter d leaning by θ in a wide slab, stopped at depth t along its axis: the corner of its
    # end that
    # lies lowest is t·cos θ + d/2·sin θ under the face, so the slab of thickness h keeps h minus that.
    lean = np.radians(25.0)
    meshes = {"Low": solids.box(900, 600, 90, (-450, -300, -90)), "High": solids.box(900, 600, 90, (-450, -300, 0))}
    found = joint(
        (planned(meshes), meshes), section="round", size=(40.0,), axis=(np.sin(lean), 0, np.cos(lean)), end_room=0.0,
        embed=(("Low", 60.0), ("High", 40.0)),
    )  # fmt: skip
    assert found.least_cover == pytest.approx(90 - (60 * np.cos(lean) + 20 * np.sin(lean)), abs=0.05)


def test_cover_in_a_cone_is_in_closed_form():
    # A square of half diagonal c at height z in a cone of base radius R and height H stands (R·(1 − z/H) − c)·cos φ
    # from the
    # surface, φ the cone's wall to the axis: tan φ = R/H (elementary geometry).
    mesh = solids.cone(200, 450)
    side, top = 40.0, 250.0
    half = side / 2
    plan = np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 10.0, top), mouths=[])
    exact = (200 * (1 - top / 450) - half * np.sqrt(2)) * np.cos(np.arctan2(200, 450))
    to_base = 10.0
    assert found.distance == pytest.approx(min(exact, to_base), abs=1e-6)
    found = cover_of(mesh.vertices, mesh.triangles, Prism(plan, 60.0, top), mouths=[])
    assert found.distance == pytest.approx(exact, abs=0.005)  # 720 flats: 200·(1 − cos(π/720)) = 0.002 mm
    assert found.place[2] == pytest.approx(top)


def test_cover_to_loose_triangles_is_the_judges():
    # GEOS, through shapely: triangles in planes of constant height above the prism's lid, beside it and across it.
    import shapely

    rng = np.random.default_rng(3)
    square = np.array([[-10, -10], [10, -10], [10, 10], [-10, 10]], dtype=float)
    lid = shapely.Polygon(square)
    for _ in range(40):
        flat = rng.uniform(-40, 40, (3, 2))
        height = rng.uniform(5, 30)
        corner = np.column_stack([flat, np.full(3, height)])
        found = cover_of(corner, np.array([[0, 1, 2]]), Prism(square, 0.0, 5.0), mouths=[])
        wanted = np.hypot(shapely.distance(shapely.Polygon(flat), lid), height - 5)
        assert found.distance == pytest.approx(wanted, abs=0.0011)
