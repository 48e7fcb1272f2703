# SPDX-License-Identifier: LGPL-2.1-or-later

"""Views of the piece by plain arithmetic: a Ø60 post, 720 mm high."""

from __future__ import annotations

from math import pi

import pytest
from weakforms import tenoned

from freecad_stacklam.benchsheets.views.pieceviews import ABOVE, FRONT, RIGHT, scale_for, seen, size_of, view_of


def test_a_post_is_a_rectangle_from_its_sides_and_a_disc_from_above() -> None:
    stacks = tenoned()[0].stacks
    for way in (FRONT, RIGHT):
        assert size_of(stacks, way) == pytest.approx((60.0, 720.0), abs=0.1)
    assert seen(stacks[0], ABOVE).area == pytest.approx(pi * 30**2, rel=0.01)


def test_points_lie_where_the_scale_says() -> None:
    view = view_of(tenoned()[0].stacks, RIGHT, 10, 50.0, 20.0)
    assert view.at((99.0, 0.0, 0.0)) == pytest.approx((50.0, 20.0), abs=0.01)
    assert view.at((99.0, 30.0, 720.0)) == pytest.approx((53.0, 92.0), abs=0.01)
    assert view.on_page().bounds == pytest.approx((47.0, 20.0, 53.0, 92.0), abs=0.02)


def test_the_scale_is_the_largest_that_has_room() -> None:
    assert scale_for([(60.0, 720.0)], 80.0, 72.0) == 10
    assert scale_for([(60.0, 720.0)], 80.0, 71.0) == 20
    assert scale_for([(60.0, 720.0), (900.0, 100.0)], 80.0, 72.0) == 20
