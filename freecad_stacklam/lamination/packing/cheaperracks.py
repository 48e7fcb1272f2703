# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which boards would cost less than those of a plan, if only the pieces went onto them."""

from __future__ import annotations

from freecad_stacklam.lamination.packing.lot import Lot
from freecad_stacklam.lamination.tolerances import SAVING

#: So many sets of boards are listed at most.
MOST = 400


def cheaper_racks(lot: Lot, cost: float) -> list[tuple[int, ...]]:
    """Sets of boards (kinds, some several times) that cost less than `cost` and have as much clear area as the pieces,
    a kerf on two sides of each; no set of which one board could be left out. Those with most room to spare first.
    """
    needed = float(((lot.a + lot.kerf) * (lot.b + lot.kerf)).sum())
    room = [s.clear + lot.kerf * (s.a + s.b + lot.kerf) if s.clear else 0.0 for s in lot.sheets]
    kinds = sorted((k for k, r in enumerate(room) if r), key=lambda k: -room[k] / max(lot.sheets[k].cost, SAVING))
    goal = cost - SAVING * max(1.0, cost)
    found: list[tuple[float, tuple[int, ...]]] = []

    def add(start: int, chosen: tuple[int, ...], spent: float, held: float) -> None:
        if held >= needed:
            found.append((held / needed, chosen))
            return
        for n in range(start, len(kinds)):
            k = kinds[n]
            sheet = lot.sheets[k]
            # The rest comes from boards that are no better for their cost than this one.
            least = spent + max(sheet.cost, (needed - held) * sheet.cost / room[k])
            if len(found) >= MOST or least >= goal:
                return
            if not sheet.count or chosen.count(k) < sheet.count:
                add(n, (*chosen, k), spent + sheet.cost, held + room[k])

    add(0, (), 0.0, 0.0)
    plain = [(spare, c) for spare, c in found if all(spare * needed - room[k] < needed for k in c)]
    return [chosen for _, chosen in sorted(plain, key=lambda f: -f[0])]
