# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bundled examples as pictures: planned by the command line, opened in FreeCAD, and a page of their drawings.

    STACKLAM_PICTURES=docs/pictures python -m pytest -m "gui and slow" tests/gui/test_gallery.py

writes those of docs/gallery.md.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from drive import CHECKOUT, freecad
from pictures import MOST, shows_something, write

from freecad_stacklam.data import EXAMPLES

pytestmark = [pytest.mark.gui, pytest.mark.slow]
#: How far layers are moved from each other along their axis, as a share of their height above the stack's foot.
APART = 0.6
#: Which sheet is shown: its kind, and of which stack and layer.
PAGE = {
    "plant-stand": ("layer", "Top", 2),
    "low-seat": ("joint", "", 0),
    "vessel": ("layer", "Vessel", 5),
    "leaning-table": ("layer", "Base", 4),
}


def look_at_examples(desk, projects):
    import FreeCAD
    import FreeCADGui

    from freecad_stacklam.objectkinds import kind_of
    from freecad_stacklam.workbench.scene import apart

    desk.open_workbench()
    seen = {}
    for name, (path, places) in projects.items():
        document = FreeCAD.openDocument(path)
        stacks = [o for o in document.Objects if kind_of(o) == "stack"]
        view = FreeCADGui.getDocument(document.Name)
        for obj in document.Objects:  # first the forms alone
            if obj.ViewObject is not None and hasattr(obj.ViewObject, "Visibility"):
                obj.ViewObject.Visibility = any(obj == stack.Form for stack in stacks)
        for stack in stacks:
            stack.Form.ViewObject.ShapeColor = (0.78, 0.62, 0.42)
            stack.Form.ViewObject.DisplayMode = "Shaded"
        view.activeView().setCameraType("Perspective")
        shown = view.activeView()
        shown.viewFront() if "leaning" in name else shown.viewIsometric()  # a lean is seen from the front
        FreeCADGui.SendMsgToActiveView("ViewFit")
        desk.view(f"{name}-form", 900, 800, fit=False)
        for stack in stacks:
            stack.Form.ViewObject.Visibility = False
            for layer in stack.Layers:
                layer.ViewObject.Visibility = True
        moved = {layer.Name: places[s.Piece][i] for s in stacks for i, layer in enumerate(s.Layers)}
        apart.show(document, moved, "gallery")
        desk.view(f"{name}-apart", 900, 1000)
        apart.clear("gallery")
        seen[name] = [[s.Piece, len(s.Layers)] for s in stacks]
        FreeCAD.closeDocument(document.Name)
    return {"seen": seen}


def planned(name: str, out: Path) -> dict[str, Any]:
    """An example's plan, made by the command that a maker types."""
    command = [sys.executable, "-m", "freecad_stacklam", "plan", "--example", name, "--out", str(out)]
    quiet = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(command, cwd=CHECKOUT, capture_output=True, encoding="utf-8", timeout=600, env=quiet)
    assert done.returncode == 0, done.stdout + done.stderr
    plan: dict[str, Any] = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    return plan


def shifts(plan: dict[str, Any]) -> dict[str, list[list[float]]]:
    """How far every layer of every stack is moved, mm in the model: along its stack's axis, and with its stack up."""
    found = {}
    for stack in plan["stacks"]:
        frame = stack["frame"]
        axis, foot = (frame[2], frame[6], frame[10]), max(0.0, frame[11])
        found[stack["name"]] = [
            [APART * (layer["bottom"] * part + (foot if k == 2 else 0.0)) for k, part in enumerate(axis)]
            for layer in stack["layers"]
        ]
    return found


def page_of(plan: dict[str, Any], name: str, out: Path) -> Path:
    """The sheet that is shown of an example, as a picture."""
    kind, stack, layer = PAGE[name]
    fitting = [
        s["page"] for s in plan["sheets"]
        if s["kind"] == kind and (not stack or (s["stack"], s["layer"]) == (stack, layer))
    ]  # fmt: skip
    page = str(fitting[0])
    command = ["pdftoppm", "-r", "80", "-f", page, "-l", page, "-singlefile", "-png"]
    subprocess.run([*command, str(out / "drawings.pdf"), str(out / "page")], check=True, timeout=60)
    return out / "page.png"


def test_the_gallery(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STACKLAM_SHOTS", str(tmp_path))  # gives the window time to be painted
    plans = {name: planned(name, tmp_path / name) for name in EXAMPLES}
    projects = {name: [str(tmp_path / name / "project.FCStd"), shifts(plan)] for name, plan in plans.items()}
    run = freecad(look_at_examples, tmp_path, arguments={"projects": projects}, timeout=400)
    for name, plan in plans.items():
        assert dict(run.result["seen"][name]) == {s["name"]: len(s["layers"]) for s in plan["stacks"]}
        page = page_of(plan, name, tmp_path / name)
        for what, picture, width in (
            ("form", run.pictures[f"{name}-form"], 480),
            ("apart", run.pictures[f"{name}-apart"], 480),
            ("page", page, 560),
        ):
            assert shows_something(picture), picture
            assert write(picture, f"gallery/{name}-{what}", width) <= MOST
