# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strength by sections beside the deep check, form by form: the greatest index of each and their ratio. Run by hand:

    .venv/bin/python tests/benchmarks/bench_strength.py [neck60 neck80 neck100 bowl armchair bench]

The necks beside the closed form 32 M / (π d³) under 135 N·m: 6.366, 2.686, 1.375 MPa. Sections are low on bowls and
rims: there they must not say that a piece holds.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import bench_deep
import bricks
import numpy as np
from weakforms import armchair, planned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.strength.checks import strength_checks
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings


def neck(diameter: float) -> tuple[Plan, dict[str, Mesh], UseSettings]:
    """A round post 480 mm long on a wide foot, pushed by 300 N at 500 mm: 135 N·m 50 mm above the floor."""
    r = diameter / 2
    profile = [[0, 0], [r + 60, 0], [r + 60, 45], [r, 50], [r, 500], [0, 500]]
    load = LoadSettings(name="push", push=300.0, at=(r, 0.0, 500.0), direction=0.0)
    return *bricks.turned(profile), UseSettings(own_loads=True, loads=(load,))


def case(name: str) -> tuple[Plan, dict[str, Mesh], UseSettings]:
    if name.startswith("neck"):
        return neck(float(name[4:]))
    if name == "armchair":
        return *planned({"Chair": armchair()}), UseSettings(kind="seat")
    return *bench_deep.CASES[name](), UseSettings(kind="stool")


def main() -> None:
    for name in sys.argv[1:] or ("neck60", "neck80", "neck100", "mushroom", "bowl", "armchair", "bench"):
        plan, meshes, use = case(name)
        sections = plan_strength(plan, meshes, use, species_table())
        worst = max(sections.sections, key=lambda s: max(s.use, s.tenon_use))
        verdicts = sorted({c.verdict for c in strength_checks(sections, "mm")})
        deep = check_deep(plan, meshes, use, species_table(), lambda share, what: True)
        least = max(worst.use, worst.tenon_use)
        assert deep.worst is not None, deep.refused
        line = f"{name:<9} sections {least:.3f} ({worst.kind}), deep {deep.worst.index:.3f} ({deep.worst.kind})"
        line += f", ratio {least / deep.worst.index:.2f}, sections say {' '.join(verdicts)}"
        if name.startswith("neck"):
            closed = 32 * 135e3 / (np.pi * float(name[4:]) ** 3)
            line += f"; closed form {closed:.3f} MPa, sections {worst.bending:.3f}, deep {deep.worst.stress:.3f}"
        print(line, flush=True)


if __name__ == "__main__":
    main()
