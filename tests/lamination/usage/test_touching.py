# SPDX-License-Identifier: LGPL-2.1-or-later

"""Loads beside the piece are left out, with how far off they are."""

from __future__ import annotations

import pytest
from solids import box

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.usage.touching import on_piece


def _at(*place: float) -> LoadCase:
    return LoadCase("pot", 100.0, 0.0, "point", "own", at=place)  # type: ignore[arg-type]


@pytest.mark.parametrize("place", [(50, 50, 40), (50, 50, 60), (120, 50, 40), (50, 50, 20)])
def test_on_the_surface_or_near_it(place: tuple[float, float, float]) -> None:
    """Of a box 100 × 100 × 40 on the floor: 0, 20, 20 and 20 mm off."""
    load = _at(*place)
    assert on_piece([load], [box(100, 100, 40)]) == ((load,), ())


@pytest.mark.parametrize(
    ("place", "far"), [((400, 50, 40), "300 mm"), ((50, 50, -500), "500 mm"), ((403, 504, 40), "505 mm")]
)
def test_beside_it(place: tuple[float, float, float], far: str) -> None:
    """303² + 404² = 505² (three, four, five)."""
    other = LoadCase("knock", 0.0, 50.0, "edge", "own")
    kept, left = on_piece([_at(*place), other], [box(100, 100, 40)])
    assert kept == (other,)
    (name, says) = left[0]
    assert name == "pot" and far in told(says, "mm") and "in" in told(says, "in")


def test_the_nearest_of_several_forms() -> None:
    load = _at(250, 50, 40)
    assert on_piece([load], [box(100, 100, 40), box(100, 100, 40, (200, 0, 0))])[1] == ()
