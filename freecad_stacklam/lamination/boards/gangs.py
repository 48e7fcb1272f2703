# SPDX-License-Identifier: LGPL-2.1-or-later

"""Gangs: staves that stay in one piece until they are flat, planed and jointed, because alone they are too short.

Jointers, planers and table saws take no work under a certain length; their manuals say which. So short staves lie end
to end in a piece at least that long, and the last crosscuts part them. A stave without a fellow gets waste at its end.
All staves of a gang are as wide as the widest: one with a glued edge on both sides keeps its own width, so it is
joined only by staves that need no more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.plan.boards import BoardPiece, Stave
from freecad_stacklam.lamination.tolerances import ROUNDING, SAME_WIDTH

#: So many staves, neighbours by width, are compared with each other at a time.
AT_A_TIME = 300

#: Within what part of itself a saving is weighed by chance, and how many of them are overlooked.
WEIGHED, OVERLOOKED = (0.5, 1.0), 0.1

Copy = tuple[Stave, int]  # a stave and the number of its copy, from 1


def cut_size(stave: Stave, jointing: float) -> tuple[float, float]:
    """Length and width of a stave as it is cut from the board, mm."""
    return stave.length, stave.width + stave.glued_edges * jointing


@dataclass(frozen=True)
class Gang:
    """Staves end to end along the board, a kerf apart, with waste behind them up to `length`. mm."""

    staves: tuple[Copy, ...]
    length: float
    width: float
    kerf: float

    @property
    def glued(self) -> bool:
        """Whether any of its staves has a glued edge. One without is a blank by itself, and the band saw frees it."""
        return any(stave.glued_edges for stave, _ in self.staves)

    def pieces(self, x: float, y: float) -> list[BoardPiece]:
        """Its staves with the gang's lower left corner at x, y of the board."""
        made = []
        for stave, copy in self.staves:
            made.append(BoardPiece(stave.id, copy, x, y, stave.length, self.width))
            x += stave.length + self.kerf
        return made


def single(
    stave: Copy, jointing: float, kerf: float, shortest: float = 0.0, room: Sequence[tuple[float, float]] = ()
) -> Gang:
    """One stave by itself, with waste up to `shortest`, or as long as a board in `room` gives."""
    length, width = cut_size(stave[0], jointing)
    return Gang((stave,), max(length, min(shortest, _longest(room, width))), width, kerf)


def gangs_of(
    staves: Sequence[Copy],
    jointing: float,
    kerf: float,
    shortest: float,
    room: Sequence[tuple[float, float]],
    chance: np.random.Generator | None = None,
) -> list[Gang]:
    """The staves of one stock in gangs of at least `shortest` mm where a board can hold one, with little waste.

    room: clear length and width of each board that suits. Two gangs become one for as long as that saves wood, the
    greatest saving first. chance: weighs savings by chance and overlooks some, so that other gangs come about.
    """
    alone = [single(s, jointing, kerf, shortest, room) for s in staves]
    if shortest <= 0:
        return alone
    alone.sort(key=lambda g: (-g.width, -g.length, g.staves[0][0].id, g.staves[0][1]))
    made: list[Gang] = []
    for first in range(0, len(alone), AT_A_TIME):
        made += _joined(alone[first : first + AT_A_TIME], kerf, shortest, room, chance)
    return made


def gangings(
    staves: Sequence[Copy],
    jointing: float,
    kerf: float,
    shortest: float,
    room: Sequence[tuple[float, float]],
    count: int,
) -> list[list[Gang]]:
    """Up to `count` ways to gang the same staves, no two with gangs of the same sizes: that of the greatest savings,
    each stave by itself, and others by chance, which are the same each time. As gangs_of."""
    rng = np.random.default_rng(22)
    found: dict[tuple[tuple[float, float], ...], list[Gang]] = {}
    for n in range(count):
        if n == 1:
            made = [single(s, jointing, kerf, shortest, room) for s in staves]
        else:
            made = gangs_of(staves, jointing, kerf, shortest, room, rng if n else None)
        found.setdefault(tuple(sorted((round(g.length, 3), round(g.width, 3)) for g in made)), made)
    return list(found.values())


def _longest(room: Sequence[tuple[float, float]], width: float) -> float:
    """The longest clear length among boards that are wide enough."""
    return max((length for length, wide in room if wide >= width - ROUNDING), default=0.0)


def _joined(
    gangs: list[Gang],
    kerf: float,
    shortest: float,
    room: Sequence[tuple[float, float]],
    chance: np.random.Generator | None,
) -> list[Gang]:
    """Join two at a time while it saves wood. Sizes are kept in arrays; one that was joined to another is gone."""
    n = len(gangs)
    weight = np.ones((n, n))
    if chance is not None:
        weight = chance.uniform(*WEIGHED, size=(n, n)) * (chance.random((n, n)) >= OVERLOOKED)
        weight = np.minimum(weight, weight.T)
    members = [list(g.staves) for g in gangs]
    wide = np.array([g.width for g in gangs])
    net = np.array([sum(s.length for s, _ in g.staves) + kerf * (len(g.staves) - 1) for g in gangs])
    # Both edges glued: its seams lie where they were planned, so it may not be wider.
    own = np.array([g.width if any(s.glued_edges > 1 for s, _ in g.staves) else np.inf for g in gangs])
    most = np.array([_longest(room, w) for w in wide])
    takes = np.maximum(net, np.minimum(shortest, most))

    def savings(i: int) -> NDArray[np.float64]:
        """What joining gang i to each of the others saves, mm²; below 0 where it cannot be."""
        both, width = net + net[i] + kerf, np.maximum(wide, wide[i])
        length = np.maximum(both, np.minimum(shortest, np.minimum(most, most[i])))
        saved: NDArray[np.float64] = takes * wide + takes[i] * wide[i] - length * width
        fits = (both <= np.minimum(most, most[i]) + ROUNDING) & (width <= np.minimum(own, own[i]) + SAME_WIDTH)
        saved = np.where(saved > ROUNDING, saved * weight[i], saved)
        saved[~fits | gone] = -1.0
        saved[i] = -1.0
        return saved

    gone = np.zeros(n, dtype=bool)
    table = np.array([savings(i) for i in range(n)])
    while n:
        i, j = divmod(int(table.argmax()), n)
        if table[i, j] <= ROUNDING:
            break
        members[i] += members[j]
        net[i] += net[j] + kerf
        wide[i], own[i], most[i] = max(wide[i], wide[j]), min(own[i], own[j]), min(most[i], most[j])
        takes[i] = max(net[i], min(shortest, most[i]))
        gone[j] = True
        table[j, :] = table[:, j] = -1.0
        table[i, :] = savings(i)
        table[:, i] = table[i, :]
    return [
        Gang(tuple(sorted(members[i], key=lambda s: -s[0].length)), float(takes[i]), float(wide[i]), kerf)
        for i in range(n)
        if not gone[i]
    ]
