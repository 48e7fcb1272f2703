# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an object refuses stands in FreeCAD's report view as a sentence, however often it is recomputed."""

from pathlib import Path

import pytest
from drive import freecad

pytestmark = pytest.mark.gui


def refuse_twice(desk):
    import sys

    import FreeCAD
    from PySide import QtGui

    document = FreeCAD.newDocument()
    ball = document.addObject("Part::Sphere", "Ball")
    ball.Radius = 60
    document.recompute()
    desk.open_workbench()
    desk.select(ball)
    desk.command("StackLam_SliceForm")
    desk.settle()
    desk.press_ok()
    stack = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack")
    stack.Label = "Gate post"
    stack.PlanedThicknesses = ["as it comes"]
    document.recompute()
    told = {"state": list(stack.State), "limit": hasattr(sys, "tracebacklimit")}
    if hasattr(stack, "getStatusString"):
        told["status"] = stack.getStatusString()
    stack.touch()
    document.recompute()
    desk._breathe(0.3)
    for view in QtGui.QApplication.allWidgets():
        if isinstance(view, QtGui.QTextEdit) and view.objectName() == "Report view":
            told["report"] = view.toPlainText()
    stack.PlanedThicknesses = []
    document.recompute()
    told["well"] = "Invalid" not in stack.State
    return told


def test_a_refusal_of_a_recompute_is_one_sentence(tmp_path: Path) -> None:
    run = freecad(refuse_twice, tmp_path)  # a traceback in the output would fail it
    assert "Invalid" in run.result["state"]
    assert not run.result["limit"], "Python's own way of telling is as it was"
    assert "as it comes" in run.result["status"]
    lines = [line for line in run.result["report"].splitlines() if "as it comes" in line]
    assert lines and all(line.split("  ")[-1].endswith(f"Gate post: {run.result['status']}") for line in lines)
    # 1.0 and 1.1 add a line of their own to what was raised.
    assert len(lines) == (2 if run.result["version"][0] == "0" else 4)
    assert "Traceback" not in run.result["report"] and "File " not in run.result["report"]
    assert run.result["well"]
