# SPDX-License-Identifier: LGPL-2.1-or-later

"""A panel's measures by hand, and that they are the panel's own: turned with its grain it measures the same."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from freecad_stacklam.benchsheets.boards.panel import panel_of
from freecad_stacklam.lamination.plan.boards import Stave


def stave(letter: str, x0: float, y0: float, x1: float, y1: float, grain: float = 0.0) -> Stave:
    """A stave from x0, y0 to x1, y1, then turned about the axis to its grain."""
    c, s = cos(radians(grain)), sin(radians(grain))
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    region = tuple((x * c - y * s, x * s + y * c) for x, y in corners)
    return Stave(f"Top 1 {letter}", "Top", 1, region, y1 - y0, x1 - x0, 27.0, grain, "oak")


@pytest.mark.parametrize("grain", [0.0, 30.0, 90.0, 180.0, -45.0])
def test_staves_are_measured_from_the_lower_left_corner(grain: float) -> None:
    """Three staves: the longest begins 200 mm left of the axis, the lowest edge is 150 mm below it. So a begins
    200 - 120 = 80 mm from the corner, c 50 mm, and the edges lie at 0, 100 and 180 mm."""
    staves = [
        stave("b", -200, -50, 210, 30, grain),
        stave("c", -150, 30, 100, 140, grain),
        stave("a", -120, -150, 90, -50, grain),
    ]
    panel = panel_of(staves)
    assert [row.stave.id[-1] for row in panel.staves] == ["a", "b", "c"]
    assert [row.left for row in panel.staves] == pytest.approx([80.0, 0.0, 50.0])
    assert [row.lower for row in panel.staves] == pytest.approx([0.0, 100.0, 180.0], abs=1e-9)
    assert panel.axis == pytest.approx((200.0, 150.0))
    assert [row.heart for row in panel.staves] == ["up", "down", "up"]
    c, s = cos(radians(grain)), sin(radians(grain))
    assert panel.corner == pytest.approx((-200 * c + 150 * s, -200 * s - 150 * c))


def test_staves_end_to_end_have_their_heart_on_one_side() -> None:
    """Two islands side by side in the lower row, one stave over them."""
    panel = panel_of([stave("a", 0, 0, 100, 50), stave("b", 300, 0, 400, 50), stave("c", 0, 50, 400, 90)])
    assert [row.heart for row in panel.staves] == ["up", "up", "down"]


def test_a_wide_stave_over_a_narrow_one_is_turned_too() -> None:
    panel = panel_of([stave("a", 0, 0, 300, 42), stave("b", 0, 42, 300, 187), stave("c", 0, 187, 300, 230)])
    assert [row.heart for row in panel.staves] == ["up", "down", "up"]
