# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tenon bending, bearing, rolling shear and withdrawal, against arithmetic."""

from __future__ import annotations

import pytest
from solids import cylinder
from weakforms import own, planned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.plan.joints import Tenon
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.strength.joint import (
    EFFICIENCY,
    SAFETY,
    section_modulus,
    tenon_bending,
    wall_pressure,
    wall_shear,
    withdrawal,
)
from freecad_stacklam.lamination.strength.whole import plan_strength


def test_tenon_bending() -> None:
    # 6 M/(b h²): 135 N·m on 60 × 40: 6·135e3/(60·40²) = 8.4375 MPa; round Ø36: 32·135e3/(π·36³) = 29.47.
    assert tenon_bending(Tenon(150.0, "rectangle", (60.0, 40.0), "white oak"), 135e3) == pytest.approx(8.4375)
    assert tenon_bending(Tenon(150.0, "round", (36.0,), "white oak"), 135e3) == pytest.approx(29.47, abs=0.01)
    assert section_modulus(Tenon(150.0, "square", (36.0,), "white oak")) == pytest.approx(36**3 / 6)


def test_pressure_on_the_walls_balances_the_moment() -> None:
    # p(x) = p·2x/L over L = 75, b = 40: ∫ p(x)·b·x dx from −L/2 to L/2 = p·b·L²/6.
    p = wall_pressure(100e3, 0.0, 40.0, 75.0)
    assert p * 40 * 75**2 / 6 == pytest.approx(100e3)
    # A force at the mouth: p(x) = V/(bL)·(1 + 6x/L) is 4 V/(bL) there, and its sum V.
    assert wall_pressure(0.0, 300.0, 40.0, 75.0) == pytest.approx(4 * 300 / (40 * 75))


def test_shear_on_two_side_walls() -> None:
    # M/s on each of two walls: 90 N·m over 60 mm is 1500 N on 60 × 75 mm².
    assert wall_shear(90e3, 60.0, 60.0, 75.0) == pytest.approx(1500 / 4500)


def test_withdrawal_screening_estimate() -> None:
    # 60 × 60 × 75 mm, white oak 13.8 MPa, two walls: 124.2 kN at η 1; 8.3 kN at η 0.2 and safety 3.
    assert withdrawal(13.8, 60.0, 75.0) == pytest.approx(124_200)
    assert withdrawal(13.8, 60.0, 75.0, EFFICIENCY, SAFETY) == pytest.approx(8_280)


@pytest.mark.parametrize("tenon", ["glued", "dry"])
def test_a_joint_between_two_stacks(tenon: str) -> None:
    joint = JointSettings(
        "Post to plate",
        through=(0.0, 0.0, 360.0),
        section="square",
        size=(40.0,),
        embed=(("Post", 75.0), ("Plate", 40.0)),
    )
    post, plate = cylinder(45.0, 360.0, 90), cylinder(150.0, 45.0, 90)
    import numpy as np
    from solids import moved

    up = np.eye(4)
    up[2, 3] = 360.0
    plan, meshes = planned({"Post": post, "Plate": moved(plate, up)}, joints=[joint])
    use = own(down=600.0, inset=50.0)
    use = type(use)(own_loads=True, loads=use.loads, tenon=tenon)
    (found,) = plan_strength(plan, meshes, use, species_table()).joints
    # 600 N at 100 mm: 60 N·m; tenon 39.8 mm: 6·60e3/39.8³ = 5.71 MPa.
    assert found.moment == pytest.approx(60e3, rel=0.01)
    assert found.bending == pytest.approx(6 * 60e3 / 39.8**3, rel=0.01)
    assert found.member == "Plate" and found.bearing == pytest.approx(6 * found.moment / (39.8 * 40**2), rel=1e-6)
    # Over the shoulder's edge at 45 mm: 60e3/45 − 600 = 733 N to hold down.
    assert found.lever == pytest.approx(45.0, rel=0.01)
    assert found.pull == pytest.approx(733, rel=0.03)
    assert found.use == (min(found.alone, found.pull / found.holds) if tenon == "glued" else found.alone)


def test_splayed_legs_lean_on_their_level_shoulders_and_are_judged_alike() -> None:
    """Two legs, 15° from upright, under a level plate; their joints' places a hair below and above its underside."""
    import numpy as np
    from solids import moved

    lean = np.tan(np.radians(15.0))
    forms, joints = {}, []
    for name, side, hair in (("Right", 1.0, -1e-5), ("Left", -1.0, 1e-5)):
        splay = np.eye(4)
        splay[0, 2], splay[0, 3] = -side * lean, side * (100.0 + 270.0 * lean)
        forms[name] = moved(cylinder(40.0, 270.0, 90), splay)
        joints.append(
            JointSettings(
                name,
                through=(side * 100.0, 0.0, 270.0 + hair),
                axis=(-side * lean, 0.0, 1.0),
                section="round",
                size=(25.0,),
                embed=((name, 70.0), ("Plate", 30.0)),
            )
        )
    up = np.eye(4)
    up[2, 3] = 270.0
    plan, meshes = planned({**forms, "Plate": moved(cylinder(180.0, 45.0, 90), up)}, joints=joints)
    right, left = plan_strength(plan, meshes, own(down=600.0, inset=60.0), species_table()).joints
    assert right.moment == pytest.approx(left.moment, rel=0.01)
    assert right.lever == pytest.approx(left.lever, rel=0.01)
    # The meeting face is the leg's own section, a circle of 40 mm about the axis.
    assert right.lever == pytest.approx(40.0, rel=0.02)
