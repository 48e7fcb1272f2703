# SPDX-License-Identifier: LGPL-2.1-or-later

"""The mark at the least wood of a stack over a shallow slope, and that square allowance takes it away."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def slice_a_hat(desk):
    import FreeCAD
    import FreeCADGui

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Hat")
    form = document.addObject("Part::Cone", "Hat")
    form.Radius1, form.Radius2, form.Height = 200, 0, 50
    document.recompute()
    desk.select(form)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "25 mm")
    desk.type_into("allowance", "3 mm")
    desk.settle()
    desk.press_ok()
    (stack,) = [o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack"]
    mark = stack.ViewObject.Proxy.mark
    FreeCADGui.Selection.clearSelection()
    told["caution"] = [stack.CoverVerdict, mark.shown]
    told["rims"] = [
        len(stack.ThinRims) // 2,
        sorted({round(p.z, 3) for p in stack.ThinRims}),
        mark.switch.getNumChildren(),
    ]
    told["radii"] = [f((p.x**2 + p.y**2) ** 0.5 for p in stack.ThinRims) for f in (min, max)]
    desk.view("least-wood")
    desk.picture("window-least-wood")
    stack.ViewObject.Visibility = False
    told["hidden"] = [mark.shown, mark.switch.getNumChildren()]
    stack.ViewObject.Visibility = True
    stack.AllowanceSquare = True
    document.recompute()
    told["square"] = [stack.CoverVerdict, mark.shown, len(stack.ThinRims)]
    desk.select(stack)
    desk.wait_until(lambda: mark.shown, what="the mark of the stack that is selected")
    told["selected"] = mark.shown
    return told


def test_the_least_wood_is_marked_where_it_is_short(tmp_path: Path) -> None:
    told = keep(freecad(slice_a_hat, tmp_path)).result
    assert told["caution"] == ["caution", True]
    # The step on the glue line lies between the cone's radius there, 100 mm, and the lower blank's edge, 200 and 3.2.
    count, heights, nodes = told["rims"]
    assert count > 8 and 25.0 in heights and set(heights) <= {0.0, 25.0, 50.0} and nodes == 2
    assert told["radii"][0] >= 0 and told["radii"][1] <= 200 + 3.2 + 1
    assert told["hidden"] == [False, 0]
    assert told["square"] == ["ok", False, 0]
    assert told["selected"] is True
