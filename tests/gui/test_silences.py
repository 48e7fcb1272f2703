# SPDX-License-Identifier: LGPL-2.1-or-later

"""How long the window is silent at each step of a job: a heartbeat counts (desk.py).

What the workbench aims at is AIM. A test run shares its machine, and its processor time is coarser than a clock on a
quiet one, so a step fails at LIMIT. The table of docs/benchmarks.md is what these tests print (`-s`).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import Run, freecad
from shots import keep

pytestmark = pytest.mark.gui
AIM, LIMIT = 0.2, 0.8
#: Steps in which FreeCAD itself, in one call, draws a new document and meshes what it shows there, under its progress
#: bar; and the first look at the workbench, with Qt's own.
FREECADS_OWN = {"opens the example", "opens the workbench", "opens a whole project"}


def work_through_a_job(desk, folder):
    import time
    from contextlib import contextmanager

    import FreeCAD

    took = {}

    @contextmanager
    def step(name):
        began = time.monotonic()
        with desk.heart.at(name):
            yield
            desk.settle()
        took[name] = time.monotonic() - began

    with step("opens the workbench"):
        desk.open_workbench()
    from freecad_stacklam.workbench.working import warming

    with step("loads what will be needed"):
        desk.wait_until(warming.is_done, what="what is loaded early")
    with step("opens the example"):
        desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.select(document.Pedestal)
    with step("opens the slicing panel"):
        desk.command("StackLam_SliceForm")
    with step("types a stock thickness"):
        desk.type_into("stock", "45 mm")
    with step("types another thickness at hand"):
        desk.type_into("otherStock", "27 mm")
    with step("takes it out again"):
        desk.type_into("otherStock", "")
    with step("slices by OK"):
        desk.press_ok()
    desk.select(document.Top)
    desk.command("StackLam_SliceForm")
    desk.type_into("stock", "27 mm")
    with step("slices the other form"):
        desk.press_ok()
    with step("checks the stacks"):
        desk.command("StackLam_CheckStack")
    (table,) = desk.named("StackLamChecks")
    table.close()
    with step("opens the drawings"):
        desk.command("StackLam_LayerDrawings")
    with step("turns a page"):
        desk.press("Next")
    desk.widget("openViewer").setChecked(False)
    desk.type_into("path", folder + "/stand.pdf")
    with step("writes the PDF"):
        desk.press("Write PDF")
    return {
        "steps": {name: [desk.heart.longest[name], desk.heart.worked[name], took[name]] for name in took},
        "written": desk.said("StackLam_LayerDrawings"),
    }


def _table(run: Run) -> str:
    version = ".".join(run.result["version"][:2])
    rows = [
        f"| {version} | {name} | {silent:.2f} | {worked:.2f} | {took:.1f} |"
        for name, (silent, worked, took) in run.result["steps"].items()
    ]
    return "\n".join(["", *rows])


def test_the_window_is_never_silent_for_long(tmp_path: Path) -> None:
    run = keep(freecad(work_through_a_job, tmp_path, arguments={"folder": str(tmp_path)}, timeout=240))
    print(_table(run))
    worked = {name: worked for name, (_, worked, _) in run.result["steps"].items()}
    assert {name: s for name, s in worked.items() if s > LIMIT and name not in FREECADS_OWN} == {}


def make_a_project(desk, project):
    import FreeCAD

    from freecad_stacklam import api
    from freecad_stacklam.data import example_rack, example_settings
    from freecad_stacklam.docobjects.spreadsheets.rack import write_rack
    from freecad_stacklam.lamination.boards.rack import read_rack

    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    api.make_all(document, [document.Pedestal, document.Top], example_settings().read_text(encoding="utf-8"))
    write_rack(document, read_rack(example_rack().read_text(encoding="utf-8")).boards)
    document.recompute()
    document.saveAs(project)
    return {}


def work_on_much(desk, project):
    import time
    from contextlib import contextmanager

    import FreeCAD
    import Mesh

    took = {}

    @contextmanager
    def step(name):
        began = time.monotonic()
        with desk.heart.at(name):
            yield
            desk.settle(180)
        took[name] = time.monotonic() - began

    desk.open_workbench()
    from freecad_stacklam.workbench.working import warming

    desk.wait_until(warming.is_done, what="what is loaded early")
    document = FreeCAD.newDocument("Large")
    net = document.addObject("Mesh::Feature", "Net")
    net.Mesh = Mesh.createSphere(150.0, 408)
    document.recompute()
    triangles = net.Mesh.CountFacets
    desk.select(net)
    with step("opens the slicing panel on a large mesh"):
        desk.command("StackLam_SliceForm")
    with step("types a stock thickness for it"):
        desk.type_into("stock", "30 mm")
    with step("slices it by OK"):
        desk.press_ok()
    FreeCAD.closeDocument(document.Name)

    with step("opens a whole project"):
        document = FreeCAD.openDocument(project)
    with step("checks it"):
        desk.command("StackLam_CheckStack")
    (table,) = desk.named("StackLamChecks")
    table.close()
    for name, command in (
        ("opens its drawings", "StackLam_LayerDrawings"),
        ("opens cutting the boards", "StackLam_CutBoards"),
        ("opens the carving guide", "StackLam_CarvingGuide"),
        ("opens the glue-up", "StackLam_PlanGlueUp"),
        ("opens the finished piece", "StackLam_FinishedPiece"),
    ):
        with step(name):
            desk.command(command)
        if name == "opens its drawings":
            with step("makes its pages to edit"):
                desk.press("Pages to edit")
            desk.press("Close")
        else:
            desk.press_cancel()
    steps = {name: [desk.heart.longest[name], desk.heart.worked[name], took[name]] for name in took}
    return {"steps": steps, "triangles": triangles}


@pytest.mark.slow
def test_large_forms_and_whole_projects(tmp_path: Path) -> None:
    project = str(tmp_path / "project.FCStd")
    freecad(make_a_project, tmp_path, arguments={"project": project}, timeout=400)
    run = keep(freecad(work_on_much, tmp_path, arguments={"project": project}, timeout=600))
    print(_table(run))
    assert run.result["triangles"] > 300_000
    worked = {name: worked for name, (_, worked, _) in run.result["steps"].items()}
    assert {name: s for name, s in worked.items() if s > LIMIT and name not in FREECADS_OWN} == {}
