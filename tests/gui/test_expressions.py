# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an expression drives is shown as driven and locked in the panels, and OK keeps it; FreeCAD's own button for
expressions is in the fields, and what is done with it is part of the panel's undo step."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def edit_what_expressions_drive(desk):
    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam import api

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Pair")
    forms = []
    for name, high in (("Foot", 90), ("Lid", 45)):
        forms.append(document.addObject("Part::Box", name))
        forms[-1].Length = forms[-1].Width = 200
        forms[-1].Height = high
    forms[1].Placement.Base.z = 90
    document.recompute()
    stacks = [api.slice_form(form, stock=["45 mm"]) for form in forms]
    joint = api.add_joint(stacks, name="Neck", through=["100 mm", "100 mm", "90 mm"], size="40 mm")
    stack = stacks[0]

    def driven(obj):
        return {str(path): str(text) for path, text in obj.ExpressionEngine}

    def edit(obj):
        FreeCADGui.ActiveDocument.setEdit(obj.Name)
        desk.settle()

    def looks(name):
        field = desk.widget(name)
        captions = [w for w in desk._widgets(QtGui.QLabel) if w.isVisible() and w.buddy() is field]
        shut = field.isReadOnly() if isinstance(field, QtGui.QAbstractSpinBox) else not field.isEnabled()
        return [shut, captions[0].text() if captions else field.text(), field.toolTip()]

    document.openTransaction("expressions")
    joint.setExpression("Size", "20 mm + 16 mm")
    joint.setExpression("Through.x", "101 mm")
    stack.setExpression("Allowance", "2 mm * 2")
    stack.setExpression("Copies", "1 + 1")
    document.commitTransaction()
    document.recompute()

    edit(joint)
    told["joint"] = [looks("tenonSide"), looks("pointX"), looks("pointY"), looks("clearance")]
    desk.picture("expression-joint")
    step = desk.widget("tenonSide")
    desk._key(step, QtCore.Qt.Key_Up, "")
    told["stepped"] = step.property("rawValue")
    desk.type_into("turn", "10 deg")
    desk.settle()
    undo = document.UndoCount
    desk.press_ok()
    told["joint after"] = [
        driven(joint),
        joint.Size.Value,
        joint.Through.x,
        joint.Turn.Value,
        document.UndoCount - undo,
    ]

    edit(stack)
    told["stack"] = [looks("allowance"), looks("copies")]
    desk.picture("expression-stack")
    desk.type_into("stock", "30 mm")
    desk.settle()
    desk.press_ok()
    told["stack after"] = [driven(stack), stack.Allowance.Value, stack.Copies, stack.Stock.Value]

    # The button in the field gives the object an expression at once: Cancel takes it back, OK makes it one step.
    edit(joint)
    joint.setExpression("Clearance", "0.3 mm")
    told["cancelled"] = [driven(joint).get("Clearance")]
    desk.press_cancel()
    told["cancelled"].append(driven(joint).get("Clearance"))
    edit(joint)
    joint.setExpression("Clearance", "0.3 mm")
    desk.settle()
    undo = document.UndoCount
    desk.press_ok()
    told["kept"] = [driven(joint).get("Clearance"), joint.Clearance.Value, document.UndoCount - undo]
    document.undo()
    document.recompute()
    told["undone"] = [driven(joint).get("Clearance"), joint.Clearance.Value]
    return told


def test_expressions_are_shown_locked_and_kept(tmp_path: Path) -> None:
    told = keep(freecad(edit_what_expressions_drive, tmp_path, timeout=240)).result
    side, x, y, clearance = told["joint"]
    assert side[:2] == [True, "Side or diameter (expression)"] and "“20mm+16mm”" in side[2].replace(" ", "")
    assert x[:2] == [True, "Through x (expression)"] and y[:2] == [False, "y"] and not clearance[0]
    assert told["stepped"] == 36
    after, size, through, turn, steps = told["joint after"]
    assert set(after) == {"Size", ".Through.x"} or set(after) == {"Size", "Through.x"}
    assert [size, through, turn, steps] == [36, 101, 10, 1]
    allowance, copies = told["stack"]
    assert allowance[:2] == [True, "Allowance all round (expression)"] and copies[:2] == [True, "Copies (expression)"]
    after, *values = told["stack after"]
    assert set(after) == {"Allowance", "Copies"} and values == [4, 2, 30]
    assert told["cancelled"][0] and told["cancelled"][1] is None
    assert told["kept"][0] and told["kept"][1:] == [pytest.approx(0.3), 1]
    assert told["undone"] == [None, pytest.approx(0.1)]
    assert told["boxes"] == []
