# SPDX-License-Identifier: LGPL-2.1-or-later

"""From two sliced forms to a joint, the checks, the drawings and the bill, in the real FreeCAD."""

from __future__ import annotations

import csv
from pathlib import Path

import pypdf
import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def finish_the_example(desk, folder):
    import FreeCAD
    import FreeCADGui

    told = {}

    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example("4 mm")
    before = [o.Name for o in document.Objects]
    undos = document.UndoCount

    # The joint: cancelled, refused, made, undone, redone, edited.
    FreeCADGui.Selection.clearSelection()
    desk.command("StackLam_AddJoint")
    desk.press_cancel()
    told["after_cancel"] = [o.Name for o in document.Objects] == before and document.UndoCount == undos
    desk.command("StackLam_AddJoint")
    desk.type_into("tenonSide", "40 mm")
    desk.type_into("depth1", "75 mm")
    desk.type_into("depth2", "25 mm")
    desk.type_into("pointZ", "450 mm")
    desk.widget("ownRelief").setChecked(True)
    desk.type_into("relief", "0.5 mm")
    desk.settle()
    told["tenon"] = [desk.widget(n).text() for n in ("tenon", "cover", "coverPlace")]
    told["relief"] = desk.widget("walls").text()
    refused = {}
    for field, text in (("depth2", "60 mm"), ("tenonSide", "0"), ("pointX", "2 m")):
        right = desk.widget(field).property("rawValue")
        desk.type_into(field, text)
        desk.settle()
        refused[text] = [desk.widget("StackLam_AddJointSentence").text(), desk.says_at_ok()]
        desk.widget(field).setProperty("rawValue", right)
        desk.settle()
    told["refused"] = refused
    desk.type_into("tenonSide", "100 mm")
    desk.settle()
    told["breaks_out"] = desk.widget("StackLam_AddJointSentence").text()
    desk.picture("joint-breaks-out")
    desk.type_into("tenonSide", "40 mm")
    desk.settle()
    desk.picture("joint-panel")
    plain = {o.Name: o.Shape.Volume for o in document.Objects if hasattr(o, "Shape") and o.Name.startswith("Layer")}
    desk.press_ok()
    joint = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Joint")
    told["undo_steps"] = document.UndoCount - undos
    told["tenon_made"] = [joint.TenonLength.Value, joint.TenonSide.Value, joint.LeastCover.Value, joint.Shape.Volume]
    told["cut"] = sum(plain[name] - document.getObject(name).Shape.Volume for name in plain)
    told["view"] = type(joint.ViewObject.Proxy).__name__
    desk.picture("joint-made")
    document.undo()
    document.recompute()
    told["after_undo"] = [o.Name for o in document.Objects] == before
    told["uncut"] = max(abs(plain[name] - document.getObject(name).Shape.Volume) for name in plain)
    document.redo()
    document.recompute()
    joint = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Joint")
    FreeCADGui.activeDocument().setEdit(joint.Name)
    desk.wait_until(desk.panel_open, what="the joint's panel")
    told["edit_starts_at"] = [desk.widget(n).property("exactValue") for n in ("depth1", "depth2", "tenonSide")]
    desk.widget("through2").click()
    desk.settle()
    desk.widget("ends").setCurrentIndex(desk.widget("ends").findData("wedged"))
    desk.settle()
    told["wedged"] = [desk.widget("wedges").text(), desk.widget("proud").isVisible()]
    desk.picture("joint-wedged")
    desk.widget("ends").setCurrentIndex(desk.widget("ends").findData("flush"))
    desk.settle()
    told["through"] = [desk.widget("tenon").text(), desk.widget("depth2").isEnabled()]
    # A round one, and the axis tied to the middle of the pedestal's upper face.
    desk.widget("section").setCurrentIndex(desk.widget("section").findData("round"))
    faces = document.Pedestal.Shape.Faces
    upper = max(range(len(faces)), key=lambda i: faces[i].CenterOfMass.z)
    desk.select(document.Pedestal, f"Face{upper + 1}")
    desk.press("Use selected vertex, circle or face")
    desk.settle()
    told["picked"] = [desk.widget("pointZ").property("exactValue"), faces[upper].CenterOfMass.z]
    told["round"] = desk.widget("tenon").text()
    desk.press_ok()
    told["anchor"] = [joint.Anchor[0].Name, list(joint.Anchor[1]) == [f"Face{upper + 1}"]]
    told["embed"] = list(joint.Embed)
    document.undo()
    document.recompute()
    told["embed_undone"] = list(joint.Embed)

    # The checks.
    desk.command("StackLam_CheckStack")
    table = desk.widget("StackLamChecks")
    rows = desk.widget("checks", table)
    told["headline"] = desk.widget("headline", table).text()
    told["verdicts"] = [rows.item(i, 0).text() for i in range(rows.rowCount())]
    told["cells"] = [[rows.item(i, j).text() for j in range(rows.columnCount())] for i in range(rows.rowCount())]
    desk.screen("checks")
    desk.press("Check again", table)
    desk.press("Close", table)

    # The drawings.
    desk.command("StackLam_LayerDrawings")
    told["first_page"] = desk.widget("page").text()
    told["path"] = desk.widget("path").text()
    told["can_go_back"] = desk.widget("previousPage").isEnabled()
    desk.press("Next")
    told["second_page"] = desk.widget("page").text()
    for _ in range(5):
        desk.press("Next")
    told["picture"] = [desk.widget("picture").pixmap().width(), desk.widget("picture").pixmap().height()]
    desk.picture("drawings")
    desk.type_into("paperFull", "roll of something")
    desk.settle()
    told["no_such_paper"] = [desk.said("StackLam_LayerDrawings"), desk.widget("writePdf").isEnabled()]
    desk.type_into("paperFull", "roll 610mm")
    desk.type_into("title", "Stand for a fern")
    desk.settle()
    told["on_a_roll"] = desk.widget("page").text()
    told["write"] = desk.widget("writePdf").text()
    desk.picture("drawings-roll")
    desk.type_into("paperFull", "same paper")
    desk.settle()
    desk.widget("openViewer").setChecked(False)
    count = len(desk.boxes)
    desk.type_into("path", folder + "/no such folder/drawings.pdf")
    desk.press("Write PDF")
    told["no_folder"] = desk.boxes[count:]
    with open(folder + "/letter.pdf", "w") as file:
        file.write("%PDF-1.4 a letter")
    count = len(desk.boxes)
    desk.type_into("path", folder + "/letter.pdf")
    desk.press("Write PDF")
    with open(folder + "/letter.pdf") as file:
        told["letter"] = [desk.boxes[count:], file.read()]
    desk.type_into("path", folder + "/stand drawings.pdf")
    desk.press("Write PDF")  # and once more, over its own
    desk.press("Write PDF")
    told["written"] = desk.said("StackLam_LayerDrawings")
    told["pages"] = desk.widget("page").text()
    desk.press("Close")
    told["job"] = [[o.Title, o.Paper, o.Units] for o in document.Objects if o.Name.startswith("Job")]

    # The bill, without and with a file of its own.
    from freecad_stacklam.workbench import bill

    count = len(desk.boxes)
    desk.answer = "No"
    desk.command("StackLam_Bill")
    told["asked"] = len(desk.boxes) - count
    sheet = document.getObject("Bill")
    told["sheet"] = [sheet.get("A1"), sheet.get("A2"), sheet.get("B2")]
    desk.picture("bill")
    bill.ask_for_csv = lambda document: folder + "/bill.csv"
    desk.command("StackLam_Bill")
    told["one_sheet"] = sum(o.TypeId == "Spreadsheet::Sheet" for o in document.Objects)
    told["state"] = sorted({s for o in document.Objects for s in o.State})
    return told


def test_the_example_is_joined_drawn_and_billed(tmp_path: Path) -> None:
    run = keep(freecad(finish_the_example, tmp_path, arguments={"folder": str(tmp_path)}, timeout=240))
    told = run.result
    assert told["after_cancel"]
    assert told["tenon"][0] == "39.80 mm square, 100.00 mm long"  # 75 + 25, less 0.1 mm of glue room on each face
    for text, (sentence, said) in told["refused"].items():
        assert sentence.endswith("."), text
        assert said == sentence, text
    assert "breaks out" in told["breaks_out"]
    assert told["undo_steps"] == 1
    length, side, cover, volume = told["tenon_made"]
    assert (length, side) == pytest.approx((100.0, 39.8))
    assert volume == pytest.approx(39.8**2 * 100.0)
    assert cover == pytest.approx(float(told["tenon"][1].split()[0]), abs=0.01)
    # Two mortises of 40 mm, 75 and 25 mm deep with 2 mm of room at each end and 0.5 mm of
    # relief on two walls; above the top's seat there is no waste,
    # and the pedestal ends level with its tenth layer of 45 mm.
    assert told["cut"] == pytest.approx(40.0 * (40.0 + 2 * 0.5) * (77.0 + 27.0), rel=1e-6)
    assert told["relief"] == "Pedestal: 0.5 mm a wall; Top: 0.5 mm a wall"
    assert told["view"] == "JointView"
    assert told["after_undo"]
    assert told["uncut"] < 1e-6
    assert told["edit_starts_at"] == [75.0, 25.0, 40.0]
    # The dish leaves 38 mm of the top on the axis (tools/examples/plant_stand.py).
    assert told["through"] == ["39.80 mm square, 113.00 mm long", False]
    assert "long" in told["wedged"][0]
    assert told["wedged"][1]
    assert told["picked"][0] == pytest.approx(told["picked"][1])
    assert told["round"].startswith("39.80 mm in diameter, ")
    assert told["anchor"] == ["Pedestal", True]
    assert told["embed"] == ["75 mm", "through"]
    assert told["embed_undone"] == ["75 mm", "25 mm"]
    assert told["verdicts"]
    assert not any("stop" in word for word in told["verdicts"])
    assert told["headline"].endswith(".")
    assert all(text for row in told["cells"] for text in row)
    assert told["first_page"].startswith("Page 1 of ")
    assert told["second_page"].startswith("Page 2 of ")
    assert told["path"].endswith("Plant stand drawings.pdf")
    assert not told["can_go_back"]
    assert min(told["picture"]) > 100
    assert told["no_such_paper"][0].endswith(".")
    assert not told["no_such_paper"][1]
    pages = int(told["pages"].split()[3].rstrip(":"))
    assert int(told["on_a_roll"].split()[3].rstrip(":")) < pages
    assert told["write"] == f"Write PDF ({told['on_a_roll'].split()[3].rstrip(':')} pages)"
    assert len(told["no_folder"]) == 1
    boxes, letter = told["letter"]
    assert len(boxes) == 1 and "letter.pdf” is not as a plan wrote it, so it is kept" in boxes[0]
    assert letter == "%PDF-1.4 a letter"
    assert told["written"].startswith(f"{pages} pages were written to ")
    # Another reader agrees on the number of pages, their size (ISO 216 A4, in points) and the words on them.
    reader = pypdf.PdfReader(tmp_path / "stand drawings.pdf")
    assert len(reader.pages) == pages
    short, long = sorted(float(v) for v in reader.pages[0].mediabox[2:])
    assert (short, long) == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=1.0)
    assert any("Stand for a fern" in " ".join(page.extract_text().split()) for page in reader.pages)
    assert told["job"] == [["Stand for a fern", "A4", "mm"]]
    assert told["asked"] == 1
    assert told["sheet"][0] == "item"
    assert told["sheet"][2] == "Pedestal 1"
    rows = list(csv.reader((tmp_path / "bill.csv").open(encoding="utf-8", newline="")))
    assert rows[0][0] == "item"
    assert [row[1] for row in rows[1:11]] == [f"Pedestal {n}" for n in range(1, 11)]
    assert told["one_sheet"] == 1
    assert told["state"] in ([], ["Up-to-date"])
