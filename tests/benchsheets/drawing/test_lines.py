# SPDX-License-Identifier: LGPL-2.1-or-later

"""Hatches and their samples."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import box

from freecad_stacklam.benchsheets.drawing.lines import hatched, sample
from freecad_stacklam.benchsheets.drawing.sheet import Polyline


@pytest.mark.parametrize("falling", [False, True])
def test_a_hatch_keeps_to_its_area_with_even_strokes(falling: bool) -> None:
    area = box(10, 20, 50, 60).difference(box(20, 30, 40, 50))
    strokes = hatched(area, 2.0, falling)
    assert area.buffer(1e-9).contains(strokes)
    # Strokes 2 mm apart over an area A are A/2 mm long in all.
    assert strokes.length == pytest.approx(area.area / 2.0, rel=0.03)
    for part in strokes.geoms:
        (x0, y0), (x1, y1) = np.array(part.coords)[[0, -1]]
        assert (y1 - y0) / (x1 - x0) == pytest.approx(-1.0 if falling else 1.0)


def test_a_sample_of_a_hatch_is_strokes_and_of_a_line_the_line() -> None:
    (line,) = sample("cut", (5.0, 6.0), 14.0)
    assert isinstance(line, Polyline) and line.points == ((5.0, 6.0), (19.0, 6.0))
    strokes = sample("little wood", (5.0, 6.0), 14.0)
    assert len(strokes) > 5
    assert all(isinstance(s, Polyline) and s.pen == "little wood" for s in strokes)
