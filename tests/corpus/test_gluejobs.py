# SPDX-License-Identifier: LGPL-2.1-or-later

"""Glue-ups from a seed: each keeps the rules that `gluejobs.judged` counts out, or is refused with a right sentence.

A few in every run; hundreds behind the mark `slow`.
"""

from __future__ import annotations

import pytest
from gluejobs import job, judged, planned
from trial import ill_said

from freecad_stacklam.lamination.refusal import Refusal


def faults(seed: int) -> list[str]:
    try:
        plan, settings, made = planned(seed)
    except Refusal as refusal:
        wrong = ill_said(str(refusal))
        return [f"{wrong}: {refusal}"] if wrong else []
    return judged(plan, settings, made)


@pytest.mark.parametrize("seed", [1, 6, 9, pytest.param(12, marks=pytest.mark.slow), 1016])
def test_a_glue_up_that_no_maker_would_ask_for(seed: int) -> None:
    assert faults(seed) == []


def test_the_same_seed_is_the_same_job() -> None:
    assert job(3)[1] == job(3)[1]


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_hundreds_of_glue_ups(block: int) -> None:
    found = {seed: faults(seed) for seed in range(50_000 + 10 * block, 50_010 + 10 * block)}
    assert not {seed: said for seed, said in found.items() if said}
