# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which stacks stand together, against manifold3d's least gaps."""

from __future__ import annotations

import numpy as np
import pytest
from furniture import four_legs
from manifold3d import Manifold
from manifold3d import Mesh as Given
from solids import ball, box, cylinder

from freecad_stacklam.lamination.form import pieces
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.form.pieces import TOUCH, bodies_of, pieces_of, told_apart, touching


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


def two(apart: float, up: float = 0.0) -> Mesh:
    """Two cubes of 50 mm in one form."""
    one, other = box(50, 50, 50), box(50, 50, 50, (50 + apart, 0, up))
    count = len(one.vertices)
    return gate(np.vstack([one.vertices, other.vertices]), np.vstack([one.triangles, other.triangles + count]))


def test_the_bodies_of_a_form_are_counted_and_its_voids_are_not() -> None:
    assert len(bodies_of(box(50, 50, 50))) == 1
    assert sorted(b.volume for b in bodies_of(two(30.0))) == [50.0**3, 50.0**3]
    outer, inner = box(100, 100, 100), box(40, 40, 40, (30, 30, 30))
    hollow = gate(np.vstack([outer.vertices, inner.vertices]),
                  np.vstack([outer.triangles, inner.triangles[:, ::-1] + len(outer.vertices)]))  # fmt: skip
    assert len(bodies_of(hollow)) == 1 and told_apart([], {"A": hollow}) == ""


def test_a_form_in_two_parts_is_told_and_two_pieces_are_not() -> None:
    assert told_apart([], {"A": box(50, 50, 50), "B": box(50, 50, 50, (500, 0, 0))}) == ""
    assert told_apart([], {"A": two(3.0)}) == ""
    assert told_apart([], {"A": two(30.0)}).startswith("“A” is in 2 parts that nothing joins")
    # A third piece that touches both makes them one.
    assert told_apart([], {"A": two(30.0), "Lid": box(200, 50, 20, (-10, 0, 50))}) == ""


def test_what_hangs_in_the_air_is_told_unless_a_joint_holds_it() -> None:
    assert told_apart([], {"A": two(30.0, 60.0)}).startswith("A part of “A” hangs in the air")
    meshes = {"Foot": box(50, 50, 50), "Lid": box(50, 50, 50, (0, 0, 90))}
    assert told_apart([], meshes).startswith("“Lid” hangs in the air")
    assert told_apart([["Foot", "Lid"]], meshes) == ""


def test_what_is_known_of_a_form_is_not_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []
    real = pieces._touching
    monkeypatch.setattr(pieces, "_touching", lambda *given: asked.append(given) or real(*given))
    foot, lid, far = box(50, 50, 50), box(50, 50, 50, (0, 0, 52)), box(50, 50, 50, (0, 0, 500))
    for _ in range(3):
        assert touching(foot, lid) and not touching(foot, far) and not touching(foot, lid, 1.0)
    assert len(asked) == 3
    two_bodies = two(30.0)
    assert bodies_of(two_bodies)[0] is bodies_of(two_bodies)[0]
