# SPDX-License-Identifier: LGPL-2.1-or-later

"""Directed segments into areas, against unions and differences by shapely (GEOS)."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.layers import loops
from freecad_stacklam.lamination.layers.loops import fill, fill_all, winding
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import GRID


def chain(*rings) -> tuple[np.ndarray, np.ndarray]:
    """Segments of closed rings, each running as it is given."""
    start = np.vstack([np.asarray(r, dtype=float) for r in rings])
    end = np.vstack([np.roll(np.asarray(r, dtype=float), -1, axis=0) for r in rings])
    return start, end


def box(x0: float, y0: float, x1: float, y1: float) -> list[tuple[float, float]]:
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


boxes = st.tuples(st.integers(0, 60), st.integers(0, 60), st.integers(1, 50), st.integers(1, 50))


@given(st.lists(boxes, min_size=1, max_size=7), st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_boxes_over_each_other_are_their_union(sizes, order) -> None:
    """On a grid of 0.1 mm, so that many share edges and corners; the segments in any order."""
    rings = [box(x / 10, y / 10, (x + a) / 10, (y + b) / 10) for x, y, a, b in sizes]
    start, end = chain(*rings)
    mixed = list(range(len(start)))
    order.shuffle(mixed)
    found = fill(start[mixed], end[mixed])
    wanted = shapely.union_all([shapely.Polygon(r) for r in rings])
    assert found.is_valid
    assert found.symmetric_difference(wanted).area <= 1e-6


@given(st.lists(boxes, min_size=1, max_size=5), st.lists(boxes, min_size=1, max_size=3))
@settings(max_examples=30, deadline=None)
def test_what_winds_once_less_is_taken_away(wood, air) -> None:
    """Wood counts +1 and air −1: what is left is where more wood than air lies, counted by shapely's faces."""
    ways = [(box(x, y, x + a, y + b), 1) for x, y, a, b in wood]
    ways += [(box(x, y, x + a, y + b)[::-1], -1) for x, y, a, b in air]
    found = fill(*chain(*[ring for ring, _ in ways]))
    lines = shapely.union_all([shapely.LinearRing(ring) for ring, _ in ways])
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(lines)))
    kept = [f for f in faces if sum(w for r, w in ways if shapely.Polygon(r).contains(f.representative_point())) > 0]
    assert found.area == pytest.approx(sum(f.area for f in kept), abs=1e-6)
    assert shapely.symmetric_difference(found, shapely.union_all(kept)).area <= 1e-6


def test_rings_in_rings() -> None:
    """A target of five rings about one middle: wood, hole, wood, hole, wood."""
    radii = [100.0, 80.0, 60.0, 40.0, 20.0]
    rings = [shapely.get_coordinates(shapely.Point(0, 0).buffer(r, quad_segs=32).exterior)[:-1] for r in radii]
    ways = [r if shapely.LinearRing(r).is_ccw == (i % 2 == 0) else r[::-1] for i, r in enumerate(rings)]
    found = fill(*chain(*ways))
    assert [len(p.interiors) for p in sorted(found.geoms, key=lambda p: -p.area)] == [1, 1, 0]
    wanted = sum((-1) ** i * shapely.Polygon(r).area for i, r in enumerate(rings))
    assert found.area == pytest.approx(wanted, rel=1e-6)


def test_a_figure_of_eight_keeps_the_side_that_turns_left() -> None:
    """The bow (0, 0) → (10, 10) → (10, 0) → (0, 10) crosses itself at (5, 5). Its left wing (0, 0), (5, 5), (0, 10) has
    the signed area +25 (shoelace), its right wing −25."""
    found = fill(*chain([(0, 0), (10, 10), (10, 0), (0, 10)]))
    assert found.area == pytest.approx(25.0)
    assert found.symmetric_difference(shapely.Polygon([(0, 0), (5, 5), (0, 10)])).area <= 1e-6


def test_lines_there_and_back_are_nothing() -> None:
    to_and_fro = np.array([[0.0, 0], [5, 5], [5, 5], [0, 0]])
    assert fill(to_and_fro[::2], to_and_fro[1::2]).is_empty
    start, end = chain(box(0, 0, 10, 10))
    hair_start, hair_end = np.array([[10.0, 10], [14, 12]]), np.array([[14.0, 12], [10, 10]])
    found = fill(np.vstack([start, hair_start]), np.vstack([end, hair_end]))
    assert found.area == pytest.approx(100.0)
    assert fill(np.empty((0, 2)), np.empty((0, 2))).is_empty


def test_ends_within_half_a_cell_of_the_grid_meet_and_others_do_not() -> None:
    start, end = chain(box(0, 0, 10, 10))
    assert fill(start, end + 0.4 * GRID).area == pytest.approx(100.0, abs=1e-2)
    end[1] += (0.0, 5 * GRID)
    with pytest.raises(Refusal, match="torn"):
        fill(start, end)


def test_chains_filled_together_are_those_filled_alone() -> None:
    rings = [box(0, 0, 10, 10), box(-7, 3, 4, 9), box(0, 0, 10, 10)[::-1], box(5, 5, 6, 30)]
    parts = [chain(r) for r in rings]
    owner = np.repeat(np.arange(4), 4)
    mixed = np.random.default_rng(1).permutation(16)
    together = fill_all(
        owner[mixed], np.vstack([p[0] for p in parts])[mixed], np.vstack([p[1] for p in parts])[mixed], 5
    )
    assert [a.area for a in together] == pytest.approx([100.0, 66.0, 0.0, 25.0, 0.0])
    for area, ring in zip(together, rings):
        assert area.is_empty or area.equals(shapely.MultiPolygon([shapely.Polygon(ring)]))


@given(st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=3, max_size=9))
@settings(max_examples=40, deadline=None)
def test_winding_is_the_sum_of_angles(corners) -> None:
    """The winding number is the whole turns of the direction from the point to the chain (its definition), however the
    chain crosses itself."""
    start, end = chain(corners)
    for point in np.array([[0.1, 0.2], [13.3, -7.1], [70.0, 0.0]]):
        if shapely.distance(shapely.Point(point), shapely.MultiLineString(list(zip(start, end)))) < 1e-3:
            continue
        a, b = start - point, end - point
        turn = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1)).sum() / (2 * np.pi)
        assert winding(point[None], start, end)[0] == round(turn)


def test_winding_is_the_same_in_blocks_and_where_points_lie_level_with_corners(monkeypatch) -> None:
    """A star {7/3} goes round its middle three times, and twice and once round the rings of faces about it."""
    turns = 2 * np.pi * 3 * np.arange(7) / 7
    start, end = chain(np.column_stack([10 * np.cos(turns), 10 * np.sin(turns)]))
    level = np.array([[0.0, 0.0], [start[1, 0] * 0.99, start[1, 1] * 0.99], [20.0, start[2, 1]], [-20.0, start[2, 1]]])
    scattered = np.random.default_rng(3).uniform(-11, 11, (500, 2))
    points = np.vstack([level, scattered])
    whole = winding(points, start, end)
    assert whole[:4].tolist() == [3, 1, 0, 0]
    for point, count in zip(scattered[:60], whole[4:]):
        a, b = start - point, end - point
        angle = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1)).sum()
        assert count == round(angle / (2 * np.pi))
    monkeypatch.setattr(loops, "_MOST_PAIRS", 90)
    assert (winding(points, start, end) == whole).all()


def test_a_chain_that_comes_back_to_a_point_beside_one_that_does_not() -> None:
    """Two squares that share a corner, walked as one eight, and a square by itself: 100 + 25 + 16 mm²."""
    eight = np.array([[0, 0], [10, 0], [10, 10], [15, 10], [15, 15], [10, 15], [10, 10], [0, 10]], dtype=float)
    spiked = np.array([[30, 0], [34, 0], [34, 4], [36, 6], [34, 4], [30, 4]], dtype=float)  # out to (36, 6) and back
    parts = [chain(eight), chain(spiked)]
    area = fill(*(np.vstack(ends) for ends in zip(*parts)))
    assert sorted(p.area for p in area.geoms) == pytest.approx([16.0, 25.0, 100.0])
    assert area.is_valid


def test_a_form_in_the_wrong_unit_is_refused() -> None:
    with pytest.raises(Refusal, match="more than 200 m wide: check its unit"):
        fill(*chain(box(0, 0, 300_000, 10)))
