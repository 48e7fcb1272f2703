# SPDX-License-Identifier: LGPL-2.1-or-later

"""One section under several loads: both ways of sawing, with the tenon and as if there were none."""

from __future__ import annotations

import numpy as np
import pytest
from solids import cylinder, moved
from weakforms import piece

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.strength.composite import DRY, GLUED
from freecad_stacklam.lamination.strength.examine import Acting, examine
from freecad_stacklam.lamination.strength.loads import Pushes
from freecad_stacklam.lamination.strength.planes import areas_at, level_plane


def findings(way: str):
    up = np.eye(4)
    up[2, 3] = 180.0
    joint = JointSettings(
        "J", through=(0.0, 0.0, 180.0), section="square", size=(36.2,), embed=(("A", 90.0), ("B", 90.0))
    )
    neck = piece([joint], A=cylinder(30.0, 180.0), B=moved(cylinder(30.0, 180.0), up))
    (area,) = areas_at(neck.bodies[0].mesh.vertices, neck.bodies[0].mesh.triangles, [150.0])
    acting = [
        Acting(LoadCase(name, 0.0, push, "edge", ""), Pushes(np.array([[0, 0, 600.0]]), np.array([[push, 0, 0.0]])))
        for name, push in (("push", 300.0), ("knock", 30.0))
    ]
    return examine("neck", neck, [(0, area)], level_plane(150.0), acting, way)


def test_glued_the_worse_way_of_sawing_is_told() -> None:
    push, knock = findings(GLUED)
    # 300 N at 450 mm: 135 N·m. n 6.13: layers 135e3·30/(636 173 + 5.13·139 968) = 2.99 MPa: R up is worse for them.
    assert push.bending == pytest.approx(2.99, rel=0.02)
    assert push.rings == "R up" and push.with_tenon
    # Alone 6.37; the tenon at n 13.9: 13.9·135e3·18/(636 173 + 12.9·139 968) = 13.9 of 105 MPa.
    assert push.whole == pytest.approx(6.37 / 5.5, rel=0.02)
    assert push.tenon_use == pytest.approx(13.9 * 135e3 * 18 / (636173 + 12.9 * 139968) / 105, rel=0.02)
    assert knock.use == pytest.approx(push.use / 10, rel=1e-6)


def test_a_dry_tenon_leaves_a_hole() -> None:
    push, _ = findings(DRY)
    assert not push.with_tenon and push.tenon_use == 0
    assert push.bending == pytest.approx(135e3 * 30 / (636173 - 36.2**4 / 12), rel=0.03)
