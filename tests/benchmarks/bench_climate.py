# SPDX-License-Identifier: LGPL-2.1-or-later

"""A year of moisture in wood: solid cubes of about 1e5 and 1e6 cells, and a form that fills a quarter of its box. Run
by hand:

    .venv/bin/python tests/benchmarks/bench_climate.py

The yardstick is what was asked: 2 s and 12 s a year. Beside it what one sweep over all lines of the box, air and all,
would touch: cells of the box over cells of wood.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from freecad_stacklam.lamination.climate.diffusion import Body, Solver, solver_of, two_steps
from freecad_stacklam.lamination.climate.periodic import STEPS
from freecad_stacklam.lamination.climate.surface import YEAR, over_the_year

RATES = np.array([[43.2, 4.32, 4.32]])
ROOM = [7.0, 6.8, 7.2, 8.0, 9.0, 10.0, 10.6, 10.6, 10.0, 9.0, 8.0, 7.2]
ASKED = {46: 2.0, 100: 12.0}


def cube(count: int) -> Body:
    """A solid cube of so many cells of 4 mm along each edge."""
    shape = (count, count, count)
    return Body(np.ones(shape), 4.0, np.arange(count + 1) * 4.0, np.zeros(shape, dtype=np.int16), RATES)


def hourglass(count: int) -> Body:
    """A waisted stand that fills about a quarter of its box."""
    at = (np.arange(count) + 0.5) / count * 2 - 1
    x, y, z = np.meshgrid(at, at, at, indexing="ij")
    filled = np.clip((0.25 + 0.7 * z**2 - np.hypot(x, y)) * count / 2 + 0.5, 0.0, 1.0)
    return Body(filled, 4.0, np.arange(count + 1) * 4.0, np.zeros(filled.shape, dtype=np.int16), RATES)


def year(solver: Solver) -> float:
    """Seconds that a year takes."""
    asked = over_the_year(ROOM, 12 * STEPS)
    moisture = np.full(len(solver.cells), 8.0)
    start = perf_counter()
    for k in range(0, len(asked), 2):
        moisture = two_steps(solver, moisture, float(asked[k]), float(asked[k + 1]))
    return perf_counter() - start


def main() -> None:
    """Print a row a body."""
    print("| body | cells of wood | of its box | made ready | a year | asked |\n|---|---|---|---|---|---|")
    bodies = [(f"cube of {n}", cube(n), ASKED[n]) for n in ASKED] + [("hourglass in 100", hourglass(100), 0.0)]
    for name, body, asked in bodies:
        start = perf_counter()
        solver = solver_of(body, 2.6, YEAR / 12 / STEPS)
        ready = perf_counter() - start
        cells = len(solver.cells)
        took = year(solver)
        want = f"{asked:g} s" if asked else "–"
        print(f"| {name} | {cells} | {cells / body.filled.size:.0%} | {ready:.2f} s | {took:.2f} s | {want} |")


if __name__ == "__main__":
    main()
