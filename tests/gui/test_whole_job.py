# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole job on the plant stand, command after command, as pictures: of each command its panel and what comes of it.

    STACKLAM_PICTURES=docs/pictures python -m pytest -m "gui and slow" tests/gui/test_whole_job.py

writes those of docs/commands.md, and into out/whole-job what tools/make_animation.py makes one moving picture of.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from drive import CHECKOUT, freecad
from pictures import MOST, shows_something, wanted, write

pytestmark = [pytest.mark.gui, pytest.mark.slow]
FRAMES = CHECKOUT / "out" / "whole-job"
COMMANDS = [
    "slice", "joint", "pins", "hollow", "rack", "cut", "glue", "carving", "piece", "checks", "drawings", "bill"
]  # fmt: skip


def do_the_whole_job(desk, folder):
    from pathlib import Path

    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.benchsheets.drawing.lettering import Units
    from freecad_stacklam.data import example_settings
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.keptbook import book_for
    from freecad_stacklam.lamination.settings.file import read_settings
    from freecad_stacklam.sheetwriters.png import sheet_image
    from freecad_stacklam.workbench import bill
    from freecad_stacklam.workbench.gluing import clamp_table

    asked = read_settings(example_settings().read_text(encoding="utf-8"))
    story = []

    def tell(caption):
        name = f"frame-{len(story) + 1:02d}"
        desk.picture(name)
        story.append([[name], caption])

    def tell_pages(kind, caption, count=2, after=0):
        """The first sheets of a kind, side by side, as they are printed."""
        chosen = [sheet for sheet in sheets if sheet.kind == kind][after : after + count]
        assert chosen, kind
        names = [f"frame-{len(story) + 1:02d}-{k}" for k in range(len(chosen))]
        for name, sheet in zip(names, chosen):
            path = str(Path(folder) / f"{name}.png")
            assert sheet_image(sheet, 75.0).save(path)
            desk.pictures[name] = path
        story.append([names, caption])

    def panel(command):
        """The open panel alone, whole as far as it is seen."""
        desk.picture(f"{command}-panel", desk.panel())

    def seen(command):
        """What came of it, in the 3D view."""
        FreeCADGui.Selection.clearSelection()
        desk.view(f"{command}-made", fit=False)

    def front():
        FreeCADGui.Selection.clearSelection()
        view = FreeCADGui.activeDocument().activeView()
        view.viewIsometric()
        FreeCADGui.SendMsgToActiveView("ViewFit")
        desk.settle()

    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    front()
    tell("The form is modelled in FreeCAD: a pedestal and a top, both solids.")

    for number, (name, stock) in enumerate((("Pedestal", "45 mm"), ("Top", "27 mm"))):
        desk.select(document.getObject(name))
        desk.command("StackLam_SliceForm")
        desk.type_into("stock", stock)
        desk.type_into("allowance", "4 mm" if number == 0 else "3 mm")
        desk.settle()
        if number == 0:
            panel("slice")
            tell("Slice form: say how thick your boards are planed, and how much wood stays outside the form.")
        else:
            tell("The top is sliced too, from thinner boards.")
        desk.press_ok()
        front()
        if number == 0:
            seen("slice")
            tell("Ten layers: each blank holds every section of the form between its faces. That is proven.")
    stacks = [o for o in document.Objects if o.Name.startswith("Stack")]

    FreeCADGui.Selection.clearSelection()
    desk.command("StackLam_AddJoint")
    for field, text in (("tenonSide", "36 mm"), ("depth1", "75 mm"), ("depth2", "25 mm"), ("pointZ", "450 mm")):
        desk.type_into(field, text)
    desk.settle()
    panel("joint")
    tell("Add mortise and tenon: a floating tenon along an axis. The least wood over it is marked.")
    desk.press_ok()
    front()
    seen("joint")
    tell("The mortises are cut out of every layer that they pass.")

    desk.select(stacks[0])
    desk.command("StackLam_SetPins")
    desk.type_into("pinDiameter", "8 mm")
    desk.type_into("pinMargin", "10 mm")
    desk.settle()
    panel("pins")
    seen("pins")
    tell("Set pins: dowels at every glue line, so that no layer slips, or is laid the wrong way round.")
    desk.press_ok()

    desk.select(stacks[0])
    desk.command("StackLam_HollowLayers")
    desk.type_into("wall", "30 mm")
    desk.settle()
    panel("hollow")
    seen("hollow")
    tell("Hollow the layers: voids with a wall that is nowhere thinner than you ask.")
    desk.press_ok()

    desk.command("StackLam_BoardRack")
    rack = desk.widget("StackLam_BoardRack")
    desk.press("Example boards", rack)
    desk.settle()
    desk.picture("rack-panel", rack)
    rack.resize(1250, 520)
    rack.move(120, 260)
    tell("Board rack: the boards that you have, knots and all, and those that you can buy.")
    desk.press("OK", rack)
    desk.settle()
    desk.picture("rack-made")

    desk.command("StackLam_CutBoards")
    desk.wait_until(lambda: desk.widget("staves", desk.panel()).text() != "–", what="the quick plan")
    panel("cut")
    tell("Cut the boards: staves for every blank, laid around the knots, in steps that the machines can take.")
    desk.press("Look closer", desk.panel())
    desk.picture("cut-made", desk.widget("StackLamBoardPicture"))
    desk.widget("StackLamBoardPicture").close()
    desk.press_ok()

    mine = Path(folder) / "clamps.csv"
    mine.write_text("name,count,force kN,opening mm,throat mm,pad mm\nHeavy bar clamp,24,6,900,65,40\n", "utf-8")
    clamp_table.ask_open = lambda parent, title, at: str(mine)
    front()
    desk.command("StackLam_PlanGlueUp")
    kind = desk.widget("glueKind")
    kind.setCurrentIndex(kind.findData(asked.glue.kind))
    desk.press("Load CSV…", desk.panel())
    desk.settle()
    panel("glue")
    tell("Plan the glue-up: which layers at once, with which clamps, before the open time runs out.")
    slider = desk.widget("glueSlider")
    for step in range(1, slider.maximum() + 1):
        slider.setValue(step)
        desk.settle()
        if step == 1:
            FreeCADGui.SendMsgToActiveView("ViewFit")
        tell("Step by step: what is not glued yet stands apart, and pads sit where the clamps press.")
        if step == slider.maximum() // 2:
            seen("glue")
    desk.press_ok()
    front()

    desk.command("StackLam_CarvingGuide")
    box = desk.widget("face2", desk.panel())
    box.setCurrentIndex(box.findData("top"))
    desk.wait_until(lambda: desk.widget("holes", desk.panel()).text() not in ("–", "none are asked for"), what="holes")
    desk.settle()
    panel("carving")
    seen("carving")
    tell("Carving guide: holes that stop short of the finished surface, section templates and gauges.")
    desk.press_ok()

    desk.command("StackLam_FinishedPiece")
    for name, value in (("useKind", "stand"), ("useDeep", "none")):
        chosen = desk.widget(name)
        chosen.setCurrentIndex(chosen.findData(value))
    desk.settle()
    panel("piece")
    tell("Finished piece: how it is used, and where it will stand.")
    desk.press_ok()
    front()
    seen("piece")

    desk.command("StackLam_CheckStack")
    table = desk.widget("StackLamChecks")
    table.resize(1150, 620)
    table.move(180, 200)
    desk.settle()
    desk.picture("checks-panel", table)
    tell("Check the stacks: what is proven, and what wants a second look, each with figure, limit and source.")
    rows = desk.widget("checks", table)
    shown = [i for i in range(rows.rowCount()) if "show" in rows.item(i, rows.columnCount() - 1).text()]
    rows.selectRow(shown[0])
    rows.itemDoubleClicked.emit(rows.item(shown[0], 1))
    desk.settle()
    tell("A double click goes to the place in the 3D view and rings it.")
    seen("checks")
    desk.press("Close", table)
    front()

    desk.command("StackLam_LayerDrawings")
    desk.settle()
    panel("drawings")
    tell("Layer drawings: first what the lines mean, and how templates are used.")
    desk.press("Next")
    desk.settle()
    sheets = book_for(plan_of(document), settings_of(document), Units("mm", 32, False), (), "2026-01-01")
    for kind, count, caption in (
        ("overview", 3, "The piece put together, and each stack from the front and the right, blank by blank."),
        ("bill", 2, "The bill: rough sizes to buy, weights, and what the boards cost."),
        ("boards", 2, "The boards, saw cut by saw cut."),
        ("template", 3, "Every layer at full size, tiled over your paper, with marks to join the pages."),
        ("layer", 2, "A sheet for every layer, with its sizes: lay it out without a template if you like."),
        ("joint", 1, "The tenon, its mortises, and how each is bored."),
        ("glue-up", 3, "The glue-up: its order, a page for each set-up, and a log to fill in."),
        ("depth holes", 1, "Where to bore, and how deep, before the dish is carved."),
        ("section", 3, "Section templates and gauges to hold against the work."),
        ("standing", 1, "How the piece stands, and what tips it."),
        ("strength", 1, "Where it is weakest, under which load."),
        ("checks", 2, "And at the end every check with its figure, limit and source."),
    ):
        tell_pages(kind, caption, count)
    layer = next(sheet for sheet in sheets if sheet.kind == "layer")
    desk.pictures["drawings-made"] = str(Path(folder) / "drawings-made.png")
    assert sheet_image(layer, 80.0).save(desk.pictures["drawings-made"])
    desk.press("Close")

    bill.ask_for_csv = lambda document: folder + "/bill.csv"
    desk.answer = "No"
    desk.command("StackLam_Bill")
    desk.settle()
    desk.picture("bill-made")
    tell("Bill of wood: blanks, boards, tenons, weights and costs, as a spreadsheet or CSV.")
    FreeCADGui.activateWorkbench("StackLamWorkbench")
    return {
        "story": story,
        "kinds": sorted({type(o.Proxy).__name__ for o in document.Objects if getattr(o, "Proxy", None)}),
        "states": sorted({s for o in document.Objects for s in o.State} - {"Expanded", "Up-to-date"}),
    }


def test_the_whole_job_command_after_command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STACKLAM_SHOTS", str(tmp_path))  # gives the window time to be painted
    run = freecad(do_the_whole_job, tmp_path, arguments={"folder": str(tmp_path)}, timeout=580)
    assert {"Stack", "Layer", "Joint", "Pins", "Hollow", "GlueUp", "Piece"} <= set(run.result["kinds"])
    assert run.result["states"] == []
    for command in COMMANDS:
        for what in ("panel", "made") if command != "bill" else ("made",):
            picture = run.pictures[f"{command}-{what}"]
            assert shows_something(picture), picture
            assert write(picture, f"commands/{command}-{what}", 420 if what == "panel" else 620) <= MOST
    story = run.result["story"]
    assert len(story) >= 36 and all(caption.endswith(".") and len(caption) < 115 for _, caption in story)
    if wanted():
        shutil.rmtree(FRAMES, ignore_errors=True)
        FRAMES.mkdir(parents=True)
        for name in (name for names, _ in story for name in names):
            shutil.copy(run.pictures[name], FRAMES / f"{name}.png")
        (FRAMES / "captions.json").write_text(json.dumps(story, indent=1), encoding="utf-8")
