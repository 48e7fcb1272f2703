# SPDX-License-Identifier: LGPL-2.1-or-later

"""The elevation of the stepped block, read back from its page."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plans import plant_stand

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.carving.elevationsheet import profile_lines, spread
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Circle, Sheet, Text
from freecad_stacklam.lamination.plan.carving import CarvingPlan, Elevation, ElevationCorner


def pages(units: str = "mm", paper: str = "A4") -> list[Sheet]:
    plan = plant_stand(units)
    stack = next(s for s in plan.stacks if s.name == "Pedestal")
    count = len(stack.layers)
    blanks = tuple(((-200.0 + 8 * k, 190.0 - 8 * k),) for k in range(count))
    profile = tuple((layer.bottom, ((-180.0, 170.0),)) for layer in stack.layers)
    corners = tuple(
        ElevationCorner(low.number, low.top, side, sign * (190 - 8 * k), sign * (182 - 8 * k), 12.39 + k, 4.39)
        for k, low in enumerate(stack.layers[:-1])
        for side, sign in (("left", -1.0), ("right", 1.0))
    )
    views = tuple(Elevation("Pedestal", side, blanks, profile, corners) for side in ("front", "right"))
    plan = replace(plan, carving=CarvingPlan(elevations=views, removed=()))
    sheets = drawing_book(plan, paper_named(paper), units)
    return [s for s in sheets if s.kind == "carving" and "elevation" in s.title]


@pytest.mark.parametrize(("units", "paper", "figures"), [
    # 12.39 and 4.39 mm are rounded down: 12.3 and 4.3; in 1/32 in 0.4878 is 15.6 → 15/32, 0.1728 is 5.53 → 5/32.
    ("mm", "A4", ("12.3", "4.3")), ("in", "Letter", ("15/32", "5/32")),
])  # fmt: skip
def test_figures_stand_at_the_glue_line_and_are_rounded_down(units: str, paper: str, figures: tuple[str, str]) -> None:
    sheets = pages(units, paper)
    words = [m for s in sheets for m in s.marks if isinstance(m, Text)]
    stack = next(s for s in plant_stand(units).stacks if s.name == "Pedestal")
    lines = len(stack.layers) - 1
    # Two views, two sides.
    assert sum(m.text == figures[0] for m in words) == 4
    assert sum(m.text == figures[1] for m in words) == 4 * lines
    assert sum(isinstance(m, Circle) for s in sheets for m in s.marks) == 4 * lines
    assert {"from the front", "from the right"} <= {m.text for m in words}


def test_the_profile_parts_where_pieces_part() -> None:
    view = Elevation("A", "front", (), ((0.0, ((0, 10), (20, 30))), (5.0, ((1, 11), (19, 29))), (9.0, ((2, 28),)),
                                        (12.0, ((3, 27),))), ())  # fmt: skip
    lines = profile_lines(view)
    assert [(0, 0.0), (1, 5.0)] in lines
    assert [(2, 9.0), (3, 12.0)] in lines
    assert [(2, 9.0), (28, 9.0)] in lines
    assert [(3, 12.0), (27, 12.0)] in lines


def test_rows_of_figures_keep_apart() -> None:
    assert spread([0.0, 1.0, 9.0], 3.0, 0.0, 20.0) == [0.0, 3.0, 9.0]
    assert spread([8.0, 9.0, 10.0], 3.0, 0.0, 10.0) == [4.0, 7.0, 10.0]
    assert spread([], 3.0, 0.0, 10.0) == []
