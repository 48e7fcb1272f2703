# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the checks say of weak and less weak pieces."""

from __future__ import annotations

import pytest
from weakforms import armchair, boxes, mushroom, own, strength, tenoned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.strength.checks import strength_checks
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.usage.use import UseSettings


def checks(forms, use, units="mm", **how):
    return strength_checks(strength(forms, use, **how), units)


@pytest.mark.parametrize("push", [1.0, 60.0, 300.0, 3000.0])
def test_never_better_than_caution_and_never_that_it_holds(push: float) -> None:
    for check in checks({"M": mushroom()}, own(push=push)):
        assert check.verdict == "caution"
        assert "holds" not in check.says and check.source


def test_a_strong_piece_is_told_that_nothing_weak_was_found() -> None:
    (check,) = checks({"P": boxes([(0, 0, 200, 200, 0, 180)])}, own(push=10.0))
    assert check.says.startswith("No neck found in P that is weak") and "The deep check says more." in check.says
    assert check.figure < check.limit == 0.25


def test_a_neck_that_breaks_says_so_and_what_would_do() -> None:
    neck = next(c for c in checks({"M": mushroom(28.0)}, UseSettings(kind="stool")) if "its neck" in c.name)
    assert neck.figure > 1
    assert "do not let anyone sit" in neck.says and "A neck of Ø" in neck.says and " mm here would do" in neck.says
    inch = next(c for c in checks({"M": mushroom(28.0)}, UseSettings(kind="stool"), "in") if "its neck" in c.name)
    assert " in here would do" in inch.says and "psi" in inch.says and "mm" not in inch.says


def test_arm_and_unknown_wood_are_told() -> None:
    told = checks({"Chair": armchair()}, own(down=300.0))
    assert any("overhang" in c.name and "thickness of" in c.says for c in told)
    (unknown,) = checks({"Post": boxes([(0, 0, 60, 60, 0, 180)])}, UseSettings(), species="sugar maple")
    assert unknown.verdict == "caution" and "is not judged" in unknown.says


def test_a_joint_is_told_with_its_screening_estimate() -> None:
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    joint = next(c for c in strength_checks(found) if c.name.startswith("J:"))
    assert "screening estimate" in joint.says and joint.figure == pytest.approx(found.joints[0].use)
