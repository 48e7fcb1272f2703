# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines with islands in and beside each other, each with a rack of its own: how many are planned. Run by hand:

    .venv/bin/python tests/benchmarks/bench_islands.py [cases]

Beside ours stands shapely: whether the staves cover each blank, and whether two are in one place.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import shapely
from islands import case
from shapely.geometry import Polygon

from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import ShopSettings


def main() -> None:
    cases = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    refused, bare, twice = [], 0.0, 0.0
    begun = perf_counter()
    staves = 0
    for seed in range(cases):
        stack, rack = case(seed)
        try:
            plan = boards_for([stack], rack, ShopSettings())
        except Refusal as refusal:
            refused.append(f"  case {seed}: {refusal}")
            continue
        staves += len(plan.staves)
        for layer in stack.layers:
            strips = [Polygon(s.region) for s in plan.staves if s.layer == layer.number]
            whole = shapely.union_all([s.buffer(1e-4, join_style="mitre") for s in strips])
            bare = max(bare, area_polygon(layer.blank).difference(whole).area)
            # Drawn in a little: an overlay of edges that differ in their last digits is not to be trusted.
            inner = [s.buffer(-1e-3, join_style="mitre") for s in strips]
            twice = max(twice, sum(s.area for s in inner) - shapely.union_all(inner).area)
    print("\n".join(refused))
    print(f"{cases - len(refused)} of {cases} planned, {staves} staves, in {perf_counter() - begun:.1f} s; by shapely "
          f"at most {bare:.2g} mm² of a blank are bare and {twice:.2g} mm² in two staves")  # fmt: skip


if __name__ == "__main__":
    main()
