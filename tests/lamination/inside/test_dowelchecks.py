# SPDX-License-Identifier: LGPL-2.1-or-later

"""Dowels told in any language. Figures: see test_checks.py."""

from __future__ import annotations

from dataclasses import replace

import solids
from pseudo import same_but_marked

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.inside.dowelchecks import at_pin, dowel_checks, short_dowels
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def test_a_short_and_a_tight_dowel_are_told_at_their_glue_line_in_any_language() -> None:
    mesh = solids.cylinder(100, 90, 90)
    stack = pin_stack(plan_stack(mesh, StackSettings(stock=(45.0,)), name="Piece"), mesh, PinSettings(dowel_room=0.3))
    stack = replace(stack, pins=tuple(replace(pin, dowel=0.9 * pin.diameter) for pin in stack.pins))

    def checks() -> list[Check]:
        return [*short_dowels(stack, "mm"), *dowel_checks(stack, species_table(), 4.0)]

    short, room = same_but_marked(checks)
    assert short.verdict == "caution" and short.place == at_pin(stack, stack.pins[0])
    assert room.place is not None and room.place[2] == stack.layers[0].top
