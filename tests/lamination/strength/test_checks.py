# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the checks say of weak and less weak pieces."""

from __future__ import annotations

from dataclasses import replace

import pytest
from weakforms import armchair, boxes, mushroom, own, strength, tenoned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.strength.checks import _wood, strength_checks
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.usage.use import UseSettings


def checks(forms, use, units="mm", **how):
    return strength_checks(strength(forms, use, **how), units)


@pytest.mark.parametrize("push", [1.0, 60.0, 300.0, 3000.0])
def test_never_better_than_caution_and_never_that_it_holds(push: float) -> None:
    for check in checks({"M": mushroom()}, own(push=push)):
        # Half of all such pieces break where the use is 1: that is a stop.
        assert check.verdict == ("stop" if check.unit == "" and check.figure > 1 else "caution")
        assert "holds" not in check.says and check.source


def test_a_strong_piece_is_told_that_nothing_weak_was_found() -> None:
    (check,) = checks({"P": boxes([(0, 0, 200, 200, 0, 180)])}, own(push=10.0))
    assert check.says.startswith("No weak section found in P") and "load it by degrees" in check.says
    assert check.figure < check.limit == 0.25


def test_what_is_not_weak_is_one_verdict_for_the_whole_piece() -> None:
    (check,) = checks(
        {"P": boxes([(0, 0, 200, 200, 0, 180)]), "Q": boxes([(0, 0, 200, 200, 180, 360)])}, own(push=10.0)
    )
    assert check.name == "strength by sections" and "P or Q" in check.says


def test_a_joint_that_rests_on_its_glued_shoulder_says_so_and_what_to_do() -> None:
    # The tenon alone is over its limit, 9.63 of 4.44 MPa and 1.01 of 1.49; the glue holds 267 of 2970 N: 9 %.
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    joint = replace(
        found.joints[0], way="glued", lever=80.0, bearing=9.63, crush=4.44, rolling=1.01, rolling_strength=1.49,
        pull=267.0, holds=2970.0, bending=3.8, strength=63.0,
    )  # fmt: skip
    rests = next(c for c in strength_checks(replace(found, joints=(joint,))) if c.name.startswith("J:"))
    assert "its glued tenon holds down 267 N of 2.97 kN" in rests.says
    assert "It rests on that glue" in rests.says and "wet all walls" in rests.says
    alone = replace(joint, rolling=0.1, pull=2900.0)
    walls = next(c for c in strength_checks(replace(found, joints=(alone,))) if c.name.startswith("J:"))
    assert "0.10 MPa of 1.49 MPa in shear" in walls.says and "presses" not in walls.says


def test_shear_that_governs_is_told_and_not_the_fibres() -> None:
    # 0.03 MPa in the fibres of 4.8 is under 1 %: a use of 13 % is that of the shear, 0.23 MPa.
    found = strength({"P": boxes([(0, 0, 200, 200, 0, 180)])}, own(push=10.0))
    sheared = replace(found.sections[0], bending=0.03, axial=0.0, strength=4.8, shear=0.23, use=0.13, tenon_use=0.0)
    (check,) = strength_checks(replace(found, sections=(sheared,)))
    assert "is sheared at 0.23 MPa" in check.says and "at 13 % of its mean strength" in check.says


def test_a_neck_that_breaks_says_so_and_what_would_do() -> None:
    neck = next(c for c in checks({"M": mushroom(28.0)}, UseSettings(kind="stool")) if "its neck" in c.name)
    assert neck.figure > 1
    assert "do not let anyone sit" in neck.says and "make the neck Ø" in neck.says and " mm there" in neck.says
    inch = next(c for c in checks({"M": mushroom(28.0)}, UseSettings(kind="stool"), "in") if "its neck" in c.name)
    assert " in there" in inch.says and "psi" in inch.says and "mm" not in inch.says


def test_arm_and_unknown_wood_are_told() -> None:
    told = checks({"Chair": armchair()}, own(down=300.0))
    assert any("overhang" in c.name and " thick there" in c.says for c in told)
    (unknown,) = checks({"Post": boxes([(0, 0, 60, 60, 0, 180)])}, UseSettings(), species="sugar maple")
    assert unknown.verdict == "caution" and "is not judged" in unknown.says


def test_a_joint_is_told_with_its_screening_estimate() -> None:
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    joint = next(c for c in strength_checks(found) if c.name.startswith("J:"))
    assert "screening estimate" in joint.says and joint.figure == pytest.approx(found.joints[0].use)


def test_what_is_many_times_too_much_is_told_so_and_the_worst_first_with_its_danger_once() -> None:
    found = strength({"Chair": armchair()}, own(down=300.0))
    s = found.sections[0]
    worse = replace(s, kind="neck", use=394.97, tenon_use=0.0)
    first, second = strength_checks(replace(found, sections=(replace(s, use=1.2), worse), lines=(), joints=()))
    assert "at more than 10 times its mean strength" in first.says and "do not let anyone sit" in first.says
    assert "at 120 % of its mean strength" in second.says and "anyone" not in second.says
    none = strength_checks(replace(found, sections=(replace(s, use=0.002, bending=0.01),), lines=(), joints=()))
    assert "at less than 1 % of its mean strength" in none[0].says


@pytest.mark.parametrize(
    ("wanted", "says"), [(5.0, "across its grain"), (6.4, "(few do)"), (7.2, "another wood alone")]
)
def test_where_few_woods_would_hold_it_the_sentence_says_so(wanted: float, says: str) -> None:
    # Yellow birch 6.3, white ash 6.5 and American beech 7.0 MPa hold more than 6 (FPL-GTR-190, 2010, Table 5-3a).
    worst = max(strength({"M": mushroom()}, own(push=60.0)).sections, key=lambda one: one.use)
    told = _wood(
        replace(worst, bending=0.25 * wanted, axial=0.0, strength=wanted, use=0.25, angle=90.0, lasting=False), "mm"
    )
    assert says in told and ("few" in told) == (6.0 < wanted < 7.0)
