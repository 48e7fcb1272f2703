# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece's own loads and months in inches and with a decimal comma, its keys, and the look beside the
window. A pound-force is 4.4482216152605 N, 68 °F are 20 °C (NIST SP 811 (2008), appendix B.8)."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui
#: A window that answers later than this, s, seems to hang.
FROZEN = 0.5


def ask_in_inches(desk, out):
    import time

    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    QtCore.QLocale.setDefault(QtCore.QLocale("de_DE"))
    told = {}
    desk.open_workbench()
    box = FreeCAD.newDocument("Block").addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 300, 200, 120
    document = FreeCAD.ActiveDocument
    document.recompute()
    told["needs a stack"] = desk.is_active("StackLam_FinishedPiece")
    desk.select(box)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "1,5 in")
    desk.settle()
    desk.press_ok()
    document.getObject("Job").Units = "in"
    document.recompute()
    desk.command("StackLam_FinishedPiece")
    desk.settle()

    def sentence():
        desk.settle()
        return [desk.widget(n).text() for n in ("StackLam_FinishedPieceSentence", "useSays", "climateSays")]

    def heads(table):
        return [table.horizontalHeaderItem(i).text() for i in range(table.columnCount())]

    head = desk.widget("useLoads").horizontalHeader()
    told["cut heads"] = [i for i in range(head.count()) if head.sectionSize(i) < head.sectionSizeHint(i)]

    # A key that writes is the table's, the space bar presses what has the keyboard: both are the window's shortcuts.
    desk.widget("addLoad").click()
    loads = desk.widget("useLoads")

    def is_taken(widget, key, text):
        desk._focus(widget)
        event = QtGui.QKeyEvent(QtCore.QEvent.ShortcutOverride, int(key), QtCore.Qt.NoModifier, text)
        event.ignore()
        QtGui.QApplication.sendEvent(widget, event)
        return event.isAccepted()

    told["taken"] = [
        is_taken(loads, QtCore.Qt.Key_4, "4"),
        is_taken(desk.widget("finishWanted"), QtCore.Qt.Key_Space, " "),
        is_taken(desk.widget("addLoad"), QtCore.Qt.Key_Space, " "),
        is_taken(desk.widget("finishWanted"), QtCore.Qt.Key_4, "4"),
    ]
    told["empty"] = sentence()
    told["heads"] = heads(loads)
    columns = {name.split()[0]: i for i, name in enumerate(told["heads"])}

    def put(column, text):
        loads.item(0, columns[column]).setText(text)

    put("Down", "112,5")
    told["well"] = sentence()
    for column, text in (("Down", "40 kg"), ("Push", "2 N 3"), ("Inside", "-1"), ("At", "1,5; 2"), ("Direction", "up")):
        kept = loads.item(0, columns[column]).text()
        put(column, text)
        told[column] = sentence()[:2]
        put(column, kept)
    put("Inside", "1-1/2")
    put("At", "1,5; 2; 4-1/2 in")
    put("Direction", "45°")
    loads.item(0, columns["Stays"]).setCheckState(QtCore.Qt.Checked)
    loads.item(0, columns["May"]).setCheckState(QtCore.Qt.Checked)
    # Rows come and go.
    desk.widget("addLoad").click()
    told["two"] = [loads.rowCount(), loads.item(1, 0).text(), sentence()[0]]
    loads.selectRow(1)
    desk.widget("removeLoad").click()
    desk.widget("removeLoad").click()
    told["one"] = [loads.rowCount(), sentence()[0], list(desk.boxes)]
    if not loads.rowCount():
        return told
    # Months.
    desk.widget("climateWanted").setChecked(True)
    choice, months = desk.widget("climateMonths"), desk.widget("climateTable")
    told["hidden"] = months.isHidden()
    choice.setCurrentIndex(choice.findData("damp all year"))
    choice.setCurrentIndex(choice.count() - 1)
    told["months"] = [not months.isHidden(), heads(months), months.item(0, 0).text(), months.item(0, 1).text()]
    months.item(0, 0).setText("68,9")
    told["warm"] = sentence()
    for text in ("300 F", "warm", ""):
        months.item(1, 0).setText(text)
        told[f"month {text}"] = sentence()[2]
    months.item(1, 0).setText("20 C")
    choice.setCurrentIndex(0)
    choice.setCurrentIndex(choice.count() - 1)
    told["stays"] = months.item(0, 0).text()
    fine = desk.widget("climateFineness")
    fine.setCurrentIndex(fine.findData("coarse"))
    desk.settle()
    told["wide"] = desk.widget("StackLam_FinishedPiece").minimumSizeHint().width()
    desk.picture("piece-inches")
    desk.press_ok()
    piece = document.Piece
    told["kept"] = [list(piece.Loads), list(piece.Months)[:3], len(piece.Months)]

    # Opened again and left with OK nothing has changed, whatever was rounded to be shown.
    FreeCADGui.getDocument(document.Name).setEdit(piece.Name)
    desk.settle()
    desk.press_ok()
    told["same"] = [list(piece.Loads), list(piece.Months)[:3], len(piece.Months)] == told["kept"]

    # The look, with a heart that beats beside it.
    desk.command("StackLam_CheckStack")
    beats = []

    def beat():
        beats.append(time.monotonic())

    heart = QtCore.QTimer()
    heart.timeout.connect(beat)
    heart.start(20)
    beat()
    desk.widget("lookDeeper").click()
    beat()
    heart.stop()
    told["heart"] = max(b - a for a, b in zip(beats, beats[1:]))
    told["took"] = beats[-1] - beats[0]
    told["deeper"] = list(piece.Deeper)
    desk.widget("StackLamChecks").close()
    desk.settle()

    # A file that is opened again shows what was looked at, and nobody looks anew.
    QtCore.QCoreApplication.sendPostedEvents(None, QtCore.QEvent.DeferredDelete)
    document.saveAs(out)
    FreeCAD.closeDocument(document.Name)
    from freecad_stacklam.docobjects.reading import piece as reading

    reading._slow.clear()
    again = FreeCAD.openDocument(out)
    desk.settle()
    desk.command("StackLam_CheckStack")
    told["again"] = [list(again.Piece.Pending), desk.widget("lookDeeper").isVisible()]
    table = desk.widget("checks")
    told["checks"] = [table.item(i, 1).text() for i in range(table.rowCount())]
    desk.widget("StackLamChecks").close()
    desk.settle()
    FreeCADGui.getDocument(again.Name).setEdit("Piece")
    desk.settle()
    told["shown"] = desk.widget("pieceDeeper").text()
    kind = desk.widget("useKind")
    kind.setCurrentIndex(kind.findData("table"))
    desk.settle()
    told["changed"] = desk.widget("pieceDeeper").text()
    desk.picture("piece-earlier")
    desk.press_cancel()
    return told


def test_own_loads_and_months_in_inches_with_a_comma(tmp_path: Path) -> None:
    arguments = {"out": str(tmp_path / "block.FCStd")}
    preferences = {"Units/UserSchema": 3}
    told = keep(freecad(ask_in_inches, tmp_path, arguments=arguments, preferences=preferences, timeout=300)).result
    assert not told["needs a stack"]
    assert told["cut heads"] == []
    assert told["taken"] == [True, True, True, False]
    assert told["empty"][0].startswith("Loads, row 1: ") and told["empty"][0] == told["empty"][1]
    assert told["heads"][:6] == ["Name", "Down lbf", "Push lbf", "Place", "Stays", "Inside the edge in"]
    assert told["well"] == ["", "", ""]
    for column, names in (
        ("Down", "down"), ("Push", "push"), ("Inside", "inside the edge"), ("At", "at"), ("Direction", "direction")
    ):  # fmt: skip
        assert told[column][0].startswith(f"Loads, row 1, {names}: “"), told[column]
        assert told[column][1] == told[column][0]
    assert told["two"][:2] == [2, "Load 2"] and told["two"][2].startswith("Loads, row 2: ")
    assert told["one"][:2] == [1, ""] and "click their rows" in told["one"][2][0]
    assert told["hidden"]
    assert told["months"][:2] == [True, ["Air °F", "Humidity %"]]
    assert told["warm"] == ["", "", ""]
    assert told["month 300 F"].startswith("Climate, February, temperature: “300 F” is impossible here")
    assert "°F" in told["month 300 F"]
    assert told["month warm"].startswith("Climate, February, temperature: “warm”")
    assert told["month "].startswith("Climate, February, temperature: ")
    assert told["stays"] == "68,9"
    assert told["wide"] <= 225
    (load,), months, count = told["kept"]
    assert 'name = "Load 1"' in load and 'down = "500.4249' in load  # 112.5 × 4.4482216 N
    assert 'at = ["38.1mm", "50.8mm", "114.3mm"]' in load and 'inset = "38.1mm"' in load
    assert 'direction = "45deg"' in load and "lasting = true" in load
    assert count == 12 and months[0].startswith("20.5 °C") and months[1].startswith("20 °C")
    assert told["same"]
    print(f"the window answered within {told['heart']:.3f} s, in {told['took']:.1f} s of looking")
    assert told["heart"] < FROZEN
    made = ["deep check of strength: of this plan", "year in the room: of this plan"]
    assert told["deeper"] == made
    assert told["again"] == [[], False]
    assert "The room's air" in told["checks"]
    assert told["shown"].lower().splitlines() == made
    assert told["changed"].lower().splitlines() == ["deep check of strength: of an earlier plan", made[1]]
