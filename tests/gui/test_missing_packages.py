# SPDX-License-Identifier: LGPL-2.1-or-later

"""Without shapely, or what ezdxf needs, the real FreeCAD says so in one sentence and installs it at a press."""

import importlib.metadata
import zipfile
from pathlib import Path

import pytest
from drive import CHECKOUT, freecad

pytestmark = pytest.mark.gui

SAVED = CHECKOUT / "tests" / "docobjects" / "saved" / "release_0_1_0.FCStd"


def wheel_of(name: str, folder: Path) -> None:
    """The wheel again that an installed package came from: its files as RECORD lists them (PEP 427)."""
    folder.mkdir(exist_ok=True)
    package = importlib.metadata.distribution(name)
    tag = [line.split(": ")[1] for line in (package.read_text("WHEEL") or "").splitlines() if line.startswith("Tag")]
    with zipfile.ZipFile(folder / f"{name}-{package.version}-{tag[0]}.whl", "w") as archive:
        for file in package.files or ():
            if "__pycache__" not in file.parts and file.name not in ("INSTALLER", "REQUESTED"):
                archive.write(file.locate(), str(file))


def open_without_shapely(desk, wheels, saved, again):
    import FreeCAD
    import FreeCADGui
    from PySide import QtGui

    told = {}
    # A document of stacks that is opened and saved meanwhile keeps its classes.
    document = FreeCAD.openDocument(saved)
    told["kept"] = sorted({type(o.Proxy).__name__ for o in document.Objects if getattr(o, "Proxy", None)})
    told["lost"] = [o.Name for o in document.Objects if hasattr(o, "SchemaVersion") and o.Proxy is None]
    document.saveAs(again)
    FreeCAD.closeDocument(document.Name)

    desk.open_workbench()
    desk.wait_until(lambda: desk.named("StackLam_Packages"), what="the window")
    told["sentence"] = desk.named("StackLam_PackagesSentence")[0].text()
    told["line"] = desk.named("StackLam_PackagesLine")[0].text()
    desk.picture("missing")
    desk.named("StackLam_PackagesClose")[0].click()
    desk._breathe(0.1)
    told["closed"] = not desk.named("StackLam_Packages")

    desk.command("StackLam_Example")  # needs nothing that is missing
    told["example"] = FreeCAD.ActiveDocument.Name
    form = next(o for o in FreeCAD.ActiveDocument.Objects if o.isDerivedFrom("Part::Feature"))
    desk.select(form)
    desk.command("StackLam_SliceForm")
    told["panel_before"] = desk.panel_open()
    desk.wait_until(lambda: desk.named("StackLam_Packages"), what="the window again")

    QtGui.QFileDialog.getExistingDirectory = staticmethod(lambda *_: wheels)
    desk.named("StackLam_PackagesWheels")[0].click()
    desk.wait_until(lambda: "Installing" not in desk.named("StackLam_PackagesSentence")[0].text(), what="pip")
    told["after"] = desk.named("StackLam_PackagesSentence")[0].text()
    desk.picture("installed")
    desk.named("StackLam_PackagesClose")[0].click()
    import shapely

    told["shapely"] = shapely.__file__
    FreeCADGui.runCommand("StackLam_SliceForm")
    desk.settle()
    told["panel_after"] = desk.panel_open()
    desk.picture("slicing")
    # And the document again, with the real objects.
    FreeCADGui.Control.closeDialog()
    document = FreeCAD.openDocument(again)
    stack = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack")
    stack.touch()
    document.recompute()
    told["state"] = stack.State
    told["verdict"] = stack.Verdict
    return told


def test_shapely_is_missing_and_comes_from_a_folder_of_wheels(tmp_path: Path) -> None:
    wheels = tmp_path / "wheels"
    wheel_of("shapely", wheels)
    again = tmp_path / "again.FCStd"
    arguments = {"wheels": str(wheels), "saved": str(SAVED), "again": str(again)}
    run = freecad(open_without_shapely, tmp_path, arguments=arguments, without=("shapely",))
    told = run.result
    folder = tmp_path / "home" / "data" / "AdditionalPythonPackages"
    assert told["lost"] == []
    assert {"Stack", "Layer"} <= set(told["kept"])
    assert "shapely 2.1 or newer is not there" in told["sentence"]
    assert str(folder) in told["sentence"]
    assert told["line"].endswith("shapely>=2.1'") and "--no-deps" in told["line"] and str(folder) in told["line"]
    assert told["closed"]
    assert not told["panel_before"]
    assert told["after"].startswith("All packages are there now: StackLam is ready."), run.output[-3000:]
    assert Path(told["shapely"]).is_relative_to(folder)
    assert told["panel_after"]
    assert told["verdict"] == "ok"
    assert "Invalid" not in told["state"]
    assert told["boxes"] == []


def files_without_fonttools(desk, folder):
    import sys

    class Hidden:  # Debian's own may be there too
        @staticmethod
        def find_spec(name, path=None, target=None):
            if name.partition(".")[0] == "fontTools":
                raise ModuleNotFoundError(f"No module named {name!r}", name=name)

    assert "fontTools" not in sys.modules
    sys.meta_path.insert(0, Hidden)

    import FreeCAD

    from freecad_stacklam.workbench.panels import drawing_outputs

    document = FreeCAD.newDocument()
    form = document.addObject("Part::Cylinder", "Post")
    form.Radius, form.Height = 60, 120
    document.recompute()
    desk.open_workbench()
    desk.select(form)
    desk.command("StackLam_SliceForm")
    desk.settle()
    desk.press_ok()
    desk.command("StackLam_LayerDrawings")
    desk.settle()
    opened = bool(desk.named("StackLam_Packages"))
    drawing_outputs.ask_folder = lambda _: folder
    desk.widget("writeFiles").click()
    desk.wait_until(lambda: desk.named("StackLam_Packages"), what="the window")
    desk.picture("dxf")
    return {
        "opened": opened,
        "sentence": desk.named("StackLam_PackagesSentence")[0].text(),
        "line": desk.named("StackLam_PackagesLine")[0].text(),
    }


def test_svg_does_not_wait_for_what_dxf_needs(tmp_path: Path) -> None:
    # What an install of ezdxf alone without its dependencies leaves.
    target = tmp_path / "drawings"
    run = freecad(files_without_fonttools, tmp_path, arguments={"folder": str(target)})
    assert not run.result["opened"], "slicing needs none of it"
    names = [path.suffix for path in target.iterdir()]
    assert names and set(names) == {".svg"}
    sentence = run.result["sentence"]
    assert sentence.startswith(f"{len(names)} sheets were written to {target} as SVG. StackLam lacks ")
    assert "fonttools 4.38 or newer is not there" in sentence
    assert "ezdxf is there, in " in sentence and "it needs fontTools, which is not there" in sentence
    assert run.result["line"].endswith("'fonttools>=4.38' 'ezdxf>=1.1'")
    assert run.result["boxes"] == []
