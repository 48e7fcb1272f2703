# SPDX-License-Identifier: LGPL-2.1-or-later

"""Figures and shapes of plan.json; loops as RFC 7946, section 3.1.6, turns them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from math import copysign, pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Polygon

from freecad_stacklam.lamination.job.jsonfacts import area, maybe, number, numbers, outlines, record_facts
from freecad_stacklam.lamination.plan.outline import circle


@given(st.floats(-1e6, 1e6))
def test_figures_are_rounded_and_never_minus_zero(value: float) -> None:
    told = number(value)
    assert abs(told - value) <= 0.5e-6 + 1e-9
    assert copysign(1.0, told) == 1.0 or told < 0
    assert json.loads(json.dumps(told)) == told


def test_nothing_stays_nothing() -> None:
    assert (maybe(None), maybe(-0.0), numbers((1, 2.0000004))) == (None, 0.0, [1.0, 2.0])


def test_outer_loops_turn_left_and_holes_right_and_no_point_is_told_twice() -> None:
    left_out = Polygon()
    square = Polygon([(0, 0), (0, 10), (10, 10), (10, 0)], [[(2, 2), (4, 2), (4, 4), (2, 4)]])
    told = area(MultiPolygon([square, left_out]))
    assert len(told) == 1
    (outer, hole) = told[0]["outer"], told[0]["holes"][0]
    assert len(outer) == len(hole) == 4
    assert shapely.LinearRing(outer).is_ccw
    assert not shapely.LinearRing(hole).is_ccw
    assert Polygon(outer, [hole]).area == 96.0


def test_arcs_are_sampled_close_to_the_circle() -> None:
    (told,) = outlines([circle(60.0, (5.0, 0.0))])
    assert Polygon(told["outer"]).area == pytest.approx(pi * 30.0**2, rel=1e-3)
    assert max(shapely.Point(p).distance(shapely.Point(5.0, 0.0)) for p in told["outer"]) <= 30.0 + 1e-6


def test_a_record_is_told_field_by_field() -> None:
    @dataclass
    class Cut:
        at: float
        across: bool
        number: int
        name: str
        cost: float | None

    assert record_facts(Cut(1 / 3, True, 2, "a", None)) == {
        "at": 0.333333, "across": True, "number": 2, "name": "a", "cost": None
    }  # fmt: skip
