# SPDX-License-Identifier: LGPL-2.1-or-later

"""When pins hold a layer: worked on two pins of a square by hand."""

from __future__ import annotations

from math import hypot, sqrt

import pytest
from shapely import affinity
from shapely.geometry import MultiPoint

from freecad_stacklam.lamination.plan.insides import Misfit


def missed(pins: list[tuple[float, float]]) -> float:
    """How far the worst pin misses every hole when the layer is turned by half a turn about (0, 0), by shapely."""
    holes = affinity.rotate(MultiPoint(pins), 180.0, origin=(0, 0)).geoms
    return max(min(hypot(h.x - x, h.y - y) for h in holes) for x, y in pins)


@pytest.mark.parametrize(
    ("pins", "away"),
    [
        ([(-40.0, 0.0), (40.0, 0.0)], 0.0),  # half a turn swaps them: the layer can be laid wrongly
        ([(-40.0, 0.0), (50.0, 0.0)], 10.0),
        ([(-40.0, 10.0), (40.0, 10.0)], 20.0),
        ([(-40.0, 10.0), (50.0, 10.0)], 10.0 * sqrt(5.0)),
    ],
)
def test_pins_hold_when_they_miss_by_what_is_wanted(pins: list[tuple[float, float]], away: float) -> None:
    assert missed(pins) == pytest.approx(away)
    assert Misfit(1, away, 15.0, "turned by 180°", 2).held is (away >= 15.0)


def test_an_outline_that_shows_every_wrong_way_holds_without_pins() -> None:
    assert Misfit(1, None, 15.0, "").held is True
    assert Misfit(1, 15.0, 15.0, "turned by 180°", 2).held is True
    assert Misfit(1, 0.0, 15.0, "turned by 180°", 2).held is False
