# SPDX-License-Identifier: LGPL-2.1-or-later

"""Depths brought to few settings of the drill stop."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from freecad_stacklam.lamination.carving.stopsettings import MOST_STOPS, merged_depths


def test_few_depths_stay_as_they_are() -> None:
    assert merged_depths([6.0, 8.0, 8.0, 10.0]) == {6.0: 6.0, 8.0: 8.0, 10.0: 10.0}


def test_a_single_hole_joins_the_stop_above_it() -> None:
    """Seven depths: 16 with one hole costs 1 · 2 mm when it becomes 14; any other costs 5 · 2 mm."""
    depths = [d for d in (6.0, 8.0, 10.0, 12.0, 14.0, 18.0) for _ in range(5)] + [16.0]
    found = merged_depths(depths)
    assert found == {6.0: 6.0, 8.0: 8.0, 10.0: 10.0, 12.0: 12.0, 14.0: 14.0, 16.0: 14.0, 18.0: 18.0}


@pytest.mark.parametrize("seed", range(5))
def test_no_other_choice_takes_less(seed: int) -> None:
    """Against all choices, one after the other: the shallowest must stay, five of the others may."""
    rng = np.random.default_rng(seed)
    depths = (6.0 + 2.0 * rng.integers(0, 11, 40)).tolist()
    levels = sorted(set(depths))
    found = merged_depths(depths)
    assert len(set(found.values())) == MOST_STOPS
    assert all(new <= old for old, new in found.items())
    taken = sum(d - found[d] for d in depths)
    others = []
    for rest in combinations(levels[1:], MOST_STOPS - 1):
        kept = np.array([levels[0], *rest])
        others.append(sum(d - kept[kept <= d].max() for d in depths))
    assert taken == pytest.approx(min(others))
