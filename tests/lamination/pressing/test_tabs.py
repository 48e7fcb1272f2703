# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs, on piles where a sketch tells what they can do."""

from __future__ import annotations

from math import pi

import pytest
import shapely
from piles import discs, pile
from shapely import Point, affinity

from freecad_stacklam.lamination.plan.gluing import WasteTab
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.pressing.faces import pile_of
from freecad_stacklam.lamination.pressing.interfaces import interfaces_of
from freecad_stacklam.lamination.pressing.seats import clamp_seats
from freecad_stacklam.lamination.pressing.tabs import COLUMN, RIM, tabs_for


def tabs_of(stack, line: int = 0) -> tuple[WasteTab, ...]:  # type: ignore[no-untyped-def]
    run = pile_of(stack, 1, len(stack.layers))
    contact = interfaces_of(stack)[line].contact
    return tabs_for(run, contact, line, 40.0, clamp_seats(run, 40.0, None).area)


def test_a_flare_in_a_long_run_gains_by_tabs() -> None:
    # Pads on Ø120 leave the rim of Ø280 between the two lowest layers: radii over 40 + 20 + 45 from below.
    stack = discs([320, 280, 240, 160, 120])
    found = tabs_of(stack)
    assert found and found[-1].reached > 0.8
    shares = [t.reached for t in found]
    assert shares == sorted(shares) and all(t.layer == 5 for t in found)
    blank = Point(0, 0).buffer(60, 64)
    for tab in found:
        assert tab.outline.area == pytest.approx(tab.area) and tab.area > 0
        assert tab.share == pytest.approx(tab.area / (pi * 60**2), rel=0.01)
        assert tab.outline.intersection(affinity.scale(blank, 0.99, 0.99)).area < 1.0
        assert tab.outline.distance(blank) < 0.1  # it hangs on the blank
        # There is room for the pad and a rim.
        assert tab.outline.union(blank).buffer(-(20 + RIM) + 0.2).area > 0


def test_tabs_stand_over_each_other_where_the_wood_is_missing_below() -> None:
    # The line overhangs the foot: nothing under it bears a pad there but a tab of the foot itself.
    stack = pile([[circle(100)], [rectangle(300, 100)], [rectangle(300, 100)]])
    found = tabs_of(stack, 1)
    assert found and {t.layer for t in found} <= {1, 2, 3} and found[-1].reached > 0.9
    assert any(t.layer == 1 for t in found)
    # Two posts too thin for a pad: both get the tab, one over the other, and the pad sits on it.
    first, second = tabs_of(discs([28, 28]))
    assert (first.layer, second.layer) == (1, 2) and first.option == second.option
    assert first.option.startswith('{layers = "1-2", direction = ') and first.reached == 1.0
    assert shapely.symmetric_difference(first.outline, second.outline).area < 1.0
    # A foot that alone is too thin gets it alone.
    assert [t.layer for t in tabs_of(discs([32, 120]))] == [1]
    # Of a long run none is tried: each would be one more tab to saw off.
    long = pile([[circle(100)], *[[rectangle(300, 100)]] * COLUMN])
    assert tabs_of(long, 1) == ()


def test_no_tab_where_all_is_reached() -> None:
    assert tabs_of(discs([200, 200])) == ()
