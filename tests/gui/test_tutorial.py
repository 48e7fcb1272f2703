# SPDX-License-Identifier: LGPL-2.1-or-later

"""The guided first piece: every step done as a maker would, with the host's own commands, and seen by the guide."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def go_through(desk, gui, pdf):
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
    told["objects"] = sorted(o.Name for o in FreeCAD.ActiveDocument.Objects)
    desk.widget("guideNext").click()
    desk.settle()
    told["closed"] = not desk.named("StackLamGuide")
    return told


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_first_piece_from_an_empty_document_to_drawings(tmp_path: Path, units: str) -> None:
    pdf = tmp_path / "First piece drawings.pdf"
    given = {"gui": str(Path(__file__).parent), "pdf": str(pdf)}
    chosen = {"Units/UserSchema": 3 if units == "in" else 0}
    told = keep(freecad(go_through, tmp_path, arguments=given, preferences=chosen, timeout=240)).result
    print(told)
    assert told["at"] == "Print and measure"
    assert pdf.read_bytes().startswith(b"%PDF")
    assert told["boxes"] == []
    assert told["closed"]
    assert "Nothing says stop" in told["checks"]
