# SPDX-License-Identifier: LGPL-2.1-or-later

"""The guided first piece: every step done as a maker would, with the host's own commands, and seen by the guide.

STACKLAM_PICTURES=docs/pictures writes the pictures of docs/tutorial.md there.
"""

from __future__ import annotations

import os
from pathlib import Path

import pypdf
import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui
GUI = str(Path(__file__).parent)


def go_through(desk, gui, pdf, pictures):
    import sys

    import FreeCAD

    sys.path.insert(0, gui)
    from pupil import Pupil

    maker = Pupil(desk)
    desk.open_workbench()
    desk.command("StackLam_FirstPiece")
    desk.picture("tutorial-start")
    maker.model()
    maker.plan()
    maker.step("Save it", lambda: maker.save(pdf.replace(" drawings.pdf", ".FCStd")))
    maker.step("The drawings", maker.drawings)
    told = {"at": maker.at(), "steps": maker.told, "clicks": maker.clicks, "keys": maker.keys, "checks": maker.head}
    told["rings"] = maker.rings
    told["objects"] = sorted(o.Name for o in FreeCAD.ActiveDocument.Objects)
    for name in ("guideBack", "guideNext", "guideNext"):
        maker.click(name)
    desk.settle()
    told["closed"] = not desk.named("StackLamGuide")
    if pictures:
        maker.keep_small(pictures)
    return told


@pytest.mark.parametrize("units", ["mm", pytest.param("in", marks=pytest.mark.slow)])
def test_the_first_piece_from_an_empty_document_to_drawings(tmp_path: Path, units: str) -> None:
    pdf = tmp_path / "First piece drawings.pdf"
    pictures = os.environ.get("STACKLAM_PICTURES", "") if units == "mm" else ""
    given = {"gui": GUI, "pdf": str(pdf), "pictures": pictures and str(Path(pictures).resolve())}
    chosen: dict[str, bool | int | float | str] = {"Units/UserSchema": 3 if units == "in" else 0}
    if pictures:
        chosen |= {"View/Gradient": False, "View/Simple": True, "View/BackgroundColor": 0xFFFFFFFF}
    told = keep(freecad(go_through, tmp_path, arguments=given, preferences=chosen, timeout=240)).result
    assert told["at"] == "Print and measure"
    pages = [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(pdf).pages]
    assert "Measure the check scales" in pages[0]
    assert sum("THIS FACE UP" in page for page in pages) >= 6, "six layers are drawn"
    assert told["boxes"] == []
    assert told["closed"]
    assert told["rings"] == 1
    assert told["checks"] == "Nothing says stop; 2 of 29 checks ask for care."
    assert [step[0] for step in told["steps"]][::7] == ["An empty document", "Back to StackLam", "The drawings"]
    assert told["clicks"] < 80
    assert told["keys"] < 120


def lose_the_way(desk, gui, file):
    import sys
    from pathlib import Path

    import FreeCAD

    sys.path.insert(0, gui)
    from pupil import Pupil

    maker, told = Pupil(desk), {}

    def skip_to(title):
        while maker.at() != title:
            before = maker.at()
            maker.click("guideSkip")
            assert maker.at() != before, f"“{before}” was not done: {maker.says()}"

    desk.open_workbench()
    shelf = FreeCAD.newDocument("Shelf")
    shelf.addObject("Part::Box", "Board")
    shelf.recompute()
    desk.command("StackLam_FirstPiece")
    told["strange"] = [maker.at(), maker.says()]
    maker.click("guideSkip")
    piece = FreeCAD.ActiveDocument
    told["new"] = [piece.Name != shelf.Name, maker.at(), len(shelf.Objects)]
    maker.click("guideSkip")
    ball = piece.addObject("Part::Sphere", "Ball")
    told["ball"] = [maker.at(), maker.says()]
    piece.removeObject(ball.Name)
    skip_to("The sizes of the foot")
    piece.Cone.Height = 90
    told["height"] = maker.says()
    piece.Cone.Height = 10
    skip_to("Slice the foot")
    # Another document comes to the front, and the guide brings its own back.
    FreeCAD.setActiveDocument(shelf.Name)
    told["front"] = maker.says()
    maker.click("guideWhere")
    told["back"] = [FreeCAD.ActiveDocument.Name == piece.Name, maker.at()]
    maker.click("guideWhere")
    # Other boards than were asked for: the guide says so, and mends it.
    maker.slice("Cone", "Leg", "27 mm")
    told["boards"] = [maker.at(), maker.says()]
    maker.click("guideSkip")
    told["mended"] = [maker.at(), maker.stack_of("Cone").Stock.Value, maker.stack_of("Cone").Piece]
    # Left in the middle, saved, opened again: it goes on where it was.
    piece.saveAs(file)
    desk.widget("StackLamGuide").close()
    FreeCAD.closeDocument(piece.Name)
    FreeCAD.closeDocument(shelf.Name)
    desk.command("StackLam_FirstPiece")
    told["nothing"] = maker.at()
    piece = FreeCAD.openDocument(file)
    told["reopened"] = [maker.at(), maker.says()]
    FreeCAD.closeDocument(piece.Name)
    told["closed"] = [maker.at(), maker.says()]
    piece = FreeCAD.openDocument(file)
    told["again"] = maker.at()
    # The form is deleted in the middle, and undone.
    skip_to("Pin the layers of the foot")
    piece.UndoMode = 1
    piece.openTransaction("Delete")
    piece.removeObject("Cone")
    piece.commitTransaction()
    told["deleted"] = [maker.at(), maker.says()]
    piece.undo()
    told["undone"] = maker.at()
    # A panel is open: the guide does nothing of its own.
    maker.row(maker.stack_of("Cone").Label)
    maker.press("StackLam_SetPins")
    maker.click("guideSkip")
    told["panel"] = desk.boxes.pop()
    desk.press_cancel()
    skip_to("The drawings")
    old = Path(file.replace(".FCStd", " drawings.pdf"))
    maker.click("guideSkip")
    told["end"] = [maker.at(), old.is_file(), piece.Label]
    return told


def test_whoever_loses_the_way_is_told_how_to_go_on(tmp_path: Path) -> None:
    given = {"gui": GUI, "file": str(tmp_path / "Stool.FCStd")}
    told = keep(freecad(lose_the_way, tmp_path, arguments=given, timeout=240)).result
    assert told["strange"][0] == "An empty document"
    assert "“Shelf” holds other things and stays as it is" in told["strange"][1]
    assert told["new"] == [True, "The workbench Part", 1]
    assert told["ball"][0] == "A cone for the foot"
    assert "“Ball” is no cone: press Cone" in told["ball"][1]
    assert told["height"] == "Radius 1 of “Cone” is 2 mm, not 80 mm: double click “Cone” and type it again."
    assert told["front"].startswith("“Shelf” is at the front; the guide goes on in “First piece”.")
    assert told["back"] == [True, "Slice the foot"]
    assert told["boards"][0] == "Slice the foot"
    assert "is of boards of 27 mm: double click it in the tree, and type 40 mm." in told["boards"][1]
    assert told["mended"] == ["Slice the top", 40.0, "Leg"]
    assert told["nothing"] == "An empty document"
    assert told["reopened"][0] == "Slice the top"
    assert told["closed"][0] == "An empty document"
    assert told["closed"][1].startswith("The document was closed. Open it again")
    assert told["again"] == "Slice the top"
    assert told["deleted"][0] == "A cone for the foot"
    assert "The form of “Leg stack” was deleted: press Undo." in told["deleted"][1]
    assert told["undone"] == "Pin the layers of the foot"
    assert told["panel"].startswith("A panel is open: finish it")
    assert told["end"] == ["Print and measure", True, "Stool"]
    assert told["boxes"] == []
