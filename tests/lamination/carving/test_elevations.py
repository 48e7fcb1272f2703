# SPDX-License-Identifier: LGPL-2.1-or-later

"""Elevations against a cone and a leaning prism in closed form."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import solids

from freecad_stacklam.lamination.carving.elevations import elevations, spans
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE, GUARD


def test_the_steps_of_a_cone():
    # A cone 200 wide at its foot and 450 high: at a glue line of height h its radius is 200 (1 − h / 450). The layer
    # below is as wide as the cone at its own foot, 25 mm lower, that is 11.11 mm wider; the one above as wide as it is.
    mesh = solids.cone(200.0, 450.0, 360)
    front, right = elevations(plan_stack(mesh, StackSettings(stock=(25.0,), allowance=4.0), name="Form"), mesh)
    assert (front.side, right.side) == ("front", "right")
    more = 4.0 + GUARD
    for view in (front, right):
        assert len(view.corners) == 2 * 17
        for corner in view.corners:
            sign = -1.0 if corner.side == "left" else 1.0
            assert sign * corner.inner == pytest.approx(200 * (1 - corner.height / 450) + more, abs=3 * FIT_TOLERANCE)
            assert corner.from_outer == pytest.approx(25 * 200 / 450 + more, abs=3 * FIT_TOLERANCE)
            assert more - 0.05 <= corner.at_inner <= more + 3 * FIT_TOLERANCE
        for height, across in view.profile[:-1]:
            (span,) = across
            assert span == pytest.approx((-200 * (1 - height / 450), 200 * (1 - height / 450)), abs=0.05)


def test_front_and_right_are_told_apart():
    mesh = solids.box(300, 150, 135)
    front, right = elevations(plan_stack(mesh, StackSettings(stock=(45.0,), allowance=0.0), name="Form"), mesh)
    wide = [np.ptp(view.profile[0][1][0]) for view in (front, right)]
    assert wide == pytest.approx([300.0, 150.0])
    assert all(c.from_outer == pytest.approx(c.at_inner) for c in front.corners)


def test_pieces_apart_are_spans_apart_and_one_behind_another_is_one():
    legs = shapely.MultiPolygon([shapely.box(0, 0, 10, 10), shapely.box(20, 50, 30, 60), shapely.box(25, 0, 40, 10)])
    assert spans(legs, 0) == ((0.0, 10.0), (20.0, 40.0))
    assert spans(legs, 1) == ((0.0, 10.0), (50.0, 60.0))
    assert spans(shapely.MultiPolygon(), 0) == ()
