# SPDX-License-Identifier: LGPL-2.1-or-later

"""Several board thicknesses in the slicing panel: the curve wood ↔ layers, and a point picked from it."""

from __future__ import annotations

import re

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def pick_a_point(desk):
    import FreeCAD

    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "45 mm")
    desk.settle()

    def curve():
        return desk.widget("thicknessCurve")

    def picked():
        return curve().points[curve().picked].layers if curve().picked >= 0 else None

    def click(index):
        at = curve().place(index)
        curve().pick_near(at.x(), at.y())
        desk.settle()

    told["hidden_at_first"] = not curve().isVisible()
    desk.type_into("otherStock", "27 mm")
    desk.wait_until(lambda: curve().points, what="the curve")
    points = curve().points
    told["points"] = [[p.layers, p.wood] for p in points]
    told["open"] = list(curve().open)
    told["shown"] = curve().isVisible()
    told["least_wood"] = picked()
    desk.picture("curve")
    told["picks"] = {}
    for index, able in enumerate(curve().open):
        if able:
            click(index)
            told["picks"][str(points[index].layers)] = [
                picked(), desk.widget("pick").currentData(), desk.widget("worth").text(), desk.widget("layers").text()
            ]  # fmt: skip
    closed = list(curve().open).index(False) if False in curve().open else None
    if closed is not None:
        click(closed)
        told["near_an_empty_one"] = picked()
    desk.type_into("worth", "much")
    desk.wait_until(lambda: not curve().points, what="the refusal")
    told["refused"] = [desk.widget("StackLam_SliceFormSentence").text(), curve().isVisible()]
    desk.widget("worth").clear()
    desk.wait_until(lambda: curve().points, what="the curve again")
    index = next(i for i, able in enumerate(curve().open) if able and 0 < i < len(points) - 1)
    click(index)
    told["chosen"] = points[index].layers
    desk.picture("curve-picked")
    desk.press_ok()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")
    settings = settings_of_stack(stack)
    told["made"] = [stack.LayerCount, list(settings.stock), settings.pick, settings.glue_line_worth]
    told["thicknesses"] = sorted({round(o.Thickness.Value, 6) for o in stack.Layers})
    stack.ViewObject.Proxy.doubleClicked(stack.ViewObject)
    desk.wait_until(desk.panel_open, what="the stack's panel")
    told["reopened"] = [desk.widget("otherStock").text(), desk.widget("pick").currentData(), picked()]
    desk.press_cancel()
    return told


def test_a_point_of_the_curve_becomes_the_stack(tmp_path):
    run = freecad(pick_a_point, tmp_path, timeout=240)
    keep(run)
    told = run.result
    assert told["hidden_at_first"]
    assert told["shown"]
    points = told["points"]
    woods = [wood for _, wood in points]
    assert told["least_wood"] == points[woods.index(min(woods))][0]
    # The points that some worth of a glue line makes the best are the corners of the lower convex hull.
    for (n, wood), able in zip(points, told["open"]):
        worths = [k * 1e3 for k in range(0, 1200)]
        best = {min(points, key=lambda p, c=c: p[1] + c * p[0])[0] for c in worths}
        if n in best:
            assert able, (n, wood)
    for layers, (shown, pick, _, text) in told["picks"].items():
        assert shown == int(layers)
        boards = re.fullmatch(r"(\d+): (\d+) of 27.00 mm, (\d+) of 45.00 mm", text)
        if boards:
            assert int(boards[2]) + int(boards[3]) == int(boards[1]) == int(layers)
        else:
            assert text == f"{layers} of 45.00 mm"
        assert pick == ("fewest layers" if int(layers) == points[0][0] else "least wood")
    assert told["near_an_empty_one"] in {int(k) for k in told["picks"]}
    assert told["refused"] == ["“much” is not a volume: write it as in 0.3 l, 300 ml, 300 cm3 or 20 in3.", False]
    assert told["made"][0] == told["chosen"]
    assert told["made"][1:3] == [[45.0, 27.0], "least wood"]
    assert told["thicknesses"] == [27.0, 45.0]
    assert told["reopened"] == ["27 mm", "least wood", told["chosen"]]
