# SPDX-License-Identifier: LGPL-2.1-or-later

"""A verdict as a record: it stands as it was made, and is told as JSON (RFC 8259)."""

from __future__ import annotations

import json
from dataclasses import FrozenInstanceError, asdict, replace

import pytest

from freecad_stacklam.lamination.plan.checks import Check, about, in_model

CHECK = Check("Seat: height", "caution", 470.0, 460.0, "mm", "common practice, no source", "The seat is high: ask.")


def test_a_verdict_stands_as_it_was_made() -> None:
    with pytest.raises(FrozenInstanceError):
        CHECK.verdict = "ok"  # type: ignore[misc]
    assert replace(CHECK, verdict="ok") != CHECK
    assert len({CHECK, replace(CHECK)}) == 1  # equal verdicts are one: a set of them has no doubles


def test_a_verdict_is_told_with_its_facts() -> None:
    told = json.loads(json.dumps(asdict(CHECK), allow_nan=False))
    assert list(told) == ["name", "verdict", "figure", "limit", "unit", "source", "says", "place", "rule"]
    assert Check(**told) == CHECK


def test_a_place_of_a_stack_is_carried_into_the_model() -> None:
    # Stacked along the model's x, moved: x, y, z of the stack are y, z, x of the model. By hand: (20, 30, 10) + shift.
    frame = (0, 0, 1, 1000.0, 1, 0, 0, -300.0, 0, 1, 0, 70.0, 0, 0, 0, 1)
    assert in_model(frame, (20.0, 30.0, 10.0)) == (1010.0, -280.0, 100.0)


@pytest.mark.parametrize(
    ("name", "named"),
    [
        ("Seat: height", "Seat"),
        ("Seat: back: height", "Seat: back"),  # a name may have a colon of its own
        ("Leg to seat: depth in Seat", "Leg to seat"),  # the joint's own verdict
        ("squeeze in Seat", "Seat"),
        ("Month to glue", ""),
    ],
)
def test_a_verdict_names_its_stack_or_joint(name: str, named: str) -> None:
    assert about(replace(CHECK, name=name), ["Seat", "Seat: back", "Leg to seat", "Leg"]) == named
