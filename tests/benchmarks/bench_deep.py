# SPDX-License-Identifier: LGPL-2.1-or-later

"""The deep check of strength on turned and straight pieces: seconds of processor, and what it finds. Run by hand:

    .venv/bin/python tests/benchmarks/bench_deep.py [mushroom bowl bench]

Beside the mushroom's neck stands what statics say of it, M c / I − N / A.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import bricks
import numpy as np
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.usage.use import UseSettings


def bowl() -> tuple[Plan, dict[str, Mesh]]:
    """A bowl 300 mm wide with a wall of 12 mm."""
    turn = np.linspace(-np.pi / 2, 0, 16)
    outside = np.column_stack([150 * np.cos(turn), 150 + 150 * np.sin(turn)])
    inside = np.column_stack([138 * np.cos(turn), 150 + 138 * np.sin(turn)])
    wall = outside[outside[:, 1] > 15]
    return bricks.turned([[0, 0], [60, 0], *wall.tolist(), [150, 180], [138, 180], *inside[::-1].tolist()])


def bench() -> tuple[Plan, dict[str, Mesh]]:
    """A bench 1200 mm long on two feet, one form of 45 mm layers."""
    outline = [(0, 0), (90, 0), (90, 405), (1110, 405), (1110, 0), (1200, 0), (1200, 450), (0, 450)]
    flat = [(0, 1, 2), (0, 2, 7), (2, 6, 7), (2, 3, 6), (3, 5, 6), (3, 4, 5)]
    points = np.array([(x, y, z) for y in (0.0, 320.0) for x, z in outline])
    faces = [*flat, *[(c + 8, b + 8, a + 8) for a, b, c in flat]]
    for i in range(8):
        j = (i + 1) % 8
        faces += [(j, i, i + 8), (j, i + 8, j + 8)]
    meshes = {"Bench": gate(points, np.array(faces))}
    settings = Settings(stacks=(StackSettings(form="Bench", stock=(45.0,)),))
    return plan_job([Form(n, m) for n, m in meshes.items()], settings, species_table()), meshes


CASES = {"mushroom": lambda: bricks.turned(bricks.MUSHROOM), "bowl": bowl, "bench": bench}


def main() -> None:
    for name in sys.argv[1:] or CASES:
        plan, meshes = CASES[name]()
        begun = perf_counter()
        found = check_deep(plan, meshes, UseSettings(kind="stool"), species_table(), lambda share, what: True)
        worst = found.worst
        print(f"{name:<10} {found.cells} cells, {found.solved} loads solved of {found.tried}, {found.seconds:.1f} s "
              f"of processor, {perf_counter() - begun:.1f} s, balance {found.balance:.1e} {found.refused}")  # fmt: skip
        if worst is not None:
            print(
                f"           index {worst.index:.3f} {worst.kind}, layer {worst.layer}, {worst.rings}, “{worst.load}”"
            )
        if name == "mushroom" and worst is not None:
            arm = float(np.hypot(*worst.load_place[:2]))
            pull = 1300 * arm * 30 / (np.pi * 30**4 / 4) - 1300 / (np.pi * 30**2)
            print(f"           its neck by statics: {pull / 5.5:.3f}")


if __name__ == "__main__":
    main()
