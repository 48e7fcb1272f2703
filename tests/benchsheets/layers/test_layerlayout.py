# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a layer sheet's page is shared: the drawing stays large before its tables do."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.layers.layerlayout import SMALLER, layout_of
from freecad_stacklam.benchsheets.pages.blocks import notes


def test_tables_are_lettered_smaller_before_the_layer_is_drawn_smaller() -> None:
    said = [layout_of(paper_named("A4"), [notes("Notes", ["Mind it."] * count, 90.0)], (250.0, 250.0), 90.0)
            for count in range(1, 80)]  # fmt: skip
    found = list(dict.fromkeys((one.n, one.size) for one in said if not one.over))
    assert found == [(2, 1.0), (2, SMALLER), (5, 1.0), (5, SMALLER)][: len(found)] and len(found) >= 3
    assert [one.n for one in said] == sorted(one.n for one in said)
