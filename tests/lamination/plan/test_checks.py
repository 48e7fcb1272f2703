# SPDX-License-Identifier: LGPL-2.1-or-later

"""A verdict as a record: it stands as it was made, and is told as JSON (RFC 8259)."""

from __future__ import annotations

import json
from dataclasses import FrozenInstanceError, asdict, replace

import pytest

from freecad_stacklam.lamination.plan.checks import Check

CHECK = Check("Seat: height", "caution", 470.0, 460.0, "mm", "common practice, no source", "The seat is high: ask.")


def test_a_verdict_stands_as_it_was_made() -> None:
    with pytest.raises(FrozenInstanceError):
        CHECK.verdict = "ok"  # type: ignore[misc]
    assert replace(CHECK, verdict="ok") != CHECK
    assert len({CHECK, replace(CHECK)}) == 1  # equal verdicts are one: a set of them has no doubles


def test_a_verdict_is_told_with_its_seven_facts() -> None:
    told = json.loads(json.dumps(asdict(CHECK), allow_nan=False))
    assert list(told) == ["name", "verdict", "figure", "limit", "unit", "source", "says"]
    assert Check(**told) == CHECK
