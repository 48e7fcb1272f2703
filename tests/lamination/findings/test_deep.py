# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot

SPOT = WeakSpot((0.0, 0.0, 0.0), "Post", 1, "across the grain", 0.3, 1.65, 5.5, False, "a guest", (0.0, 0.0, 0.0),
                (0.0, 0.0, -1.0), "R up")  # fmt: skip


def test_the_worst_is_the_worst_of_all_with_tenons() -> None:
    assert DeepFindings().worst is None
    from dataclasses import replace

    harder = replace(SPOT, index=0.5)
    found = DeepFindings(spots=(SPOT,), fine=harder, without_tenon=replace(SPOT, index=2.0))
    assert found.worst is harder
