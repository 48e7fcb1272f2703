# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bars across a panel: force over area by hand, the bell-shaped law against its integral, cones against samples."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from blocks import strips
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.joining.edgeclamps import (
    bars,
    bars_for,
    places_of,
    pressures_of,
    spacing_for,
)
from freecad_stacklam.lamination.joining.panels import panels_of
from freecad_stacklam.lamination.settings.presses import PressSettings

PIPE = PressSettings("pipe clamp", count=12, force=4670.0, pad=40.0)
(PANEL,) = panels_of(strips(120, 90, 130))
WANTED = (0.7, 1.7)


def test_spacing_by_the_nearest_seam() -> None:
    """d + 2 h (common practice, no source): 40 + 2 × (120 + 36), and no more than a guide's 300."""
    assert spacing_for(PANEL, (PIPE,), 36.0) == 300
    (narrow,) = panels_of(strips(40, 90, 130))
    assert spacing_for(narrow, (PIPE,), 0.0) == 120


def test_as_few_as_press_every_seam() -> None:
    """600 × 45 mm at 0.7 MPa are 18.9 kN: 5 clamps of 4.67 kN; with weaker ones besides, the strong come first."""
    found, wants = bars_for(PANEL, (PIPE,), WANTED, 36.0)
    assert (len(found.used), wants) == (5, 5)
    weak = replace(PIPE, name="weak", force=1650.0, count=20)
    mixed, wants = bars_for(PANEL, (weak, replace(PIPE, count=3)), WANTED, 36.0)
    # 3 × 4670 + 3 × 1650 = 18 960 N.
    assert [p.name for p in mixed.used] == ["pipe clamp"] * 3 + ["weak"] * 3
    assert wants == 6


def test_what_is_wanted_where_too_few_are_there() -> None:
    found, wants = bars_for(PANEL, (replace(PIPE, count=2),), WANTED, 36.0)
    assert (len(found.used), wants, found.enough) == (2, 5, False)
    none, wants = bars_for(PANEL, (), WANTED, 36.0)
    assert (none.used, wants) == ((), 5)


def test_where_no_number_would_do_the_weakest_seam_gets_the_most() -> None:
    """A seam of 61.7 mm beside one of 600: whatever crosses the short one starves it, and is eased."""
    short, long_, other = strips(100, 100, 100)
    short = replace(short, region=((270, 0), (331.7, 0), (331.7, 100), (270, 100)))
    (panel,) = panels_of([short, long_, other])
    found, wants = bars_for(panel, (PIPE,), (1.0, 1.0), 36.0)
    assert not found.enough
    assert wants == max(len(found.used), 3)
    assert found.ease < 1


@settings(max_examples=40, deadline=None)
@given(st.lists(st.floats(50, 200), min_size=2, max_size=5), st.integers(1, 9), st.floats(200, 1500))
def test_pressure_sums_up_to_force_and_cones_are_what_samples_say(
    widths: list[float], count: int, length: float
) -> None:
    """The trapezoid sum of the pressure over a seam is the force of the clamps that cross it; the share that the cones
    reach is that of 20,000 places."""
    (panel,) = panels_of(strips(*widths, length=length))
    found = bars(panel, [PIPE] * count, WANTED, 18.0)
    places = places_of(panel, found)
    for seam, line in zip(panel.seams, pressures_of(panel, found, places, WANTED, 18.0)):
        assert line.mean * line.area == pytest.approx(sum(p.force for p in places))
        assert line.least <= line.mean + 1e-9
        x = np.linspace(seam.low, seam.high, 20_000)
        depth = [min(seam.across - p.foot, p.head - seam.across) + 18.0 for p in places]
        held = np.any([np.abs(x - a) <= 20.0 + d for a, d in zip(found.along, depth)], axis=0)
        assert line.reached == pytest.approx(float(held.mean()), abs=1e-3)


def test_the_bell_is_the_one_that_is_named() -> None:
    """One clamp in the middle: the pressure there over that at z beside it is 2^2.5, and at the ends by the same law.
    ∫(1 + u²)^−2.5 du over all u is 4/3 (any table of integrals), so a long seam gets F · 3 / (4 z t) in the middle."""
    (panel,) = panels_of(strips(50, 50, length=2000.0))
    found = bars(panel, [PIPE], (0.7, 1e9), 0.0)
    (line,) = pressures_of(panel, found, places_of(panel, found), (0.7, 1e9), 0.0)
    middle = 4670 * 3 / (4 * 50 * 45)
    assert line.least == pytest.approx(middle * (1 + 20.0**2) ** -2.5, rel=2e-2)
