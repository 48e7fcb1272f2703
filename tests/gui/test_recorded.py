# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the panels do is done by lines of Python that FreeCAD records: run again on the same forms, they make the same.

FreeCADGui.doCommand "prints the given string in the python console and runs it" and records it (FreeCAD's own help on
it); addModule puts the import once at the head of a macro.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def record_a_table(desk):
    import json

    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.job.planjson import as_dict, dumps

    lines = []
    do, add = FreeCADGui.doCommand, FreeCADGui.addModule

    def record(line):
        lines.append(line)
        do(line)

    def record_module(name):
        if f"import {name}" not in lines:
            lines.append(f"import {name}")
        add(name)

    FreeCADGui.doCommand, FreeCADGui.addModule = record, record_module

    def forms(title):
        document = FreeCAD.newDocument(title)
        for name, sizes, level in (("Foot", (120, 120, 180), 0), ("Top", (300, 260, 50), 180)):
            form = document.addObject("Part::Box", name)
            form.Length, form.Width, form.Height = sizes
            form.Placement.Base = FreeCAD.Vector(-sizes[0] / 2, -sizes[1] / 2, level)
        document.recompute()
        return document

    def facts(document):
        return json.loads(dumps(as_dict(plan_of(document), settings_of(document))))

    desk.open_workbench()
    document = forms("Made")
    for name, stock in (("Foot", "36.5 mm"), ("Top", "25 mm")):
        desk.select(document.getObject(name))
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", stock)
        if name == "Foot":
            desk.widget("piece").setText("Left foot")
        desk.settle()
        desk.press_ok()
    stacks = [o for o in document.Objects if o.Name.startswith("Stack")]
    FreeCADGui.Selection.clearSelection()
    for stack in stacks:
        FreeCADGui.Selection.addSelection(stack)
    desk.command("StackLam_AddJoint")
    desk.type_into("tenonSide", "30 mm")
    desk.settle()
    desk.press_ok()
    desk.select(stacks[0])
    desk.command("StackLam_SetPins")
    desk.settle()
    desk.press_ok()
    desk.command("StackLam_CarvingGuide")
    desk.settle()
    desk.press_ok()
    desk.command("StackLam_FinishedPiece")
    desk.settle()
    desk.press_ok()
    desk.select(stacks[0])
    desk.command("StackLam_SliceForm")
    desk.type_into("allowance", "5 mm")
    desk.settle()
    desk.press_ok()
    document.recompute()
    first = facts(document)

    again = forms("Replayed")
    FreeCAD.setActiveDocument(again.Name)
    exec("\n".join(lines), {})
    again.recompute()
    second = facts(again)
    for told in (first, second):
        del told["title"], told["settings"]["title"]  # those of the documents
    unlike = [key for key in first if first[key] != second.get(key)]
    return {"lines": lines, "unlike": unlike, "joints": len(first["joints"])}


def test_a_recorded_macro_makes_the_same_plan(tmp_path: Path) -> None:
    told = keep(freecad(record_a_table, tmp_path, timeout=240)).result
    assert told["unlike"] == []
    assert told["joints"] == 1
    text = "\n".join(told["lines"])
    assert "stack = freecad_stacklam.api.slice_form(FreeCAD.ActiveDocument.getObject('Foot'), piece='Left foot'" in text
    assert "stock=['36.5mm']" in text
    for called in ("add_joint", "set_pins", "carving_guide", "finished_piece", "change_layers"):
        assert f"freecad_stacklam.api.{called}(" in text, text
