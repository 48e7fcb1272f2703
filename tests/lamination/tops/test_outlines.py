# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is sat on: outlines of forms whose tops are known exactly."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi

import numpy as np
import pytest
from furniture import four_legs, leg, lifted, pedestal
from shapely import Polygon
from solids import box, cone, revolved

from freecad_stacklam.lamination.findings.standing import TopFound
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.tops.outlines import Stood, tops_of


def tops(meshes: Mapping[str, Mesh]) -> tuple[TopFound, ...]:
    return tops_of([Stood(name, mesh.vertices, mesh) for name, mesh in meshes.items()])


def test_a_seat_on_legs_is_the_top_and_no_leg_is() -> None:
    (top,) = tops(four_legs())
    assert top.height == 450.0
    assert Polygon(top.outline).equals(Polygon([(-200, -200), (200, -200), (200, 200), (-200, 200)]))


def test_a_dish_belongs_to_the_top_and_the_flare_of_a_foot_is_none() -> None:
    (top,) = tops(pedestal())
    assert top.height == 450.0
    assert Polygon(top.outline).area == pytest.approx(pi * 220**2, rel=0.001)


def test_a_bowl_is_loaded_on_its_rim() -> None:
    # The inside falls at 60° from a level rim 20 mm wide.
    profile = np.array([[0, 0], [120, 0], [200, 250], [180, 250], [60, 42], [0, 42]], dtype=float)
    (top,) = tops({"Bowl": revolved(profile, 360)})
    assert top.height == 250.0
    assert Polygon(top.outline).area == pytest.approx(pi * 200**2, rel=0.001)


def test_a_back_is_no_seat() -> None:
    chair = {**four_legs(), "Back": box(400, 30, 450, (-200, 170, 450))}
    (top,) = tops(chair)
    assert top.height == 450.0


def test_a_shelf_under_a_top_is_none_and_two_seats_are_two() -> None:
    shelf = {**four_legs(), "Shelf": box(300, 300, 20, (-150, -150, 200))}
    assert [top.height for top in tops(shelf)] == [450.0]
    steps = {"Low": box(300, 300, 250), "High": box(300, 300, 450, (300, 0, 0))}
    assert [top.height for top in tops(steps)] == [450.0, 250.0]


def test_two_boards_side_by_side_are_one_top() -> None:
    boards = {
        "Left": box(200, 400, 30, (-200, -200, 400)), "Right": box(200, 400, 30, (0, -200, 400)),
        "Leg": leg(0, 0, 400, 200),
    }  # fmt: skip
    (top,) = tops(boards)
    assert Polygon(top.outline).area == pytest.approx(400 * 400)


def test_a_rounded_edge_counts_to_its_widest() -> None:
    # A seat of radius 180 whose edge is rounded by 20 mm: 200 at its widest.
    turns = np.linspace(-pi / 2, pi / 2, 40)
    edge = np.column_stack([180 + 20 * np.cos(turns), 430 + 20 * np.sin(turns)])
    profile = np.vstack([[[0, 0], [60, 0], [60, 410]], edge, [[0, 450]]])
    (top,) = tops({"Mushroom": revolved(profile, 360)})
    assert Polygon(top.outline).area == pytest.approx(pi * 200**2, rel=0.01)


def test_a_form_without_a_top_is_loaded_at_its_highest_part() -> None:
    (top,) = tops({"Cone": cone(100, 450)})
    assert not top.level
    assert top.height == 450.0
    assert Polygon(top.outline).area == pytest.approx(pi * (100 * 22.5 / 450) ** 2, rel=0.01)
    (post,) = tops({"Post": lifted(box(40, 40, 400), 0.0)})
    assert not post.level
