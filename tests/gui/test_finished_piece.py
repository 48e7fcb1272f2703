# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece in the window: asked for in the panel, found in the checks, looked at deeper and stopped."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def ask_of_the_example(desk):
    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.qt_binding import QtCore, widgets

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    undos = document.UndoCount

    def checks():
        desk.command("StackLam_CheckStack")
        return desk.widget("StackLamChecks")

    def names():
        table = desk.widget("checks")
        return [table.item(i, 1).text() for i in range(table.rowCount())]

    checks()
    told["deeper at first"] = desk.widget("lookDeeper").isVisible()
    told["before"] = names()
    desk.widget("finishedPiece").click()
    desk.settle()
    tops = widgets().QApplication.topLevelWidgets()
    told["closed"] = not any(w.objectName() == "StackLamChecks" and w.isVisible() for w in tops)
    QtCore.QCoreApplication.sendPostedEvents(None, QtCore.QEvent.DeferredDelete)
    kind = desk.widget("useKind")
    kind.setCurrentIndex(kind.findData("stand"))
    deep = desk.widget("useDeep")
    deep.setCurrentIndex(deep.findData("none"))
    desk.widget("addLoad").click()
    desk.settle()
    loads = desk.widget("useLoads")
    told["refused"] = [desk.widget(n).text() for n in ("StackLam_FinishedPieceSentence", "useSays")]
    loads.item(0, 0).setText("A cat")
    loads.item(0, 1).setText("50")
    desk.settle()
    for name in ("climateWanted", "finishWanted"):
        desk.widget(name).setChecked(True)
    fine = desk.widget("climateFineness")
    fine.setCurrentIndex(fine.findData("coarse"))
    desk.settle()
    told["panel"] = [
        desk.widget(n).text() for n in ("pieceWeighs", "pieceSays", "StackLam_FinishedPieceSentence", "useSays")
    ]
    told["wide"] = desk.widget("StackLam_FinishedPiece").minimumSizeHint().width()
    desk.picture("piece-panel")
    desk.press_ok()
    piece = document.Piece
    told["made"] = [document.UndoCount - undos, piece.Kind, list(piece.Loads), list(piece.Pending), piece.Verdict]
    told["icon"] = piece.ViewObject.Proxy.getIcon().rpartition("/")[2]

    checks()
    told["pending"] = [desk.widget("lookDeeper").isVisible(), names()]

    def stop():
        told["looking"] = True
        desk.widget("StackLamLooking").cancel()

    QtCore.QTimer.singleShot(0, stop)
    desk.widget("lookDeeper").click()
    desk.settle()
    told["stopped"] = [desk.widget("lookDeeper").isVisible(), list(piece.Pending)]
    QtCore.QCoreApplication.sendPostedEvents(None, QtCore.QEvent.DeferredDelete)
    desk.widget("lookDeeper").click()
    desk.settle()
    told["boxes"] = list(desk.boxes)
    told["found"] = [desk.widget("lookDeeper").isVisible(), list(piece.Pending), names()]
    desk.picture("piece-checks")
    desk.widget("StackLamChecks").close()
    desk.settle()

    FreeCADGui.getDocument(document.Name).setEdit(piece.Name)
    desk.settle()
    told["again"] = [
        desk.widget("useKind").currentData(),
        desk.widget("climateWanted").isChecked(),
        desk.widget("ratesWanted").isChecked(),
        [desk.widget("useLoads").item(0, i).text() for i in range(4)],
    ]
    desk.press_cancel()
    document.undo()
    desk.settle()
    told["undone"] = [o.Name for o in document.Objects if o.Name == "Piece"]
    document.redo()
    desk.settle()
    told["redone"] = document.Piece.Verdict
    return told


def test_the_finished_piece_is_asked_for_and_looked_at(tmp_path: Path) -> None:
    told = keep(freecad(ask_of_the_example, tmp_path, timeout=300)).result
    assert not told["deeper at first"]
    assert told["closed"]
    assert told["refused"][0].startswith("Loads, row 1: ") and "presses nowhere" in told["refused"][0]
    assert told["refused"][1] == told["refused"][0]
    weighs, says, sentence, beside = told["panel"]
    assert "kg" in weighs
    assert (sentence, beside) == ("", "")
    assert "the year in the room has not been made" in says.lower() or "more stand in the checks" in says
    assert told["wide"] <= 225  # FreeCAD's own side panel at first: see test_inch_window.py
    assert told["made"][0] == 1
    assert told["made"][1:4] == ["stand", ['{name = "A cat", down = "50 N"}'], ["year in the room"]]
    assert told["icon"] == "StackLam_FinishedPiece.svg"
    visible, names = told["pending"]
    assert visible and "year in the room" in names and len(names) > len(told["before"]) + 4
    assert told["looking"]
    assert told["stopped"] == [True, ["year in the room"]]
    assert told["boxes"] == []
    assert told["found"][:2] == [False, []]
    assert "The room's air" in told["found"][2]
    assert told["again"] == ["stand", True, False, ["A cat", "50", "", "edge"]]
    assert told["undone"] == []
    assert told["redone"] == "caution"
