# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on pins and voids, with figures set by hand."""

from __future__ import annotations

from dataclasses import replace

import solids

from freecad_stacklam.lamination.inside.checks import pin_checks
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
