# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cutting plans beside CP-SAT's. Run by hand, with the packages of tools/requirements-bench.txt in a folder of yours:

    .venv/bin/pip install --no-deps --target FOLDER -r tools/requirements-bench.txt
    PYTHONPATH=FOLDER .venv/bin/python tests/benchmarks/bench_boards.py [racks] [seconds a rack]

CP-SAT may cut as the planner may: each board first into bands, each band into strips, each strip into staves end to
end, crosscut first or ripped first as the shop says, the waste beside a stave sawn off afterwards. A band is as long as
the longest of its strips, whatever lies in it; ripped first, a single band is as wide as one of its staves, for else
nothing would be ripped. The staves are longer than the machines ask for, so none is ganged. Knots are rectangles that
no stave may touch.
"""

from __future__ import annotations

import platform
import sys
from dataclasses import dataclass
from importlib.metadata import version
from math import ceil
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from smallracks import small_rack

from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER, ON_HAND, plan_cutting
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

#: Hundredths of the maker's money: all figures of the racks are whole in these and in mm.
CENT = 100


@dataclass(frozen=True)
class Slot:
    """A board that may be used, one way: clear length and width along the bands, cost, its knots (a0, b0, a1, b1)."""

    board: int
    across: bool
    a: int
    b: int
    blocks: tuple[tuple[int, int, int, int], ...]


def reference(staves: list[Stave], rack: Rack, shop: ShopSettings, below: float, seconds: float) -> tuple[float, float]:
    """CP-SAT's cost and its bound. below: a cost that is known to do (its boards are no more than that pays for)."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    trim, kerf = int(shop.end_trim), int(shop.kerf)
    ways = {"crosscut": (True,), "rip": (False,), "better": (True, False)}[shop.first_cut]
    costs: list[int] = []
    slots: list[Slot] = []
    alike: list[list[int]] = []
    for board in rack.boards:
        cost = round(board.price * CENT * (1.0 if board.for_sale else ON_HAND))
        many = min(len(staves), int(below * CENT + 1) // max(cost, 1)) if board.for_sale else 1
        mine = []
        for _ in range(many):
            mine.append(len(costs))
            costs.append(cost)
            for across in ways:
                length, width = int(board.length) - 2 * trim, int(board.width)
                blocks = []
                for k in board.knots:
                    x0, x1 = max(0, int(k.x) - trim), min(length, int(k.x + k.dx) - trim)
                    if x0 < x1:
                        box = (x0, int(k.y), x1, int(k.y + k.dy))
                        blocks.append(box if across else (box[1], box[0], box[3], box[2]))
                slots.append(Slot(mine[-1], across, *((length, width) if across else (width, length)), tuple(blocks)))
        alike.append(mine)
    used = [model.new_bool_var(f"used{i}") for i in range(len(costs))]
    for mine in alike:
        for one, other in zip(mine, mine[1:]):
            model.add(used[one] >= used[other])
    at: list[list] = [[] for _ in staves]
    n = len(staves)
    chosen: list[list] = [[] for _ in costs]
    for s, slot in enumerate(slots):
        plain = [(round(v.length), round(v.width)) for v in staves]
        sizes = plain if slot.across else [(wide, long) for long, wide in plain]
        mine = [i for i in range(n) if sizes[i][0] <= slot.a and sizes[i][1] <= slot.b]
        on = model.new_bool_var(f"on{s}")
        chosen[slot.board].append(on)
        # Strips are named after their widest stave, bands after the first of their strips.
        lies = {}
        for k in mine:
            for i in mine:
                if sizes[i][1] < sizes[k][1] or (sizes[i][1] == sizes[k][1] and i >= k):
                    lies[i, k] = model.new_bool_var(f"l{s}.{i}.{k}")
        for i in mine:
            here = [lies[i, k] for k in mine if (i, k) in lies]
            at[i] += here
            for k in mine:
                if (i, k) in lies and i != k:
                    model.add(lies[i, k] <= lies[k, k])
        length, start, in_band, bands, ends = {}, {}, {}, [], {}
        for j in mine:
            length[j] = model.new_int_var(0, slot.a + kerf, f"h{s}.{j}")
            start[j] = model.new_int_var(0, slot.a, f"p{s}.{j}")
            ends[j] = model.new_int_var(0, slot.a + kerf, f"e{s}.{j}")
            in_band[j, j] = model.new_bool_var(f"b{s}.{j}")
            bands.append(model.new_optional_interval_var(start[j], length[j], ends[j], in_band[j, j], f"v{s}.{j}"))
        for j in mine:
            for k in mine:
                if k > j:
                    in_band[k, j] = model.new_bool_var(f"b{s}.{k}.{j}")
                    model.add(in_band[k, j] <= in_band[j, j])
        for k in mine:
            model.add(sum(in_band[k, j] for j in mine if (k, j) in in_band) == lies[k, k])
            extent = sum((sizes[i][0] + kerf) * lies[i, k] for i in mine if (i, k) in lies)
            for j in mine:
                if (k, j) in in_band:
                    # The band with its kerf is as long as the strip with one kerf more than it has.
                    model.add(length[j] >= extent).only_enforce_if(in_band[k, j])
        for j in mine:
            model.add(ends[j] <= slot.a + kerf).only_enforce_if(in_band[j, j])
        if slot.blocks:
            (a0, b0, a1, b1), thin = slot.blocks[0], max(0, kerf - (slot.blocks[0][3] - slot.blocks[0][1]))
            b0, b1 = b0 - ceil(thin / 2), b1 + ceil(thin / 2)
        for j in mine:
            inside = [k for k in mine if (k, j) in in_band]
            model.add(sum((sizes[k][1] + kerf) * in_band[k, j] for k in inside) <= slot.b + kerf)
            if slot.blocks:
                before, behind, over = (model.new_bool_var(f"{w}{s}.{j}") for w in ("f", "g", "o"))
                model.add(ends[j] - kerf <= a0).only_enforce_if(before)
                model.add(start[j] >= a1).only_enforce_if(behind)
                model.add_bool_or(before, behind, over)
                low, high = [], []
                for k in inside:
                    one, two = model.new_bool_var(""), model.new_bool_var("")
                    model.add(one + two == in_band[k, j])
                    low.append((sizes[k][1] + kerf) * one)
                    high.append((sizes[k][1] + kerf) * two)
                model.add(sum(low) <= max(0, b0 + kerf if b0 > 0 else 0)).only_enforce_if(over)
                model.add(sum(high) <= max(0, slot.b - b1 + kerf if slot.b > b1 else 0)).only_enforce_if(over)
        model.add_no_overlap(bands)
        if not slot.across:
            # Ripped first there is a rip: two bands, or one as long (here: as wide) as one of its pieces.
            two = model.new_bool_var(f"two{s}")
            model.add(sum(in_band[j, j] for j in mine) >= 2).only_enforce_if(two)
            widest = {i: model.new_bool_var(f"w{s}.{i}") for i in mine}
            model.add(sum(widest.values()) + two >= on)
            for i in mine:
                model.add(widest[i] <= sum(lies[i, k] for k in mine if (i, k) in lies))
                for j in mine:
                    model.add(length[j] <= sizes[i][0] + kerf).only_enforce_if(widest[i])
        for k in mine:
            model.add(lies[k, k] <= on)
        room = (slot.a + kerf) * (slot.b + kerf)
        model.add(sum((sizes[i][0] + kerf) * (sizes[i][1] + kerf) * lies[i, k] for i, k in lies) <= room * on)
    for b, here in enumerate(chosen):
        model.add(sum(here) <= used[b])
    for here in at:
        model.add(sum(here) == 1)
    total = sum(c * u for c, u in zip(costs, used))
    model.add(total <= round(below * CENT))
    model.minimize(total)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    solver.parameters.random_seed = 14
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return float("inf"), solver.best_objective_bound / CENT
    return solver.objective_value / CENT, solver.best_objective_bound / CENT


def main() -> None:
    racks = int(sys.argv[1]) if len(sys.argv) > 1 else 50
    seconds = float(sys.argv[2]) if len(sys.argv) > 2 else 60.0
    print(f"ortools {version('ortools')}, Python {platform.python_version()}, {platform.machine()}")
    print("rack pieces first      quick   ours  (s)    CP-SAT  bound  (s)   ours dearer by")
    equal, proven, worst, slow = 0, 0, 0.0, 0.0
    for seed in range(racks):
        staves, rack, first = small_rack(seed)
        shop = ShopSettings(first_cut=first, jointing=0.0)
        begun = perf_counter()
        quick = plan_cutting(staves, rack, shop)
        early = perf_counter() - begun
        begun = perf_counter()
        ours = plan_cutting(staves, rack, shop, rounds=LOOK_LONGER)
        spent = perf_counter() - begun
        slow = max(slow, spent)
        begun = perf_counter()
        cost, bound = reference(staves, rack, shop, ours.objective, seconds)
        theirs = perf_counter() - begun
        dearer = max(0.0, ours.objective / cost - 1)
        equal += dearer < 1e-3
        proven += abs(cost - bound) < 0.5 / CENT or ours.objective - bound < 0.5 / CENT
        worst = max(worst, dearer)
        print(f"{seed:4d} {len(staves):6d} {first:9} {quick.objective:7.2f} ({early:4.2f}) {ours.objective:7.2f} "
              f"({spent:4.2f}) {cost:8.2f} {bound:7.2f} ({theirs:5.1f}) {100 * dearer:6.2f} %  {ours.method}",
              flush=True)  # fmt: skip
    print(f"equal in {equal} of {racks}, never more than {100 * worst:.2f} % dearer; CP-SAT proved {proven}; the "
          f"slowest of ours took {slow:.1f} s")  # fmt: skip


if __name__ == "__main__":
    main()
