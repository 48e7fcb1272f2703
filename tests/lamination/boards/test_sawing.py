# SPDX-License-Identifier: LGPL-2.1-or-later

"""Saw cuts in their order: replayed on an uncut board they free every piece."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from woodyard import cut_apart, for_sale

from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.settings.board import Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()


def test_cuts_are_numbered_and_free_every_piece() -> None:
    """Replaying the cuts on an uncut board leaves each piece alone in a part of its own size."""
    staves = cut_apart(np.random.default_rng(11), 3, 2400.0, 190.0, 3.0)
    for first in ("crosscut", "rip"):
        plan = plan_cutting(staves, Rack((for_sale(195.0, 2500.0),)), replace(SHOP, first_cut=first))
        for board in plan.plan:
            parts = [(0.0, 0.0, board.length, board.width)]
            assert [c.number for c in board.cuts] == list(range(1, len(board.cuts) + 1))
            for cut in board.cuts:
                after = []
                for x0, y0, x1, y1 in parts:
                    span = (y0, y1) if cut.across else (x0, x1)
                    low, high = (x0, x1) if cut.across else (y0, y1)
                    if span == pytest.approx((cut.start, cut.end)) and low - 3.1 < cut.at < high:
                        two = [(low, cut.at), (cut.at + plan.kerf, high)]
                        after += [(a, y0, b, y1) if cut.across else (x0, a, x1, b) for a, b in two if b - a > 1e-6]
                    else:
                        after.append((x0, y0, x1, y1))
                parts = after
            for p in board.pieces:
                box = (p.x, p.y, p.x + p.length, p.y + p.width)
                assert any(part == pytest.approx(box, abs=1e-6) for part in parts)
