# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which stacks stand together, against manifold3d's least gaps."""

from __future__ import annotations

import numpy as np
from furniture import four_legs
from manifold3d import Manifold
from manifold3d import Mesh as Given
from solids import ball, box, cylinder

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.standing.pieces import TOUCH, pieces_of, touching


def gap(one: Mesh, other: Mesh) -> float:
    solids = [Manifold(Given(m.vertices.astype(np.float32), m.triangles.astype(np.uint32))) for m in (one, other)]
    return float(solids[0].min_gap(solids[1], 100.0))


def test_forms_touch_when_their_gap_is_less_than_a_drawing_leaves() -> None:
    drum = cylinder(100, 200)
    for away in (0.0, 3.0, 8.0):
        post = box(40, 40, 300, (100 + away, -20, -50))
        assert touching(drum, post) == (gap(drum, post) <= TOUCH)
    assert touching(ball(100), box(300, 300, 50, (-150, -150, -50)))


def test_bars_that_cross_touch_though_no_corner_is_near() -> None:
    assert touching(box(400, 40, 40, (-200, -20, 0)), box(40, 400, 40, (-20, -200, 10)))


def test_legs_and_seat_are_one_piece_and_what_stands_apart_is_another() -> None:
    meshes = {**four_legs(), "Stool": box(50, 50, 50, (900, 0, 0))}
    assert pieces_of([], meshes) == (("Seat", "Leg 1", "Leg 2", "Leg 3", "Leg 4"), ("Stool",))


def test_a_joint_holds_together_what_is_drawn_apart() -> None:
    meshes = {"Foot": box(50, 50, 50), "Lid": box(50, 50, 50, (0, 0, 90)), "Else": box(50, 50, 50, (500, 0, 0))}
    assert pieces_of([("Foot", "Lid", "not there")], meshes) == (("Foot", "Lid"), ("Else",))
