# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bounded knapsack, against every content there is."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.packing.knapsack import Knapsack

THING = st.tuples(st.integers(1, 7), st.integers(1, 30), st.integers(1, 3))  # weight, worth, how many


@given(st.lists(THING, min_size=1, max_size=4), st.integers(5, 20))
@settings(max_examples=60, deadline=None)
def test_the_best_content_is_the_best_of_all(things: list[tuple[int, int, int]], cells: int) -> None:
    sack = Knapsack(cells)
    for key, (weight, worth, many) in enumerate(things):
        if weight <= cells:
            sack.add(key, weight, float(worth), many)
    best = 0
    for counts in product(*(range(many + 1) for _, _, many in things)):
        if sum(n * t[0] for n, t in zip(counts, things)) <= cells:
            best = max(best, sum(n * t[1] for n, t in zip(counts, things)))
    assert sack.rows[-1][cells] == pytest.approx(best)
    chosen = sack.chosen(cells)
    assert sum(n * things[k][1] for k, n in chosen) == pytest.approx(best)
    assert sum(n * things[k][0] for k, n in chosen) <= cells
    for key, (_, _, many) in enumerate(things):
        assert sum(n for k, n in chosen if k == key) <= many


def test_a_textbook_sack() -> None:
    """Weights 12, 2, 1, 4, 1 and worths 4, 2, 1, 10, 2 in a sack of 15: worth 15 without the first (the example of the
    English-language encyclopaedia's article "Knapsack problem")."""
    sack = Knapsack(15)
    for key, (weight, worth) in enumerate([(12, 4), (2, 2), (1, 1), (4, 10), (1, 2)]):
        sack.add(key, weight, float(worth), 1)
    assert sack.rows[-1][15] == 15.0
    assert sorted(k for k, _ in sack.chosen(15)) == [1, 2, 3, 4]
