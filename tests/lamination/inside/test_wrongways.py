# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wrong ways of laying a layer, against turns and mirrors tried one by one with shapely."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from laidwrong import lobed, tried_one_by_one

from freecad_stacklam.lamination.inside.wrongways import misfits, wrong_ways

SHARE = 0.1


@given(
    st.integers(2, 6), st.floats(0.0, 0.3), st.floats(0, 2 * np.pi),
    st.lists(st.tuples(st.floats(-70, 70), st.floats(-70, 70)), min_size=2, max_size=4, unique=True),
)  # fmt: skip
@settings(max_examples=6, deadline=None)
def test_misfit_of_any_pins_is_that_of_brute_force(lobes, depth, turn, places):
    piece, pins = lobed(100, depth, lobes, turn), np.array(places)
    found = misfits(wrong_ways(piece, SHARE), pins[None]).min(initial=np.inf)
    step = max(np.hypot(*pins.T).max() * np.radians(2.0), 1.0)
    surely, perhaps = (tried_one_by_one(piece, pins, SHARE + d, 2.0) for d in (-0.03, 0.03))
    assert perhaps - step <= found
    assert found <= surely + step or surely == np.inf


def test_share_of_a_turned_square_and_oblong_are_those_of_geometry():
    # A square and the same turned by 45° share a regular octagon of area 2·(√2 − 1)·side², so they differ by
    # 2·(1 − 2·(√2 − 1)) = 34.3 % of the square. An oblong a × b turned by 90°
    # keeps b², and differs by 2·(1 − b / a).
    square, oblong = shapely.box(0, 0, 100, 100), shapely.box(0, 0, 100, 80)
    differ = 2 * (1 - 2 * (np.sqrt(2) - 1))
    assert 46.0 not in wrong_ways(square, differ - 0.03).turns
    assert 44.0 in wrong_ways(square, differ + 0.03).turns
    assert 90.0 in wrong_ways(square, 0.02).turns
    assert 90.0 not in wrong_ways(oblong, 0.4 - 0.03).turns
    assert 90.0 in wrong_ways(oblong, 0.4 + 0.03).turns
    assert set(wrong_ways(oblong, 0.02).axes) == {0.0, 90.0}
