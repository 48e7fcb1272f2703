# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sets of pieces that fit a board, against every way of dividing them, written out the long way."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.packing.lot import ClearBoard
from freecad_stacklam.lamination.packing.subsets import Bands, fits_of, laid_on, largest, lessened

KERF = 3.0
SIZES = st.lists(st.tuples(st.integers(20, 90), st.integers(10, 50)), min_size=1, max_size=5)


def divisions(things: list) -> list[list[list]]:
    """All ways to divide things into groups."""
    if not things:
        return [[]]
    made = []
    for rest in divisions(things[1:]):
        made.append([[things[0]], *rest])
        made += [[*rest[:n], [things[0], *rest[n]], *rest[n + 1 :]] for n in range(len(rest))]
    return made


def strips(pieces: list) -> list[tuple[float, float]]:
    """All (length, width) of bands that hold the pieces in strips end to end."""
    found = []
    for division in divisions(pieces):
        lengths = [sum(a for a, _ in strip) + KERF * (len(strip) - 1) for strip in division]
        found.append((max(lengths), sum(max(b for _, b in strip) for strip in division) + KERF * (len(division) - 1)))
    return found


def least_length(pieces: list, width: float) -> float:
    best = np.inf
    for bands in divisions(pieces):
        each = [min((long for long, wide in strips(band) if wide <= width), default=np.inf) for band in bands]
        best = min(best, sum(each) + KERF * len(bands))
    return best


def bands_of(sizes: list, board: ClearBoard, whole: bool = True) -> tuple[Bands, list]:
    pieces = sorted(sizes, key=lambda s: (s[1], s[0]))
    a, b = (np.array([float(p[i]) for p in pieces]) for i in (0, 1))
    return Bands(a, b, KERF, np.array([board.a]), whole=whole), pieces


@given(SIZES, st.integers(40, 110))
@settings(max_examples=40, deadline=None)
def test_the_least_length_is_that_of_the_best_division(sizes, width) -> None:
    bands, pieces = bands_of(sizes, ClearBoard(1000.0, float(width), 1.0))
    assert bands.lengths(float(width))[-1] == pytest.approx(least_length(pieces, width))


@given(SIZES, st.integers(60, 200), st.integers(40, 110), st.booleans(), st.booleans())
@settings(max_examples=60, deadline=None)
def test_what_fits_is_laid_a_kerf_apart_and_off_the_knot(sizes, long, wide, knotty, whole) -> None:
    blocks = ((long * 0.4, wide * 0.3, long * 0.5, wide * 0.5),) if knotty else ()
    board = ClearBoard(float(long), float(wide), 1.0, 1, blocks)
    bands, pieces = bands_of(sizes, board, whole)
    fits = fits_of(bands, board)
    for held in largest(fits).tolist():
        spots = laid_on(bands, board, held)
        assert sorted(i for i, _, _ in spots) == [i for i in range(len(pieces)) if held >> i & 1]
        boxes = [shapely.box(a, b, a + pieces[i][0], b + pieces[i][1]) for i, a, b in spots]
        for n, box in enumerate(boxes):
            assert shapely.box(-1e-6, -1e-6, long + 1e-6, wide + 1e-6).covers(box)
            assert all(box.distance(other) >= KERF - 1e-6 for other in boxes[:n])
            assert all(box.intersection(shapely.box(*k)).area < 1e-6 for k in blocks)


def test_the_largest_sets_and_all_their_parts() -> None:
    """Of three pieces the first two fit together, and the third alone."""
    fits = np.zeros(8, dtype=bool)
    fits[[0b011, 0b100]] = True
    all_of_them = lessened(fits)
    assert np.flatnonzero(all_of_them).tolist() == [0, 0b001, 0b010, 0b011, 0b100]
    assert largest(all_of_them).tolist() == [0b011, 0b100]


def test_ripped_first_there_is_a_rip() -> None:
    """Two of 40 × 30 end to end, and 50 × 60 and 30 × 60 end to end beside them, fill 83 × 93 in one band, and in no
    two: 50 and 40 with their kerf are 93. Crosscut first that may be; ripped first nothing would be ripped."""
    sizes, board = [(40, 30), (40, 30), (50, 60), (30, 60)], ClearBoard(83.0, 93.0, 1.0)
    assert fits_of(bands_of(sizes, board, whole=True)[0], board)[-1]
    assert not fits_of(bands_of(sizes, board, whole=False)[0], board)[-1]
