# SPDX-License-Identifier: LGPL-2.1-or-later

"""A form becomes a stack of layers in the real FreeCAD: panel, tree, undo, save, reopen, edit, cancel."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def slice_the_example(desk, folder):
    import FreeCAD
    import FreeCADGui

    told = {}

    def layers(stack):
        return sorted(o.Number for o in stack.Layers)

    def stacks():
        return [o for o in FreeCAD.ActiveDocument.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack"]

    def figures():
        return {name: desk.widget(name).text() for name in ("layers", "height", "wood", "formVolume", "carved")}

    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    told["example"] = {"name": document.FileName, "forms": sorted(o.Label for o in document.Objects)}
    before = [o.Name for o in document.Objects]
    undos = document.UndoCount

    # Cancel leaves nothing.
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    told["panel_opens"] = desk.panel_open()
    desk.type_into("stock", "30 mm")
    desk.press_cancel()
    told["after_cancel"] = [o.Name for o in document.Objects] == before and document.UndoCount == undos
    told["closed_by_cancel"] = not desk.panel_open()

    # Figures follow the typing.
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "27 mm")
    desk.settle()
    told["at_27"] = figures()
    desk.type_into("stock", "1-3/4 in")
    desk.settle()
    told["at_1_3_4_in"] = figures()
    refused = {}
    for text in ("0", "-5 mm", "900 mm", "0.1 mm"):
        desk.type_into("stock", text)
        desk.settle()
        refused[text] = [desk.widget("StackLam_SliceFormSentence").text(), figures()["layers"], desk.says_at_ok()]
    told["refused"] = refused
    desk.picture("panel-refused")
    desk.type_into("stock", "45 mm")
    desk.type_into("allowance", "4 mm")
    desk.settle()
    told["at_45"] = figures()
    desk.picture("panel")
    desk.press_ok()
    told["closed_by_ok"] = not desk.panel_open()
    (stack,) = stacks()
    told["layers"] = layers(stack)
    told["children"] = [o.Name for o in stack.ViewObject.Proxy.claimChildren()] == [o.Name for o in stack.Layers]
    told["undo_steps"] = document.UndoCount - undos
    told["tints"] = len({tuple(o.ViewObject.ShapeColor) for o in stack.Layers})
    told["seen"] = [o.ViewObject.Visibility for o in stack.Layers] + [document.Pedestal.ViewObject.Visibility]
    told["state"] = sorted({s for o in document.Objects for s in o.State})
    told["volume"] = sum(o.Shape.Volume for o in stack.Layers)
    desk.view("sliced")
    desk.picture("window-sliced")

    # Undo, redo.
    document.undo()
    document.recompute()
    told["after_undo"] = [o.Name for o in document.Objects] == before
    document.redo()
    document.recompute()
    (stack,) = stacks()
    told["after_redo"] = layers(stack)

    # Edit by double click: more layers, then undo.
    stack.ViewObject.doubleClicked() if hasattr(stack.ViewObject, "doubleClicked") else None
    if not desk.panel_open():
        FreeCADGui.activeDocument().setEdit(stack.Name)
    desk.wait_until(desk.panel_open, what="the stack's panel")
    told["edit_starts_at"] = desk.widget("stock").property("exactValue")
    desk.type_into("stock", "30 mm")
    desk.press_ok()
    desk.wait_until(lambda: FreeCADGui.activeDocument().getInEdit() is None, what="the editing to end")
    told["in_edit"] = FreeCADGui.activeDocument().getInEdit() is not None
    told["after_edit"] = layers(stacks()[0])
    document.undo()
    document.recompute()
    told["after_undone_edit"] = layers(stacks()[0])
    document.redo()
    document.recompute()
    told["after_redone_edit"] = layers(stacks()[0])
    document.undo()
    document.recompute()

    # Save, reopen, recompute; also as a file that has nothing of the GUI in it.
    import zipfile

    stack.Layers[0].ViewObject.Transparency = 20
    stack.Layers[0].ViewObject.ShapeColor = (0.2, 0.4, 0.6)
    path = folder + "/stand.FCStd"
    document.saveAs(path)
    FreeCAD.closeDocument(document.Name)
    bare = folder + "/bare.FCStd"
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(bare, "w") as new:
        for name in old.namelist():
            if name != "GuiDocument.xml":
                new.writestr(name, old.read(name))
    for key, file in (("reopened", path), ("bare", bare)):
        document = FreeCAD.openDocument(file)
        desk.settle()
        (stack,) = stacks()
        for obj in document.Objects:
            obj.touch()
        document.recompute()
        told[key] = {
            "layers": layers(stack),
            "state": sorted({s for o in document.Objects for s in o.State}),
            "view": type(stack.ViewObject.Proxy).__name__,
            "layer_view": type(stack.Layers[0].ViewObject.Proxy).__name__,
            "volume": sum(o.Shape.Volume for o in stack.Layers),
            "seen": [o.ViewObject.isVisible() for o in (stack, stack.Form, *stack.Layers)],
            "transparency": [o.ViewObject.Transparency for o in stack.Layers[:2]],
            "blue": round(stack.Layers[0].ViewObject.ShapeColor[2], 2),
        }
        FreeCADGui.activeDocument().setEdit(stack.Name)
        desk.wait_until(desk.panel_open, what="the stack's panel")
        told[key]["stock"] = desk.widget("stock").property("exactValue")
        desk.press_cancel()
        desk.settle()
        desk.view(key)
        FreeCAD.closeDocument(document.Name)
    return told


def test_the_example_is_sliced_undone_saved_and_edited(tmp_path: Path) -> None:
    run = keep(freecad(slice_the_example, tmp_path, arguments={"folder": str(tmp_path)}))
    told = run.result
    assert told["boxes"] == []
    assert told["example"] == {"name": "", "forms": ["Pedestal", "Top"]}
    assert told["panel_opens"]
    assert told["after_cancel"]
    assert told["closed_by_cancel"]
    # The pedestal is 450 mm high (tools/examples/plant_stand.py): 450 / 27 = 16.7, 450 / 44.45 = 10.1, 450 / 45 = 10.
    assert told["at_27"]["layers"] == "17 of 27.00 mm"
    assert "9.00 mm above the form" in told["at_27"]["height"]
    assert told["at_1_3_4_in"]["layers"] == "11 of 44.45 mm"
    assert told["at_45"]["layers"] == "10 of 45.00 mm"
    assert "as high as the form" in told["at_45"]["height"]
    for text, (sentence, figure, said) in told["refused"].items():
        assert sentence.endswith("."), text
        assert figure == "–", text
        assert said == sentence, text
    assert told["closed_by_ok"]
    assert told["layers"] == list(range(1, 11))
    assert told["children"]
    assert told["undo_steps"] == 1
    assert told["tints"] == 2
    assert all(told["seen"])
    assert told["state"] in ([], ["Up-to-date"])
    # What the panel promised is what the layers hold, as far as the panel shows it and the preview claims (1 %).
    promised = float(told["at_45"]["wood"].split()[0]) * 1e6
    assert told["volume"] == pytest.approx(promised, rel=0.01)
    assert told["after_undo"]
    assert told["after_redo"] == list(range(1, 11))
    assert told["edit_starts_at"] == 45.0
    assert not told["in_edit"]
    assert told["after_edit"] == list(range(1, 16))
    assert told["after_undone_edit"] == list(range(1, 11))
    assert told["after_redone_edit"] == list(range(1, 16))
    for key in ("reopened", "bare"):
        assert told[key]["layers"] == list(range(1, 11)), key
        assert told[key]["state"] in ([], ["Up-to-date"]), key
        assert (told[key]["view"], told[key]["layer_view"]) == ("StackView", "LayerView"), key
        assert told[key]["volume"] == pytest.approx(told["volume"], rel=1e-9), key
        assert told[key]["stock"] == 45.0, key
        assert all(told[key]["seen"]), key
    # The maker's own colours stay in the file; a file without any gets the workbench's.
    assert told["reopened"]["transparency"] == [20, 50]
    assert told["reopened"]["blue"] == 0.6
    assert told["bare"]["transparency"] == [50, 50]


def slice_many_kinds(desk):
    import FreeCAD
    import FreeCADGui
    import Mesh
    import Part

    told = {"kinds": {}, "boxes_for": {}}
    desk.open_workbench()
    document = FreeCAD.newDocument("Kinds")
    block = Part.makeBox(200, 100, 90)

    def plain(name, shape):
        obj = document.addObject("Part::Feature", name)
        obj.Shape = shape
        return obj

    box = plain("Block", block)
    body = document.addObject("PartDesign::Body", "Body")
    pad = document.addObject("PartDesign::AdditiveBox", "Pad")
    pad.Length, pad.Width, pad.Height = 200, 100, 90
    body.addObject(pad)
    compound = plain("Pair", Part.makeCompound([block, Part.makeBox(50, 50, 90, FreeCAD.Vector(400, 0, 0))]))
    link = document.addObject("App::Link", "Link")
    link.LinkedObject = body
    link.Placement.Base = FreeCAD.Vector(0, 500, 0)
    mesh = document.addObject("Mesh::Feature", "Net")
    mesh.Mesh = Mesh.Mesh(block.tessellate(0.1))
    part = document.addObject("App::Part", "Assembly")
    inner = plain("Inner", block)
    part.addObject(inner)
    part.Placement.Base = FreeCAD.Vector(0, -500, 0)
    flat = plain("Flat", Part.makePlane(100, 100))
    document.recompute()
    before = len(document.Objects)

    def said(action):
        count = len(desk.boxes)
        action()
        desk.settle()
        return desk.boxes[count:]

    def nothing_made():
        return len(document.Objects) == before and not desk.panel_open()

    # Selections that do not fit: one sentence, nothing made.
    FreeCADGui.Selection.clearSelection()
    told["boxes_for"]["nothing"] = said(lambda: desk.command("StackLam_SliceForm"))
    desk.select(box)
    FreeCADGui.Selection.addSelection(document.Name, mesh.Name)
    told["boxes_for"]["two"] = said(lambda: desk.command("StackLam_SliceForm"))
    desk.select(flat)
    told["boxes_for"]["no solid"] = said(lambda: desk.command("StackLam_SliceForm"))
    told["boxes_for"]["joint of nothing"] = said(lambda: desk.command("StackLam_AddJoint"))
    told["nothing_made"] = nothing_made()
    told["greyed"] = [desk.is_active(f"StackLam_{n}") for n in ("CheckStack", "LayerDrawings", "Bill")]

    # Every kind of form, picked in the tree and by a face.
    picked = {
        "shape": (box, ""),
        "face": (box, "Face1"),
        "body": (body, ""),
        "face of a body": (body, "Pad.Face1"),
        "link": (link, ""),
        "mesh": (mesh, ""),
        "in a part": (part, "Inner."),
    }
    for kind, (obj, sub) in picked.items():
        desk.select(obj, sub)
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", "45 mm")
        desk.type_into("allowance", "3 mm")
        desk.settle()
        told["kinds"][kind] = [desk.widget("layers").text(), desk.widget("wood").text()]
        desk.press_cancel()
    desk.select(compound)
    desk.command("StackLam_SliceForm")
    told["solids"] = [desk.widget("solid").itemText(i) for i in range(desk.widget("solid").count())]
    desk.press_cancel()

    # The axis from a face of the block: Face1 of a box has its normal along x, 200 mm long.
    desk.select(box)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "25 mm")
    desk.select(box, "Face1")
    desk.press("Use selected face or edge")
    desk.settle()
    told["along_x"] = [desk.widget("layers").text(), desk.widget("axisText").text(), desk.widget("axis").currentText()]
    told["needs_a_pick"] = said(lambda: (desk.select(box), desk.press("Use selected face or edge")))
    told["axis_kept"] = desk.widget("layers").text()
    desk.picture("picked-axis")
    choose = desk.widget("axis")
    kept = choose.currentIndex()
    says = []
    for chosen in ("z", "own z", "picked"):
        choose.setCurrentIndex(choose.findData(chosen))
        desk.settle()
        says.append(desk.widget("axisText").text())
    told["axis_says"] = [*says, choose.currentIndex() == kept]
    desk.press_ok()
    (stack,) = [o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack"]
    told["made_along_x"] = len(stack.Layers)
    told["follows"] = [stack.AxisFollows, stack.AxisFrom[0].Name == box.Name, list(stack.AxisFrom[1])]
    told["undone"] = (document.undo(), document.recompute(), len(document.Objects) == before)[-1]
    return told


def test_forms_of_every_kind_and_selections_that_do_not_fit(tmp_path: Path) -> None:
    told = keep(freecad(slice_many_kinds, tmp_path)).result
    for case in ("nothing", "two", "no solid", "joint of nothing"):
        assert len(told["boxes_for"][case]) == 1, case
        assert told["boxes_for"][case][0].endswith("."), case
    assert told["nothing_made"]
    assert told["greyed"] == [False, False, False]
    # Steiner's formula for the parallel area of a rectangle: w h + 2 r (w + h) + π r²; r = allowance 3 + guard 0.2.
    area = 200 * 100 + 2 * 3.2 * 300 + math.pi * 3.2**2
    wood = f"{area * 90 / 1e6:.2f} l"
    for kind, figures in told["kinds"].items():
        assert figures == ["2 of 45.00 mm", wood], kind
    assert told["solids"] == ["Pair 1", "Pair 2"]
    assert told["along_x"][0] == "8 of 25.00 mm"
    assert told["along_x"][1].startswith("Follows Face1 of ") and told["along_x"][1].endswith("now 1, 0, 0")
    assert told["axis_says"][:2] == [
        "Stays so in the model, however the form is turned: 0, 0, 1",
        "Turns with the form; now 0, 0, 1",
    ]
    assert told["axis_says"][2:] == [told["along_x"][1], True]
    assert told["follows"] == ["a face or edge", True, ["Face1"]]
    assert told["along_x"][2] == "as picked"
    assert len(told["needs_a_pick"]) == 1
    assert told["axis_kept"] == "8 of 25.00 mm"
    assert told["made_along_x"] == 8
    assert told["undone"]


def work_in_inches(desk):
    import FreeCAD
    from PySide import QtGui

    from freecad_stacklam.workbench.fields.fields import value_of

    told = {}

    def written_anew():
        stock = desk.widget("stock")
        stock.setProperty("unit", "in")  # makes FreeCAD write the text anew
        desk.settle()
        return [stock.findChild(QtGui.QLineEdit).text(), round(value_of(stock), 6)]

    desk.open_workbench()
    document = FreeCAD.newDocument("Inches")
    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = "12 in", "12 in", "4 in"
    document.recompute()
    desk.select(box)
    desk.command("StackLam_SliceForm")
    told["first"] = [value_of(desk.widget(n)) for n in ("stock", "allowance")]
    # FreeCAD shows two decimals and would go on with those: 1-13/16 in is 1.8125 in, not 1.81 in.
    exact = []
    for text in ("1-13/16 in", "1.8125 in", "2 in", "5/16 in"):
        desk.type_into("stock", text)
        exact.append(written_anew())
    told["exact"] = exact
    desk.widget("stock").stepUp()
    told["stepped"] = value_of(desk.widget("stock"))
    desk.type_into("stock", "1 in")
    desk.type_into("allowance", "0")
    desk.settle()
    told["shown"] = {n: desk.widget(n).text() for n in ("layers", "height", "wood", "formVolume")}
    desk.type_into("planed", "1-1/8in; 0.875in")
    desk.settle()
    told["planed"] = {n: desk.widget(n).text() for n in ("layers", "height")}
    desk.type_into("planed", "thick")
    desk.settle()
    told["no_length"] = desk.widget("StackLam_SliceFormSentence").text()
    desk.widget("planed").clear()
    desk.picture("panel-inches")
    # The form goes while the panel is open.
    document.removeObject("Block")
    desk.type_into("stock", "2 in")
    desk.settle()
    told["gone"] = desk.widget("StackLam_SliceFormSentence").text()
    told["ok"] = desk.says_at_ok()
    desk.press_cancel()
    told["left"] = [len(document.Objects), desk.panel_open()]
    return told


def test_inches_board_feet_and_a_form_that_goes_away(tmp_path: Path) -> None:
    told = keep(freecad(work_in_inches, tmp_path, preferences={"Units/UserSchema": 3})).result
    assert told["boxes"] == []
    # 1-3/4 in is what 8/4 hardwood planes to (NHLA, surfaced two sides).
    assert told["first"] == [44.45, 3.175]
    assert told["shown"]["layers"] == "4 of 1.00 in"
    assert told["shown"]["height"] == "4.00 in, as high as the form"
    assert [value for _, value in told["exact"]] == [46.0375, 46.0375, 50.8, 7.9375]
    assert told["stepped"] > 7.9375 + 0.2
    # A board foot is 144 in³: 12 × 12 × 4 in are 4 board feet. The guard of 0.2 mm all round adds a third of a percent.
    assert told["shown"]["formVolume"] == "576.00 in³ (4.0 board feet)"
    assert told["shown"]["wood"].endswith("(4.0 board feet)")
    assert told["planed"]["layers"] == "4, the lowest 2 as planed"  # 1.125 + 0.875 + 1 + 1
    assert told["planed"]["height"] == "4.00 in, as high as the form"
    assert told["no_length"].endswith(".")
    assert told["gone"].endswith("start again.")
    assert told["ok"] == told["gone"]
    assert told["left"] == [0, False]
