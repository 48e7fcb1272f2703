# SPDX-License-Identifier: LGPL-2.1-or-later

"""A tenon through three pieces: preview, wood, bench figures, the mark of the least cover, copy and suppression."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def join_three_pieces(desk):
    import json

    import FreeCAD
    import FreeCADGui
    from pivy import coin

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Three")
    boxes = []
    for name, bottom, height in (("Foot", 0, 100), ("Shelf", 100, 50), ("Crown", 150, 100)):
        box = document.addObject("Part::Box", name)
        box.Length, box.Width, box.Height = 120, 120, height
        box.Placement.Base = FreeCAD.Vector(-60, -60, bottom)
        boxes.append(box)
    document.recompute()
    for box in boxes:
        desk.select(box)
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", "25 mm")
        desk.press_ok()
    graph = FreeCADGui.activeDocument().activeView().getSceneGraph()

    def previews():
        nodes = [graph.getChild(i) for i in range(graph.getNumChildren())]
        return sum(node.isOfType(coin.SoAnnotation.getClassTypeId()) for node in nodes)

    def joints():
        return [o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Joint"]

    # Picked out of their order: what lies between the others is gone through.
    FreeCADGui.Selection.clearSelection()
    for box in (boxes[2], boxes[0], boxes[1]):
        FreeCADGui.Selection.addSelection(document.Name, box.Name)
    desk.command("StackLam_AddJoint")
    told["preview"] = previews()
    told["first_axis"] = [desk.widget(f"point{c}").property("exactValue") for c in "XY"]
    told["through"] = [desk.widget(f"through{n}").isChecked() for n in (1, 2, 3)]
    desk.type_into("tenonSide", "40 mm")
    desk.type_into("depth1", "60 mm")
    desk.type_into("depth2", "70 mm")
    desk.type_into("pointZ", "125 mm")
    desk.widget("tenonWood").setCurrentIndex(desk.widget("tenonWood").findData("sugar maple"))
    desk.type_into("chiselReach", "30 mm")
    desk.widget("beforeGlueUp").setChecked(False)
    desk.widget("bits").setText("38 mm; 1-3/8 in")
    desk.type_into("drillStroke", "60 mm")
    desk.settle()
    told["figures"] = [desk.widget(n).text() for n in ("tenon", "cover", "boring")]
    told["sentence"] = desk.widget("StackLam_AddJointSentence").text()
    FreeCADGui.activeDocument().activeView().viewIsometric()
    FreeCADGui.SendMsgToActiveView("ViewFit")
    desk.picture("joint-of-three")
    desk.press_ok()
    (joint,) = joints()
    told["made"] = [joint.TenonLength.Value, joint.Species, joint.ChiselReach.Value, joint.Verdict, len(joint.Stacks)]
    told["gone"] = previews()
    (shop,) = (o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Shop")
    told["shop"] = [sorted(bit["diameter"] for bit in json.loads(shop.Rest)["bits"]), shop.DrillStroke.Value]
    mark = joint.ViewObject.Proxy.mark
    told["selected"] = mark.shown
    desk.view("joint-selected")
    FreeCADGui.Selection.clearSelection()
    desk.wait_until(lambda: not mark.shown, what="the mark to go with the selection")
    told["unselected"] = mark.shown

    # Too near to the side: the mark stays, selected or not.
    joint.Through = FreeCAD.Vector(35, 0, 125)
    document.recompute()
    told["near"] = [joint.Verdict, joint.LeastCover.Value, mark.shown]
    place = joint.CoverPlace
    told["place"] = [place.x, place.z]
    desk.view("joint-near-the-side")

    # Edited by double click, then left by Escape.
    FreeCADGui.activeDocument().setEdit(joint.Name)
    desk.wait_until(desk.panel_open, what="the joint's panel")
    told["edit"] = [desk.widget("chiselReach").property("exactValue"), desk.widget("tenonWood").currentData()]
    told["edit_preview"] = previews()
    FreeCADGui.activeDocument().resetEdit()
    desk.wait_until(lambda: not desk.panel_open(), what="the joint's panel to close")
    told["escaped"] = [desk.panel_open(), previews()]

    # A copy stands in the same wood until it is moved; suppressed, it takes none.
    stack = next(s for s in joint.Stacks if s.Piece == "Shelf")
    joint.Through = FreeCAD.Vector(25, 25, 125)
    joint.Size = 30
    document.recompute()
    one = sum(o.BlankVolume.Value - o.Shape.Volume for o in stack.Layers)
    copy = document.copyObject(joint, False)
    copy.Through = FreeCAD.Vector(-25, -25, 125)
    document.recompute()
    two = sum(o.BlankVolume.Value - o.Shape.Volume for o in stack.Layers)
    copy.Suppressed = True
    document.recompute()
    again = sum(o.BlankVolume.Value - o.Shape.Volume for o in stack.Layers)
    told["taken"] = [two / one, again / one]
    told["suppressed"] = [copy.Verdict, copy.Shape.isNull(), copy.ViewObject.Proxy.mark.shown]
    told["state"] = sorted({s for o in document.Objects for s in o.State} - {"Expanded"})
    return told


def test_a_tenon_through_three_pieces(tmp_path: Path) -> None:
    told = keep(freecad(join_three_pieces, tmp_path, timeout=240)).result
    assert told["boxes"] == []
    assert told["preview"] == 1
    # The datum of a box is its corner; the axis is offered in its middle.
    assert told["first_axis"] == pytest.approx([0.0, 0.0], abs=1e-6)
    assert told["through"] == [False, False, True]
    # 60 mm in the crown, 50 mm through the shelf, 70 mm in the foot.
    assert told["figures"][0] == "39.80 mm square, 180.00 mm long"
    # Below the mortise are 100 - 72 mm, of which the point of the bit takes 4 mm; other walls are thicker.
    assert told["figures"][1] == "24.00 mm"
    # Chisels that reach 30 mm reach half of the shelf from either side, but neither of the stopped ends.
    assert sorted(told["figures"][2].split("; ")) == [
        "Crown: 38 mm forstner bit, before glue-up",
        "Foot: 38 mm forstner bit, before glue-up",
        "Shelf: 38 mm forstner bit, after glue-up",
    ]
    assert told["shop"] == [pytest.approx([34.925, 38.0]), pytest.approx(60.0)]
    assert told["made"] == [pytest.approx(180.0), "sugar maple", 30.0, "ok", 3]
    assert told["gone"] == 0
    assert told["selected"]
    assert not told["unselected"]
    # 60 - 35 - 20 mm are left at the side.
    verdict, cover, shown = told["near"]
    assert (verdict, cover, shown) == ("caution", pytest.approx(5.0, abs=0.01), True)
    assert told["place"][0] == pytest.approx(55.0, abs=0.01)
    assert told["edit"] == [30.0, "sugar maple"]
    assert told["edit_preview"] == 1
    assert told["escaped"] == [False, 0]
    assert told["taken"] == [pytest.approx(2.0, rel=1e-6), pytest.approx(1.0, rel=1e-6)]
    assert told["suppressed"] == ["suppressed", True, False]
    assert told["state"] in ([], ["Up-to-date"])


def look_at_a_fit(desk):
    import FreeCAD
    import FreeCADGui

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Two")
    for name, bottom in (("Foot", 0), ("Crown", 100)):
        box = document.addObject("Part::Box", name)
        box.Length, box.Width, box.Height = 120, 120, 100
        box.Placement.Base = FreeCAD.Vector(-60, -60, bottom)
        document.recompute()
        desk.select(box)
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", "25 mm")
        desk.press_ok()
    FreeCADGui.Selection.clearSelection()
    for name in ("Foot", "Crown"):
        FreeCADGui.Selection.addSelection(document.Name, name)
    desk.command("StackLam_AddJoint")
    desk.settle()
    field = desk.widget("clearance")
    told["shown"] = field.property("text")
    told["value"] = field.property("exactValue")
    told["boring"] = desk.widget("boring").text()
    told["sentence"] = desk.widget("StackLam_AddJointSentence").text()
    desk.picture("joint-in-inches")
    desk.type_into("clearance", "0.005 in")
    desk.settle()
    told["typed"] = [field.property("text"), field.property("exactValue")]
    return told


def test_a_fit_in_inches_shows_thousandths(tmp_path: Path) -> None:
    # Imperial decimal as the maker's preference: from 1.0 on a new document takes its units from there.
    told = keep(freecad(look_at_a_fit, tmp_path, preferences={"Units/UserSchema": 3}, timeout=240)).result
    assert told["value"] == 0.1
    assert "0.0039" in told["shown"], told  # 0.1 / 25.4 = 0.003937
    assert told["typed"][1] == pytest.approx(0.127) and told["typed"][0].startswith("0.005"), told
    assert " mm" not in told["sentence"] + told["boring"]


def type_while_another_window_is_active(desk):
    import FreeCAD
    from PySide import QtGui

    desk.open_workbench()
    document = FreeCAD.newDocument("One")
    box = document.addObject("Part::Box", "Foot")
    document.recompute()
    desk.select(box)
    desk.command("StackLam_SliceForm")
    other = QtGui.QWidget()
    other.show()
    other.activateWindow()
    desk.wait_until(other.isActiveWindow, what="the other window to be the active one")
    field = desk.type_into("allowance", "1/2")
    return {"left": [field.property("text"), field.property("exactValue")], "other": other.isVisible()}


def test_what_is_typed_counts_whichever_window_was_active(tmp_path: Path) -> None:
    # Without the focus the field is never left, and its text stays as it was typed.
    told = freecad(type_while_another_window_is_active, tmp_path, preferences={"Units/UserSchema": 3}, timeout=120)
    assert told.result["other"]
    text, value = told.result["left"]
    assert value == pytest.approx(12.7) and text.replace(" ", "") in ("0.50in", '0.50"'), text
