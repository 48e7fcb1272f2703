# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.finishing import FinishFindings, Quote, Surface


def test_surfaces_add_up() -> None:
    surfaces = (Surface("A", 3e6, 1e6, (0.0,) * 9), Surface("B", 1e6, 0.0, (0.0,) * 9))
    found = FinishFindings("oil", surfaces, 3, 1.0, 0.75, 1.25, ())
    assert (found.area, found.end) == (4e6, 1e6)
    assert surfaces[0].share == 1 / 3
    assert Surface("C", 0.0, 0.0, (0.0,) * 9).share == 0.0


def test_a_quote_that_lacks_a_price_is_not_complete() -> None:
    assert Quote((), (), 0.0, 0.0).complete
    assert not Quote((), (), 0.0, 0.0, ("No price is given for oak.",)).complete
