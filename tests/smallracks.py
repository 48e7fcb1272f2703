# SPDX-License-Identifier: LGPL-2.1-or-later

"""Small racks made by chance from a seed, and the rack that showed why boards on hand may not always come first."""

from __future__ import annotations

import numpy as np
from woodyard import for_sale, stave

from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack

#: Worth more than two boards on hand: everything fits the one that is bought. Costs of those on hand count half.
ONE_BOARD_DOES = (
    [stave(f"s{i}", n, w) for i, (n, w) in
     enumerate([(521.0, 137.0), (520.0, 137.0), (452.0, 67.0), (436.0, 67.0), (347.0, 65.0), (315.0, 53.0)])],
    Rack((Board("Own long", 119.0, 1579.0, 45.0, "oak", 54.4),
          Board("Own short", 148.0, 955.0, 45.0, "oak", 73.2, knots=(Knot(500.0, 100.0, 40.0, 30.0),)),
          for_sale(139.0, 2400.0, 56.0))),
)  # fmt: skip


def small_rack(seed: int, most: int = 20) -> tuple[list[Stave], Rack, str]:
    """4 to `most` staves of whole mm, none so short that it must be ganged, up to three boards on hand (one of them may
    have a knot) and one or two for sale; and which cut comes first."""
    rng = np.random.default_rng([14, seed])
    staves = [stave(f"s{i}", float(rng.integers(302, 780)), float(rng.integers(40, 139)))
              for i in range(int(rng.integers(4, most + 1)))]  # fmt: skip
    boards = []
    for i in range(int(rng.integers(0, 4))):
        width, length = float(rng.integers(70, 240)), float(rng.integers(700, 2300))
        knots: tuple[Knot, ...] = ()
        if i == 0 and rng.random() < 0.5:
            x, y = float(rng.integers(50, int(length) - 150)), float(rng.integers(0, int(width) - 40))
            knots = (Knot(x, y, float(rng.integers(20, 80)), float(rng.integers(15, 40))),)
        boards.append(Board(f"Own {i}", width, length, 45.0, "oak", round(width * length / 4000, 1), knots=knots))
    for i in range(int(rng.integers(1, 3))):
        width, length = float(rng.integers(139, 260)), float(rng.integers(1500, 3000))
        boards.append(for_sale(width, length, round(width * length / 5000 * rng.uniform(0.8, 1.2), 1), f"Yard {i}"))
    return staves, Rack(tuple(boards)), str(rng.choice(["crosscut", "rip", "better"]))
