# SPDX-License-Identifier: LGPL-2.1-or-later

"""Piles made by hand, and every order of a small one tried: the judge of the order of a glue-up.

The walk shares with the planner what a single set-up must keep (limits.judge), which has tests of its own.
"""

from __future__ import annotations

import heapq
import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

from freecad_stacklam.lamination.gluing.limits import Shop, Terms, judge
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, Pile, PileLayer, PileLine
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings

#: A water glue that must be under pressure after 15 min.
YELLOW = Glue("yellow glue", True, 480.0, 900.0, 10.0, 180.0, 1, 0.5, 3600.0, 86_400.0, 0.15)
#: Lines of the bundled plant stand's pedestal, mm², as its plan has them: ten layers of 45 mm, the last line around a
#: mortise.
PEDESTAL = (59_832.0, 38_387.0, 24_323.0, 16_921.0, 13_303.0, 11_560.0, 11_259.0, 11_560.0, 12_510.0)


def pile_with(
    areas: Sequence[float],
    thickness: float = 45.0,
    pins: int = 1,
    masses: Sequence[float | None] = (),
    widths: Sequence[float] = (),
    channels: tuple[Channel, ...] = (),
    crush: float | None = None,
) -> Pile:
    """A pile of equal layers whose glue lines have these areas."""
    n = len(areas) + 1
    masses, widths = masses or [None] * n, widths or [200.0] * n
    layers = tuple(
        PileLayer(i + 1, i * thickness, thickness, masses[i], widths[i], widths[i], crush=crush) for i in range(n)
    )
    lines = tuple(PileLine(i + 1, (i + 1) * thickness, area, pins) for i, area in enumerate(areas))
    return Pile("Pedestal", layers, lines, channels)


def clamps(count: int, force: float = 4670.0, opening: float | None = None, kind: str = "clamp") -> PressSettings:
    """Clamps of one kind."""
    name = f"{kind} {opening:g}" if opening else kind
    return PressSettings(name=name, kind=kind, count=count, force=force, opening=opening)


def shop_with(
    pile: Pile,
    presses: Sequence[PressSettings],
    glue: Glue = YELLOW,
    room: GluingRoom | None = None,
    pressure: float = 1.2,
    reach: float | None = None,
) -> Shop:
    """A shop without cauls that wants one pressure everywhere."""
    room = room or GluingRoom(caul_thickness=0.0)
    return Shop(glue, room, tuple(presses), ((pressure, 1.5 * pressure),) * len(pile.lines), reach)


def random_job(seed: int, layers: int | None = None) -> tuple[Pile, Shop]:
    """A pile and a shop whose limits bind now and then: one or two presses, half of them with a lift that is too small
    for some parts, half with a mortise and a chisel too short for it."""
    dice = random.Random(seed)
    n = layers or dice.randint(2, 9)
    areas = [dice.uniform(5e3, 9e4) for _ in range(n - 1)]
    channels: list[Channel] = []
    if dice.random() < 0.5:
        first = dice.randint(1, n)
        last = dice.randint(first, n)
        channels.append(Channel(MORTISE, "joint", first, last, dice.random() < 0.7, dice.random() < 0.7))
    pile = pile_with(
        areas,
        thickness=dice.choice([27.0, 45.0]),
        pins=dice.randint(0, 2),
        masses=[dice.uniform(1.0, 6.0) for _ in range(n)],
        widths=[dice.uniform(100.0, 400.0) for _ in range(n)],
        channels=tuple(channels),
        crush=dice.choice([None, 4.0, 8.0]),
    )
    height = pile.height(1, n)
    presses = [clamps(dice.randint(8, 30), opening=dice.choice([None, height * dice.uniform(0.4, 1.2)]))]
    if dice.random() < 0.5:
        kind = dice.choice(["clamp", "rod", "vacuum"])
        presses.append(clamps(dice.randint(1, 20), dice.uniform(1e3, 3e4), height * dice.uniform(0.6, 1.2), kind))
    room = GluingRoom(
        caul_thickness=dice.choice([0.0, 10.0]),
        helpers=dice.choice([0, 0, 1]),
        lift=dice.choice([100.0, dice.uniform(4.0, 20.0)]),
        reface=dice.choice([None, dice.uniform(200.0, 450.0)]),
        temperature=dice.uniform(10.0, 30.0),
    )
    reach = dice.choice([None, pile.layers[0].thickness * dice.uniform(0.5, 4.0)])
    glue = replace(YELLOW, assembly_time=dice.uniform(150.0, 900.0))
    return pile, shop_with(pile, presses, glue, room, dice.choice([0.3, 0.7, 1.2]), reach)


def by_trying(terms: Terms) -> tuple[int, int, int, int, int] | None:
    """Broken limits, set-ups, sub-stacks not to be re-faced, Σ lines² and Σ layers of the best order of all: the
    cheapest way (Dijkstra) over the sets of closed lines, from none to all. None where there is no order."""
    n = terms.layers
    everything = frozenset(range(n - 1))
    best: dict[frozenset[int], tuple[int, int, int, int, int]] = {frozenset(): (0, 0, 0, 0, 0)}
    heap: list[tuple[tuple[int, int, int, int, int], tuple[int, ...]]] = [((0, 0, 0, 0, 0), ())]
    known: dict[tuple[int, int, tuple[int, ...]], tuple[int, int, int, int, int] | None] = {}
    while heap:
        cost, state = heapq.heappop(heap)
        closed = frozenset(state)
        if cost > best[closed]:
            continue
        if closed == everything:
            return cost
        for a, b, lines in _next(n, closed):
            key = (a, b, lines)
            if key not in known:
                known[key] = _one(terms, a, b, lines)
            extra = known[key]
            if extra is None:
                continue
            total = tuple(map(sum, zip(cost, extra)))
            after = closed | set(lines)
            if after not in best or total < best[after]:
                best[after] = total
                heapq.heappush(heap, (total, tuple(sorted(after))))
    return None


def _next(n: int, closed: frozenset[int]) -> Iterator[tuple[int, int, tuple[int, ...]]]:
    """Every set-up that can follow: open lines with nothing but closed ones between them, and all that hangs on."""
    still = [i for i in range(n - 1) if i not in closed]
    for low in range(len(still)):
        for high in range(low, len(still)):
            lines = tuple(still[low : high + 1])
            a, b = lines[0], lines[-1] + 1
            while a - 1 in closed:
                a -= 1
            while b in closed:
                b += 1
            yield a, b, lines


def _one(terms: Terms, a: int, b: int, lines: tuple[int, ...]) -> tuple[int, int, int, int, int] | None:
    judged = judge(terms, a, b, lines)
    if judged is None:
        return None
    ends = [a, *(i + 1 for i in lines), b + 1]
    parts = [(low, high - 1) for low, high in zip(ends, ends[1:])]
    broken = judged.broken + sum(bool(terms.heavy[p]) for p in parts[1:])
    return broken, 1, sum(bool(terms.rough[p]) for p in parts), len(lines) ** 2, b - a + 1
