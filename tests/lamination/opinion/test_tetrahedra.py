# SPDX-License-Identifier: LGPL-2.1-or-later

"""Order of points, volumes and straight edges, on single tetrahedra whose figures are known.

Orders: the mesher's manual draws its ten-node tetrahedron with the ninth point on edge (2, 3) and the tenth on (1, 3);
the solver's manual has them on (2, 4) and (3, 4) counted from 1, the other way. From both manuals, from memory; that
the order is right shows in the volumes, and in the closed forms of test_second.
"""

from __future__ import annotations

import numpy as np
import pytest

from freecad_stacklam.lamination.opinion.tetrahedra import (
    EDGES,
    INTEGRATED,
    Tetrahedra,
    all_straight,
    read_mesh,
    straightened,
    volumes,
)
from freecad_stacklam.lamination.refusal import Refusal

CORNERS = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], dtype=float)
#: Edges in the mesher's order.
MESHERS = [(0, 1), (1, 2), (2, 0), (3, 0), (2, 3), (1, 3)]


def written(corners: np.ndarray, extra: str = "") -> str:
    points = [*corners, *((corners[i] + corners[j]) / 2 for i, j in MESHERS)]
    nodes = "\n".join(f"{5 * n + 3} {x} {y} {z}" for n, (x, y, z) in enumerate(points))
    tens = " ".join(str(5 * n + 3) for n in range(10))
    return (
        f"$MeshFormat\n2.2 0 8\n$EndMeshFormat\n$Nodes\n11\n{nodes}\n99 7 7 7\n$EndNodes\n$Elements\n2\n"
        f"1 15 2 0 1 3\n2 11 2 0 1 {tens}\n{extra}$EndElements\n"
    )


def one() -> Tetrahedra:
    return read_mesh(written(CORNERS))


def test_points_between_lie_where_the_solver_wants_them() -> None:
    mesh = one()
    assert len(mesh.points) == 10  # the point of no element is left out
    own = mesh.points[mesh.corners[0]]
    assert own[:4] == pytest.approx(CORNERS)
    assert own[4:] == pytest.approx(CORNERS[EDGES].mean(axis=1))
    assert mesh.middles[0] == pytest.approx([0.25, 0.25, 0.25])


def test_volumes_tell_a_wrong_order_from_the_right_one() -> None:
    """Of a unit corner 1/6, the same at all four places; with the last two points the mesher's way it is not."""
    mesh = one()
    assert volumes(mesh.points, mesh.corners) == pytest.approx(np.full((1, 4), 1 / 6))
    swapped = mesh.corners[:, [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]]
    assert np.abs(volumes(mesh.points, swapped) - 1 / 6).max() > 0.02


def test_integration_is_exact_for_squares() -> None:
    """∫ x² over the unit corner is 2! / 5! = 1/60, ∫ x y is 1/120 (the factorial formula of simplices)."""
    at, wood = one().integrated()
    assert wood.sum() == pytest.approx(1 / 6)
    assert (wood * at[..., 0] ** 2).sum() == pytest.approx(1 / 60)
    assert (wood * at[..., 0] * at[..., 1]).sum() == pytest.approx(1 / 120)
    assert INTEGRATED.sum(axis=1) == pytest.approx(np.ones(4))


def test_what_is_bent_inside_out_is_made_straight() -> None:
    mesh = one()
    points = mesh.points.copy()
    points[mesh.corners[0, 4]] += [0, 0.9, 0.9]
    bent = Tetrahedra(points, mesh.corners)
    assert volumes(points, mesh.corners).min() < 0
    mended = straightened(bent)
    assert mended.straight == 1 and volumes(mended.points, mended.corners) == pytest.approx(np.full((1, 4), 1 / 6))
    slightly = mesh.points.copy()
    slightly[mesh.corners[0, 4]] += [0, -0.05, 0]
    kept = straightened(Tetrahedra(slightly, mesh.corners))
    assert kept.straight == 0 and np.array_equal(kept.points, slightly)
    assert all_straight(kept).points == pytest.approx(mesh.points)


@pytest.mark.parametrize("text", ["", "$Nodes\n0\n$EndNodes\n$Elements\n0\n$EndElements\n", "nonsense"])
def test_no_mesh_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="no tetrahedra"):
        read_mesh(text)


def test_a_mesh_inside_out_is_refused() -> None:
    with pytest.raises(Refusal, match="inside out"):
        read_mesh(written(CORNERS[[0, 2, 1, 3]]))
