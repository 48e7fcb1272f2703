# SPDX-License-Identifier: LGPL-2.1-or-later

"""FreeCAD starts with the checkout as an addon and lists the workbench."""

import json
from pathlib import Path

import pytest
from drive import CHECKOUT, freecad

pytestmark = pytest.mark.gui


def look_around(desk, bare):
    import importlib.util
    import os
    import sys

    import FreeCADGui
    import shapely

    import freecad_stacklam

    workbench = FreeCADGui.listWorkbenches()["StackLamWorkbench"]
    desk.picture("window")
    return {
        "menu": workbench.MenuText,
        "icon": os.path.realpath(workbench.Icon),
        "icon_there": os.path.isfile(workbench.Icon),
        "path": [os.path.realpath(p) for p in sys.path],
        "found": [name for name in bare if importlib.util.find_spec(name)],
        "package": os.path.realpath(freecad_stacklam.__file__),
        "shapely": int(shapely.__version__.split(".")[0]),
    }


def test_freecad_lists_the_workbench(tmp_path: Path) -> None:
    bare = sorted(entry.stem for entry in (CHECKOUT / "freecad_stacklam").iterdir() if not entry.stem.startswith("_"))
    run = freecad(look_around, tmp_path, arguments={"bare": bare})
    assert run.result["menu"] == "StackLam"
    assert run.result["icon"] == str(CHECKOUT / "icons" / "stacklam.svg")
    assert run.result["icon_there"]
    assert run.result["package"] == str(CHECKOUT / "freecad_stacklam" / "__init__.py")
    # FreeCAD lays the addon and the folder that package.xml names on Python's path, where all addons meet.
    ours = {path for path in run.result["path"] if Path(path).is_relative_to(CHECKOUT) and ".venv" not in path}
    assert ours == {str(CHECKOUT), str(CHECKOUT / "freecad_stacklam" / "opening")}
    assert "lamination" in bare
    assert run.result["found"] == [], "other addons would find our rooms as modules of their own"
    assert run.result["shapely"] >= 2
    assert run.result["boxes"] == []
    assert run.pictures["window"].stat().st_size > 0


def lose_the_thread(desk):
    raise ValueError("the steps went wrong on purpose")


def test_a_failure_inside_freecad_fails_the_test(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="went wrong on purpose"):
        freecad(lose_the_thread, tmp_path)


def recompute_what_cannot_be(desk):
    import FreeCAD

    class Proxy:
        def execute(self, thing):
            raise ValueError("this recompute fails on purpose")

    thing = FreeCAD.newDocument("Bench").addObject("App::FeaturePython", "Thing")
    thing.Proxy = Proxy()
    FreeCAD.ActiveDocument.recompute()
    return {"state": list(thing.State)}


def test_an_exception_that_freecad_swallows_fails_the_test(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="printed a traceback"):
        freecad(recompute_what_cannot_be, tmp_path)
    told = json.loads((tmp_path / "answer.json").read_text(encoding="utf-8"))
    assert "Invalid" in told["result"]["state"]


def work_a_panel(desk):
    import FreeCAD
    import FreeCADGui
    from PySide import QtGui

    desk.open_workbench("PartWorkbench")
    cylinder = FreeCAD.newDocument("Bench").addObject("Part::Cylinder", "Cylinder")
    FreeCAD.ActiveDocument.recompute()
    desk.select(cylinder)
    FreeCADGui.activeDocument().setEdit(cylinder.Name)
    desk.wait_until(desk.panel_open, what="the panel of the cylinder")
    desk.type_into("cylinderRadius", "25 mm")
    desk.press_ok()
    desk.view("view", 300, 200)
    box = QtGui.QMessageBox(desk.window)
    box.setText("Mind the saw.")
    box.addButton(QtGui.QMessageBox.Ok)
    getattr(box, "exec", getattr(box, "exec_", None))()
    return {"radius": cylinder.Radius.Value, "still_open": desk.panel_open()}


def test_the_desk_works_a_panel_of_freecads_own(tmp_path: Path) -> None:
    run = freecad(work_a_panel, tmp_path)
    assert run.result["radius"] == 25.0
    assert not run.result["still_open"]
    assert run.result["boxes"] == ["Mind the saw."]
    assert run.pictures["view"].read_bytes().startswith(b"\x89PNG")
