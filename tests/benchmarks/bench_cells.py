# SPDX-License-Identifier: LGPL-2.1-or-later

"""One load of the deep check in many cells: seconds of processor and memory, beside what was asked. Run by hand:

    .venv/bin/python tests/benchmarks/bench_cells.py [20000 100000 1000000]

Asked: 3 s a load of 1e5 cells. The neck beside statics, M c / I − N / A.
"""

from __future__ import annotations

import resource
import sys
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import bricks
import numpy as np

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.stress.loads import Load
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN
from freecad_stacklam.lamination.stress.model import model_of
from freecad_stacklam.lamination.voxels.fill import size_for, voxels_of

LOAD = Load(0, (110.0, 0.0, 450.0), (0.0, 0.0, -1300.0))
#: Cells → seconds asked for a load.
ASKED = {20_000: 0.35, 100_000: 3.0, 1_000_000: 26.0}


def main() -> None:
    plan, meshes = bricks.turned(bricks.MUSHROOM)
    pull = (1300 * 110 * 30 / (np.pi * 30**4 / 4) - 1300 / (np.pi * 30**2)) / 5.5
    for asked in [int(a) for a in sys.argv[1:]] or list(ASKED):
        begun = process_time()
        cells = voxels_of(plan, meshes, size_for(plan, asked))
        filled = process_time()
        model = model_of(plan, meshes, cells, species_table(), FLAT_SAWN, about=[(30.0, 0.0, 220.0)])
        made = process_time()
        moved, balance = model.solve(LOAD)
        solved = process_time()
        index = float(model.index(moved, LOAD, False)[0].max())
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6
        limit = ASKED.get(asked)
        print(
            f"{len(model.body.lattice.share)} cells: filled {filled - begun:.1f} s, made ready {made - filled:.1f} s, "
            f"a load {solved - made:.1f} s (asked {limit or '–'}), peak {peak:.2f} GB, balance {balance:.0e}, neck "
            f"{index:.3f} (statics {pull:.3f})",
            flush=True,
        )


if __name__ == "__main__":
    main()
