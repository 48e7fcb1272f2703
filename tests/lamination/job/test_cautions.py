# SPDX-License-Identifier: LGPL-2.1-or-later

"""Reminders for the work that a plan sends hands to, and for no other."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.lamination.bill.finishing import RAGS
from freecad_stacklam.lamination.findings.finishing import FinishFindings
from freecad_stacklam.lamination.findings.weight import Body, WeightFindings
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.cautions import (
    BEFORE,
    CARVE,
    CUT,
    FINISH,
    FIRST,
    GLUE,
    JOINT,
    LIFT,
    SAND,
    USE,
    cautions_for,
)
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.gluing import Burden, Clock, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan


def said(plan: Plan) -> list[str]:
    return [sentence for _, sentences in cautions_for(plan) for sentence in sentences]


def words(plan: Plan) -> str:
    return " ".join(said(plan))


def test_they_defer_and_claim_nothing() -> None:
    text = words(plans.worked_stand())
    assert said(plans.plant_stand())[0] == FIRST
    for word in ("manual", "local rules", "licensed practice", "Band saw", "disc", "dust", "Rags"):
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
    ):
        assert word in words(planned)
        assert word not in words(plans.plant_stand())
        assert word not in words(replace(plans.plant_stand(), glue_up=glue_up(9.0, 0)))
    assert all(len(sentence) < 230 for sentence in said(planned))


@pytest.mark.parametrize(("mass", "said"), [(22.0, True), (9.0, False), (None, False)])
def test_what_is_heavy_in_clamps_is_lifted_by_two(mass: float | None, said: bool) -> None:
    assert ("lift and turn it by two" in words(replace(plans.plant_stand(), glue_up=glue_up(mass)))) == said


def test_each_is_short_enough_to_be_read() -> None:
    assert all(len(sentence) < 230 for sentence in said(plans.worked_stand()))


def weighed(mass: float, units: str = "mm") -> Plan:
    """The stand, one blank of which weighs so much, give or take a tenth (the gravity's variation)."""
    middle = (0.0, 0.0, 0.0)
    blank = Body("blank", "Foot 1", "Foot", 1, 1, "stack", 1e6, mass, mass / 10, middle)
    piece = PieceFindings(weight=WeightFindings(12.0, (blank,), (), (), (), None))
    return replace(plans.plant_stand(), piece=piece, units=units)


def test_each_step_of_the_work_has_its_own_and_none_twice() -> None:
    steps = cautions_for(plans.worked_stand())
    names = [step for step, _ in steps]
    assert names == [s for s in (BEFORE, CUT, JOINT, GLUE, CARVE, SAND, FINISH, LIFT, USE) if s in names]
    assert {CUT, CARVE, SAND, FINISH, USE} <= set(names) and all(sentences for _, sentences in steps)
    every = said(plans.worked_stand())
    assert len(set(every)) == len(every)
    assert "white oak" in next(" ".join(found) for step, found in steps if step == SAND)


def test_what_one_pair_of_hands_does_not_lift_is_told_with_its_weight_and_doubt() -> None:
    """25 kg is common practice; 31 kg ± 3.1, or 68.3 lb ± 6.8 by 0.45359237 kg a pound."""
    assert "the blank (Foot 1) about 31.0 kg ± 3.1 kg" in words(weighed(31.0))
    assert "about 68.3 lb ± 6.8 lb" in words(weighed(31.0, "in"))
    assert "Heavier than one" not in words(weighed(24.0))


def test_rags_are_told_of_where_the_finish_heats_itself() -> None:
    oil = FinishFindings("oil", (), 3, 0.5, 0.4, 0.6, (), (RAGS,))
    heats = replace(plans.plant_stand(), piece=PieceFindings(finish=oil))
    lacquer = replace(heats, piece=PieceFindings(finish=replace(oil, finish="water lacquer", cautions=())))
    assert RAGS in said(heats) and "rags" not in words(lacquer).lower()


def test_a_press_is_warned_of_where_it_is_named() -> None:
    made = glue_up(9.0)
    rods = replace(made, set_ups=(replace(made.set_ups[0], helps=("threaded rods 576 mm long",)),))
    assert "Rods and go-bars" in words(replace(plans.plant_stand(), glue_up=rods))
    assert "Rods and go-bars" not in words(replace(plans.plant_stand(), glue_up=made))
    assert "Vacuum" not in words(replace(plans.plant_stand(), glue_up=rods))


def test_dust_that_inflames_is_named() -> None:
    stand = plans.plant_stand()
    teak = replace(stand, stacks=tuple(
        replace(s, layers=tuple(replace(n, species="teak") for n in s.layers)) for s in stand.stacks))  # fmt: skip
    assert "that of teak inflames" in words(teak) and "inflames" not in words(stand)
