# SPDX-License-Identifier: LGPL-2.1-or-later

"""Findings as JSON and back: every digit, and nothing half believed. JSON itself: Python's json, by RFC 8259."""

from __future__ import annotations

import json

import numpy as np
import pytest

from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap, WeakSpot
from freecad_stacklam.lamination.findings.kept import Unreadable, plain, record_from
from freecad_stacklam.lamination.findings.seasons import Following, Lag, LayerSeason, Movement

SPOT = WeakSpot(
    (0.1 + 0.2, 1e-17, -3.0), "Top", 2, "glue line", 0.5, 2.5, 5.0, False, "A cat", (1.0, 2.0, 3.0), (0.0, 0.0, -5.0),
    "R up",
)  # fmt: skip
DEEP = DeepFindings(
    (SPOT, SPOT), None, SPOT, influence=SurfaceMap(((0.0, 1.0, 2.0),), (0.25,)), cells=12, notes=("a", "b")
)
YEAR = tuple(m / 7 for m in range(12))
LAYER = LayerSeason("Top", 1, 200.0, Following(YEAR, YEAR, YEAR, Lag(3.0, 1.0, 9.0), None), Movement(YEAR, YEAR), None)


@pytest.mark.parametrize("found", [DEEP, LAYER, DeepFindings()])
def test_what_was_found_comes_back_to_the_last_digit(found) -> None:
    text = json.dumps(plain(found))
    assert record_from(type(found), json.loads(text)) == found


def test_numbers_of_numpy_become_plain_ones() -> None:
    found = DeepFindings(balance=np.float64(0.125), cells=np.int64(7))  # type: ignore[arg-type]
    assert json.loads(json.dumps(plain(found)))["cells"] == 7
    assert record_from(DeepFindings, plain(found)) == DeepFindings(balance=0.125, cells=7)


def test_a_field_that_was_not_kept_has_its_first_value() -> None:
    facts = plain(DEEP)
    del facts["notes"]
    assert record_from(DeepFindings, facts).notes == ()


@pytest.mark.parametrize(
    "facts",
    [
        None,
        [],
        {"new": 1},
        {"spots": None},
        {"spots": [{"place": [1, 2, 3]}]},
        {"cells": 1.5},
        {"balance": "much"},
        {"stopped": 1},
        {"influence": {"points": [[1, 2]], "values": [1]}},
        {"notes": [3]},
        {"balance": float("nan")},
        {"balance": float("-inf")},
        {"balance": 10**400},
    ],
)
def test_what_does_not_fit_is_none(facts) -> None:
    with pytest.raises(Unreadable):
        record_from(DeepFindings, facts)
