# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack whose form was deleted keeps the checks of the others from nobody."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad

pytestmark = pytest.mark.gui


def check_beside_a_broken_stack(desk):
    import FreeCAD
    import FreeCADGui

    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    document.removeObject("Pedestal")
    document.recompute()
    desk.command("StackLam_CheckStack")
    window, table = desk.widget("StackLamChecks"), desk.widget("checks")
    for row in range(table.rowCount()):
        table.opened.emit(row)
    desk.settle()
    told = {
        "head": desk.widget("headline").text(),
        "rows": [[table.item(i, 0).text(), table.item(i, 4).text()] for i in range(table.rowCount())],
        "names": [check.name for check in window.checks],
        "picked": [o.Name for o in FreeCADGui.Selection.getSelection()],
    }
    # The finished piece is asked about without it too.
    desk.command("StackLam_FinishedPiece")
    told["weighs"] = desk.widget("pieceWeighs").text()
    desk.press_ok()
    return told | {"closed": not desk.panel_open()}


def test_the_checks_of_the_sound_stack_are_shown(tmp_path: Path) -> None:
    told = freecad(check_beside_a_broken_stack, tmp_path).result
    assert told["boxes"] == []
    assert told["weighs"].endswith("kg") and told["closed"]
    assert told["head"].startswith("Do not cut yet: ")
    assert "stop" in told["rows"][0][0] and "is gone" in told["rows"][0][1]
    assert any(name.startswith("Top: ") for name in told["names"])
