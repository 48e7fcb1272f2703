# SPDX-License-Identifier: LGPL-2.1-or-later

"""What panels and joints are glued with."""

from __future__ import annotations

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings


def test_only_clamps_pull_a_panel_together() -> None:
    bar, rod = PressSettings("bar", count=4), PressSettings("rod", kind="rod")
    means = Means(
        glue_table()["yellow glue"], 0.15, GluingRoom(), (rod, bar), lambda _: (0.7, 1.7), species_table()
    )  # fmt: skip
    assert means.clamps == (bar,)
    assert means.presses == (rod, bar)
