# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which panels are cut from flat-sawn boards and which from quarter-sawn ones, so that no panel mixes them.

A rack that has too few boards of either cut for everything may still have enough for whole panels of one and whole
panels of the other. Panels are dealt out, the largest first, to the boards of one cut for as long as these last; how
much of a board becomes staves nobody knows before they are laid, so several shares are tried.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from freecad_stacklam.lamination.boards.gangs import cut_size
from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER
from freecad_stacklam.lamination.boards.stock import suits, trim_of
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings

#: Parts of the clear area of boards that their staves may take, tried in turn.
SHARES = (0.95, 0.85, 0.75, 0.6, 0.45)


def dealt_out(staves: Sequence[Stave], boards: Sequence[Board], shop: ShopSettings) -> Iterator[dict[str, str]]:
    """Ways of dealing the panels out: for each stave, by its name, the cut of the boards that it is not cut from.

    Every copy of a panel goes the same way. Only boards on hand are counted, for those that are sold do not run out.
    """
    panels: dict[tuple[str, int], list[Stave]] = {}
    for stave in staves:
        panels.setdefault((stave.stack, stave.layer), []).append(stave)
    sizes = {key: sum(_area(s, shop) for s in mine) for key, mine in panels.items()}
    order = sorted(panels, key=lambda key: (-sizes[key], key))
    seen: list[dict[str, str]] = []
    for share in SHARES:
        for own, other in ((QUARTER, FLAT), (FLAT, QUARTER)):
            room: dict[tuple[str, float], float] = {}
            avoided: dict[str, str] = {}
            for key in order:
                first = panels[key][0]
                kind = (first.species, first.thickness)
                if kind not in room:
                    room[kind] = share * _clear(first, own, boards, shop)
                fits = sizes[key] <= room[kind]
                room[kind] -= sizes[key] if fits else 0.0
                avoided |= {stave.id: other if fits else own for stave in panels[key]}
            if avoided not in seen:
                seen.append(avoided)
                yield avoided


def _area(stave: Stave, shop: ShopSettings) -> float:
    """What all copies of a stave take of a board, mm²."""
    length, width = cut_size(stave, shop.jointing)
    return length * width * stave.copies


def _clear(stave: Stave, cut: str, boards: Sequence[Board], shop: ShopSettings) -> float:
    """Clear area of all boards on hand of a cut that suit a stave, mm²."""
    return sum(
        (b.length - 2 * trim_of(b, shop)) * b.width * b.count
        for b in boards
        if b.cut == cut and not b.for_sale and suits(b, stave.thickness, stave.species, shop)
    )
