# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cutting plans of short staves: ganged by the greatest savings or not at all, beside several ways to gang.

Run by hand: .venv/bin/python tests/benchmarks/bench_gangs.py [racks]. Racks are those of bench_boards.py with staves of
80 to 420 mm, most of them too short for the machines alone. Seconds are processor time.
"""

from __future__ import annotations

import platform
import sys
from dataclasses import replace
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import numpy as np
from smallracks import small_rack

from freecad_stacklam.lamination.boards import cutting
from freecad_stacklam.lamination.settings.shop import ShopSettings


def main() -> None:
    racks = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    several = cutting.GANGINGS
    print(f"Python {platform.python_version()}, numpy {np.__version__}, {platform.machine()}")
    print("rack staves   once  (s)   several  (s)   cheaper by")
    better, saved, spent = 0, [], [0.0, 0.0]
    for seed in range(racks):
        staves, rack, first = small_rack(seed)
        rng = np.random.default_rng([16, seed])
        staves = [replace(s, length=float(rng.integers(80, 420))) for s in staves]
        shop = ShopSettings(first_cut=first)
        costs, seconds = [], []
        for ways in (2, several):
            cutting.GANGINGS = ways
            begun = process_time()
            costs.append(cutting.plan_cutting(staves, rack, shop, rounds=cutting.LOOK_LONGER).objective)
            seconds.append(process_time() - begun)
        part = 1 - costs[1] / costs[0]
        better += part > 1e-6
        saved.append(part)
        spent = [a + b for a, b in zip(spent, seconds)]
        print(f"{seed:4d} {len(staves):6d} {costs[0]:7.2f} ({seconds[0]:4.1f}) {costs[1]:7.2f} ({seconds[1]:4.1f}) "
              f"{100 * part:6.2f} %", flush=True)  # fmt: skip
    dearer = sum(p < -1e-6 for p in saved)
    mean, most = 100 * float(np.mean(saved)), 100 * max(saved)
    print(f"cheaper in {better} of {racks}, dearer in {dearer}, on average by {mean:.2f} %, at most {most:.2f} %")
    print(f"{spent[0]:.0f} and {spent[1]:.0f} s in all")


if __name__ == "__main__":
    main()
