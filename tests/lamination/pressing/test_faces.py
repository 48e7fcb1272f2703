# SPDX-License-Identifier: LGPL-2.1-or-later

"""The wood of a pile at any height. Areas by hand."""

from __future__ import annotations

from math import pi

import pytest
from piles import boxes, pile
from shapely import MultiPolygon, box

from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle, rectangle
from freecad_stacklam.lamination.pressing.faces import in_one_step, lower_face, pile_of, slab_of, upper_face, with_cauls


def test_a_cut_takes_wood_from_the_face_that_it_comes_out_of() -> None:
    bored = Cut("pin", circle(20.0), 33.0, 45.0)  # from the top, 12 mm deep
    layer = pile([[rectangle(200, 100)]], cuts={1: (bored,)}).layers[0]
    assert upper_face(layer).area == pytest.approx(200 * 100 - pi * 10**2, rel=1e-4)
    assert lower_face(layer).area == pytest.approx(200 * 100)


def test_a_stopped_mortise_leaves_the_wood_under_it_whole() -> None:
    layer = pile([[rectangle(200, 100)]], cuts={1: (Cut("mortise", rectangle(40, 40), 16.0, 45.0),)}).layers[0]
    slab = slab_of(layer)
    assert [(h, w.area) for h, w in slab.steps] == [(15, 20_000), (1, 20_000), (14, 18_400), (15, 18_400)]
    assert slab.blocks.area == pytest.approx(20_000.0)  # no rod goes through
    whole = Cut("mortise", rectangle(40, 40), 0.0, 45.0)
    through = slab_of(pile([[rectangle(200, 100)]], cuts={1: (whole,)}).layers[0])
    assert through.blocks.area == pytest.approx(18_400.0)


def test_a_tilted_cut_is_at_each_face_where_its_end_is() -> None:
    tilted = Cut("mortise", circle(20.0, (0, 0)), 0.0, 45.0, None, circle(20.0, (30.0, 0.0)))
    layer = pile([[rectangle(200, 100)]], cuts={1: (tilted,)}).layers[0]
    assert not lower_face(layer).contains(box(-1, -1, 1, 1)) and lower_face(layer).contains(box(29, -1, 31, 1))
    assert upper_face(layer).contains(box(-1, -1, 1, 1)) and not upper_face(layer).contains(box(29, -1, 31, 1))


def test_cauls_are_one_more_slab() -> None:
    run = pile_of(boxes(3, 200, 100), 2, 3)
    board = MultiPolygon([box(-100, -50, 100, 50)])
    assert [s.number for s in run] == [2, 3]
    between = with_cauls(run, board, board, 18.0)
    assert [(s.number, s.bottom, s.top) for s in between] == [(0, 27, 45), (2, 45, 90), (3, 90, 135), (0, 135, 153)]
    assert len(with_cauls(run, None, board, 18.0)) == 3


def test_a_slab_for_estimates_is_one_step_of_what_is_whole_all_through() -> None:
    half = Cut("mortise", rectangle(40, 40), 20.0, 45.0)
    slab = in_one_step(slab_of(pile([[rectangle(200, 100)]], cuts={1: (half,)}).layers[0]))
    ((height, wood),) = slab.steps
    assert height == 45.0 and wood.area == pytest.approx(200 * 100 - 40 * 40)
