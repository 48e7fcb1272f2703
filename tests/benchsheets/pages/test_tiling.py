# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tilings: every line is on some page, neighbours share their crosses, empty pages are left out."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import MultiLineString, Point

from freecad_stacklam.benchsheets.drawing.lines import clipped, turned
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for
from freecad_stacklam.benchsheets.pages.tiling import OVERLAP, Tiling, registration_points, tile
from freecad_stacklam.lamination.refusal import Refusal

AXIS = Point(0, 0)


def outline(width: float, height: float, x: float = 0.0, y: float = 0.0) -> MultiLineString:
    box = shapely.box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    return MultiLineString([box.exterior])


def a4(drawing: MultiLineString) -> Tiling:
    return tile(drawing, spaces_for(paper_named("A4")), AXIS)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(20, 1500),
    st.floats(20, 1500),
    st.floats(-300, 300),
    st.floats(-300, 300),
    st.sampled_from(["A4", "Letter", "A3"]),
)
def test_every_line_is_on_a_page(width: float, height: float, x: float, y: float, name: str) -> None:
    drawing = outline(width, height, x, y)
    tiling = tile(drawing, spaces_for(paper_named(name)), AXIS)
    lying = turned(drawing, tiling.turn)
    windows = shapely.union_all([shapely.box(*t.window) for t in tiling.tiles])
    assert shapely.difference(lying, windows).length < 1e-6
    cells = shapely.union_all([shapely.box(*t.cell) for t in tiling.tiles])
    # Outside the cells there is only what lies in the outer half overlap of a page on the rim.
    outside = shapely.difference(lying, shapely.buffer(cells, OVERLAP / 2 + 1e-6, join_style="mitre"))
    assert outside.length < 1e-6
    drawn = sum(shapely.LineString(c).length for t in tiling.tiles for c in clipped(lying, t.window))
    assert drawn >= lying.length - 1e-6


def test_neighbours_have_the_same_crosses_and_overlap() -> None:
    tiling = a4(outline(700, 500))
    by_place = {(t.row, t.column): t for t in tiling.tiles}
    pairs = 0
    for (row, column), spot in by_place.items():
        for other in (by_place.get((row, column + 1)), by_place.get((row + 1, column))):
            if other is None:
                continue
            pairs += 1
            mine = {tuple(np.round(p, 9)) for p in registration_points(tiling, spot)[0]}
            theirs = {tuple(np.round(p, 9)) for p in registration_points(tiling, other)[0]}
            shared = mine & theirs
            assert len(shared) == 2
            both = shapely.intersection(shapely.box(*spot.window), shapely.box(*other.window))
            x0, y0, x1, y1 = both.bounds
            assert min(x1 - x0, y1 - y0) == pytest.approx(OVERLAP)
            for x, y in shared:  # five millimetres of arm on every side
                assert x0 + 5 < x < x1 - 5 or y0 + 5 < y < y1 - 5
                assert both.contains(Point(x, y).buffer(5))
    assert pairs >= 6
    assert 10.0 <= OVERLAP <= 12.0


def test_what_fits_one_page_takes_one() -> None:
    frame = drawing_space(paper_named("A4"))
    assert [t.name for t in a4(outline(frame.width - 4, frame.height - 4)).tiles] == ["A1"]
    lying = a4(outline(frame.height - 5, frame.width - 5))
    assert len(lying.tiles) == 1


def test_empty_pages_are_left_out_but_the_rest_hangs_together() -> None:
    frame = MultiLineString([shapely.box(-500, -500, 500, 500).exterior])
    tiling = a4(frame)
    assert len(tiling.tiles) < tiling.rows * tiling.columns
    islands = MultiLineString([*outline(60, 60, -450, -450).geoms, *outline(60, 60, 450, 450).geoms])
    held = a4(islands)
    places = {(t.row, t.column) for t in held.tiles}
    reached, todo = set(), [next(iter(places))]
    while todo:
        row, column = todo.pop()
        reached.add((row, column))
        near = {(row + 1, column), (row - 1, column), (row, column + 1), (row, column - 1)}
        todo += [p for p in near if p in places and p not in reached]
    assert reached == places
    # Two corners of a grid are joined by rows + columns - 1 pages at least.
    assert len(places) == held.rows + held.columns - 1


def test_the_page_turns_for_fewer_tiles() -> None:
    frame = drawing_space(paper_named("A4"))
    long = outline(frame.height * 1.9 - OVERLAP, frame.width - 10)
    assert len(a4(long).tiles) == 2
    standing = tile(long, (frame,), AXIS)
    assert standing.turn == 90.0
    assert len(tile(outline(100, 100), spaces_for(paper_named("A4 landscape")), AXIS).tiles) == 1


def test_a_roll_is_cut_to_length() -> None:
    tiling = tile(outline(1500, 400), spaces_for(paper_named("roll 610mm")), AXIS)
    assert len(tiling.tiles) == 1
    assert tiling.turn == 90.0
    assert tiling.paper.width == 610
    assert 1500 < tiling.paper.height < 1600


def test_joins_keep_off_the_axis() -> None:
    tiling = a4(outline(320, 300))
    edges = [v for t in tiling.tiles for trim in registration_points(tiling, t)[1] for v in [trim.level]]
    assert edges
    assert min(abs(v) for v in edges) >= 8.0


def test_too_many_pages_are_refused() -> None:
    with pytest.raises(Refusal, match="choose a larger paper or a roll") as refused:
        a4(outline(9000, 9000))
    assert " mm × " in str(refused.value) and " mm" not in refused.value.told("in")
