# SPDX-License-Identifier: LGPL-2.1-or-later

"""The checks in the 3D view: a row's place is marked and gone to, what it names is selected, and the deep check is
drawn on the form; all goes with the window."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def look_at_the_checks(desk):
    from dataclasses import replace

    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.workbench.scene import overlay
    from freecad_stacklam.workbench.scene.ghost import views_of

    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    desk.command("StackLam_CheckStack")
    desk.widget("finishedPiece").click()
    desk.settle()
    QtCore.QCoreApplication.sendPostedEvents(None, QtCore.QEvent.DeferredDelete)
    kind = desk.widget("useKind")
    kind.setCurrentIndex(kind.findData("stand"))
    deep = desk.widget("useDeep")
    deep.setCurrentIndex(deep.findData("scan"))
    desk.settle()
    desk.press_ok()
    desk.command("StackLam_CheckStack")
    window, table = desk.widget("StackLamChecks"), desk.widget("checks")
    graph = next(iter(views_of(document.Name))).getSceneGraph()
    told["nodes at first"] = graph.getNumChildren()
    told["no deep check"] = desk.widget("showOnForm").isVisible()

    def row_of(end):
        return next(i for i in range(table.rowCount()) if table.item(i, 1).text().endswith(end))

    def sign(row):
        return table.item(row, table.columnCount() - 1).text(), table.item(row, 1).toolTip()

    marked, named = row_of("least wood left"), row_of("stack height")
    told["signs"] = [sign(marked), sign(named)]
    FreeCADGui.activeDocument().activeView().viewIsometric()
    FreeCADGui.SendMsgToActiveView("ViewFit")
    camera = FreeCADGui.activeDocument().activeView().getCameraNode()
    table.setCurrentCell(marked, 1)
    desk._key(table, QtCore.Qt.Key_Return, "\r")
    desk.settle()
    told["after Enter"] = [window.isVisible(), overlay.shown("checks"), graph.getNumChildren()]
    place = window.checks[marked].place
    position = camera.position.getValue().getValue()
    direction = camera.orientation.getValue().multVec(camera.position.getValue().__class__(0, 0, -1)).getValue()
    away = camera.focalDistance.getValue()
    told["looks at"] = max(abs(p + away * d - q) for p, d, q in zip(position, direction, place))
    desk.picture("place")
    table.scrollToItem(table.item(named, 1))
    spot = table.visualItemRect(table.item(named, 1)).center()
    press = QtGui.QMouseEvent(
        QtCore.QEvent.MouseButtonDblClick, spot, QtCore.Qt.LeftButton, QtCore.Qt.LeftButton, QtCore.Qt.NoModifier
    )
    QtGui.QApplication.sendEvent(table.viewport(), press)
    desk.settle()
    told["selected"] = [o.Name for o in FreeCADGui.Selection.getSelection()]
    told["mark gone"] = overlay.shown("checks")
    FreeCADGui.Selection.clearSelection()

    window.findChild(QtGui.QPushButton, "lookDeeper").click()
    desk.settle()
    choice = desk.widget("showOnForm")
    told["choices"] = [choice.itemText(i) for i in range(choice.count())]
    told["tenon"] = []
    FreeCADGui.activeDocument().activeView().viewIsometric()
    FreeCADGui.SendMsgToActiveView("ViewFit")
    hidden = {}
    for name in ("place", "hurts", "use"):
        choice.setCurrentIndex(choice.findData(name))
        desk.settle()
        told["tenon"].append(desk.widget("showTenon").isVisible())
        told[name] = [overlay.shown("deep check"), desk.widget("showLegend").text()]
        switch = document.Pedestal.ViewObject.SwitchNode.whichChild.getValue()
        hidden[name] = switch
        desk.picture(f"deep-{name}")
        desk.view(f"deep-view-{name}")
    told["hidden"] = hidden
    findings = window.picture._findings
    worse = replace(findings.worst, index=0.9)
    window.picture.follow(document, replace(findings, without_tenon=worse), window.meshes)
    told["both"] = []
    for name, bare in (("place", 0), ("place", 1), ("use", 1)):
        choice.setCurrentIndex(choice.findData(name))
        desk.widget("showTenon").setCurrentIndex(bare)
        desk.settle()
        told["both"].append([desk.widget("showTenon").isVisible(), "90 %" in desk.widget("showLegend").text()])
    choice.setCurrentIndex(choice.findData("nothing"))
    told["nothing"] = overlay.shown("deep check")
    choice.setCurrentIndex(choice.findData("use"))
    before = document.Pedestal.ViewObject.SwitchNode.whichChild.getValue()
    window.close()
    desk.settle()
    after = document.Pedestal.ViewObject.SwitchNode.whichChild.getValue()
    told["closed"] = [overlay.shown("checks"), overlay.shown("deep check"), graph.getNumChildren(), before, after]
    return told


def test_places_and_the_deep_check_are_shown_on_the_form(tmp_path: Path) -> None:
    told = keep(freecad(look_at_the_checks, tmp_path, timeout=300)).result
    (place, place_tip), (names, names_tip) = told["signs"]
    assert place == "⊕ show" and "Double click or press Enter" in place_tip
    assert names == "select" and "selected" in names_tip
    assert told["after Enter"] == [True, 1, told["nodes at first"] + 1]
    assert told["looks at"] < 0.01
    assert told["selected"] == ["Stack"]
    assert told["mark gone"] == 0
    assert not told["no deep check"]
    assert told["choices"] == ["nothing", "worst place", "where the load hurts", "use over the surface"]
    assert told["place"][0] == 2 and "Ring:" in told["place"][1] and "Arrow:" in told["place"][1]
    assert told["tenon"] == [False, False, False]
    assert told["both"] == [[True, False], [True, True], [False, False]]
    assert "less&nbsp;than" in told["hurts"][1] and told["hurts"][0] > 2
    assert "background-color:#" in told["use"][1] and told["use"][0] > 3
    assert told["hidden"]["use"] == told["hidden"]["hurts"] == -1
    assert told["nothing"] == 0
    assert told["closed"][:3] == [0, 0, told["nodes at first"]]
    assert told["closed"][3] == -1 and told["closed"][4] != -1
    assert told["boxes"] == []
