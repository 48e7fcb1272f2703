# SPDX-License-Identifier: LGPL-2.1-or-later

"""One pattern for all glue lines where it fits, and patterns of their own where it does not."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.inside.pinpatterns import PLAY
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.insides import pin_patterns
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def pinned(mesh, stock: float = 45.0, **asked) -> StackPlan:  # type: ignore[no-untyped-def]
    return pin_stack(plan_stack(mesh, StackSettings(stock=(stock,)), name="Piece"), mesh, PinSettings(**asked))


@pytest.mark.parametrize(
    "mesh", [solids.cylinder(100, 360, 90), solids.box(300, 120, 315)], ids=["drum", "post"]
)  # fmt: skip
def test_one_jig_drills_all_glue_lines_of_an_even_form(mesh) -> None:  # type: ignore[no-untyped-def]
    stack = pinned(mesh)
    (pattern,) = pin_patterns(stack.pins)
    assert pattern.interfaces == tuple(range(1, len(stack.layers)))
    assert all(m.held for m in stack.misfits)
    assert min(p.least_cover for p in stack.pins) >= 8.0


def test_layers_too_thin_for_pins_over_one_another_take_turns() -> None:
    """19 mm: 12 + 12 of walls and 4 + 4 of points do not fit; every second glue line can share."""
    stack = pinned(solids.cylinder(90, 114, 90), 19.0)
    assert [p.interfaces for p in pin_patterns(stack.pins)] == [(1, 3, 5), (2, 4)]


def test_a_waist_does_not_make_the_pins_of_a_wide_foot_huddle() -> None:
    """Pins 0.4 mm loose, as near as a waist of R 40 allows, would let the edge of a foot of R 250 swing by more than
    1 mm: 0.4 · 253 / 1 = 101 mm apart are wanted there."""
    profile = [(0, 0), (250, 0), (250, 90), (40, 135), (40, 225), (250, 270), (250, 360), (0, 360)]
    mesh = solids.revolved(np.array(profile, dtype=float), 90)
    stack = pinned(mesh, diameter=6.0)
    patterns = pin_patterns(stack.pins)
    assert len(patterns) > 1
    assert all(m.held for m in stack.misfits)
    for pattern in patterns:
        if len(pattern.interfaces) > 1:
            spread = max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise(pattern.centres))
            reach = max(253.5 if n in (1, 2, 6, 7) else 43.5 for n in pattern.interfaces)
            assert 0.4 * reach / spread <= PLAY + 0.02
