# SPDX-License-Identifier: LGPL-2.1-or-later

"""Seams of one island, against figures by hand."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPolygon, Point, Polygon

from freecad_stacklam.lamination.boards.seams import Island, Stock
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import STAVE_OVER

SHOP = ShopSettings(min_stave=40.0, max_stave=150.0, stagger=25.0, seam_margin=8.0, jointing=1.5, stave_trim=5.0)
WIDE = Stock((100.0,), (2000.0,))


def island(
    shape: Polygon, stock: Stock = WIDE, shop: ShopSettings = SHOP, off: tuple[Polygon, ...] = (),
    below: tuple[tuple[float, float, float, float], ...] = (),
) -> Island:  # fmt: skip
    return Island(shape, [MultiPolygon([o]) for o in off], below, stock, shop, "Layer 3")


def test_as_few_staves_as_the_boards_allow() -> None:
    """A rectangle 300 wide and boards 100 wide, jointed 1.5 on both edges: 97 each, so four."""
    places = island(shapely.box(0, 0, 600, 300)).seams()
    assert len(places) == 5
    assert (places[0], places[-1]) == pytest.approx((-STAVE_OVER, 300.0 + STAVE_OVER))
    widths = [b - a for a, b in zip(places, places[1:])]
    assert max(widths) <= 97.0 + 1e-9
    assert min(widths) >= 40.0 - 1e-9


def test_one_more_seam_must_save_its_wood() -> None:
    """A C of 600 × 300 mm, 45 mm thick, its middle third only 200 mm long; boards 218 mm wide give two staves of 106 mm
    or one of 156. Two staves take 2 · 600 · 221 mm² of board, three 1400 · 110.5: 110 000 mm², 5 l; of their own width
    with kerf and jointing 187 000 against 148 000 mm², 1.7 l. So 1 l is saved and 6 l are not."""
    shape = Polygon([(0, 0), (600, 0), (600, 100), (200, 100), (200, 200), (600, 200), (600, 300), (0, 300)])
    stock = Stock((218.0,), (2000.0,), 45.0)
    shop = replace(SHOP, max_stave=160.0, kerf=3.0)
    assert len(island(shape, stock, replace(shop, seam_worth=1e6)).seams()) == 4
    assert len(island(shape, stock, replace(shop, seam_worth=6e6)).seams()) == 3


def test_one_board_takes_it_whole() -> None:
    one = island(shapely.box(0, 0, 600, 99.0))
    assert one.one_piece()
    assert one.seams() == pytest.approx([-STAVE_OVER, 99.0 + STAVE_OVER])
    short = island(shapely.box(0, 0, 1995.0, 99.0))  # 5 mm trim at each end makes it 2005 mm long
    assert not short.one_piece()


@settings(max_examples=40, deadline=None)
@given(st.floats(120, 700), st.floats(60, 200), st.floats(30, 60))
def test_staves_are_never_wider_than_their_board(width: float, board: float, least: float) -> None:
    shop = replace(SHOP, min_stave=least)
    made = island(shapely.box(0, 0, 500, width), Stock((board,), (2000.0,)), shop)
    strips = made.strips(made.seams())
    for u0, u1, v0, v1, glued in strips:
        assert v1 - v0 + glued * shop.jointing <= board + 1e-6
        assert (u0, u1) == pytest.approx((-5.0 - STAVE_OVER, 505.0 + STAVE_OVER))
    covered = shapely.union_all([shapely.box(u0, v0, u1, v1) for u0, u1, v0, v1, _ in strips])
    assert covered.buffer(1e-6).contains(shapely.box(0, 0, 500, width))


def test_no_seam_at_a_mortise() -> None:
    mortise = shapely.box(280, 130, 320, 170)
    made = island(shapely.box(0, 0, 600, 300), off=(mortise,))
    assert all(not 122.0 < v < 178.0 for v in made.seams()[1:-1])


def test_seams_stand_off_those_below() -> None:
    """Least of the stagger and a quarter of the narrower stave beside the seam."""
    below = tuple((0.0, v, 0.0, 600.0) for v in (75.0, 150.0, 225.0))
    made = island(shapely.box(0, 0, 600, 300), Stock((120.0,), (2000.0,)), below=below)
    places = made.seams()
    for k in range(1, len(places) - 1):
        beside = min(places[k] - places[k - 1], places[k + 1] - places[k])
        assert min(abs(places[k] - s[1]) for s in below) >= min(25.0, beside / 4) - 1e-6
        assert made.faults(places, places[k]) == []


def test_faults_say_what_and_how_much() -> None:
    made = island(
        Point(0, 150).buffer(150, quad_segs=90),
        off=(shapely.box(-20, 80, 20, 120),),
        below=((0.0, 96.0, -150.0, 150.0),),
    )
    places = [0.0, 100.0, 270.0, 295.0, 300.0]
    said = [told(fault) for fault in made.faults(places, 100.0)]
    assert "4 mm from a seam of the layer below; 25 mm is wanted" in said[0]
    assert said[1] == "the seam runs within 8 mm of a mortise or pin"
    assert [told(fault, "mm") for fault in made.faults(places, 295.0)] == [
        "the seam runs within 8 mm of where the outline turns back",
        "a stave beside the seam is only 5 mm wide; 40 mm is wanted",
    ]


@pytest.mark.parametrize("place", [-120.0, -30.0, 0.0, 90.0])
def test_a_seam_of_a_disc_is_its_chord(place: float) -> None:
    made = island(Point(0, 0).buffer(150, quad_segs=720))
    half = sqrt(150.0**2 - place**2)
    assert made.chord(place) == pytest.approx((-half, half), abs=0.01)
    assert made.extremes == pytest.approx([-150.0, 150.0], abs=1e-3)


def test_a_stave_is_parted_where_the_blank_has_a_wide_gap() -> None:
    """A U lying on its side: two arms 100 long with 400 between them, and a bar 60 wide over all."""
    shape = shapely.box(0, 0, 600, 160).difference(shapely.box(100, 60, 500, 161))
    made = island(shape, Stock((110.0,), (2000.0,)))
    strips = made.strips([-STAVE_OVER, 60.0, 160.0 + STAVE_OVER])
    spans = [(round(u0 + 5.0 + STAVE_OVER), round(u1 - 5.0 - STAVE_OVER)) for u0, u1, *_ in strips]
    assert spans == [(0, 600), (0, 100), (500, 600)]


def test_what_no_board_gives_is_refused_with_the_difference() -> None:
    with pytest.raises(Refusal, match=r"stave 2010 mm long and 81.5 mm wide.*has 1900 mm.*110 mm short"):
        made = island(shapely.box(0, 0, 2000, 160), Stock((100.0,), (1900.0,)))
        made.strips([-STAVE_OVER, 80.0, 160.0 + STAVE_OVER])
    with pytest.raises(Refusal, match=r"stave 121.5 mm wide as ripped, but the widest board is 100 mm, 21.5 mm short"):
        island(shapely.box(0, 0, 500, 240)).strips([-STAVE_OVER, 120.0, 240.0 + STAVE_OVER])
    with pytest.raises(Refusal, match="leaves nothing after jointing"):
        island(shapely.box(0, 0, 500, 30), Stock((12.0,), (900.0,)), replace(SHOP, jointing=6.0)).seams()
