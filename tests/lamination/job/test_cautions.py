# SPDX-License-Identifier: LGPL-2.1-or-later

"""Reminders for the work that a plan sends hands to, and for no other."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.lamination.job.cautions import FIRST, cautions_for
from freecad_stacklam.lamination.plan.checks import Check
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


def test_each_is_short_enough_to_be_read() -> None:
    assert all(len(sentence) < 230 for sentence in cautions_for(plans.worked_stand()))
