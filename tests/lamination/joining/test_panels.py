# SPDX-License-Identifier: LGPL-2.1-or-later

"""Panels of staves: lengths of seams against shapely, clamps by 45° cones (common practice, no source): a pad of 25 mm
on 38 mm of wood covers 101 mm, so 360 mm, 40 mm in from each end, want 3 spaces and 4 clamps."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from blocks import strips

from freecad_stacklam.lamination.joining.panels import clamps_along, panels_of


def test_clamps_along_a_seam_by_cones() -> None:
    # Cones of 25 + 2 · 38 = 101 mm; 360 − 2 · 40 = 280 mm are three spaces: four clamps.
    assert clamps_along(360, 101, 40) == 4
    assert [clamps_along(length, 101, 45) for length in (60, 90, 91, 191, 192)] == [1, 1, 2, 2, 3]


@pytest.mark.parametrize("grain", [0.0, 90.0, 37.0])
def test_seams_of_a_panel_are_where_its_staves_touch(grain: float) -> None:
    staves = strips(120, 90, 130, grain=grain)
    (panel,) = panels_of(staves)
    regions = [shapely.Polygon(s.region) for s in staves]
    touching = sum(a.buffer(0.01).intersection(b).length / 2 for a, b in zip(regions[:-1], regions[1:]))
    assert sum(s.length for s in panel.seams) == pytest.approx(touching, rel=1e-3)
    assert panel.area == pytest.approx(2 * 600 * 45)
    assert panel.width == pytest.approx(340)
    assert [s.across for s in panel.seams] == pytest.approx([120, 210])


def test_islands_of_a_layer_are_panels_of_their_own_and_single_staves_are_none() -> None:
    one, two = strips(100, 100), strips(80, 80, 80)
    apart = [replace(s, id=f"{s.id}x", region=tuple((x + 2000, y) for x, y in s.region)) for s in two]
    lone = replace(one[0], id="lone", region=tuple((x - 2000, y) for x, y in one[0].region))
    spare = replace(one[0], id="spare", stack="")
    assert [len(p.staves) for p in panels_of([*one, *apart, lone, spare])] == [2, 3]


def test_the_shorter_stave_decides_its_seam_and_where_the_jaws_stand() -> None:
    """A round blank: its outer staves are shorter, so a bar near the end bears on the inner ones."""
    outer, middle = strips(100, 100)[0], strips(100, 100, length=1000.0)[1]
    outer = replace(outer, region=((200, 0), (800, 0), (800, 100), (200, 100)))
    (panel,) = panels_of([outer, middle])
    (seam,) = panel.seams
    assert (seam.low, seam.high) == (200, 800)
    assert panel.jaws(500) == (0, 200)
    assert panel.jaws(50) == (100, 200)
