# SPDX-License-Identifier: LGPL-2.1-or-later

"""The records of a glue-up say of themselves whether they hold."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.plan.gluing import LAYERS, BrokenLimit, Clock, GlueUpPlan, Move, SetUp


def clock(contact: float, pressure: float) -> Clock:
    return Clock(480.0, 900.0, contact, pressure, (Move(0.0, 30.0, "spread", 1), Move(30.0, 20.0, "lay", 1)))


@pytest.mark.parametrize(
    ("contact", "pressure", "held"), [(480.0, 900.0, True), (481.0, 500.0, False), (100.0, 901.0, False)]
)
def test_a_clock_holds_up_to_both_of_its_limits(contact: float, pressure: float, held: bool) -> None:
    assert clock(contact, pressure).held is held


def test_moves_follow_each_other() -> None:
    first, second = clock(0, 0).moves
    assert first.end == second.start and second.end == 50.0


def test_a_set_up_is_held_only_without_a_broken_limit_and_glue_adds_up() -> None:
    one = SetUp(1, 1, LAYERS, "Stand", 1, 2, ((1, 1), (2, 2)), (1,), clock(0, 0), 12.5, 60_000.0)
    two = SetUp(2, 2, LAYERS, "Stand", 1, 3, ((1, 2), (3, 3)), (2,), clock(0, 0), 7.5, 40_000.0,
                limits=(BrokenLimit("clamps", 16, 12, "", "Borrow 4 clamps."),))  # fmt: skip
    plan = GlueUpPlan("yellow glue", (480.0, 900.0, 3600.0, 86_400.0), 20.0, (one, two), (2, 2), True)
    assert one.held and not two.held and plan.glue == 20.0
