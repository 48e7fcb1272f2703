# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waste tabs typed into the slicing panel, a line each, under a fold."""

from __future__ import annotations

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def type_a_tab(desk):
    import FreeCAD

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "45 mm")
    desk.settle()
    told["folded"] = not desk.widget("wasteTabs").isVisible()
    told["before"], told["to_carve"] = desk.widget("wood").text(), [desk.widget("carved").text().split(",")[0]]
    desk.widget("foldTabs").click()
    desk.settle()
    field = desk.widget("wasteTabs")
    told["example"] = field.placeholderText()
    field.setPlainText("a tab on layer 4")
    desk.settle()
    told["refused"] = desk.widget("StackLam_SliceFormSentence").text()
    field.setPlainText("layers 4-6; direction 0deg; width 60 mm; out 50 mm")
    desk.settle()
    told["sentence"] = desk.widget("StackLam_SliceFormSentence").text()
    told["after"] = desk.widget("wood").text()
    told["to_carve"].append(desk.widget("carved").text().split(",")[0])
    desk.picture("waste-tabs")
    desk.press_ok()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")
    told["held"] = list(stack.WasteTabs)
    told["state"] = stack.State
    stack.ViewObject.Proxy.doubleClicked(stack.ViewObject)
    desk.wait_until(desk.panel_open, what="the stack's panel")
    told["reopened"] = [desk.widget("wasteTabs").isVisible(), desk.widget("wasteTabs").toPlainText()]
    desk.press_cancel()
    return told


def test_a_waste_tab_is_typed_in_the_panel(tmp_path):
    run = freecad(type_a_tab, tmp_path, timeout=240)
    keep(run)
    told = run.result
    assert told["folded"]
    assert told["example"] == "layers 3-5; direction 45deg; width 60 mm; out 50 mm"
    assert told["refused"].startswith("“a tab on layer 4” is no waste tab: write it as in layers 3-5")
    assert told["sentence"] == "" and told["before"] != told["after"]
    assert told["to_carve"][0] == told["to_carve"][1]  # tabs are sawn off
    assert told["state"] == ["Up-to-date"]
    assert told["held"] == ["layers 4-6; direction 0deg; width 60 mm; out 50 mm; aside 0 mm; fillet 16 mm"]
    assert told["reopened"] == [True, told["held"][0]]
