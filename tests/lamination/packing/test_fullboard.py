# SPDX-License-Identifier: LGPL-2.1-or-later

"""One full board, judged by boxes, by hand, and beside every set of a few pieces."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packed import KERF, judge, pieces

from freecad_stacklam.lamination.packing.fullboard import Effort, fullest
from freecad_stacklam.lamination.packing.lot import ClearBoard, Lot
from freecad_stacklam.lamination.packing.subsets import Bands, fits_of

ROOM = (1200.0, 150.0)


def sizes_of(sizes: list[tuple[int, int]]) -> tuple[np.ndarray, np.ndarray]:
    return np.array([float(a) for a, _ in sizes]), np.array([float(b) for _, b in sizes])


@given(pieces, st.integers(0, 99), st.booleans())
@settings(max_examples=60, deadline=None)
def test_what_is_laid_lies_on_the_board_a_kerf_apart(sizes, seed, whole) -> None:
    a, b = sizes_of(sizes)
    spots = fullest(ROOM, KERF, a, b, a * b, np.random.default_rng(seed), whole=whole)
    # All pieces are no larger than the room; ripped first, a single band has one strip of one piece at least.
    assert spots
    lot = Lot([(float(a[k]), float(b[k])) for k, _, _ in spots], [ClearBoard(*ROOM, 1.0, 0)], KERF)
    judge(lot, lot.packing([(0, tuple((n, x, y) for n, (_, x, y) in enumerate(spots)))], []))
    assert len({k for k, _, _ in spots}) == len(spots)


def test_strips_end_to_end_lie_beside_a_longer_one() -> None:
    """By hand, kerf 3: a band of 600 with strips of 70 (one of 600) and 77 (296 + 3 + 297 end to end), 70 + 3 + 77 =
    150; a band of 594 with one of 150; 600 + 3 + 594 = 1197 of 1200. The fifth piece finds no room."""
    sizes = [(600, 70), (296, 77), (297, 77), (594, 150), (301, 71)]
    a, b = sizes_of(sizes)
    spots = fullest(ROOM, KERF, a, b, a * b, np.random.default_rng(0), Effort(beginnings=8, lengths=12))
    assert sorted(k for k, _, _ in spots) == [0, 1, 2, 3]


def test_nothing_is_laid_where_nothing_fits() -> None:
    a, b = sizes_of([(1300, 40), (500, 160)])
    assert fullest(ROOM, KERF, a, b, a * b, np.random.default_rng(0)) == []


def test_dear_pieces_are_laid_rather_than_large_ones() -> None:
    a, b = sizes_of([(1200, 150), (1000, 140)])
    assert [k for k, _, _ in fullest(ROOM, KERF, a, b, a * b, np.random.default_rng(0))] == [0]
    assert [k for k, _, _ in fullest(ROOM, KERF, a, b, np.array([1.0, 3.0]), np.random.default_rng(0))] == [1]


@pytest.mark.parametrize("seed", range(4))
def test_of_ten_pieces_it_lays_nearly_as_much_as_fits(seed) -> None:
    """Beside all 1024 sets of ten pieces, of which the fullest that fits is known: within a tenth of it."""
    rng = np.random.default_rng(seed)
    a, b = rng.uniform(250, 700, 10), rng.uniform(40, 140, 10)
    order = np.argsort(b)
    a, b = a[order], b[order]
    area = (a + KERF) * (b + KERF)
    bands = Bands(a, b, KERF, np.array([ROOM[0]]))
    fits = fits_of(bands, ClearBoard(*ROOM, 1.0, 0))
    sets = np.flatnonzero(fits)
    most = max(area[[k for k in range(10) if n >> k & 1]].sum() for n in sets.tolist())
    tries = (fullest(ROOM, KERF, a, b, area, np.random.default_rng(n), Effort(8, 12)) for n in range(4))
    found = max(float(area[[k for k, _, _ in spots]].sum()) for spots in tries)
    assert most * 0.9 <= found <= most * 1.0001
