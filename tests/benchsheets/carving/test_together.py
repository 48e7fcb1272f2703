# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines on shared pages: none lost, none over another, none off the page."""

from __future__ import annotations

import numpy as np
import shapely

from freecad_stacklam.benchsheets.carving.together import BETWEEN, places_on_pages


def test_outlines_never_meet_and_stay_on_their_pages() -> None:
    rng = np.random.default_rng(7)
    for _ in range(40):
        sizes = [(float(w), float(h)) for w, h in rng.uniform(10, 180, (rng.integers(1, 30), 2))]
        places = places_on_pages(sizes, 180.0, 240.0)
        assert places is not None and len(places) == len(sizes)
        boxes = [shapely.box(x, y, x + w, y + h) for (_, x, y), (w, h) in zip(places, sizes)]
        for i, box in enumerate(boxes):
            assert shapely.box(0, 0, 180, 240).buffer(1e-9).covers(box)
            for j in range(i):
                if places[i][0] == places[j][0]:
                    assert box.distance(boxes[j]) >= BETWEEN - 1e-9
        assert sorted({p for p, _, _ in places}) == list(range(max(p for p, _, _ in places) + 1))


def test_pages_are_filled_and_a_larger_one_is_refused() -> None:
    """Six of 80 × 74 go on 180 × 240: two in a row (80 + 8 + 80), three rows (3 · 74 + 2 · 8 = 238); not seven."""
    assert {p for p, _, _ in places_on_pages([(80.0, 74.0)] * 6, 180.0, 240.0) or []} == {0}
    assert {p for p, _, _ in places_on_pages([(80.0, 74.0)] * 7, 180.0, 240.0) or []} == {0, 1}
    assert places_on_pages([(181.0, 10.0)], 180.0, 240.0) is None
