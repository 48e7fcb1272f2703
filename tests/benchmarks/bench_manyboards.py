# SPDX-License-Identifier: LGPL-2.1-or-later

"""Many staves, none alike, on boards for sale, beside the area bound and the LP bound of three stages.

Run by hand: .venv/bin/python tests/benchmarks/bench_manyboards.py [racks] [rounds of columns]. With rounds, the linear
programme is closed further than the planner does: by its own pricing, which lets a piece come again in a pattern and
rounds sizes down, and by boards filled at its prices. Its value is then between the two figures that are printed.
Seconds are processor time.
"""

from __future__ import annotations

import platform
import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import numpy as np
from woodyard import for_sale, stave

from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER, plan_cutting
from freecad_stacklam.lamination.packing import bounds
from freecad_stacklam.lamination.packing.fullboard import Effort, fullest
from freecad_stacklam.lamination.packing.lot import ClearBoard
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

Column = tuple[np.ndarray, float]


def large_rack(seed: int) -> tuple[list[Stave], list[Board], str]:
    """60 to 259 staves of 302 to 900 mm, one to three boards for sale, and which cut comes first."""
    rng = np.random.default_rng([15, seed])
    staves = [stave(f"s{i}", float(rng.uniform(302, 900)), float(rng.uniform(45, 140)))
              for i in range(int(rng.integers(60, 260)))]  # fmt: skip
    boards = []
    for i in range(int(rng.integers(1, 4))):
        width, length = float(rng.uniform(145, 260)), float(rng.uniform(1800, 3200))
        boards.append(for_sale(width, length, round(width * length / 5000 * rng.uniform(0.9, 1.1), 1), f"Y{i}"))
    return staves, boards, str(rng.choice(["crosscut", "rip", "better"]))


def closed(staves: list[Stave], boards: list[Board], shop: ShopSettings, rounds: int) -> tuple[float, float]:
    """A lower bound on the LP and the value of the LP over the columns found."""
    from scipy.optimize import linprog

    rng = np.random.default_rng(5)
    sizes = [(s.length, s.width) for s in staves]
    a, b = np.array(sizes).T
    sheets = [ClearBoard(x.length - 2 * shop.end_trim, x.width, float(x.price or 0), 0) for x in boards]
    ways = ("crosscut", "rip") if shop.first_cut == "better" else (shop.first_cut,)
    count = len(sizes)
    demand = np.ones(count)
    pricers = [(k, bounds.Pricer(sizes, demand, s, shop.kerf, w)) for k, s in enumerate(sheets) for w in ways]
    columns: list[Column] = [(col, sheets[k].cost) for k, p in pricers for col in p.plain()]
    best, centre = 0.0, np.zeros(count)
    value = np.inf
    for turn in range(rounds):
        matrix = -np.array([col for col, _ in columns]).T
        solved = linprog([c for _, c in columns], A_ub=matrix, b_ub=-demand, bounds=(0, None), method="highs")
        value, dual = float(solved.fun), -solved.ineqlin.marginals
        smooth = dual if turn == 0 else 0.7 * centre + 0.3 * dual
        gained = []
        for prices in (smooth, dual):
            for sheet in sheets:
                for way in ways:
                    turned = way == "rip"
                    room = (sheet.b, sheet.a) if turned else (sheet.a, sheet.b)
                    for _ in range(6):
                        spots = fullest(room, shop.kerf, b if turned else a, a if turned else b, prices + 1e-9, rng,
                                        Effort(6, 8, 100), whole=not turned)  # fmt: skip
                        column = np.zeros(count)
                        column[[i for i, _, _ in spots]] = 1.0
                        if dual @ column > sheet.cost * (1 + 1e-6):
                            gained.append((column, sheet.cost))
        if turn >= rounds // 8:
            values = np.zeros(len(sheets))
            for k, pricer in pricers:
                worth, column = pricer.best(smooth)
                values[k] = max(values[k], worth)
                if dual @ column > sheets[k].cost * (1 + 1e-6):
                    gained.append((column, sheets[k].cost))
            bound, scaled = bounds.lagrangian(smooth, demand, sheets, values)
            if bound > best:
                best, centre = bound, scaled
        else:
            centre = smooth
        if not gained:
            break
        columns += gained
        if len(columns) > 6000:
            columns.sort(key=lambda c: c[1] - float(dual @ c[0]))
            columns = columns[:4000]
    return best, value


def main() -> None:
    racks = int(sys.argv[1]) if len(sys.argv) > 1 else 4
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    print(f"Python {platform.python_version()}, numpy {np.__version__}, {platform.machine()}")
    for seed in range(racks):
        staves, boards, first = large_rack(seed)
        shop = ShopSettings(first_cut=first, jointing=0.0)
        begun = process_time()
        ours = plan_cutting(staves, Rack(tuple(boards)), shop, rounds=LOOK_LONGER)
        spent = process_time() - begun
        bound = ours.bound_area or 0.0
        print(f"{seed:3d} {len(staves):4d} staves {len(boards)} kinds {first:9} {len(ours.plan):3d} boards "
              f"{ours.objective:7.1f}, area {bound:7.1f}, {100 * (ours.objective / bound - 1):5.2f} % above it "
              f"({spent:4.1f} s, {ours.method})", flush=True)  # fmt: skip
        if rounds:
            low, high = closed(staves, boards, shop, rounds)
            print(f"    the LP of three stages is between {max(low, bound):.1f} and {high:.1f}", flush=True)


if __name__ == "__main__":
    main()
