# SPDX-License-Identifier: LGPL-2.1-or-later

"""Reminders for the work that a plan sends hands to, and for no other."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.lamination.job.cautions import FIRST, cautions_for
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.gluing import Burden, Clock, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan


def words(plan: Plan) -> str:
    return " ".join(cautions_for(plan))


def test_they_defer_and_claim_nothing() -> None:
    text = words(plans.worked_stand())
    assert cautions_for(plans.plant_stand())[0] == FIRST
    for word in ("manual", "local rules", "licensed practice", "Band saw", "disc", "dust", "rags"):
        assert word in text
    assert "claim compliance with no rule" in text
    assert "certified" not in text and "complies" not in text


@pytest.mark.parametrize(
    ("word", "here", "not_here"),
    [
        ("Table saw", plans.worked_stand(), plans.plant_stand()),
        ("Jointer and planer", plans.worked_stand(), plans.plant_stand()),
        ("Large bits", plans.worked_stand(), plans.legs()),
        ("Chisels", plans.plant_stand(), plans.legs()),
        ("Glue:", plans.plant_stand(), Plan("One", "mm", (plans.stack_of("Disc", plans.pedestal().layers[:1]),))),
    ],
)
def test_only_what_this_plan_sends_hands_to(word: str, here: Plan, not_here: Plan) -> None:
    assert word in words(here)
    assert word not in words(not_here)


def test_what_is_heavy_is_said_to_be() -> None:
    heavy = Check("Foot: weight to lift", "caution", 40.0, 23.0, "kg", "", "It weighs about 40 kg.")
    assert "heavy and awkward" in words(replace(plans.plant_stand(), checks=(heavy,)))
    assert "heavy and awkward" not in words(replace(plans.plant_stand(), checks=(replace(heavy, verdict="ok"),)))


def glue_up(mass: float | None = None, set_ups: int = 1) -> GlueUpPlan:
    clock = Clock(480.0, 900.0, 60.0, 240.0)
    one = SetUp(
        1, 1, "layers", "Foot", 1, 2, ((1, 1), (2, 2)), (1,), clock, 9.0, 5e4, burden=Burden(90.0, mass, (0, 0, 0))
    )
    return GlueUpPlan("yellow glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, (one,) * set_ups, (1, 1), True)


def test_a_planned_glue_up_brings_its_own_and_defers_to_the_glues_sheet() -> None:
    planned = replace(plans.plant_stand(), glue_up=glue_up(9.0))
    for word in (
        "The sheet of your glue's maker comes before",
        "above all with resins",
        "Clamps: tighten",
        "Rods and go-bars",
    ):
        assert word in words(planned)
        assert word not in words(plans.plant_stand())
        assert word not in words(replace(plans.plant_stand(), glue_up=glue_up(9.0, 0)))
    assert all(len(sentence) < 230 for sentence in cautions_for(planned))


@pytest.mark.parametrize(("mass", "said"), [(22.0, True), (9.0, False), (None, False)])
def test_what_is_heavy_in_clamps_is_lifted_by_two(mass: float | None, said: bool) -> None:
    assert ("lift and turn it by two" in words(replace(plans.plant_stand(), glue_up=glue_up(mass)))) == said


def test_each_is_short_enough_to_be_read() -> None:
    assert all(len(sentence) < 230 for sentence in cautions_for(plans.worked_stand()))
