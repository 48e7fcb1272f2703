# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pairs of rows and numbers, against Python's own ranges."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.spans import pairs_of


@given(st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), max_size=9))
@settings(max_examples=50, deadline=None)
def test_every_number_of_every_range_once(rows: list[tuple[int, int]]) -> None:
    ends = np.array(rows, dtype=np.int64).reshape(-1, 2)
    found = list(zip(*(a.tolist() for a in pairs_of(ends[:, 0], ends[:, 1]))))
    assert found == [(k, n) for k, (first, last) in enumerate(rows) for n in range(first, last + 1)]
