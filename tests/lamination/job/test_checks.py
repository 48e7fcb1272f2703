# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on plans made by hand; limits marked "common practice, no source" are settings."""

from __future__ import annotations

import re
from dataclasses import replace

import plans
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.job.checks import PRACTICE, checks_of
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.layers import Containment, HeightMovement, StackPlan
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.plan.whole import Plan


def check_of(plan: Plan, name: str, **limits: float) -> Check:
    return next(c for c in checks_of(plan, species_table(), **limits) if c.name == name)


def with_first(plan: Plan, **changes: object) -> Plan:
    first: StackPlan = replace(plan.stacks[0], **changes)  # type: ignore[arg-type]
    return replace(plan, stacks=(first, *plan.stacks[1:]))


def test_every_check_is_whole() -> None:
    checks = checks_of(plans.plant_stand(), species_table())
    assert len({c.name for c in checks}) == len(checks) >= 10
    for check in checks:
        assert check.verdict in ("ok", "caution", "stop")
        assert check.source and check.says.endswith(".") and "\n" not in check.says
    assert not [c for c in checks if c.verdict == "stop"]


@pytest.mark.parametrize(
    ("cover", "out", "least", "inside"),
    [(3.2, 0.0, "ok", "ok"), (3.0, 0.0, "ok", "ok"), (2.5, 0.0, "caution", "ok"), (-0.1, 0.0, "stop", "ok"),
     (3.2, 0.02, "ok", "stop")],
)  # fmt: skip
def test_containment(cover: float, out: float, least: str, inside: str) -> None:
    proof = Containment(out, cover, (1.0, 2.0, 3.0), 1000, "by hand")
    plan = with_first(plans.plant_stand(), containment=proof)
    assert check_of(plan, "Pedestal: least wood left").verdict == least
    assert check_of(plan, "Pedestal: form inside its blanks").verdict == inside
    stopped = any(c.verdict == "stop" for c in checks_of(plan, species_table()))
    assert stopped is not proof.proven


@pytest.mark.parametrize(("cover", "verdict"), [(31.5, "ok"), (9.9, "caution"), (0.0, "stop"), (-2.0, "stop")])
def test_joint_cover(cover: float, verdict: str) -> None:
    plan = plans.plant_stand()
    plan = replace(plan, joints=(replace(plan.joints[0], least_cover=cover),))
    check = check_of(plan, "Pedestal to top: cover")
    assert (check.verdict, check.figure, check.limit) == (verdict, cover, 10.0)
    assert PRACTICE in check.source


def test_joint_cover_limit_is_a_setting() -> None:
    assert check_of(plans.plant_stand(), "Pedestal to top: cover", joint_cover=40.0).verdict == "caution"


def test_depth_of_a_stopped_tenon() -> None:
    """40 mm thick: 60 mm wanted, 73 given; a through member is not judged."""
    plan = plans.plant_stand()
    check = check_of(plan, "Pedestal to top: depth in Pedestal")
    assert (check.verdict, check.limit) == ("ok", 60.0)
    assert not [c for c in checks_of(plan, species_table()) if c.name.endswith("depth in Top")]
    assert check_of(plan, "Pedestal to top: depth in Pedestal", embed_ratio=2.0).verdict == "caution"


def test_small_parts() -> None:
    plan = plans.legs()
    assert check_of(plan, "Legs: smallest part at the band saw").verdict == "caution"  # 76 mm squares
    big = with_first(plan, layers=tuple(replace(n, blank=(rectangle(120, 60),)) for n in plan.stacks[0].layers))
    check = check_of(big, "Legs: smallest part at the band saw")
    assert (check.verdict, check.figure) == ("ok", pytest.approx(120))


@pytest.mark.parametrize(("height", "verdict"), [(64.0, "ok"), (50.0, "ok"), (47.0, "caution"), (65.0, "stop")])
def test_stack_height(height: float, verdict: str) -> None:
    """Two layers of 32 mm: up to half a layer may come off the end."""
    plan = plans.legs()
    plan = with_first(plan, form=replace(plan.stacks[0].form, height=height))
    check = check_of(plan, "Legs: stack height")
    assert check.verdict == verdict
    assert ("as high as its form" in check.says) is (height == 64.0)


def test_weight_by_hand() -> None:
    """One block 1000 × 400 × 32 mm of white oak at 761.6 kg/m³ is 9.748 kg."""
    plan = plans.legs()
    layer = replace(plan.stacks[0].layers[0], blank=(rectangle(1000, 400),), blank_area=400_000.0)
    plan = with_first(plan, layers=(layer,))
    assert check_of(plan, "Legs: weight to lift").figure == pytest.approx(9.74848)
    assert check_of(plan, "Legs: weight to lift").verdict == "ok"
    assert check_of(plan, "Legs: weight to lift", lift=5.0).verdict == "caution"
    plan = with_first(plan, layers=(replace(layer, species="driftwood"),))
    assert "driftwood" in check_of(plan, "Legs: weight to lift").says


def test_sentences_on_a_stack_follow_the_units() -> None:
    """An inch plan speaks no millimetres and no kilograms; its figures stay mm and kg. 2.5 mm are 0.098 in."""
    proof = Containment(0.02, 2.5, (25.4, 50.8, -76.2), 1000, "by hand")
    plan = replace(with_first(plans.plant_stand(), containment=proof), units="in", joints=())
    stack = plan.stacks[0]
    found = {c.name: c for c in checks_of(replace(plan, stacks=(stack,)), species_table())}
    for name in ("least wood left", "form inside its blanks", "stack height", "smallest part at the band saw",
                 "weight to lift"):  # fmt: skip
        says = found[f"{stack.name}: {name}"].says
        assert not re.search(r"\b(mm|mm³|kg)\b", says), says
    least = found["Pedestal: least wood left"]
    assert least.figure == 2.5 and "only 0.098 in of wood outside it at (1, 2, -3)" in least.says


def test_sentences_on_a_joint_follow_the_units() -> None:
    """9.9 mm are 12.47 thirty-seconds of an inch: 3/8 in when rounded down, where the nearest would be the same and
    9.4 mm, 11.84 thirty-seconds, 11/32 in where the nearest would say 3/8."""
    plan = plans.plant_stand()
    joint = replace(plan.joints[0], least_cover=9.4)
    found = [c for c in checks_of(replace(plan, units="in", joints=(joint,)), species_table()) if joint.name in c.name]
    assert len(found) >= 4 and not [c.says for c in found if re.search(r"\bmm\b", c.says)]
    assert "Only 11/32 in of wood is left" in found[0].says


@pytest.mark.parametrize(("cut", "figure", "words"), [
    ("", 6.8, "3.5 mm (flat-sawn boards) to 6.8 mm (quarter-sawn)"), ("rift", 6.8, "3.5 mm (flat-sawn boards) to"),
    ("flat", 3.5, "moves 3.5 mm (all boards flat-sawn)"), ("quarter", 6.8, "moves 6.8 mm (all boards quarter-sawn)"),
])  # fmt: skip
def test_the_height_moves_as_its_boards_are_sawn(cut: str, figure: float, words: str) -> None:
    """450 mm of white oak over 4 points: 3.5 mm flat, 6.8 mm quarter (FPL-GTR-282 (2021), Eq. 13-2)."""
    plan = with_first(plans.plant_stand(), movement=HeightMovement(3.5, 6.8, 4.0, cut))
    check = check_of(plan, f"{plan.stacks[0].name}: height over the year")
    assert check.figure == figure and words in check.says
