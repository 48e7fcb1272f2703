# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bodies that overlap are one piece of wood. Volumes by arithmetic, and of the union by manifold3d."""

from __future__ import annotations

from dataclasses import replace

import judges
import manifold3d
import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.form.volumes import slab_volumes
from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.layers.wholewood import OVERLAP, whole_wood, wood_in_slabs
from freecad_stacklam.lamination.settings.stack import StackSettings


def together(*bodies: Mesh) -> Mesh:
    vertices, triangles, count = [], [], 0
    for body in bodies:
        vertices.append(body.vertices)
        triangles.append(body.triangles + count)
        count += len(body.vertices)
    return gate(np.vstack(vertices), np.vstack(triangles))


def test_boxes_that_cross_on_the_diagonals_of_their_faces_are_counted_once() -> None:
    # Three bars of 100 × 20 × 20 through one middle: 3 × 40 000 less 2 × 8000, every edge on a diagonal.
    bars = [solids.box(*size, at=tuple(50 - s / 2 for s in size)) for size in
            ((100.0, 20.0, 20.0), (20.0, 100.0, 20.0), (20.0, 20.0, 100.0))]  # fmt: skip
    mesh = together(*bars)
    wood = wood_in_slabs(mesh, mesh.vertices, (0.0, 45.0, 90.0, 135.0))
    assert wood.whole == pytest.approx(104_000.0, rel=1e-9)
    # By layers: the upright bar alone up to 40 and over 60, and between them the cross, 20 × (400 + 2 × 80 × 20).
    assert wood.slabs == pytest.approx((40 * 400 + 5 * 3600, 15 * 3600 + 30 * 400, 10 * 400), rel=1e-9)
    assert wood.notes == (OVERLAP,)
    assert whole_wood(mesh, mesh.vertices, (0.0, 45.0, 90.0, 135.0)) == wood.whole
    alone = bars[0]
    assert whole_wood(alone, alone.vertices, (0.0, 90.0)) == alone.volume == pytest.approx(40_000.0)


def test_a_plan_says_how_much_is_carved_away_of_one_piece() -> None:
    # Two boxes of 100 × 80 × 60 that share 50 × 50 × 50.
    mesh = together(solids.box(100, 80, 60), solids.box(100, 80, 60, (50, 30, 10)))
    plan = plan_stack(mesh, StackSettings(stock=(35.0,)), name="Two")
    assert plan.form.volume == pytest.approx(2 * 480_000 - 125_000, rel=1e-9)
    assert sum(layer.finished_volume for layer in plan.layers) == pytest.approx(plan.form.volume)
    assert OVERLAP in plan.form.notes
    shown = preview(mesh, StackSettings(stock=(35.0,)))
    assert shown.form_volume == pytest.approx(plan.form.volume)
    assert shown.carved_volume > 0


def test_round_bodies_against_manifold() -> None:
    ball = solids.ball(60, 4)
    mesh = together(
        ball, replace(ball, vertices=ball.vertices + [30.0, 0, 20.0]), solids.box(30, 30, 200, (-10, -10, 5))
    )
    solid = judges.solid(ball)
    union = solid + solid.translate((30, 0, 20)) + manifold3d.Manifold.cube((30, 30, 200)).translate((-10, -10, 5))
    wood = wood_in_slabs(mesh, mesh.vertices, (0.0, 45.0, 90.0, 135.0, 180.0, 225.0))
    assert wood.whole == pytest.approx(union.volume(), rel=1e-4)


def test_bodies_that_only_touch_or_lie_in_each_other_as_cavities_keep_the_closed_sum() -> None:
    beside = together(solids.box(100, 80, 60), solids.box(100, 80, 60, (100, 0, 0)), solids.box(50, 50, 30, (0, 0, 60)))
    big, small = solids.box(100, 100, 100), solids.box(20, 20, 20, (40, 40, 40))
    hollow = gate(np.vstack([big.vertices, small.vertices]), np.vstack([big.triangles, small.triangles[:, ::-1] + 8]))
    for mesh in (beside, hollow):
        planes = (0.0, 45.0, 90.0, 135.0)
        wood = wood_in_slabs(mesh, mesh.vertices, planes)
        assert wood.slabs == slab_volumes(mesh.vertices, mesh.triangles, planes)
        assert wood.notes == mesh.notes
