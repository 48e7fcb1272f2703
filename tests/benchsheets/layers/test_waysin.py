# SPDX-License-Identifier: LGPL-2.1-or-later

"""The way into a void is drawn where it is sawn or bored, and named."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import pi

import numpy as np
import pytest
from plans import layer_of, stack_of
from shapely import Point

from freecad_stacklam.benchsheets.book.whole import KINDS, drawing_book
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.benchsheets.layers.waysin import way_line
from freecad_stacklam.lamination.plan.insides import HollowPlan, WayIn
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.plan.whole import Plan

KERF = WayIn(1, "kerf", (-90.0, 5.0), (-30.0, 5.0), 0.0, 180.0)
HOLE = WayIn(1, "bored hole", (12.0, -8.0), (12.0, -8.0), 16.0, 180.0)


@cache
def drawn(way: WayIn, units: str = "mm") -> list[Sheet]:
    layer = layer_of(1, 0.0, 40.0, [Point(0, 0).buffer(85.0)] * 2, (Cut("hollow", circle(60.0), 0.0, 40.0),))
    stack = replace(stack_of("Drum", (layer,)), hollow=HollowPlan(55.0, 0, 1e5, 55.0, (), (), (way,)))
    plan = Plan("Drum", units, (stack,))
    others = [kind for kind in KINDS if kind not in ("template", "layer")]
    return [s for s in drawing_book(plan, paper_named("A4"), units, without=others) if s.kind in ("template", "layer")]


def lines(sheet: Sheet) -> list[np.ndarray]:
    return [np.array([sheet.to_stack(*p) for p in m.points]) for m in sheet.marks
            if isinstance(m, Polyline) and m.pen == "mortise"]  # fmt: skip


@pytest.mark.parametrize("kind", ["template", "layer"])
def test_a_kerf_runs_from_the_edge_to_the_void(kind: str) -> None:
    found = [line for s in drawn(KERF) if s.kind == kind for line in lines(s) if len(line) == 2]
    assert any(np.allclose(np.sort(line, axis=0), [KERF.start, KERF.end], atol=1e-6) for line in found)


def test_a_bored_hole_is_as_wide_as_its_bit() -> None:
    assert way_line(HOLE).length == pytest.approx(16 * pi, rel=0.002)
    rings = [line for s in drawn(HOLE) if s.kind == "template" for line in lines(s)]
    assert any(np.allclose([line.min(axis=0), line.max(axis=0)], [(4, -16), (20, 0)], atol=0.01) for line in rings)


def test_both_are_named_on_the_template() -> None:
    for way, units, words in ((KERF, "mm", "kerf: saw in here"), (HOLE, "mm", "bore Ø 16 mm for the blade"),
                              (HOLE, "in", "bore Ø 16 mm for the blade")):  # fmt: skip
        said = [m.text for s in drawn(way, units) if s.kind == "template" for m in s.marks if isinstance(m, Text)]
        assert words in said


def test_the_sheets_of_a_ring_say_how_the_blade_gets_in() -> None:
    area = Point(0, 0).buffer(85.0, 64).difference(Point(0, 0).buffer(40.0, 64))
    layer = layer_of(1, 0.0, 40.0, [area] * 2)
    plan = Plan("Hoop", "mm", (stack_of("Hoop", (layer,)),))
    others = [kind for kind in KINDS if kind not in ("template", "layer")]
    for kind in ("template", "layer"):
        sheets = [s for s in drawing_book(plan, paper_named("A4"), "mm", without=others) if s.kind == kind]
        said = " ".join(m.text for s in sheets for m in s.marks if isinstance(m, Text))
        assert ("kerf: saw in here" if kind == "template" else "Ring: saw in along the grain") in said
        kerfs = [line for s in sheets for line in lines(s) if len(line) == 2]
        assert any(abs(line[0][1] - line[1][1]) < 1e-6 for line in kerfs)
