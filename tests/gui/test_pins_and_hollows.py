# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pins, voids and joints in the real FreeCAD: live previews, one undo step, editing by double click, marks."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def pin_and_hollow_the_example(desk, folder):
    import FreeCAD
    import FreeCADGui
    from pivy import coin

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    told["greyed"] = [desk.is_active(f"StackLam_{n}") for n in ("SetPins", "HollowLayers")]
    desk.slice_example("4 mm")
    graph = FreeCADGui.activeDocument().activeView().getSceneGraph()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")
    before, undos = [o.Name for o in document.Objects], document.UndoCount

    def made(kind):
        return next((o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == kind), None)

    def previews():
        nodes = [graph.getChild(i) for i in range(graph.getNumChildren())]
        return sum(node.isOfType(coin.SoAnnotation.getClassTypeId()) for node in nodes)

    def taken():
        return sum(o.BlankVolume.Value - o.Shape.Volume for o in stack.Layers)

    # Two stacks and none of them picked: one sentence.
    FreeCADGui.Selection.clearSelection()
    count = len(desk.boxes)
    desk.command("StackLam_SetPins")
    told["which"] = desk.boxes[count:]

    # Pins: previewed, cancelled, refused, made, undone, redone.
    desk.select(stack.Layers[3])
    desk.command("StackLam_SetPins")
    told["preview"] = previews()
    desk.press_cancel()
    told["cancelled"] = [previews(), [o.Name for o in document.Objects] == before, document.UndoCount == undos]
    desk.select(stack)
    desk.command("StackLam_SetPins")
    desk.type_into("pinDiameter", "8 mm")
    desk.type_into("pinMargin", "60 mm")
    desk.settle()
    told["refused"] = [desk.widget("StackLam_SetPinsSentence").text(), desk.widget("pins").text(), previews()]
    count = len(desk.boxes)
    desk.press_ok()
    told["ok_refused"] = [len(desk.boxes) - count, desk.panel_open(), [o.Name for o in document.Objects] == before]
    desk.type_into("pinSkip", "eight")
    desk.settle()
    told["no_layer"] = desk.widget("StackLam_SetPinsSentence").text()
    desk.widget("pinSkip").clear()
    desk.type_into("pinMargin", "8 mm")
    desk.settle()
    told["pins"] = [desk.widget(n).text() for n in ("pins", "pinCover", "pinMisfit", "pinLines")]
    desk.view("pins-preview")
    desk.picture("pins-panel")
    desk.press_ok()
    pins = made("Pins")
    told["pins_made"] = [pins.PinCount, pins.LeastCover.Value, pins.Verdict, document.UndoCount - undos, previews()]
    told["pins_view"] = type(pins.ViewObject.Proxy).__name__
    told["bored"] = [taken(), 2 * pins.Shape.Volume / 2]
    told["children"] = [o.Name for o in stack.ViewObject.Proxy.claimChildren()][-2:]
    desk.picture("pins-made")
    document.undo()
    document.recompute()
    told["undone"] = [[o.Name for o in document.Objects] == before, abs(taken()) < 1e-3]
    document.redo()
    document.recompute()
    pins = made("Pins")

    # The hollow beside them.
    desk.select(stack)
    desk.command("StackLam_HollowLayers")
    desk.settle()
    told["hollow_opens"] = [desk.widget("wall").property("exactValue"), desk.widget("voids").text()[:1]]
    desk.type_into("wall", "30 mm")
    desk.settle()
    told["hollow"] = [desk.widget(n).text() for n in ("voids", "woodSaved", "leastWall", "glueArea", "vents")]
    told["hollow_says"] = desk.widget("StackLam_HollowLayersSentence").text()
    desk.view("hollow-preview")
    desk.picture("hollow-panel")
    desk.type_into("wall", "200 mm")
    desk.settle()
    told["too_thick"] = [desk.widget("StackLam_HollowLayersSentence").text(), previews()]
    desk.type_into("wall", "30 mm")
    desk.settle()
    desk.press_ok()
    hollow = made("Hollow")
    told["hollow_made"] = [hollow.VoidCount, hollow.WoodSaved.Value, hollow.Verdict, pins.Hollow == hollow, previews()]
    told["apart"] = pins.Shape.distToShape(hollow.Shape)[0]
    desk.picture("hollow-made")

    # By double click: the same panel, with the same values; Escape leaves nothing behind.
    FreeCADGui.activeDocument().setEdit(hollow.Name)
    desk.wait_until(desk.panel_open, what="the hollow's panel")
    told["edit"] = [desk.widget("wall").property("exactValue"), desk.widget("caps").value(), previews()]
    desk.type_into("vent", "8 mm")
    desk.settle()
    desk.press_ok()
    told["vented"] = [hollow.Vent.Value, hollow.Verdict, FreeCADGui.activeDocument().getInEdit() is None]
    FreeCADGui.activeDocument().setEdit(pins.Name)
    desk.wait_until(desk.panel_open, what="the pins' panel")
    told["edit_pins"] = [desk.widget(n).property("exactValue") for n in ("pinDiameter", "pinMargin")]
    FreeCADGui.activeDocument().resetEdit()
    desk.wait_until(lambda: not desk.panel_open(), what="the pins' panel to close")
    told["escaped"] = [desk.panel_open(), previews()]
    desk.select(stack)
    desk.command("StackLam_SetPins")  # pinned already: the same pins are edited
    told["again"] = desk.widget("pinDiameter").property("exactValue")
    desk.press_cancel()

    # Marks: with the selection, and away with the object.
    mark = pins.ViewObject.Proxy.mark
    desk.select(stack)
    told["mark_unselected"] = [mark.shown, pins.CoverVerdict]
    desk.select(pins)
    told["mark_selected"] = mark.shown
    desk.view("pins-selected")
    pins.ViewObject.Visibility = False
    told["mark_hidden"] = mark.shown
    pins.ViewObject.Visibility = True
    desk.select(hollow)
    told["mark_hollow"] = hollow.ViewObject.Proxy.mark.shown
    desk.view("hollow-selected")

    # Suppressed, saved, opened again.
    pins.Suppressed = True
    document.recompute()
    told["suppressed"] = [pins.Verdict, pins.ViewObject.Proxy.mark.shown]
    pins.Suppressed = False
    document.recompute()
    volume = taken()
    path = folder + "/pinned.FCStd"
    document.saveAs(path)
    FreeCAD.closeDocument(document.Name)
    document = FreeCAD.openDocument(path)
    desk.settle()
    for obj in document.Objects:
        obj.touch()
    document.recompute()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")
    unwell = [o.Name for o in document.Objects if "Invalid" in o.State or "Touched" in o.State]
    told["reopened"] = [abs(taken() - volume) < 1.0, unwell]
    told["views"] = [type(made(kind).ViewObject.Proxy).__name__ for kind in ("Pins", "Hollow")]
    FreeCADGui.Selection.clearSelection()
    FreeCADGui.Selection.addSelection(document.Name, made("Pins").Name)
    desk.wait_until(lambda: made("Pins").ViewObject.Proxy.mark.shown, what="the mark of the pins that are selected")
    told["mark_reopened"] = made("Pins").ViewObject.Proxy.mark.shown
    return told


def test_pins_and_voids_are_previewed_made_and_edited(tmp_path: Path) -> None:
    told = keep(freecad(pin_and_hollow_the_example, tmp_path, arguments={"folder": str(tmp_path)}, timeout=300)).result
    assert told["greyed"] == [False, False]
    assert len(told["which"]) == 1
    assert told["which"][0].endswith(".")
    assert told["preview"] == 1
    assert told["cancelled"] == [0, True, True]
    sentence, figure, previews = told["refused"]
    assert sentence.endswith(".")
    assert (figure, previews) == ("–", 0)
    assert told["ok_refused"] == [1, True, True]
    assert "numbers" in told["no_layer"]
    # Ten layers have nine glue lines, two pins each.
    assert told["pins"][0] == "18"
    assert told["pins"][3].count("\n") == 8
    count, cover, verdict, steps, previews = told["pins_made"]
    assert (count, steps, previews) == (18, 1, 0)
    assert cover == pytest.approx(float(told["pins"][1].split()[0]), abs=0.01)
    assert cover >= 8.0
    assert verdict in ("ok", "caution")
    assert told["pins_view"] == "PinsView"
    assert told["bored"][0] == pytest.approx(told["bored"][1], rel=1e-4)
    assert told["children"] == ["Layer009", "Pins"]
    assert told["undone"] == [True, True]
    # 50 mm is too thick for the example: the panel opens with the thickest wall that leaves a void.
    assert told["hollow_opens"][0] < 50 and told["hollow_opens"][1] == "1"
    assert told["hollow"][0].startswith("1, in layers")
    assert "vent" in told["hollow_says"]
    assert "thicker than the body" in told["too_thick"][0]
    assert told["too_thick"][1] == 0
    voids, saved, verdict, knows, previews = told["hollow_made"]
    assert (voids, verdict, knows, previews) == (1, "caution", True, 0)
    assert saved > 1e5
    assert told["apart"] >= 8.0
    assert told["edit"] == [30.0, 2, 1]
    assert told["vented"] == [8.0, "caution", True]  # vented, and still it saves little
    assert told["edit_pins"] == [8.0, 8.0]
    assert told["escaped"] == [False, 0]
    assert told["again"] == 8.0
    shown, verdict = told["mark_unselected"]
    assert shown == (verdict != "ok")
    assert told["mark_selected"]
    assert not told["mark_hidden"]
    assert told["mark_hollow"]
    assert told["suppressed"] == ["suppressed", False]
    assert told["reopened"] == [True, []]
    assert told["views"] == ["PinsView", "HollowView"]
    assert told["mark_reopened"]
