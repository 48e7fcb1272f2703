# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide in the real FreeCAD: panel, depth holes, glue lines, sheets and pages."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def guide_the_example(desk):
    import os

    import FreeCAD
    import FreeCADGui

    told = {}
    desk.open_workbench()
    told["needs_a_stack"] = desk.is_active("StackLam_CarvingGuide")
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()

    def figures():
        names = ("holes", "stops", "deepest", "shallowest", "toCarve", "hours", "leftOut")
        return {name: desk.widget(name, desk.panel()).text() for name in names}

    def sentence():
        return desk.widget("StackLam_CarvingGuideSentence").text()

    def face(number, kind):
        box = desk.widget(f"face{number}", desk.panel())
        box.setCurrentIndex(box.findData(kind))

    # Nothing asked for yet; cancelled; a hole for the stand's top.
    before, undos = [o.Name for o in document.Objects], document.UndoCount
    desk.command("StackLam_CarvingGuide")
    told["at_first"] = figures()
    desk.press_cancel()
    told["cancelled"] = [o.Name for o in document.Objects] == before and document.UndoCount == undos
    desk.command("StackLam_CarvingGuide")
    face(2, "top")
    desk.wait_until(lambda: figures()["holes"] not in ("–", "none are asked for"), what="the holes")
    told["top"] = figures()
    told["remark"] = sentence()
    desk.picture("carving-panel")
    desk.widget("rate").setValue(1.5)
    desk.type_into("pitch", "50 mm")
    desk.settle()
    told["wider"] = figures()

    # Refused in a sentence, and OK says the same.
    refused = {}
    for name, text, good in (("bit", "0", "8 mm"), ("pitch", "4 mm", "50 mm"), ("templates", "north", "0, 90")):
        desk.type_into(name, text)
        desk.settle()
        said = sentence()
        desk.press_ok()
        refused[text] = [said, desk.boxes.pop(), desk.panel_open()]
        desk.type_into(name, good)
        desk.settle()
    point = desk.widget("point")
    point.setCurrentIndex(point.findData("brad point"))
    desk.settle()
    told["refused"] = refused
    told["brad"] = [sentence(), desk.widget("pointLength").isVisible(), desk.widget("pointAngle").isVisible()]
    desk.picture("carving-refused")
    desk.type_into("pointLength", "2.5 mm")
    desk.settle()
    told["brad_measured"] = figures()["holes"]
    point.setCurrentIndex(point.findData("twist"))
    desk.settle()

    # A plane of its own: a flat face of the form.
    faces = document.Pedestal.Shape.Faces
    flat = next(i for i, f in enumerate(faces) if type(f.Surface).__name__ == "Plane")
    desk.select(document.Pedestal, f"Face{flat + 1}")
    desk.press("Add selected face", desk.panel())
    told["planes"] = desk.widget("planes").count()
    desk.widget("planes").setCurrentRow(0)
    desk.press("Remove", desk.panel())
    told["planes_left"] = desk.widget("planes").count()

    desk.press_ok()
    told["steps"] = document.UndoCount - undos
    told["new"] = sorted({o.Name for o in document.Objects} - set(before))
    carving = document.Carving
    told["kept"] = [carving.HoleCount, carving.Pitch.Value, list(carving.DepthHoles), carving.Rate, carving.Hours]
    told["solids"] = len(carving.Shape.Solids)
    told["state"] = sorted({s for o in document.Objects for s in o.State})
    told["children"] = [o.Name for o in document.Stack.ViewObject.Proxy.claimChildren()][-1]
    told["icon"] = os.path.basename(carving.ViewObject.Proxy.getIcon())
    desk.picture("carving-made")
    for stack in (o for o in document.Objects if o.Name.startswith("Stack")):
        stack.ViewObject.Visibility = False
    FreeCADGui.Selection.clearSelection()
    told["lines_shown"] = document.GlueLines.ViewObject.Visibility
    desk.view("glue-lines")
    for stack in (o for o in document.Objects if o.Name.startswith("Stack")):
        stack.ViewObject.Visibility = True
    document.undo()
    document.recompute()
    told["undone"] = [o.Name for o in document.Objects] == before
    document.redo()
    document.recompute()
    told["redone"] = [document.Carving.HoleCount, document.GlueLines.LineCount]

    # A double click opens the panel with the values as they were; without the glue lines they go.
    FreeCADGui.getDocument(document.Name).setEdit(document.Carving.Name)
    desk.wait_until(desk.panel_open, what="the panel")
    told["edit"] = [desk.widget("pitch").property("exactValue"), desk.widget("face2").currentData(),
                    desk.widget("rate").value(), desk.widget("glueLines").isChecked()]  # fmt: skip
    desk.widget("glueLines").setChecked(False)
    face(1, "top")
    desk.settle()
    desk.press_ok()
    told["edited"] = [list(document.Carving.DepthHoles), document.getObject("GlueLines") is None]

    # Another axis or stock: the holes follow.
    stack = next(o for o in document.Objects if o.Label == "Top stack")
    stops = list(document.Carving.Stops)
    stack.Stock = 30
    document.recompute()
    told["followed"] = list(document.Carving.Stops) != stops
    told["at_the_end"] = sorted({s for o in document.Objects for s in o.State})
    return told


def test_the_guide_from_panel_to_object(tmp_path: Path) -> None:
    run = keep(freecad(guide_the_example, tmp_path, timeout=240))
    told = run.result
    assert told["needs_a_stack"] is False
    assert told["at_first"]["holes"] == "none are asked for"
    assert told["at_first"]["hours"] == "no rate is given"
    assert told["cancelled"]
    holes = int(told["top"]["holes"])
    assert holes > 20
    assert told["remark"].startswith("Try the bit")
    assert 0 < int(told["wider"]["holes"]) < holes
    # The wood to carve over the maker's own 1.5 litres an hour.
    assert told["wider"]["hours"].startswith("about ")
    for text, (said, box, still_open) in told["refused"].items():
        assert said == box, text
        assert said.endswith("."), text
        assert still_open
    assert told["brad"][0].startswith("Measure the length")
    assert told["brad"][1:] == [True, False]
    assert int(told["brad_measured"]) > 0
    assert (told["planes"], told["planes_left"]) == (1, 0)
    assert told["steps"] == 1
    assert told["new"] == ["Carving", "GlueLines", "GlueLines001"]
    count, pitch, faces, rate, hours = told["kept"]
    assert count == told["solids"] == int(told["wider"]["holes"])
    assert (pitch, faces, rate) == (50.0, ["Top = top"], 1.5)
    assert hours.endswith(" h")
    assert told["state"] == ["Up-to-date"]
    assert told["children"] == "GlueLines"
    assert told["icon"] == "StackLam_CarvingGuide.svg"
    assert told["lines_shown"]
    assert told["undone"]
    assert told["redone"] == [count, 9]  # ten layers of 45 mm
    assert told["edit"] == [50.0, "top", 1.5, True]
    assert told["edited"] == [["Pedestal = top", "Top = top"], True]
    assert told["followed"]
    assert told["at_the_end"] == ["Up-to-date"]


def draw_the_guide(desk, folder):
    import os

    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.docobjects.making.carving import make_carving
    from freecad_stacklam.lamination.settings.carving import CarvingSettings
    from freecad_stacklam.workbench.panels import drawing_outputs

    told = {"version": FreeCAD.Version()[:3]}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    make_carving(document, CarvingSettings(depth_holes=(("Top", "top"),), rate=1.5))
    document.recompute()
    names = [o.Name for o in document.Objects]

    opened = []
    drawing_outputs.open_in_viewer = lambda path: opened.append(str(path)) or True
    drawing_outputs.ask_folder = lambda first: folder + "/files"
    desk.command("StackLam_LayerDrawings")

    def page():
        return desk.widget("page").text()

    def sentence():
        return desk.said("StackLam_LayerDrawings")

    def tick(kinds):
        box = desk.widget("kinds")
        for i in range(box.count()):
            kept = box.item(i).data(QtCore.Qt.UserRole) in kinds
            box.item(i).setCheckState(QtCore.Qt.Checked if kept else QtCore.Qt.Unchecked)
        desk.settle()

    box = desk.widget("kinds")
    told["kinds"] = [box.item(i).data(QtCore.Qt.UserRole) for i in range(box.count())]
    told["all"] = page()
    tick(["layer", "depth holes"])
    told["few"] = page()
    desk.widget("fraction").setCurrentIndex(2)
    desk.widget("bothUnits").setChecked(True)
    desk.settle()
    for _ in range(3):
        desk.press("Next")
    told["shown"] = page()
    desk.picture("drawings-kinds")

    desk.press("SVG and DXF…")
    told["files"] = [sentence(), sorted(os.listdir(folder + "/files"))]
    # One layer sheet fewer the next time, and then a file of the maker's own where a drawing would go.
    tick(["layer"])
    desk.press("SVG and DXF…")
    told["files_again"] = [sentence(), sorted(os.listdir(folder + "/files"))]
    mine = folder + "/files/Top_01.dxf"
    with open(mine, "w") as file:
        file.write("mine")
    count, ages = (
        len(desk.boxes),
        {n: os.stat(f"{folder}/files/{n}").st_mtime_ns for n in os.listdir(folder + "/files")},
    )
    desk.press("SVG and DXF…")
    left = {n: os.stat(f"{folder}/files/{n}").st_mtime_ns for n in os.listdir(folder + "/files")}
    with open(mine) as file:
        told["kept"] = [desk.boxes[count:], file.read(), left == ages]
    tick(["layer", "depth holes"])
    desk.type_into("path", folder + "/guide.pdf")
    can_print = drawing_outputs.can_print()
    told["can_print"] = can_print
    if not can_print:
        count = len(desk.boxes)
        desk.press("Print…")
        told["printed"] = [opened, desk.boxes[count:], os.path.isfile(folder + "/guide.pdf")]

    undos = document.UndoCount
    desk.press("Pages to edit")
    told["pages_said"] = sentence()
    told["steps"] = document.UndoCount - undos
    pages = [o for o in document.Objects if o.isDerivedFrom("TechDraw::DrawPage")]
    told["pages"] = [p.Label for p in pages]
    helpers = [o.ViewObject for o in document.Objects if o.Name.startswith(("Finished", "Axis"))]
    told["hidden"] = [one.Visibility or one.ShowInTree for one in helpers]
    told["group"] = [[o.Label, len(o.Group)] for o in document.Objects if o.TypeId == "App::DocumentObjectGroup"]
    desk.press("Pages to edit")
    told["again"] = sentence()
    desk.press("Close")

    # What TechDraw draws is the blank, true to scale about the middle of its view.
    first = next(p for p in pages if p.Label.startswith("Pedestal layer 1,"))
    cut = next(v for v in first.Views if v.Label.endswith("cut line"))
    form = next(v for v in first.Views if v.Label.endswith("finished form"))
    desk.wait_until(lambda: cut.getVisibleEdges() and form.getVisibleEdges(), 60, "TechDraw's lines")

    def box_of(view):
        from FreeCAD import BoundBox

        box = BoundBox()
        for edge in view.getVisibleEdges():
            box.add(edge.BoundBox)
        return [box.XMin, box.YMin, box.XMax, box.YMax, view.X.Value, view.Y.Value, view.Scale]

    told["cut"], told["form"] = box_of(cut), box_of(form)
    layer = next(o for o in document.Objects if o.Label == "Pedestal layer 1")
    at = layer.Shape.BoundBox
    told["layer"] = [at.XMin, at.YMin, at.XMax, at.YMax]
    told["edges"] = len(cut.getVisibleEdges()) + len(form.getVisibleEdges())
    told["fields"] = dict(first.Template.EditableTexts)
    document.undo()
    document.recompute()
    told["undone"] = [o.Name for o in document.Objects if o.Name not in names and not o.Name.startswith("Job")]
    document.redo()
    document.recompute()

    # The file opens on the model, and what only pages show is not in the tree.
    document.saveAs(folder + "/pages.FCStd")
    FreeCAD.closeDocument(document.Name)
    document = FreeCAD.openDocument(folder + "/pages.FCStd")
    desk.settle()
    told["tabs"] = len(desk.window.findChild(QtGui.QMdiArea).subWindowList())
    told["front"] = "3D" in str(FreeCADGui.ActiveDocument.ActiveView)
    told["still_out"] = [o.ViewObject.ShowInTree for o in document.Objects if o.Name.startswith(("Finished", "Axis"))]
    first = next(o for o in document.Objects if o.Label == "Pedestal layer 10, sheet")
    first.ViewObject.doubleClicked()
    desk.settle()
    FreeCADGui.SendMsgToActiveView("ViewFit")
    desk.settle()
    desk.picture("techdraw-page")
    told["state"] = sorted({s for o in document.Objects for s in o.State})
    return told


def test_sheets_files_and_pages(tmp_path: Path) -> None:
    run = keep(freecad(draw_the_guide, tmp_path, arguments={"folder": str(tmp_path)}, timeout=300))
    told = run.result
    kinds = ["overview", "bill", "template", "layer", "depth holes", "carving", "offsets", "section"]
    assert told["kinds"] == kinds

    def count(text: str) -> int:
        return int(text.split()[3].rstrip(":"))

    assert count(told["few"]) < count(told["all"])
    said, files = told["files"]
    boxes, mine, untouched = told["kept"]
    assert len(boxes) == 1 and "Top_01.dxf” is not as a plan wrote it, so it is kept" in boxes[0]
    assert mine == "mine" and untouched
    again, after = told["files_again"]
    assert set(files) <= set(after) and "drawings from before lie there too" in again
    svgs = [name for name in files if name.endswith(".svg")]
    dxfs = [name for name in files if name.endswith(".dxf")]
    assert said.startswith(f"{len(svgs)} sheets as SVG and {len(dxfs)} outlines as DXF")
    assert len(svgs) == count(told["shown"])
    # Twelve layers, and two upright sections of each form with a gauge from either side.
    assert len([n for n in dxfs if "section" not in n]) == 12
    assert len([n for n in dxfs if "section" in n]) == 2 * 2 * 3
    if not told["can_print"]:
        opened, boxes, there = told["printed"]
        assert opened == [str(tmp_path / "guide.pdf")]
        assert there
        assert len(boxes) == 1
        assert "actual size" in boxes[0]
    assert told["steps"] == 1
    assert len(told["pages"]) == 12
    assert told["pages_said"].startswith("12 pages")
    assert told["again"].startswith("Every layer has its page")
    assert not any(told["hidden"])
    assert told["group"] == [["Layer pages", 12]]
    assert (told["tabs"], told["front"]) == (1, True)
    assert told["still_out"] and not any(told["still_out"])
    # The axis cross lies inside the blank, so the view's middle is the blank's.
    x0, _, x1, _ = told["layer"]
    cx = (x0 + x1) / 2
    scale = told["cut"][6]
    drawn = told["cut"][:4]
    size = (drawn[2] - drawn[0]) / (x1 - x0)
    assert size == pytest.approx(1.0, abs=1e-3) or size == pytest.approx(scale, rel=1e-3)
    assert (drawn[0] + drawn[2]) / 2 == pytest.approx(0, abs=0.05)
    # On the paper, y up: the finished form lies inside the blank with the allowance around it, where the model has it.
    told_form = told["form"]
    ax = (told_form[4] - told["cut"][4]) / scale + cx
    assert x0 < ax - (told_form[2] - told_form[0]) / size / 2
    assert ax + (told_form[2] - told_form[0]) / size / 2 < x1
    assert told["edges"] < 400
    assert told["fields"]["SCALE"] == f"1:{round(1 / scale)}"
    assert told["fields"]["SUPPLEMENTARY_TITLE"] == "Pedestal, layer 1 of 10"
    assert told["undone"] == []
