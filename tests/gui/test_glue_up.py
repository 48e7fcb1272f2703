# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up in the real FreeCAD: clamps, glue and room into the panel, set-ups out, the slider, the tree.

Set-ups come from a planner that is no more than arithmetic (glueplans.py), so that what is seen here is the panel.
"""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui
TESTS = str(Path(__file__).resolve().parent.parent)


def glue_the_example(desk, folder, tests):
    import os
    import sys
    from pathlib import Path

    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui
    from PySide import QtGui as QtWidgets  # FreeCAD's alias holds the widgets too

    sys.path.append(tests)
    import glueplans

    from freecad_stacklam.docobjects.making.joints import make_joint
    from freecad_stacklam.docobjects.reading import gluing
    from freecad_stacklam.lamination.settings.joint import JointSettings
    from freecad_stacklam.workbench.gluing import clamp_table

    gluing.planner = lambda: glueplans.plan_glue_up
    told = {}
    desk.open_workbench()
    told["needs_a_stack"] = desk.is_active("StackLam_PlanGlueUp")
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    stacks = [o for o in document.Objects if o.Name.startswith("Stack")]
    embed = (("Pedestal", 75.0), ("Top", 25.0))
    make_joint(document, stacks, JointSettings("Pedestal to top", (0.0, 0.0, 450.0), embed=embed))
    document.recompute()
    before, undos = [o.Name for o in document.Objects], document.UndoCount

    def figures():
        names = ("verdict", "setUps", "glueMass", "conditions")
        return {name: desk.widget(name, desk.panel()).text() for name in names}

    def sentence():
        return desk.widget("StackLam_PlanGlueUpSentence").text()

    def table():
        return desk.widget("clamps")

    def put(row, column, text):
        table().item(row, column).setText(text)
        desk.settle()

    def listed():
        rows = desk.widget("setUpList")
        return [rows.item(i).text() for i in range(rows.count())]

    def layer_modes():
        return {o.Name: o.ViewObject.SwitchNode.whichChild.getValue() for o in document.Objects
                if hasattr(o.ViewObject, "SwitchNode")}  # fmt: skip

    def heights():
        """Where the layers of the pedestal are seen: the z of their bounding boxes in the scene."""
        from pivy import coin

        found = []
        for layer in stacks[0].Layers:
            action = coin.SoGetBoundingBoxAction(coin.SbViewportRegion(100, 100))
            action.apply(layer.ViewObject.RootNode)
            box = action.getBoundingBox()  # what it hands out lives no longer than it does
            corner = box.getMin()
            found.append(round(corner.getValue()[2], 1))
        return found

    def placements():
        return [str(o.Placement) for o in document.Objects if hasattr(o, "Placement")]

    modes, seen, places = layer_modes(), heights(), placements()
    shown = {o.Name: o.Visibility for o in document.Objects}

    # No clamps: said so, and OK says the same.
    desk.command("StackLam_PlanGlueUp")
    told["no_clamps"] = [sentence(), desk.says_at_ok(), figures()["verdict"]]
    told["take_none"] = (desk.press("Take mine", desk.panel()), desk.boxes.pop())[1]
    told["wide"] = desk.widget("StackLam_PlanGlueUp").minimumSizeHint().width()
    desk.press("Add", desk.panel())
    desk.settle()
    told["first"] = [figures(), listed()]
    desk.picture("glue-first")

    # Typed, refused, mended.
    put(0, 0, "Bar clamp 900")
    put(0, 1, "12")
    told["refused"] = {}
    for column, text, good in ((2, "40 kg", "3.02"), (1, "2.5", "12"), (3, "wide", "900 mm"), (0, "", "Bar clamp 900")):
        put(0, column, text)
        told["refused"][text] = sentence()
        put(0, column, good)
    told["mended"] = [sentence(), figures()["verdict"]]

    # Return opens the cell, and does not press OK.
    table().setCurrentCell(0, 3)
    desk._key(table(), QtCore.Qt.Key_Return, "\r")
    told["return"] = [desk.panel_open(), table().state() == QtWidgets.QAbstractItemView.EditingState]
    table().setCurrentCell(0, 0)
    # The end of a row that is higher than the list can be scrolled to.
    told["scrolls"] = desk.widget("setUpList").verticalScrollMode() == QtWidgets.QAbstractItemView.ScrollPerPixel

    # A file, and the maker's own clamps.
    mine = folder + "/mine.csv"
    Path(mine).write_text(
        "name,kind,count,force,opening mm,air MPa\nBag,vacuum,1,,,0.08\nBar clamp 900,,6,3 kN,900,\n", encoding="utf-8"
    )
    clamp_table.ask_open = lambda parent, title, at: mine
    clamp_table.ask_save = lambda parent, title, path: folder + "/out.csv"
    desk.press("Load CSV…", desk.panel())
    desk.settle()
    told["loaded"] = [
        table().rowCount(),
        table().item(1, 1).text(),
        table().item(0, 7).text(),
        table().item(1, 7).text(),
    ]
    desk.press("Save CSV…", desk.panel())
    told["saved"] = Path(folder + "/out.csv").read_bytes().decode()
    told["written"] = desk.widget("clampsDone").text()
    desk.press("Keep as mine", desk.panel())
    told["kept"] = desk.widget("clampsDone").text()
    table().selectRow(0)
    desk.press("Remove", desk.panel())
    told["removed"] = table().rowCount()
    desk.press("Take mine", desk.panel())
    desk.settle()
    told["taken"] = table().rowCount()
    # The bar clamps first: they press.
    table().selectRow(0)
    desk.press("Remove", desk.panel())
    desk.settle()

    # Another glue, its own figures, the room.
    told["times"] = desk.widget("glueTimes").text()
    kind = desk.widget("glueKind")
    told["kinds"] = [kind.itemText(i) for i in range(kind.count())]
    kind.setCurrentIndex(kind.findData("epoxy"))
    desk.settle()
    told["epoxy"] = [desk.widget("glueTimes").text(), desk.widget("glueOpenTime").placeholderText()]
    desk.widget("foldGlue").click()
    desk.type_into("glueOpenTime", "2 min")
    desk.settle()
    told["short"] = [figures()["verdict"], listed()]
    desk.picture("glue-broken")
    desk.type_into("glueOpenTime", "soon")
    desk.settle()
    told["no_time"] = [sentence(), desk.says_at_ok()]
    told["marked"] = [bool(desk.widget(name).styleSheet()) for name in ("glueOpenTime", "glueCureTime")]
    desk.widget("glueOpenTime").clear()
    desk.type_into("roomTemperature", "-60")
    desk.settle()
    told["cold"] = sentence()
    desk.type_into("roomTemperature", "18")
    desk.type_into("roomHumidity", "45")
    desk.settle()
    told["units"] = [desk.widget(name).text() for name in ("roomTemperature", "roomHumidity", "roomLift")]
    told["marked"].append(bool(desk.widget("glueOpenTime").styleSheet()))
    told["well"] = [sentence(), figures()]
    told["now"] = [desk.widget("roomTimes").isVisible(), desk.widget("roomTimes").text()]
    desk.widget("foldGlue").click()

    # The wheel scrolls the panel, and changes nothing on its way.
    told["rolled"] = []
    table().setFocus()
    for name in ("glueKind", "roomHelpers", "roomCaulThickness", "glueSlider"):
        field = desk.widget(name)
        line = field.findChild(QtWidgets.QLineEdit)
        text = line.text if line else field.value if name == "glueSlider" else field.currentText
        before_roll = text()
        for turn in (-120, 120):
            at = QtCore.QPointF(5, 5)
            QtWidgets.QApplication.sendEvent(field, QtGui.QWheelEvent(
                at, at, QtCore.QPoint(), QtCore.QPoint(0, turn), QtCore.Qt.NoButton, QtCore.Qt.NoModifier,
                QtCore.Qt.NoScrollPhase, False))  # fmt: skip
            told["rolled"].append(text() == before_roll)

    # The slider steps through; nothing in the document moves.
    told["closed"] = heights() == seen
    slider = desk.widget("glueSlider")
    told["steps"] = [slider.minimum(), slider.maximum(), slider.value()]
    told["rises"] = {}
    for step in (0, 1, 2, slider.maximum()):
        slider.setValue(step)
        desk.settle()
        told["rises"][step] = [round(a - b, 1) for a, b in zip(heights(), seen)]
        told.setdefault("said", {})[step] = [desk.widget("glueStep").text(), desk.widget("setUpSaid").text(),
                                             desk.widget("setUpList").currentRow()]  # fmt: skip
        if step != slider.maximum():
            FreeCADGui.SendMsgToActiveView("ViewFit")
            desk.picture(f"glue-step-{step}")
    told["hidden"] = sorted(n for n, mode in layer_modes().items() if mode == -1 and modes[n] != -1)
    desk.widget("setUpList").setCurrentRow(0)
    told["by_row"] = slider.value()
    told["unmoved"] = placements() == places
    told["unhidden"] = {o.Name: o.Visibility for o in document.Objects} == shown
    told["untouched"] = [document.UndoCount - undos, [o.Name for o in document.Objects] == before]
    desk.press_cancel()
    desk.settle()
    told["cancelled"] = [heights() == seen, layer_modes() == modes, document.UndoCount - undos,
                         [o.Name for o in document.Objects] == before]  # fmt: skip

    # Again, from the kept clamps, and kept this time.
    desk.command("StackLam_PlanGlueUp")
    told["remembered"] = [table().rowCount(), desk.widget("glueKind").currentData()]
    table().selectRow(0)
    desk.press("Remove", desk.panel())
    desk.settle()
    slider = desk.widget("glueSlider")
    slider.setValue(1)
    desk.settle()
    desk.press_ok()
    told["made"] = {
        "steps": document.UndoCount - undos,
        "new": sorted({o.Name for o in document.Objects} - set(before)),
        "state": sorted({s for o in document.Objects for s in o.State}),
        "back": [heights() == seen, {n: m for n, m in layer_modes().items() if n in modes} == modes],
        "children": [o.Name for o in document.GlueUp.ViewObject.Proxy.claimChildren()],
        "icons": [os.path.basename(o.ViewObject.Proxy.getIcon()) for o in (document.GlueUp, document.GlueSet)],
        "sheet": [document.Clamps.get(c) for c in ("A2", "C2", "D1", "D2", "E2")],
        "selected": [o.Name for o in FreeCADGui.Selection.getSelection()],
    }
    desk.picture("glue-made")

    # A set-up that is selected shows its layers alone, and no longer than that.
    one = document.GlueSet001
    desk.select(one)
    now = layer_modes()
    names = [n.Name for n in one.Layers]
    seen_now = [n for n, m in now.items() if m != -1]
    others = [n for n in seen_now if not n.startswith("Layer") and modes.get(n, -1) != -1]
    told["alone"] = [sorted(n for n in seen_now if n.startswith("Layer")) == sorted(names), others]
    desk.picture("glue-alone")
    FreeCADGui.Selection.clearSelection()
    desk.settle()
    told["together"] = {n: m for n, m in layer_modes().items() if n in modes} == modes

    document.undo()
    document.recompute()
    told["undone"] = [o.Name for o in document.Objects] == before
    document.redo()
    document.recompute()
    told["redone"] = [len(document.GlueUp.SetUps), [n.Number for n in document.GlueUp.SetUps[1].Layers]]

    # A double click opens the panel with the values as they were.
    FreeCADGui.getDocument(document.Name).setEdit(document.GlueUp.Name)
    desk.wait_until(desk.panel_open, what="the panel")
    put(0, 3, "300 mm")
    told["edit"] = figures()["verdict"]
    desk.press_ok()
    states = sorted({s for o in document.Objects for s in o.State} - {"Expanded"})  # the tree's own
    told["edited"] = [document.GlueUp.Verdict, document.UndoCount - undos, states]

    # Saved, opened again: nothing is planned, and the tree is the same.
    path = folder + "/glued.FCStd"
    document.saveAs(path)
    FreeCAD.closeDocument(document.Name)
    asked = []
    gluing.planner = lambda: asked.append(1) or glueplans.plan_glue_up
    document = FreeCAD.openDocument(path)
    desk.settle()
    told["reopened"] = [len(asked), len(document.GlueUp.ViewObject.Proxy.claimChildren()), document.GlueUp.Verdict,
                        sorted({s for o in document.Objects for s in o.State})]  # fmt: skip
    desk.select(document.GlueSet)
    modes = {n: m for n, m in layer_modes().items() if m != -1 and n.startswith("Layer")}
    told["alone_again"] = sorted(modes) == sorted(n.Name for n in document.GlueSet.Layers)
    FreeCADGui.Selection.clearSelection()
    document.GlueUp.ViewObject.Proxy.doubleClicked(document.GlueUp.ViewObject)
    desk.wait_until(desk.panel_open, what="the panel")
    slider = desk.widget("glueSlider")
    slider.setValue(0)
    desk.settle()
    FreeCAD.closeDocument(document.Name)
    told["document_gone"] = desk.panel_open()
    if desk.panel_open():
        desk.press_cancel()
    return told


def test_the_glue_up_from_panel_to_tree(tmp_path: Path) -> None:
    run = keep(freecad(glue_the_example, tmp_path, arguments={"folder": str(tmp_path), "tests": TESTS}, timeout=400))
    told = run.result
    assert told["needs_a_stack"] is False
    said, box, verdict = told["no_clamps"]
    assert said == box
    assert said.startswith("There are no clamps")
    assert verdict == "–"
    assert told["take_none"].startswith("No clamps were kept yet")
    # As wide as FreeCAD's own panels at first.
    assert told["wide"] <= 260
    # Nine lines of the pedestal in threes, one of the top, and the joint.
    figures, rows = told["first"]
    assert (figures["setUps"], len(rows)) == ("5, with 5 waits for the glue", 5)
    assert rows[0].startswith("1. Pedestal, layers 1 to 4\nok: contact after 4 min 30 s of 8 min")
    assert rows[4].startswith("5. Pedestal to top: Pedestal and Top")
    for text, sentence in told["refused"].items():
        assert sentence.startswith("Clamps, row 1, "), text
        assert sentence.endswith("."), text
    assert told["mended"] == ["", "ok: every set-up holds its limits"]
    assert told["return"] == [True, True]
    assert told["scrolls"]
    assert told["loaded"] == [2, "6", "0.08", ""]
    saved = list(csv.reader(io.StringIO(told["saved"])))
    assert saved[0] == ["name", "kind", "count", "force kN", "opening mm", "throat mm", "pad mm", "air MPa"]
    assert saved[2][:5] == ["Bar clamp 900", "clamp", "6", "3", "900"]
    assert told["written"] == f"The clamps were written to {tmp_path}/out.csv."
    assert told["kept"].startswith("These clamps were kept")
    assert (told["removed"], told["taken"]) == (1, 2)
    assert told["times"] == "At 20 °C: open 8 min, pressed within 15 min, in clamps 1 h, cured after 24 h"
    assert "epoxy" in told["kinds"]
    assert told["epoxy"][0].startswith("At 20 °C: open 25 min")
    assert told["epoxy"][1] == "25 min"
    verdict, rows = told["short"]
    assert verdict == "stop: 3 of 5 set-ups break a limit"
    assert rows[0].endswith("stop: The first line waits 270 s for its contact, and the glue stays open 120 s.")
    assert told["no_time"][0] == told["no_time"][1]
    assert told["no_time"][0].startswith("“Open time”: “soon” is no time")
    assert told["cold"].startswith("“Temperature” cannot be -60 °C: give -20 °C to 60 °C")
    # A bare number gets its unit when the line is left; what is refused is marked where it stands, and no longer.
    assert told["units"] == ["18 °C", "45 %", ""]
    assert told["marked"] == [True, False, False]
    assert told["well"][0] == ""
    assert told["now"][0]
    assert told["now"][1].startswith("At 18 °C: open 25 min")
    assert told["well"][1]["conditions"] == "go: The wood is dry."
    assert told["rolled"] == [True] * 8
    # Layers of 45 mm gape by as much, one line above the other.
    assert told["closed"]
    assert told["steps"] == [0, 5, 5]
    gape = 45
    assert told["rises"]["0"] == pytest.approx([gape * k for k in range(10)], abs=0.15)
    assert told["rises"]["1"] == pytest.approx([0, 0, 0, 0, *(gape * k for k in range(1, 7))], abs=0.15)
    assert told["rises"]["2"] == pytest.approx([0] * 7 + [gape, 2 * gape, 3 * gape], abs=0.15)
    assert told["rises"]["5"] == [0] * 10
    assert told["said"]["0"] == ["Nothing is glued yet", "", -1]
    assert told["said"]["2"][0] == "Set-up 2 of 5, wait 2"
    assert "4 × Bar clamp 900" in told["said"]["2"][1]
    assert told["said"]["2"][2] == 1
    assert {"Pedestal", "Top"} <= set(told["hidden"])
    assert told["by_row"] == 1
    assert told["unmoved"]
    assert told["unhidden"]
    assert told["untouched"] == [0, True]
    assert told["cancelled"] == [True, True, 0, True]
    assert told["remembered"] == [2, "yellow glue"]
    made = told["made"]
    sets = ["GlueSet", *(f"GlueSet{n:03}" for n in range(1, 5))]
    assert (made["steps"], made["new"]) == (1, ["Clamps", *sets, "GlueUp"])
    assert made["state"] == ["Up-to-date"]
    assert made["back"] == [True, True]
    assert made["children"] == ["Clamps", *sets]
    assert made["icons"] == ["StackLam_PlanGlueUp.svg", "StackLam_SetUp.svg"]
    assert made["sheet"] == ["Bar clamp 900", 6, "force kN", 3, 900]
    assert made["selected"] == ["GlueUp"]
    assert told["alone"] == [True, []]
    assert told["together"]
    assert told["undone"]
    assert told["redone"] == [5, [1, 2, 3, 4, 5, 6, 7]]
    assert told["edit"].startswith("stop: 2 of 5")
    assert told["edited"] == ["stop", 2, ["Up-to-date"]]
    assert told["reopened"] == [0, 6, "stop", ["Up-to-date"]]
    assert told["alone_again"]


def glue_in_inches(desk, folder, tests):
    import sys

    import FreeCAD
    from PySide import QtGui

    sys.path.append(tests)
    import glueplans

    from freecad_stacklam.docobjects.reading import gluing

    real, gluing.planner = gluing.planner, lambda: glueplans.plan_glue_up
    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "1-3/4")
    desk.press_ok()
    desk.command("StackLam_PlanGlueUp")
    desk.press("Add", desk.panel())
    desk.settle()
    table, form = desk.widget("clamps"), desk.widget("StackLam_PlanGlueUp")
    told["cut"] = [
        i for i in range(1, 6)
        if table.fontMetrics().boundingRect(table.item(0, i).text()).width() + 6 > table.columnWidth(i)
    ]  # fmt: skip
    told["heads"] = [table.horizontalHeaderItem(i).text() for i in range(table.columnCount())]
    table.item(0, 2).setText("1050")
    table.item(0, 3).setText("1-1/2 ft")
    desk.settle()
    told["feet"] = [desk.widget("StackLam_PlanGlueUpSentence").text(), desk.widget("verdict").text()]
    for fold in ("foldGlue", "foldMoves", "foldCauls"):
        desk.widget(fold).click()
    desk.type_into("roomTemperature", "66")
    desk.type_into("glueLeastPressure", "120 psi")
    desk.type_into("glueGap", "1/64")
    desk.type_into("roomLift", "50")
    desk.settle()
    told["wide"] = form.minimumSizeHint().width()
    desk.widget("glueSlider").setValue(1)
    desk.settle()
    told["says"] = [w.text() for w in form.findChildren(QtGui.QLabel)] + [
        w.text() or w.placeholderText() for w in form.findChildren(QtGui.QLineEdit)
    ]
    desk.picture("glue-inches")
    desk.press_ok()
    made = document.GlueUp
    told["made"] = [made.Temperature, made.LeastPressure, made.Gap.Value, made.Lift]
    told["sheet"] = [document.Clamps.get(c) for c in ("D1", "D2", "E1", "E2", "G1")]
    told["state"] = sorted({s for o in document.Objects for s in o.State})
    # What was not touched keeps its own figures to the last bit.
    document.GlueUp.ViewObject.Proxy.doubleClicked(document.GlueUp.ViewObject)
    desk.wait_until(desk.panel_open, what="the panel")
    desk.press_ok()
    told["again"] = [made.Temperature, made.LeastPressure, made.Gap.Value, made.Lift] == told["made"]

    # The bench page goes where the maker says.
    from freecad_stacklam.workbench.panels import drawing_outputs

    gluing.planner = real
    drawing_outputs.ask_bench_page = lambda first: folder + "/bench.html"
    desk.command("StackLam_LayerDrawings")
    desk.settle()
    desk.press("Bench page…", desk.panel())
    told["bench"] = desk.said("StackLam_LayerDrawings")
    desk.picture("glue-bench-button")
    desk.press("Close", desk.panel())
    return told


def test_the_glue_up_in_inches(tmp_path: Path) -> None:
    preferences = {"Units/UserSchema": 3}
    run = keep(
        freecad(
            glue_in_inches,
            tmp_path,
            arguments={"folder": str(tmp_path), "tests": TESTS},
            preferences=preferences,
            timeout=300,
        )
    )
    told = run.result
    assert told["heads"][:6] == ["Name", "Count", "Force lbf", "Opening in", "Throat in", "Pad in"]
    assert told["cut"] == []
    assert told["feet"] == ["", "stop: 1 of 4 set-ups break a limit"]
    # As in test_inch_window: FreeCAD's own side panel at first, without frame and scroll bar.
    assert told["wide"] <= 225
    metric = [t for t in told["says"] if re.search(r"\d\s?(?:mm|cm|m|kg|g|l|kN|N|MPa|°C)(?![\w'’])", t)]
    assert metric == []
    # 66 °F = 18.889 °C; 1 psi = 6.894757 kPa, 1 lb = 0.45359237 kg (NIST SP 811, 2008, appendix B.8).
    assert told["made"] == pytest.approx([170 / 9, 0.8273709, 25.4 / 64, 22.6796185], rel=1e-6)
    assert told["sheet"] == ["force lbf", 1050, "opening in", 18, "pad in"]
    assert told["state"] == ["Up-to-date"]
    assert told["again"]
    assert told["bench"].startswith(f"The bench page was written to {tmp_path}/bench.html")
    page = (tmp_path / "bench.html").read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>\n<!-- Made by StackLam -->")
    assert "lbf" in page
