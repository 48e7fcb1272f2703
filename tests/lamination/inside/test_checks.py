# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on pins and voids, with figures set by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
import solids

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.inside.checks import pin_checks
from freecad_stacklam.lamination.inside.dowelchecks import dowel_checks
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.insides import Misfit
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def planned(mesh, stock=45.0, name="Piece", allowance=3.0):
    return plan_stack(mesh, StackSettings(stock=(stock,), allowance=allowance), name=name)


def test_pin_that_breaks_out_says_stop_and_a_weak_pattern_caution():
    mesh = solids.cylinder(100, 90, 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings())
    out = replace(stack, pins=(replace(stack.pins[0], least_cover=-1.0),))
    near = replace(stack, pins=(replace(stack.pins[0], least_cover=7.0),))
    weak = replace(stack, misfits=(Misfit(1, 4.0, 15.0, "turned by 90°", 2),))
    assert [c.verdict for c in pin_checks(stack)] == ["ok", "ok"]
    assert [c.verdict for c in pin_checks(out)] == ["ok", "stop"]
    assert [c.verdict for c in pin_checks(near)] == ["ok", "caution"]
    assert [c.verdict for c in pin_checks(weak)] == ["caution", "ok"]
    assert "turned by 90°" in pin_checks(weak)[0].says


def test_layers_shrink_around_a_dowel_that_does_not() -> None:
    """24 mm of white oak over 4 points: 24 · 4 · 0.00194 = 0.19 mm flat and 24 · 4 · 0.00376 = 0.36 mm quarter sawn
    (FPL-GTR-282 (2021), Table 13-5); the dowel, 21 mm long, has 3 mm of room."""
    mesh = solids.cylinder(100, 90, 90)
    stack = pin_stack(planned(mesh), mesh, PinSettings())
    (found,) = dowel_checks(stack, species_table(), 4.0)
    assert (found.figure, found.limit, found.verdict) == (pytest.approx(0.36, abs=0.005), pytest.approx(3.0), "ok")
    assert "lose 0.19 mm (flat-sawn) to 0.37 mm (quarter-sawn)" in found.says
    tight = pin_stack(planned(mesh), mesh, PinSettings(dowel_room=0.3))
    (found,) = dowel_checks(tight, species_table(), 4.0, "in")
    assert found.verdict == "caution"
    assert "0.011 in of room: shorten the dowels" in found.says


def test_a_dowel_shorter_than_it_is_thick_is_cautioned() -> None:
    """4 + 4 - 1 = 7 mm of a dowel of 10 mm."""
    mesh = solids.cylinder(100, 90, 90)
    (found,) = (c for c in pin_checks(pin_stack(planned(mesh), mesh, PinSettings(depth=4.0, dowel_room=1.0)))[2:])
    assert (found.verdict, found.figure, found.limit) == ("caution", 7.0, 10.0)
    assert "only 7 mm long and 10 mm thick" in found.says
