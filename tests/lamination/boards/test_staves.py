# SPDX-License-Identifier: LGPL-2.1-or-later

"""Staves against shapely: what they cover, how long they are, and where their seams lie."""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter

import islands
import numpy as np
import plans
import pytest
import shapely
from shapely import affinity
from shapely.geometry import MultiPolygon, Point, Polygon

from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.boards.cutcheck import blank_faults
from freecad_stacklam.lamination.boards.staves import groups_of, plan_staves
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon, rectangle, straight
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()


def board(width: float, length: float = 3000.0, thickness: float = 48.0, species: str = "white oak") -> Board:
    return Board(f"B{width:g}", width, length, thickness, species)


def stack_of(*blanks: Polygon | MultiPolygon, grain: float = 0.0, cuts: tuple[Cut, ...] = ()) -> StackPlan:
    layers = [replace(plans.layer_of(i + 1, 45.0 * i, 45.0 * (i + 1), [Point(0, 0).buffer(50)], cuts), grain=grain,
                      blank=tuple(straight(p) for p in shapely.get_parts(b)), blank_area=b.area)
              for i, b in enumerate(blanks)]  # fmt: skip
    return replace(plans.plant_stand().stacks[0], name="Body", layers=tuple(layers))


def covers(stack: StackPlan, staves: tuple, layer: LayerPlan) -> float:
    """Area of the blank left bare, by shapely."""
    mine = [Polygon(s.region) for s in staves if s.layer == layer.number]
    return float(area_polygon(layer.blank).difference(shapely.union_all([m.buffer(1e-4) for m in mine])).area)


@pytest.mark.parametrize("grain", [0.0, 30.0, 90.0])
@pytest.mark.parametrize("widest", [110.0, 190.0])
def test_staves_cover_every_blank_and_lie_side_by_side(grain: float, widest: float) -> None:
    stand = plans.plant_stand()
    boards = [board(widest), board(90.0), board(widest, thickness=32.0)]
    for stack in stand.stacks:
        stack = replace(stack, layers=tuple(replace(n, grain=grain) for n in stack.layers))
        found = plan_staves(stack, boards, SHOP)
        for layer in stack.layers:
            assert covers(stack, found.staves, layer) < 0.01
            mine = [s for s in found.staves if s.layer == layer.number]
            assert blank_faults(mine, area_polygon(layer.blank), "layer") == []
            for s in mine:
                # Ripped with its jointing, it fits the widest board; its sides are the region's own.
                assert s.width + SHOP.jointing * s.glued_edges <= widest + 1e-6
                corners = np.array(s.region)
                sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
                assert sides == pytest.approx([s.length, s.width] * 2)
                along = (corners[1] - corners[0]) / s.length
                assert np.degrees(np.arctan2(along[1], along[0])) == pytest.approx(grain)


def test_a_blank_that_fits_a_board_stays_in_one_piece() -> None:
    found = plan_staves(stack_of(Polygon([(0, 0), (400, 0), (400, 180), (0, 180)])), [board(185.0)], SHOP)
    assert [(s.id, s.glued_edges) for s in found.staves] == [("Body 1 a", 0)]
    assert found.staves[0].length == pytest.approx(400 + 2 * SHOP.stave_trim, abs=0.1)
    assert found.staves[0].width == pytest.approx(180.0, abs=0.1)


def test_each_stave_is_only_as_long_as_the_outline_needs_in_its_width() -> None:
    """A disc: for every stave the length is the disc's widest chord within it, worked by hand."""
    radius = 180.0
    found = plan_staves(stack_of(Point(0, 0).buffer(radius, quad_segs=720)), [board(120.0)], SHOP)
    assert len(found.staves) >= 4
    for s in found.staves:
        low, high = s.region[0][1], s.region[2][1]
        nearest = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
        assert s.length == pytest.approx(2 * np.sqrt(radius**2 - nearest**2) + 2 * SHOP.stave_trim, abs=0.1)
    wood = sum(s.width * s.length for s in found.staves)
    assert wood < 0.95 * (2 * radius) ** 2  # less than the square around it


def test_a_stave_is_parted_where_the_outline_leaves_a_gap() -> None:
    """A U of two 80 mm arms 440 mm apart: the arms' staves do not run through the gap."""
    u = Polygon([(0, 0), (600, 0), (600, 300), (520, 300), (520, 120), (80, 120), (80, 300), (0, 300)])
    found = plan_staves(stack_of(u), [board(130.0)], SHOP)
    arms = [s for s in found.staves if s.region[0][1] > 115]
    assert len(arms) >= 2
    assert all(s.length == pytest.approx(80 + 2 * SHOP.stave_trim, abs=0.1) for s in arms)
    assert {round(s.region[0][0]) for s in arms} == {-5, 515}


def test_islands_are_covered_one_by_one() -> None:
    legs = MultiPolygon([shapely.box(x, y, x + 70, y + 70) for x in (0, 800) for y in (0, 440)])
    found = plan_staves(stack_of(legs), [board(120.0)], SHOP)
    assert len(found.staves) == 4
    assert all(s.length == pytest.approx(70 + 2 * SHOP.stave_trim, abs=0.1) for s in found.staves)


def test_seams_are_staggered_over_the_layer_below() -> None:
    square = Polygon([(-200, -200), (200, -200), (200, 200), (-200, 200)])
    found = plan_staves(stack_of(square, square, square, square), [board(150.0)], SHOP)
    assert found.conflicts == ()
    seams = {n: sorted({round(s.region[0][1], 3) for s in found.staves if s.layer == n})[1:] for n in (1, 2, 3, 4)}
    for n in (2, 3, 4):
        widths = [s.width for s in found.staves if s.layer == n]
        apart = min(abs(a - b) for a in seams[n] for b in seams[n - 1])
        assert apart >= min(SHOP.stagger, min(widths) / 4) - 1e-6


def test_seams_of_crossing_grains_need_no_stagger() -> None:
    square = Polygon([(-150, -150), (150, -150), (150, 150), (-150, 150)])
    stack = stack_of(square, square)
    stack = replace(stack, layers=(stack.layers[0], replace(stack.layers[1], grain=90.0)))
    found = plan_staves(stack, [board(155.0)], replace(SHOP, max_stave=155.0, stagger=100.0))
    assert found.conflicts == ()


def test_no_seam_runs_through_a_mortise() -> None:
    square = Polygon([(-140, -140), (140, -140), (140, 140), (-140, 140)])
    cut = Cut("mortise", rectangle(40.0, 40.0), 0.0, 45.0, "joint")
    found = plan_staves(stack_of(square, cuts=(cut,)), [board(150.0)], SHOP)
    assert found.conflicts == ()
    seams = [s.region[0][1] for s in found.staves[1:]]
    assert seams and all(abs(v) >= 20 + SHOP.seam_margin - 1e-6 for v in seams)


def test_what_cannot_be_kept_is_reported() -> None:
    """A mortise 240 mm across leaves a 280 mm blank of 150 mm boards no place for a seam beside it."""
    square = Polygon([(-140, -140), (140, -140), (140, 140), (-140, 140)])
    cut = Cut("mortise", rectangle(240.0, 240.0), 0.0, 45.0, "joint")
    found = plan_staves(stack_of(square, cuts=(cut,)), [board(150.0)], SHOP)
    assert found.conflicts
    assert all("mortise" in c.says for c in found.conflicts)
    # Two staves of 133 to 147 mm: their seams cannot be 35 mm apart.
    wide = replace(SHOP, stagger=400.0, min_stave=120.0)
    stacked = plan_staves(stack_of(square, square), [board(150.0)], wide)
    assert [c.layer for c in stacked.conflicts if "layer below" in c.says] == [2]


def test_no_slivers() -> None:
    for width in np.linspace(150.0, 460.0, 17):
        blank = Polygon([(0, 0), (500, 0), (500, width), (0, width)])
        found = plan_staves(stack_of(blank), [board(140.0), board(100.0)], SHOP)
        assert min(s.width for s in found.staves) >= SHOP.min_stave - 1e-6
        assert found.conflicts == ()


def test_turning_the_piece_with_its_grain_changes_nothing() -> None:
    blank = plans.lobed(150.0, 0.2)
    plain = plan_staves(stack_of(blank), [board(120.0)], SHOP).staves
    turned = plan_staves(stack_of(affinity.rotate(blank, 40.0, origin=(0, 0)), grain=40.0), [board(120.0)], SHOP).staves
    assert [s.width for s in turned] == pytest.approx([s.width for s in plain], abs=0.01)
    assert [s.length for s in turned] == pytest.approx([s.length for s in plain], abs=0.01)


def test_a_body_takes_a_blink() -> None:
    stack = plans.plant_stand().stacks[0]
    boards = [board(w) for w in (150.0, 120.0, 180.0)]
    plan_staves(stack, boards, SHOP)
    start = perf_counter()
    plan_staves(stack, boards, SHOP)
    assert perf_counter() - start < 2.0  # 0.1 s on a quiet machine


@pytest.mark.parametrize(
    ("boards", "says"),
    [
        ([board(150.0, thickness=40.0)], "Body 1 needs 45 mm white oak, but the thickest board is 40 mm, 5 mm short"),
        ([board(150.0, thickness=60.0)], "the thinnest board that reaches it is 60 mm, 15 mm to plane away"),
        ([board(150.0, species="walnut")], "no board on the rack is of that species"),
        ([board(150.0, length=390.0)], "the longest board of that width has 340 mm between its end trims, 70 mm short"),
        ([board(3.0)], "leaves nothing after jointing"),
    ],
)
def test_boards_that_cannot_serve_are_refused_by_name(boards: list[Board], says: str) -> None:
    blank = Polygon([(0, 0), (400, 0), (400, 200), (0, 200)])
    with pytest.raises(Refusal) as refused:
        plan_staves(stack_of(blank), boards, SHOP)
    assert says in str(refused.value)


def test_without_boards_staves_are_as_wide_as_the_shop_makes_them() -> None:
    blank = Polygon([(0, 0), (400, 0), (400, 200), (0, 200)])
    found = plan_staves(stack_of(blank), [], replace(SHOP, max_stave=110.0))
    assert len(found.staves) == 2
    assert max(s.width for s in found.staves) <= 110.0


def test_the_staves_of_an_island_inside_another_do_not_run_over_its_wood() -> None:
    """The post in the pocket: each island cut alone, the post's staves would lie in one place with the pocket's."""
    stack = islands.pocket_and_post()
    staves = plan_staves(stack, [board(300.0, 2000.0, 30.0)], SHOP).staves
    for layer in stack.layers:
        mine = [s for s in staves if s.layer == layer.number]
        assert blank_faults(mine, area_polygon(layer.blank), "layer") == []
    assert len(staves) == 2  # the board is wide enough for each blank whole


def test_islands_are_grouped_until_no_two_boxes_overlap() -> None:
    """Three squares in a row, 8 mm between the first two: trimmed 5 mm they meet; the third stands 30 mm off."""
    row = MultiPolygon([shapely.box(x, 0, x + 50, 50) for x in (0, 58, 138)])
    assert [g.bounds for g in groups_of(row, 5.0)] == [(0, 0, 108, 50), (138, 0, 188, 50)]
    # A box that only overlaps when two others are one: both arms of an L, and what stands in its corner.
    corner = MultiPolygon([shapely.box(0, 0, 20, 100), shapely.box(15, 110, 100, 130), shapely.box(50, 50, 80, 80)])
    assert [g.bounds for g in groups_of(corner, 5.5)] == [(0, 0, 100, 130)]


def test_near_islands_that_no_board_takes_together_are_parted_between_them() -> None:
    """Two bars 700 × 60 with 8 mm between their ends, boards with 1000 mm between their trims: two staves, and neither
    lies on the other."""
    bars = MultiPolygon([shapely.box(0, 0, 700, 60), shapely.box(708, 0, 1408, 60)])
    staves = plan_staves(stack_of(bars), [board(120.0, 1050.0)], SHOP).staves
    assert [s.length for s in staves] == pytest.approx([709.0, 709.0], abs=0.1)
    assert blank_faults(staves, bars, "layer") == []


@pytest.mark.parametrize("seed", range(30))
def test_islands_in_and_beside_each_other_are_planned_from_any_rack(seed: int) -> None:
    stack, rack = islands.case(seed)
    plan = boards_for([stack], rack, SHOP)
    assert plan.plan
    for layer in stack.layers:
        strips = [Polygon(s.region) for s in plan.staves if s.layer == layer.number]
        assert covers(stack, plan.staves, layer) < 0.5
        assert sum(s.area for s in strips) == pytest.approx(shapely.union_all(strips).area, abs=0.5)
