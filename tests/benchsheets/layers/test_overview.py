# SPDX-License-Identifier: LGPL-2.1-or-later

"""The overview of a stack."""

from __future__ import annotations

import numpy as np
import pytest
from plans import SIDE, plant_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline
from freecad_stacklam.benchsheets.layers.overview import overview_sheet


@pytest.mark.parametrize("number", [0, 1])
def test_a_mortise_is_drawn_as_wide_as_it_is_cut(number: int) -> None:
    plan = plant_stand()
    stack = plan.stacks[number]
    sheet = overview_sheet(book_of(plan, paper_named("A4")), stack)
    drawn = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "hidden" and m.closed]
    assert len(drawn) == 2  # from the front and from the right
    assert sheet.scale is not None
    cuts = [cut for layer in stack.layers for cut in layer.cuts if cut.joint]
    high = max(c.end for c in cuts) - min(c.start for c in cuts)
    for points in drawn:
        wide, tall = np.ptp(points, axis=0) / sheet.scale
        assert (wide, tall) == (pytest.approx(SIDE), pytest.approx(high))
