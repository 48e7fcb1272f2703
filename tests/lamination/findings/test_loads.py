# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.loads import PLACES, LoadCase


def test_a_load_is_for_both_checks_and_short_unless_said() -> None:
    load = LoadCase("a guest", 1000.0, 0.0, "edge", "invented")
    assert (load.tips, load.bends, load.lasting) == (True, True, False)
    assert load.place in PLACES
