# SPDX-License-Identifier: LGPL-2.1-or-later

"""A layer as a panel of staves on the bench: where each lies from one corner, so that it can be laid out with a rule.

The panel lies with its upper face up and the grain from left to right. Its reference edge is the lower one, its
reference corner the left end of that edge: the corner of the rectangle around all staves.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from freecad_stacklam.lamination.plan.boards import Stave


@dataclass(frozen=True)
class Lying:
    """One stave: how far its left end and its lower edge are from the reference corner, mm, and which way the heart
    side is suggested to lie (up and down in turn, so that the panel cups little)."""

    stave: Stave
    left: float
    lower: float
    heart: str


@dataclass(frozen=True)
class Panel:
    """Staves from the reference edge upwards. `axis`: the stack's axis from the corner, along the grain and across it;
    `corner` and `edge_end` in the stack's frame; mm."""

    staves: tuple[Lying, ...]
    axis: tuple[float, float]
    corner: tuple[float, float]
    edge_end: tuple[float, float]


def panel_of(staves: Sequence[Stave]) -> Panel:
    """The panel that the staves of one layer make; at least one stave."""
    grain = radians(staves[0].grain)
    along, across = np.array([cos(grain), sin(grain)]), np.array([-sin(grain), cos(grain)])
    boxes = []
    for stave in staves:
        u, v = (np.array(stave.region) @ way for way in (along, across))
        boxes.append((float(u.min()), float(v.min()), float(u.max()), stave))
    u0, v0, u1 = min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes)
    boxes.sort(key=lambda b: (b[1], b[0]))
    rows: list[Lying] = []
    low, top, turn = boxes[0][1], boxes[0][1] + boxes[0][3].width, 0
    for left, lower, _, stave in boxes:
        # Staves end to end are one row: neighbours across the seam alternate, those along it do not.
        if lower - low >= min(top - low, stave.width) / 2:
            low, top, turn = lower, lower + stave.width, turn + 1
        rows.append(Lying(stave, left - u0, lower - v0, "down" if turn % 2 else "up"))
    corner, end = (u * along + v0 * across for u in (u0, u1))
    return Panel(
        tuple(rows), (0.0 - u0, 0.0 - v0), (float(corner[0]), float(corner[1])), (float(end[0]), float(end[1]))
    )
