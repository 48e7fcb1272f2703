# SPDX-License-Identifier: LGPL-2.1-or-later

"""The overview of a stack."""

from __future__ import annotations

import numpy as np
import pytest
import solids
from plans import SIDE, plant_stand, worked_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import FilledRegion, Polyline, Text
from freecad_stacklam.benchsheets.layers.overview import overview_sheet
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.stack import StackSettings


@pytest.mark.parametrize("number", [0, 1])
def test_a_mortise_is_drawn_as_wide_as_it_is_cut(number: int) -> None:
    plan = plant_stand()
    stack = plan.stacks[number]
    sheet = overview_sheet(book_of(plan, paper_named("A4")), stack)
    drawn = [
        np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise hidden" and m.closed
    ]
    assert len(drawn) == 2  # from the front and from the right
    assert sheet.scale is not None
    cuts = [cut for layer in stack.layers for cut in layer.cuts if cut.joint]
    high = max(c.end for c in cuts) - min(c.start for c in cuts)
    for points in drawn:
        wide, tall = np.ptp(points, axis=0) / sheet.scale
        assert (wide, tall) == (pytest.approx(SIDE), pytest.approx(high))


def test_voids_and_pins_are_drawn_where_they_are_cut() -> None:
    """Written in tests/plans.py: a void of 60 mm about (3, -2); pins of 10 mm at (-40, 12) and (35, -20), 12 deep on
    either side of their glue line."""
    plan = worked_stand()
    stack = plan.stacks[0]
    sheet = overview_sheet(book_of(plan, paper_named("A4")), stack)
    assert sheet.scale is not None
    voids = [m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "mortise hidden" and not m.closed]
    wide = sorted(round(float(np.ptp(np.asarray(m.points)[:, 0])) / sheet.scale, 1) for m in voids)
    assert wide == pytest.approx([60.0, 60.0], abs=0.1)
    pins = [np.asarray(m.loops[0]) for m in sheet.marks if isinstance(m, FilledRegion)]
    assert len(pins) == 4  # two pins, twice
    for pin in pins:
        assert (np.ptp(pin, axis=0) / sheet.scale).tolist() == pytest.approx([10.0, 24.0], abs=0.1)


def test_the_form_is_drawn_by_its_silhouette_and_its_dish_on_the_axis() -> None:
    """A bowl turned about the axis: R 120, 60 high, dished 20 deep at the middle. The dish is no part of the silhouette
    and is drawn as a hidden line down to 40."""
    mesh = solids.revolved(np.array([(0, 0), (100, 0), (120, 60), (80, 60), (0, 40)], dtype=float), 96)
    stack = plan_stack(mesh, StackSettings(stock=(30.0,)), name="Bowl")
    sheet = overview_sheet(book_of(Plan("Bowl", "mm", (stack,)), paper_named("A4")), stack)
    assert sheet.scale is not None
    found = {pen: [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == pen]
             for pen in ("cut", "finished", "hidden")}  # fmt: skip
    foot = min(p[:, 1].min() for p in found["cut"])
    assert len(found["finished"]) == 2
    for line in found["finished"]:
        assert np.ptp(line[:, 0]) / sheet.scale == pytest.approx(240.0, abs=0.5)
        assert np.ptp(line[:, 1]) / sheet.scale == pytest.approx(60.0, abs=0.2)
    assert found["hidden"]
    lowest = min(line[:, 1].min() for line in found["hidden"])
    assert (lowest - foot) / sheet.scale == pytest.approx(40.0, abs=0.3)


def test_the_allowance_is_told_up() -> None:
    """4 mm are 5.04 of 1/32 in: 5/32 in are less than was asked for."""
    mesh = solids.cylinder(60, 90, 60)
    plan = Plan("Drum", "in", (plan_stack(mesh, StackSettings(stock=(45.0,), allowance=4.0), name="Drum"),))
    sheet = overview_sheet(book_of(plan, paper_named("Letter"), "in"), plan.stacks[0])
    assert any("allowance 3/16 in" in m.text for m in sheet.marks if isinstance(m, Text))
