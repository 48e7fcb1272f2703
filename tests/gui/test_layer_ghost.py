# SPDX-License-Identifier: LGPL-2.1-or-later

"""The ghost of the layers while a form is sliced: there while the values can be, gone with the panel, never in the
document, and never in the way of a pick."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def watch_the_ghost(desk, folder):
    import time

    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.workbench.scene import layerghost, overlay

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    view = FreeCADGui.activeDocument().activeView()
    objects = [o.Name for o in document.Objects]

    spent = []
    show = layerghost.show

    def timed(*given):
        began = time.thread_time()
        show(*given)
        spent.append(time.thread_time() - began)

    layerghost.show = timed

    def seen():
        graph = view.getSceneGraph()
        return sum(overlay.is_of(graph.getChild(i), layerghost.OWNER) for i in range(graph.getNumChildren()))

    def ground(*colours):
        settings = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/View")
        settings.SetBool("Gradient", False)
        settings.SetBool("Simple", True)
        settings.SetUnsigned("BackgroundColor", colours[0])

    for name, colour in (("light", 0xFFFFFFFF), ("dark", 0x202428FF)):
        ground(colour)
        desk.select(document.Pedestal)
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", "45 mm")
        desk.type_into("allowance", "8 mm")
        desk.settle()
        told[f"seen {name}"] = seen()
        view.viewIsometric()
        FreeCADGui.SendMsgToActiveView("ViewFit")
        desk.picture(f"ghost-{name}")
        if name == "light":
            desk.type_into("stock", "900 mm")
            desk.settle()
            told["refused"] = seen()
            desk.type_into("stock", "45 mm")
            desk.settle()
            told["mended"] = seen()
            # Before what is picked lies a wall of the ghost.
            middle = view.getSize()[0] // 2, view.getSize()[1] // 2
            told["picked"] = (view.getObjectInfo(middle) or {}).get("Object", "")
            desk.press_cancel()
            told["cancelled"] = [seen(), [o.Name for o in document.Objects] == objects]
    desk.press_ok()
    told["made"] = seen()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")
    told["layers seen"] = all(layer.ViewObject.SwitchNode.whichChild.getValue() >= 0 for layer in stack.Layers)

    # A stack's layers give way to those that will be, and come back.
    stack.ViewObject.doubleClicked() if hasattr(stack.ViewObject, "doubleClicked") else None
    if not desk.panel_open():
        FreeCADGui.activeDocument().setEdit(stack.Name)
    desk.wait_until(desk.panel_open, what="the stack's panel")
    desk.type_into("stock", "27 mm")
    desk.settle()
    told["edited"] = [
        seen(),
        any(layer.ViewObject.SwitchNode.whichChild.getValue() >= 0 for layer in stack.Layers),
        document.Pedestal.ViewObject.SwitchNode.whichChild.getValue() >= 0,
        [layer.ViewObject.Visibility for layer in stack.Layers].count(False),
    ]
    desk.picture("ghost-edited")
    desk.press_cancel()
    told["after"] = [
        seen(),
        all(layer.ViewObject.SwitchNode.whichChild.getValue() >= 0 for layer in stack.Layers),
        document.Pedestal.ViewObject.SwitchNode.whichChild.getValue() >= 0,
    ]

    # Closing the document takes the ghost along; the panel says so, and a new document has none.
    desk.select(document.Top)
    desk.command("StackLam_SliceForm")
    desk.settle()
    told["before closing"] = overlay.shown(layerghost.OWNER)
    FreeCAD.closeDocument(document.Name)
    desk.settle()
    desk.press_cancel()
    told["closed"] = overlay.shown(layerghost.OWNER)
    told["drawn in"] = sorted(spent)[len(spent) // 2]
    return told


def test_the_layers_to_be_are_seen_and_leave_nothing(tmp_path: Path) -> None:
    told = keep(freecad(watch_the_ghost, tmp_path, arguments={"folder": str(tmp_path)})).result
    assert told["seen light"] == told["seen dark"] == told["mended"] == 1
    assert told["refused"] == 0
    assert told["picked"] == "Pedestal"
    assert told["cancelled"] == [0, True]
    assert told["made"] == 0 and told["layers seen"]
    # A stack that is changed gives way to it, and nothing of that is written into the document.
    assert told["edited"] == [1, False, True, 0]
    assert told["after"] == [0, True, True]
    assert told["before closing"] > 0 and told["closed"] == 0
    # Of the time of the window, a twentieth of a second.
    assert told["drawn in"] < 0.05
