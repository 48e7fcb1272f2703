# SPDX-License-Identifier: LGPL-2.1-or-later

"""The quick way to a mesh's arrays, against FreeCAD's own lists of its points and facets."""

from __future__ import annotations

import numpy as np
import pytest

pytestmark = pytest.mark.freecad


def placed_ball(turn: float):
    import FreeCAD
    import Mesh
    import Part

    ball = Mesh.Mesh(Part.makeSphere(50.0).tessellate(0.5))
    ball.Placement = FreeCAD.Placement(
        FreeCAD.Vector(1.1, -2.2, 330.3), FreeCAD.Rotation(FreeCAD.Vector(1, 2, 3), turn)
    )
    return ball


@pytest.mark.parametrize("turn", [0.0, 33.0, 180.0])
def test_arrays_are_those_of_freecads_lists(turn: float) -> None:
    from freecad_stacklam.docobjects.forms.meshkernel import as_arrays, mesh_topology

    ball = placed_ball(turn)
    points, corners = mesh_topology(ball)
    slow_points, slow_corners = as_arrays(ball.Topology)
    assert np.array_equal(corners, slow_corners)
    assert np.abs(points - slow_points).max() < 1e-12


def test_the_key_follows_place_and_points() -> None:
    from freecad_stacklam.docobjects.forms.meshkernel import key_of_mesh

    ball, turned, moved = placed_ball(0.0), placed_ball(10.0), placed_ball(0.0)
    moved.setPoint(3, moved.Points[3].Vector * 1.001)
    assert key_of_mesh(ball) == key_of_mesh(ball.copy()) == key_of_mesh(placed_ball(0.0))
    assert len({key_of_mesh(m) for m in (ball, turned, moved)}) == 3


def test_a_file_of_another_make_is_not_read(monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.docobjects.forms import meshkernel

    ball = placed_ball(10.0)
    meshkernel.clear()
    monkeypatch.setattr(meshkernel, "_written", lambda mesh: b"another version of the file" * 20)
    points, _ = meshkernel.mesh_topology(ball)
    assert np.array_equal(points, meshkernel.as_arrays(ball.Topology)[0])


def test_an_empty_mesh_has_no_triangles() -> None:
    import Mesh

    from freecad_stacklam.docobjects.forms.meshkernel import mesh_topology

    points, corners = mesh_topology(Mesh.Mesh())
    assert points.shape == (0, 3) and corners.shape == (0, 3)
