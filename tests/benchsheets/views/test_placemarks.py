# SPDX-License-Identifier: LGPL-2.1-or-later

"""Names of places keep off one another, and those of neighbours are told as one."""

from __future__ import annotations

from itertools import combinations

from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.sheet import Circle
from freecad_stacklam.benchsheets.views.placemarks import PLACE, RING, named, place_marks, told_apart


def test_neighbours_are_told_as_one() -> None:
    assert told_apart([("1", (0.0, 0.0)), ("2", (1.0, 0.0)), ("3", (9.0, 0.0))]) == [
        ("1, 2", (0.0, 0.0)), ("3", (9.0, 0.0))]  # fmt: skip


def test_names_cover_neither_marks_nor_names() -> None:
    places = [(float(x), float(y)) for x in range(0, 15, 5) for y in range(0, 15, 5)]
    marks = place_marks(places)
    texts = named([(str(i), at) for i, at in enumerate(places, 1)], marks)
    boxes = [text_box(text) for text in texts]
    assert len(texts) == 9
    assert not any(a.intersects(b) for a, b in combinations(boxes, 2))


def test_the_worst_has_the_wide_ring() -> None:
    first, second = place_marks([(0.0, 0.0), (9.0, 9.0)])
    assert isinstance(first, Circle) and isinstance(second, Circle)
    assert (first.radius, first.pen, second.radius) == (RING, "cut", PLACE)
