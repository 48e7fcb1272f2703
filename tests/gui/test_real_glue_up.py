# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up's panel with the planner that makers get: clamps are counted, set-ups follow, and undo and redo hold.

test_glue_up.py looks at the panel itself, with a planner of plain arithmetic."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def glue_the_example(desk, folder):
    from pathlib import Path

    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.data import example_settings
    from freecad_stacklam.docobjects.making.joints import make_joint
    from freecad_stacklam.lamination.settings.file import read_settings
    from freecad_stacklam.workbench.gluing import clamp_table

    asked = read_settings(example_settings().read_text(encoding="utf-8"))
    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    stacks = [o for o in document.Objects if o.Name.startswith("Stack")]
    make_joint(document, stacks, asked.joints[0])
    document.recompute()
    before, undos = [o.Name for o in document.Objects], document.UndoCount

    def table():
        return desk.widget("clamps")

    def listed():
        """The runs that are glued, and whether each holds."""
        rows = desk.widget("setUpList")
        texts = [rows.item(i).text().split("\n") for i in range(rows.count())]
        return [[run.partition(". ")[2], said.partition(":")[0]] for run, said in texts]

    def figure(name):
        return desk.widget(name, desk.panel()).text()

    def states():
        return sorted({s for o in document.Objects for s in o.State} - {"Expanded", "Up-to-date"})

    def set_ups():
        return [[o.Number, o.Stack, o.First, o.Last, [n.Number for n in o.Layers]] for o in document.GlueUp.SetUps]

    # The clamps of the example's settings file, by the way a maker brings his own.
    mine = Path(folder) / "clamps.csv"
    mine.write_text("name,count,force kN,opening mm,throat mm,pad mm\nHeavy bar clamp,24,6,900,65,40\n", "utf-8")
    clamp_table.ask_open = lambda parent, title, at: str(mine)
    desk.command("StackLam_PlanGlueUp")
    kind = desk.widget("glueKind")
    kind.setCurrentIndex(kind.findData(asked.glue.kind))
    desk.press("Load CSV…", desk.panel())
    desk.settle()
    told["many"] = [listed(), figure("verdict"), figure("setUps")]
    desk.picture("real-many")
    slider = desk.widget("glueSlider")
    slider.setValue(slider.maximum())
    desk.settle()
    told["said"] = desk.widget("setUpSaid").text()
    for count in ("12", "24"):
        table().item(0, 1).setText(count)
        desk.settle()
        told[count] = [listed(), figure("verdict"), figure("setUps")]
    desk.picture("real-few")
    desk.press_ok()
    told["made"] = [document.UndoCount - undos, states(), set_ups()]
    tree = [[o.Name, o.Label] for o in document.Objects]

    told["steps"] = []
    for _ in range(2):
        document.undo()
        document.recompute()
        desk.settle()
        told["steps"].append([[o.Name for o in document.Objects] == before, states()])
        document.redo()
        document.recompute()
        desk.settle()
        told["steps"].append([[[o.Name, o.Label] for o in document.Objects] == tree, states(), set_ups()])

    # Half the clamps, kept in the document: set-ups go and come with undo and redo.
    FreeCADGui.getDocument(document.Name).setEdit(document.GlueUp.Name)
    desk.wait_until(desk.panel_open, what="the panel")
    table().item(0, 1).setText("12")
    desk.settle()
    desk.press_ok()
    told["halved"] = [set_ups(), document.Clamps.get("C2"), states()]
    document.undo()
    document.recompute()
    desk.settle()
    told["back"] = [set_ups(), document.Clamps.get("C2"), states()]
    document.redo()
    document.recompute()
    desk.settle()
    told["again"] = [set_ups(), document.Clamps.get("C2"), states()]
    told["boxes"] = desk.boxes
    return told


def test_set_ups_follow_the_clamps_that_are_there(tmp_path: Path) -> None:
    run = keep(freecad(glue_the_example, tmp_path, arguments={"folder": str(tmp_path)}, timeout=400))
    told = run.result
    rows, verdict, count = told["many"]
    # Nine lines of the pedestal and one of the top, each glued once; the joint last.
    assert rows[-1][0] == "Pedestal to top: Pedestal and Top"
    assert count.startswith(f"{len(rows)}, with ")
    assert [held for _, held in rows[:-1]] == ["ok"] * (len(rows) - 1)
    assert verdict == f"stop: 1 of {len(rows)} set-ups break a limit"
    # Layers 1 and 2 meet on 598 cm²: 95 kN at 1.59 MPa, and twelve clamps have 72 kN. What is short is said.
    fewer = told["12"]
    assert fewer[0] != rows
    assert sum(held == "stop" for _, held in fewer[0]) > 1
    assert told["24"] == told["many"]
    steps, states, set_ups = told["made"]
    assert (steps, states) == (1, [])
    assert [s[0] for s in set_ups] == list(range(1, len(rows) + 1))
    assert set_ups[-1][4] == [*range(1, 11), 1, 2]
    assert told["steps"] == [[True, []], [True, [], set_ups]] * 2
    assert told["halved"][0] != set_ups
    assert told["back"] == [set_ups, 24, []]
    assert told["again"] == told["halved"]
    assert told["boxes"] == []
