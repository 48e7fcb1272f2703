# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up's panel where the comma is the decimal sign, and where lengths are shown in inches."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui
TESTS = str(Path(__file__).resolve().parent.parent)
#: A figure with a point in it.
POINT = re.compile(r"\d\.\d")


def look_at_the_panel(desk, tests, comma):
    import gc
    import sys

    import FreeCAD
    from PySide import QtCore, QtGui

    sys.path.append(tests)
    import glueplans

    from freecad_stacklam.docobjects.reading import gluing
    from freecad_stacklam.lamination.settings.presses import PressSettings
    from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
    from freecad_stacklam.workbench.gluing.glueup_panel import GlueUpPanel

    gluing.planner = lambda: glueplans.plan_glue_up
    told = {}
    desk.open_workbench()
    desk.command("StackLam_Example")
    desk.slice_example()
    if comma:
        QtCore.QLocale.setDefault(QtCore.QLocale("de_DE"))
    told["texts"] = [
        shown_decimals(t)
        for t in ("1.5 mm of “2.5”, (0.25)", "Ch. 10, 4-2.", "2026.11.28", "3.50 and 4.", "„1.5“: 1.5")
    ]
    told["typed"] = [typed_decimals(t) for t in ("1,125 MPa", "1.250,5", "1,2,3", ",5", "44.5")]
    desk.command("StackLam_PlanGlueUp")
    desk.press("Add", desk.panel())
    desk.settle()
    table = desk.widget("clamps")

    def cell(column, text=None):
        if text is not None:
            table.item(0, column).setText(text)
            desk.settle()
        return table.item(0, column).text()

    panel = [o for o in gc.get_objects() if isinstance(o, GlueUpPanel) and "clamps" in o.__dict__][-1]
    cell(2, "4,125" if comma else "4.125")
    told["read"] = [panel.clamps.presses()[0].force, desk.widget("StackLam_PlanGlueUpSentence").text()]
    panel.clamps.put([PressSettings("Bar 3.5", count=24, force=4448.0, opening=900.0, pad=40.5)])
    panel.clamps._edited()
    desk.settle()
    told["put"] = [[table.item(0, i).text() for i in range(6)], panel.clamps.presses()[0].force]
    desk.widget("foldGlue").click()
    desk.type_into("glueLeastPressure", "0,125" if comma else "0.125")
    desk.settle()
    told["pressure"] = panel.settings().glue.least_pressure
    slider = desk.widget("glueSlider")
    slider.setValue(1)
    desk.settle()
    desk.picture("glue-comma" if comma else "glue-inches")
    told["says"] = [w.text() for w in desk._widgets(QtGui.QLabel, desk.panel())]
    # Qt's own number fields took their sign from the window that was there before.
    lines = [w for w in desk._widgets(QtGui.QLineEdit, desk.panel()) if w.objectName() != "qt_spinbox_lineedit"]
    told["says"] += [w.text() or w.placeholderText() for w in lines]
    rows = desk.widget("setUpList")
    told["says"] += [rows.item(i).text() for i in range(rows.count())]
    told["bridges"] = desk.widget("glueGap").placeholderText()
    desk.press_cancel()
    FreeCAD.closeDocument(FreeCAD.ActiveDocument.Name)
    return told


def test_a_comma_is_shown_and_read_where_fields_have_one(tmp_path: Path) -> None:
    run = keep(freecad(look_at_the_panel, tmp_path, arguments={"tests": TESTS, "comma": True}, timeout=240))
    told = run.result
    assert told["texts"] == ["1,5 mm of “2.5”, (0,25)", "Ch. 10, 4-2.", "2026.11.28", "3,50 and 4.", "„1.5“: 1,5"]
    assert told["typed"] == ["1.125 MPa", "1.250,5", "1,2,3", ".5", "44.5"]
    assert told["read"][0] == pytest.approx(4125.0)
    assert told["put"] == [["Bar 3.5", "24", "4,448", "900", "", "40,5"], 4448.0]
    assert told["pressure"] == 0.125
    assert told["bridges"] == "0,15 mm"
    assert [text for text in told["says"] if POINT.search(text.replace("Bar 3.5", ""))] == []


def test_in_inches_no_greyed_length_is_in_millimetres(tmp_path: Path) -> None:
    """A hundred and fifty thousandths of a millimetre are 0.0059 in (1 in = 25.4 mm): told as 0.005, never more."""
    run = keep(
        freecad(
            look_at_the_panel,
            tmp_path,
            arguments={"tests": TESTS, "comma": False},
            preferences={"Units/UserSchema": 3},
            timeout=240,
        )
    )
    assert run.result["bridges"] == "0.005 in"
    assert run.result["pressure"] == pytest.approx(0.125 * 0.00689475729)  # 1 psi in MPa (NIST SP 811, B.8)
    assert run.result["texts"][0] == "1.5 mm of “2.5”, (0.25)"
