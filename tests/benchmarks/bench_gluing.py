# SPDX-License-Identifier: LGPL-2.1-or-later

"""The order of a glue-up: beside every order tried for small piles, and how long sixty layers take.

Run by hand: `.venv/bin/python tests/benchmarks/bench_gluing.py [jobs]`. Times are the processor's, not the clock's.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from time import process_time

sys.path[:0] = [str(Path(__file__).resolve().parents[2]), str(Path(__file__).resolve().parents[1])]

from gluepiles import YELLOW, by_trying, clamps, pile_with, random_job, shop_with  # noqa: E402

from freecad_stacklam.lamination.gluing.limits import Shop, Terms, terms_of  # noqa: E402
from freecad_stacklam.lamination.gluing.order import cost_of, order_of  # noqa: E402
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, Pile  # noqa: E402
from freecad_stacklam.lamination.gluing.rounds import rounds_of  # noqa: E402
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom  # noqa: E402


def timed(job: Callable[[], object]) -> tuple[object, float]:
    """What a job gives, and its seconds."""
    begun = process_time()
    return job(), process_time() - begun


def small(jobs: int) -> None:
    """Random piles of up to nine layers, planned and tried."""
    ours = theirs = 0.0
    held = broken = none = differ = 0
    for seed in range(jobs):
        terms = terms_of(*random_job(seed))
        order, took = timed(lambda t=terms: order_of(t))  # type: ignore[misc]
        best, tried = timed(lambda t=terms: by_trying(t))  # type: ignore[misc]
        ours, theirs = ours + took, theirs + tried
        cost = cost_of(terms, order.runs)  # type: ignore[attr-defined]
        if best is None:
            none += 1
        elif best[0]:  # type: ignore[index]
            broken += 1
            differ += cost is None or cost[:2] != best[:2]  # type: ignore[index]
        else:
            held += 1
            differ += cost != best
    print(
        f"{jobs} random piles, 2 to 9 layers: {held} hold, {broken} break limits, {none} have no order; {differ} differ"
    )
    print(f"  planned in {1000 * ours / jobs:.1f} ms, tried in {1000 * theirs / jobs:.1f} ms each")


def sixty(name: str, seed: int | None, lift: float = 200.0, channel: Channel | None = None) -> None:
    """Sixty layers, two kinds of clamps, seven to ten lines at once."""
    dice = random.Random(seed)
    areas = [2e4 if seed is None else dice.uniform(5e3, 4e4) for _ in range(59)]
    pile = pile_with(areas, 20.0, masses=[1.0] * 60, channels=(channel,) if channel else ())
    room = GluingRoom(caul_thickness=0.0, reface=300.0, lift=lift)
    owned = [clamps(12, opening=700.0), clamps(8, 9340.0)]
    shop = shop_with(pile, owned, replace(YELLOW, assembly_time=700.0), room, reach=90.0 if channel else None)
    told(name, pile, shop)


def told(name: str, pile: Pile, shop: Shop) -> None:
    """One line of the table."""
    begun = process_time()
    terms = terms_of(pile, shop)
    order = order_of(terms)
    ordered = process_time()
    rounds = rounds_of(terms, shop, order)
    ended = process_time()
    print(
        f"  {name:28} {len(order.runs):3} set-ups  broken {order.broken}  cost {_cost(terms, order.runs)}  "
        f"rounds {rounds.least} to {rounds.taken}  order {ordered - begun:.2f} s, rounds {ended - ordered:.2f} s"
    )


def _cost(terms: Terms, runs: object) -> object:
    return cost_of(terms, runs)  # type: ignore[arg-type]


if __name__ == "__main__":
    small(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
    print("60 layers:")
    sixty("equal lines", None)
    for seed in (1, 2, 3):
        sixty(f"random lines {seed}", seed)
    sixty("random lines, lift 6 kg", 1, 6.0)
    sixty("random, through mortise", 1, channel=Channel(MORTISE, "joint", 1, 60, True, True))
    sixty("random, mortise of 6 layers", 1, channel=Channel(MORTISE, "joint", 55, 60, False, True))
    for seed in range(6):
        told(f"random job {seed}", *random_job(seed, 60))
