# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places inside an edge, by plane geometry."""

from __future__ import annotations

import pytest
import shapely

from freecad_stacklam.lamination.usage.edges import inside_edge


def test_a_wide_top_by_the_inset() -> None:
    assert inside_edge(shapely.box(0, 0, 400, 300), 60.0).bounds == pytest.approx((60, 60, 340, 240))
    assert inside_edge(shapely.box(0, 0, 400, 300), 0.0).bounds == pytest.approx((0, 0, 400, 300))


@pytest.mark.parametrize("inset", [60.0, 1e6])
def test_a_narrow_top_keeps_its_length(inset: float) -> None:
    """80 wide: half is 40, and 0.8 of it 32; 1000 long, so it reaches from 32 to 968."""
    assert inside_edge(shapely.box(0, 0, 1000, 80), inset).bounds == pytest.approx((32, 32, 968, 48), abs=0.5)


@pytest.mark.parametrize("size", [1e-3, 0.1, 1.0])
def test_tiny_ones_are_never_empty(size: float) -> None:
    assert not inside_edge(shapely.box(0, 0, size, size), 60.0).is_empty
    assert inside_edge(shapely.Polygon(), 60.0).is_empty
