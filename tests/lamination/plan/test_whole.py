# SPDX-License-Identifier: LGPL-2.1-or-later

"""When a whole plan is proven: every stack holds its form, and no check says stop. Tried over every combination."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import plans
import pytest

from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.layers import Containment
from freecad_stacklam.lamination.plan.whole import Plan


@pytest.mark.parametrize(("one", "other", "word"), [*product((True, False), (True, False), ("ok", "caution", "stop"))])
def test_one_stack_or_one_check_is_enough_to_fail(one: bool, other: bool, word: str) -> None:
    plan = plans.plant_stand()
    proofs = [Containment(0.0, 3.0 if good else -0.1, (0.0, 0.0, 0.0), 10, "by hand") for good in (one, other)]
    stacks = tuple(replace(s, containment=p) for s, p in zip(plan.stacks, proofs))
    checks = (Check("any", "ok", 0, 0, "", "by hand", "So."), Check("other", word, 0, 0, "", "by hand", "So."))
    assert replace(plan, stacks=stacks, checks=checks).proven is (one and other and word != "stop")


def test_a_plan_of_nothing_has_nothing_to_disprove() -> None:
    assert Plan("Empty", "mm", ()).proven is True
