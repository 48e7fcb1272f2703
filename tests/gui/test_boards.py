# SPDX-License-Identifier: LGPL-2.1-or-later

"""Boards in the real FreeCAD: the rack's table, the cutting plan, a better one, undo, save and reopen."""

from __future__ import annotations

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def plan_the_boards(desk, folder):
    from pathlib import Path

    import FreeCAD
    from PySide import QtGui

    from freecad_stacklam.data import example_rack

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    told["needs_a_stack"] = desk.is_active("StackLam_CutBoards")
    desk.slice_example()

    # Without boards there is nothing to cut from.
    desk.command("StackLam_CutBoards")
    told["without_rack"] = [desk.panel_open(), desk.boxes[-1] if desk.boxes else ""]

    # The rack: import, type, refuse, copy, remove, export.
    from freecad_stacklam.workbench.panels import rack_editor

    rack_editor.ask_open = lambda parent, title, folder_: str(example_rack())
    exported = folder + "/mine.csv"
    rack_editor.ask_save = lambda parent, title, path: exported
    undos = document.UndoCount
    desk.command("StackLam_BoardRack")

    def dialog():
        return desk.widget("StackLam_BoardRack")

    def table():
        return desk.widget("rackTable")

    def put(row, column, text):
        table().item(row, column).setText(text)
        desk.settle()
        return desk.widget("StackLam_BoardRackSentence").text()

    def says_at_ok(window):
        desk.press("OK", window)
        return desk.boxes.pop()

    told["empty"] = desk.widget("StackLam_BoardRackSentence").text()
    desk.press("Add", dialog())
    told["size_missing"] = says_at_ok(dialog())
    table().selectRow(0)
    desk.press("Remove", dialog())
    desk.press("Example boards", dialog())
    told["examples"] = table().rowCount()
    desk.press("Import CSV…", dialog())
    told["asked"] = desk.boxes.pop()
    told["imported"] = [table().rowCount(), desk.widget("StackLam_BoardRackSentence").text()]
    told["refused"] = {text: put(0, 3, text) for text in ("wide", "1,050 mm", "0", "-3 mm", "265 kg", "=1+1", "")}
    desk.picture("rack-refused", dialog())
    told["typed"] = put(0, 3, "10-7/16in")
    told["knot_off"] = put(1, 10, "2100 0 90 90")
    put(1, 10, "300 20 90 60")
    told["count"] = put(2, 5, "2.5")
    put(2, 5, "1")
    table().selectRow(1)
    desk.press("Copy", dialog())
    told["copied"] = [table().rowCount(), table().item(2, 0).text(), table().item(2, 10).text()]
    table().selectRow(2)
    desk.press("Remove", dialog())
    desk.press("Export CSV…", dialog())
    told["exported"] = Path(exported).read_text(encoding="utf-8")
    desk.picture("rack", dialog())
    desk.press("OK", dialog())

    def closed():
        tops = QtGui.QApplication.topLevelWidgets()
        return not any(w.objectName() == "StackLam_BoardRack" and w.isVisible() for w in tops)

    told["rack_closed"] = desk.wait_until(closed, what="the rack to close")
    rack = document.getObject("Rack")
    told["rack_view"] = rack.ViewObject.TypeId if rack.ViewObject is not None else ""
    told["rack"] = [rack.Label, rack.get("A2"), rack.get("D2"), rack.get("D1"), document.UndoCount - undos]

    # The cutting plan: quick, follows the typing, refuses, better, kept.
    desk.command("StackLam_CutBoards")

    def figures():
        names = ("staves", "boards", "buy", "yield", "cost", "best", "method")
        return {name: desk.widget(name, desk.panel()).text() for name in names}

    def sentence():
        return desk.widget("StackLam_CutBoardsSentence").text()

    desk.wait_until(lambda: figures()["staves"] != "–", what="the quick plan")
    told["quick"] = figures()
    desk.type_into("jointing", "400 mm")
    desk.wait_until(lambda: figures()["staves"] == "–", what="the refusal")
    told["too_wide"] = [sentence(), says_at_ok(desk.panel()), desk.panel_open()]
    desk.picture("cut-refused")
    desk.type_into("jointing", "1.5 mm")
    desk.wait_until(lambda: figures()["staves"] != "–", what="the plan as before")
    told["widest"] = desk.widget("maxStave").property("exactValue")
    desk.type_into("maxStave", "70 mm")
    desk.wait_until(lambda: figures()["staves"] not in ("–", told["quick"]["staves"]), what="narrower staves")
    told["narrow"] = figures()["staves"]
    desk.type_into("maxStave", "150 mm")
    desk.type_into("kerf", "2.5 mm")
    desk.wait_until(lambda: figures()["staves"] != "–", what="the plan for a thinner saw")
    desk.press("Look longer", desk.panel())
    told["better"] = figures()
    desk.press("Look closer", desk.panel())
    desk.picture("closer", desk.widget("StackLamBoardPicture"))
    desk.widget("StackLamBoardPicture").close()
    desk.picture("cut")
    undos = document.UndoCount
    names = {o.Name for o in document.Objects}
    desk.press_ok()
    told["kept"] = {
        "steps": document.UndoCount - undos,
        "new": sorted({o.Name for o in document.Objects} - names),
        "cost": document.Cutting.Cost,
        "kerf": document.Shop.Kerf.Value,
        "picture": Path(document.Cutting.Picture).read_bytes()[:4].hex(),
        "boards": list(document.Cutting.Boards),
        "state": sorted({s for o in document.Objects for s in o.State}),
    }
    desk.picture("kept")
    document.undo()
    document.recompute()
    told["after_undo"] = document.getObject("Cutting") is None
    document.redo()
    document.recompute()
    told["after_redo"] = [document.Cutting.Cost, document.Cutting.ShownFor == document.Cutting.KeptFor]

    # Saved, opened again, and still the same plan; another allowance makes it a quick one.
    path = folder + "/boards.FCStd"
    document.saveAs(path)
    FreeCAD.closeDocument(document.Name)
    document = FreeCAD.openDocument(path)
    desk.settle()
    document.recompute()
    told["reopened"] = [document.Cutting.Cost, document.Cutting.Method, document.Cutting.KeptFor != ""]
    told["icon"] = Path(document.Cutting.ViewObject.Proxy.getIcon()).name
    stack = next(o for o in document.Objects if o.Label == "Top stack")
    stack.Allowance = 6
    document.recompute()
    told["outdated"] = [document.Cutting.Method, document.Cutting.KeptFor]

    # A double click opens the panel; Stop ends a search at once and keeps what there is; Cancel changes nothing.
    import FreeCADGui

    FreeCADGui.getDocument(document.Name).setEdit(document.Cutting.Name)
    desk.wait_until(desk.panel_open, what="the panel")
    import time

    from freecad_stacklam.qt_binding import QtCore

    QtCore.QTimer.singleShot(200, lambda: desk.widget("stopPlanning").click())
    begun = time.process_time()  # other programs on the machine do not count
    desk.press("Look longer", desk.panel())
    told["stopped_after"] = time.process_time() - begun
    told["stopped"] = figures()
    desk.press_cancel()
    told["cancelled"] = [desk.panel_open(), document.Cutting.KeptFor]
    return told


def test_rack_and_cutting_plan(tmp_path):
    run = freecad(plan_the_boards, tmp_path, arguments={"folder": str(tmp_path)}, timeout=240)
    keep(run)
    told = run.result
    assert told["needs_a_stack"] is False
    assert told["without_rack"][0] is False
    assert "no boards on the rack" in told["without_rack"][1]
    assert told["empty"].startswith("The rack is empty")
    assert told["size_missing"] == "Row 1, thickness: this size is missing: give it as measured, such as 190 mm."
    assert told["examples"] == told["imported"][0] == 12
    assert told["asked"] == "12 boards were read. Do they replace those in the table?"
    assert told["imported"][1].startswith("10 boards on hand")
    for text, sentence in told["refused"].items():
        assert sentence.startswith("Row 1, width: "), text
    assert told["typed"].startswith("10 boards on hand")
    assert "does not lie on the board" in told["knot_off"]
    assert told["count"].startswith("Row 3, count: ")
    assert told["copied"] == [13, "Wide 2", "300 20 90 60"]
    # 10-7/16 in × 25.4 mm/in (exact), as the table's heads say mm.
    assert "Wide 1,white oak,48,265.1125,2480,1,92,board,no,," in told["exported"]
    assert told["rack_closed"]
    assert told["rack"] == ["Rack", "Wide 1", 265.1125, "width mm", 1]
    assert told["rack_view"].startswith("SpreadsheetGui::")
    assert told["quick"]["staves"].endswith("for 12 layers")
    assert "give 0 mm to 20 mm" in told["too_wide"][0]
    assert told["too_wide"][1:] == [told["too_wide"][0], True]
    assert float(told["better"]["cost"]) <= float(told["quick"]["cost"])
    kept = told["kept"]
    assert told["widest"] == 150.0
    assert int(told["narrow"].split()[0]) > int(told["quick"]["staves"].split()[0])
    assert (kept["steps"], kept["new"], kept["kerf"]) == (1, ["Cutting", "Shop"], 2.5)
    assert kept["cost"] == told["better"]["cost"]
    assert kept["state"] == ["Up-to-date"]
    assert kept["picture"] == "89504e47"  # the signature of PNG (ISO/IEC 15948)
    assert any("Pedestal 1 a" in line for line in kept["boards"])
    assert told["after_undo"] is True
    assert told["after_redo"] == [kept["cost"], True]
    assert told["reopened"][0] == kept["cost"]
    assert told["reopened"][2] is True
    assert told["icon"] == "StackLam_CutBoards.svg"
    assert told["outdated"] == ["first fit", ""]
    assert told["stopped_after"] < 2.0
    assert float(told["stopped"]["cost"]) > 0
    assert told["cancelled"] == [False, ""]
