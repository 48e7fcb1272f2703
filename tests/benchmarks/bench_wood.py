# SPDX-License-Identifier: LGPL-2.1-or-later

"""The wood of the bundled example on the bundled rack: layer sequence, staves, cutting plan. Run by hand:

    PYTHONPATH=/usr/lib/freecad-python3/lib:/usr/share/freecad/Ext .venv/bin/python tests/benchmarks/bench_wood.py

The yardstick is one rectangle around each layer's blank, made up and cut by the very same planner. Where FreeCAD cannot
be imported, a lobed pedestal stands in for the example.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench_shadows import lobed

from freecad_stacklam.data import example_form, example_rack, example_settings
from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER
from freecad_stacklam.lamination.boards.rack import read_rack
from freecad_stacklam.lamination.boards.staves import plan_staves
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.layers.stack import candidates, plan_stack
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area, extents, rectangle, sample
from freecad_stacklam.lamination.settings.board import Rack
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def forms() -> tuple[list[tuple[Form, StackSettings]], str]:
    """The example's forms with their settings, or a stand-in."""
    settings = read_settings(example_settings().read_text(encoding="utf-8"))
    try:
        import FreeCAD  # noqa: F401
    except ImportError:
        chosen = StackSettings(stock=(45.0,), allowance=4.0)
        return [(Form("Pedestal", lobed(240, 49)), chosen)], "a lobed pedestal (no FreeCAD here)"
    import FreeCAD as App

    from freecad_stacklam.docobjects.forms.form import datum_of, mesh_arrays, solids_of
    from freecad_stacklam.docobjects.forms.formfile import forms_in

    document = App.newDocument("bench")
    found = []
    for obj in forms_in(example_form(), document):
        for name, solid in solids_of(obj):
            chosen = next(s for s in settings.stacks if s.form == name)
            found.append((Form(name, gate(*mesh_arrays(solid)), datum_of(obj)), chosen))
    return found, "the bundled example"


def boxed(stack: StackPlan) -> StackPlan:
    """The same stack with a rectangle along the grain around every blank."""

    def box(layer: LayerPlan) -> LayerPlan:
        length, width = extents(layer.blank, layer.grain)
        turn = np.deg2rad(layer.grain)
        points = np.concatenate([sample(o.outer) for o in layer.blank])
        along = points @ [np.cos(turn), np.sin(turn)]
        across = points @ [-np.sin(turn), np.cos(turn)]
        u, v = (along.min() + along.max()) / 2, (across.min() + across.max()) / 2
        centre = (u * np.cos(turn) - v * np.sin(turn), u * np.sin(turn) + v * np.cos(turn))
        outline = rectangle(length, width, centre, layer.grain)
        return replace(layer, blank=(outline,), blank_area=area(outline))

    return replace(stack, layers=tuple(box(n) for n in stack.layers))


def shown(name: str, stacks: Sequence[StackPlan], rack: Rack, shop: ShopSettings) -> float:
    start = perf_counter()
    staves = sum(len(plan_staves(s, rack.boards, shop).staves) for s in stacks)
    made = perf_counter() - start
    start = perf_counter()
    quick = boards_for(stacks, rack, shop)
    first = perf_counter() - start
    plan = boards_for(stacks, rack, shop, rounds=LOOK_LONGER, lp_bound=True)
    lp = "–" if plan.bound_lp is None else f"{plan.bound_lp:.2f}"
    least = "" if plan.least_boards is None else f" (at least {plan.least_boards} boards)"
    sum_of = sum(s.width * s.length * s.thickness * s.copies for s in plan.staves) * 1e-6
    print(f"  {name:<44} {staves:4d} staves {sum_of:6.2f} l, {len(plan.plan):3d} boards, yield {plan.yield_:.3f}, "
          f"cost {plan.cost:8.2f} (quick {quick.cost:8.2f}), counts {plan.objective:8.2f}, area bound "
          f"{plan.bound_area:8.2f}, LP {lp}{least}; staves {made:.2f} s, quick {first:.2f} s")  # fmt: skip
    return plan.cost


def main() -> None:
    found, what = forms()
    rack = read_rack(example_rack().read_text(encoding="utf-8"))
    yard = Rack(tuple(b for b in rack.boards if b.for_sale))
    print(f"Layer sequences of {what}, 45 and 27 mm stock beside the one thickness of the settings")
    for form, chosen in found:
        one = candidates(form.mesh, replace(chosen, pick="fewest layers", stock=chosen.stock[:1])).points[0]
        start = perf_counter()
        curve = candidates(form.mesh, replace(chosen, stock=(45.0, 27.0)))
        spent = perf_counter() - start
        points = ", ".join(f"{p.layers}: {p.wood * 1e-6:.2f}" for p in curve.points)
        print(f"  {form.name}: {one.layers} layers of {chosen.stock[0]:g} mm {one.wood * 1e-6:.2f} l; {points} l")
        print(f"    found in {spent:.2f} s")
    large = lobed(500, 149)
    start = perf_counter()
    candidates(large, StackSettings(stock=(45.0, 27.0, 19.0)))
    print(f"  {len(large.triangles)} triangles, three thicknesses: {perf_counter() - start:.2f} s (asked: 3)")

    stacks = [plan_stack(f.mesh, s, name=f.name, datum=f.datum) for f, s in found]
    shop = ShopSettings(first_cut="better")
    for title, copies, boards in (("bundled rack, one piece", 1, rack), ("yard boards only, one piece", 1, yard),
                                  ("yard boards only, six pieces", 6, yard)):  # fmt: skip
        many = [replace(s, copies=copies) for s in stacks]
        print(title)
        ours = shown("blanks from staves", many, boards, shop)
        theirs = shown("one rectangle per layer, same planner", [boxed(s) for s in many], boards, shop)
        print(f"  saving against rectangles: {100 * (1 - ours / theirs):.1f} % (asked: 10)")
    print("gap to the LP bound, boards of one size, six pieces of the first stack")
    for board in (b for b in yard.boards if b.thickness == 48):
        alone = Rack((replace(board, cost=100.0, per="board"),))
        shown(f"{board.name} {board.width:g} × {board.length:g}", [replace(stacks[0], copies=6)], alone, shop)
    print("bought by area and 30 % more, as by hand:")
    litres = sum(length * width * n.thickness for s in stacks for n in s.layers
                 for length, width in [extents(n.blank, n.grain)]) * 1e-6  # fmt: skip
    print(f"  {litres:.2f} l of rectangles, {1.3 * litres:.2f} l with 30 %")


if __name__ == "__main__":
    main()
