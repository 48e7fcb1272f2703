# SPDX-License-Identifier: LGPL-2.1-or-later

"""What cuts are made of: tenons glued and dry, layers of several grains."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from solids import cylinder
from weakforms import boxes, piece

from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.strength.composite import DRY, GLUED, WHOLE, composite_of, holes_on
from freecad_stacklam.lamination.strength.planes import areas_at, level_plane, upright_plane


@pytest.mark.parametrize(("rings", "n"), [("R up", 1 / 0.163), ("T up", 1 / 0.072)])
def test_tenon_in_a_neck_glued_dry_and_whole(rings: str, n: float) -> None:
    from solids import moved

    up = np.eye(4)
    up[2, 3] = 180.0
    joint = JointSettings("J", through=(0.0, 0.0, 180.0), section="square", size=(36.2,), embed=(("A", 90), ("B", 90)))
    neck = piece([joint], A=cylinder(30.0, 180.0), B=moved(cylinder(30.0, 180.0), up))
    plane = level_plane(150.0)
    (area,) = areas_at(neck.bodies[0].mesh.vertices, neck.bodies[0].mesh.triangles, [150.0])
    holes = {0: holes_on(neck.bodies[0], plane)}
    hole = holes[0].mortises.area
    assert hole >= 36.2**2 - 1e-6
    made = {way: composite_of(neck, [(0, area)], plane, rings, way, holes) for way in (GLUED, DRY, WHOLE)}
    assert made[WHOLE].section.area == pytest.approx(np.pi * 900, rel=1e-3)
    assert made[DRY].section.area == pytest.approx(np.pi * 900 - hole, rel=1e-3) and not made[DRY].tenon
    # I = I of the ring of layers + n·36⁴/12.
    assert made[GLUED].tenon
    assert made[GLUED].section.i11 == pytest.approx(made[DRY].section.i11 + n * 36.0**4 / 12, rel=1e-3)


def test_layers_of_two_grains_in_an_upright_cut() -> None:
    beam = piece(Beam=boxes([(0, 0, 400, 60, 0, 90)]))
    body = beam.bodies[0]
    crossed = (body.stack.layers[0], replace(body.stack.layers[1], grain=90.0))
    body = replace(body, stack=replace(body.stack, layers=crossed))
    beam = replace(beam, bodies=(body,))
    plane = upright_plane(np.array([1.0, 0.0]), 0.0)
    (area,) = areas_at(body.mesh.vertices @ plane.axes.T, body.mesh.triangles, [0.0])
    made = composite_of(beam, [(0, area)], plane, "R up", GLUED, {0: holes_on(body, plane)})
    # Lower layer along the grain, n 1; upper across it, T in the cut: n 0.072. By hand: axis at
    # (45·22.5 + 0.072·45·67.5)/(45·1.072) = 25.52 mm.
    assert [m.layer for m in made.materials] == [1, 2]
    assert [p.stiffness for p in made.section.parts] == pytest.approx([1.0, 0.072])
    assert made.section.centre[1] == pytest.approx((45 * 22.5 + 0.072 * 45 * 67.5) / (45 * 1.072))
    assert [m.grade.tension for m in made.materials] == pytest.approx([105.0, 5.5])
