# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every task panel fits a narrow window: nothing is cut, nothing is scrolled sideways, and what is refused or was done
is in sight."""

from __future__ import annotations

from typing import Any

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def open_all_narrow(desk, width, size):
    import gc

    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.workbench.fields.panel import Panel
    from freecad_stacklam.workbench.panels.rack_editor import show_rack

    told = {"widths": {}, "faults": {}, "order": []}
    held = []  # the binding calls fields dead once it lets go of what holds them
    desk.open_workbench()
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    stack = next(o for o in document.Objects if o.Label == "Pedestal stack")

    def around(kind, form):
        """The innermost widget of a kind that holds the form."""
        found = [w for w in desk._widgets(kind) if w.isAncestorOf(form)]
        held.extend(found)
        return next(w for w in found if not any(w is not o and w.isAncestorOf(o) for o in found))

    def area_of(form):
        return around(QtGui.QAbstractScrollArea, form)

    def make_narrow(form):
        """Drag the side that holds the panel to `width`."""
        dock = around(QtGui.QDockWidget, form)
        if desk.window.dockWidgetArea(dock) != QtCore.Qt.NoDockWidgetArea:
            desk.window.resizeDocks([dock], [width], QtCore.Qt.Horizontal)
        told["dock"] = dock.objectName()
        desk._breathe(0.4)
        return dock

    def cut(widget):
        """Whether words of a caption, a button or a tick have no room."""
        if not widget.text() or isinstance(widget, QtGui.QLineEdit):
            return False
        metrics = widget.fontMetrics()
        if isinstance(widget, QtGui.QAbstractButton):
            lines = widget.text().replace("&", "").split("\n")
            sign = 20 if isinstance(widget, (QtGui.QCheckBox, QtGui.QToolButton)) else 0
            return (
                max(map(metrics.horizontalAdvance, lines)) + sign > widget.width()
                or metrics.height() * len(lines) > widget.height() + 1
            )
        if not widget.wordWrap():
            return metrics.horizontalAdvance(widget.text()) > widget.width()
        return (
            widget.heightForWidth(widget.width()) > widget.height() + 1
            or max(map(metrics.horizontalAdvance, widget.text().split())) > widget.width()
        )

    def look(name, buttons):
        form = next(w for w in desk.named(name))
        told.setdefault("first", form.width())
        dock = make_narrow(form)
        desk.settle()
        area = area_of(form)
        view = area.viewport()
        told["widths"][name] = [dock.width(), view.width(), view.height(), form.width()]
        faults = []
        if area.horizontalScrollBar().maximum() > 0:
            faults.append("is scrolled sideways")
        parts = [w for w in desk._widgets(QtGui.QWidget, form) if w.isVisible()]
        # What lies in a table or a list scrolls by itself. Nothing is asked for its parent: the binding ties the two.
        whole = [
            w for w in parts if isinstance(w, (QtGui.QAbstractScrollArea, QtGui.QAbstractSpinBox, QtGui.QComboBox))
        ]
        for widget in parts:
            if any(w is not widget and w.isAncestorOf(widget) for w in whole):
                continue
            called = widget.objectName() or type(widget).__name__
            right = widget.mapTo(view, QtCore.QPoint(widget.width(), 0)).x()
            if right > view.width():
                faults.append(f"{called} ends {right - view.width()} beyond the view")
            if isinstance(widget, (QtGui.QLabel, QtGui.QAbstractButton)) and cut(widget):
                faults.append(f"{called} cuts {widget.text()!r}")
        for button in buttons:
            one = desk.button(button, desk.panel())
            seen = one.visibleRegion().boundingRect()
            if seen.size() != one.size() or one.sizeHint().width() > one.width():
                faults.append(f"{button} is seen as {seen.width()} × {seen.height()}")
        told["faults"][name] = faults
        told["order"].append(name)
        desk._breathe(0.1)
        desk._keep(f"narrow-{size[0]}-{name}", lambda path: desk.window.grab().save(path))
        desk._keep(f"narrow-{size[0]}-{name}-whole", lambda path: form.grab().save(path))
        return form

    desk.window.setGeometry(0, 0, *size)
    desk._breathe(0.3)
    both = ("OK", "Cancel")
    FreeCADGui.ActiveDocument.setEdit(stack.Name)
    desk._breathe()
    form = look("StackLam_SliceForm", both)
    # What is refused stands in sight though the panel is scrolled to its foot, and its part unfolds.
    area = area_of(form)
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())
    desk.type_into("allowance", "3 kg")
    desk.settle()
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())
    desk._breathe(0.1)
    sentence = desk.widget("StackLam_SliceFormSentence")
    told["typed"] = desk.widget("allowance").findChild(QtGui.QLineEdit).text()
    desk._breathe(0.2)
    whole = sentence.visibleRegion().boundingRect().height() >= sentence.height() > 10
    told["refused"] = [sentence.text(), whole, sentence.mapTo(area.viewport(), QtCore.QPoint(0, 0)).y()]
    told["scrolled"] = area.verticalScrollBar().value()
    desk._keep(f"narrow-{size[0]}-refused", lambda path: desk.window.grab().save(path))
    # What was done too, with a button that opens it, until something is changed.
    desk.type_into("allowance", "3 mm")
    desk.settle()
    panel = next(o for o in gc.get_objects() if Panel in type(o).__mro__ and hasattr(o, "stock"))
    panel.tell_result("9 pages were written.", desk.folder)
    desk._breathe(0.2)
    result, opener = desk.widget("StackLam_SliceFormResult"), desk.widget("StackLam_SliceFormOpen")
    told["result"] = [w.visibleRegion().boundingRect().size() == w.size() for w in (result, opener)]
    told["wide"] = result.width() / desk.widget("StackLam_SliceForm").width()
    desk._keep(f"narrow-{size[0]}-result", lambda path: desk.window.grab().save(path))
    desk.type_into("allowance", "4 mm")
    desk.settle()
    told["result"] += [result.isVisible(), opener.isVisible()]
    del panel
    desk.press_cancel()
    for name, picked in (
        ("AddJoint", None),
        ("SetPins", stack),
        ("HollowLayers", stack),
        ("CarvingGuide", None),
        ("PlanGlueUp", None),
        ("FinishedPiece", None),
    ):
        FreeCADGui.Selection.clearSelection()
        if picked is not None:
            desk.select(picked)
        desk.command(f"StackLam_{name}")
        look(f"StackLam_{name}", both)
        if name == "PlanGlueUp":  # a table of many columns has a window of its own
            table, seen = desk.widget("clamps"), []

            def larger(dialog, table=table, seen=seen):
                seen += [dialog.objectName(), dialog.isAncestorOf(table), table.width()]
                desk._keep(f"narrow-{size[0]}-larger", lambda path: dialog.grab().save(path))
                dialog.reject()

            before = [table.width(), table.height()]
            desk.on_dialog = larger
            desk.widget("clampsLarger").click()
            desk.wait_until(lambda seen=seen: len(seen) == 3, what="the larger table")
            desk.on_dialog = None
            desk._breathe(0.3)
            told["larger"] = [*seen, desk.named("clamps") == [table], before, [table.width(), table.height()]]
        if name == "SetPins":  # which parts are open is kept
            desk.widget("foldPinLines").click()
            desk.press_cancel()
            desk.command("StackLam_SetPins")
            told["kept"] = [desk.widget(n).isVisible() for n in ("pinLines", "pinDiameter")]
        desk.press_cancel()
    editor = show_rack(document)
    editor.add_examples()
    editor.accept()
    desk.command("StackLam_CutBoards")
    look("StackLam_CutBoards", both)
    desk.press_cancel()
    desk.command("StackLam_LayerDrawings")
    look("StackLam_LayerDrawings", ("Close",))
    desk.press("Close", desk.panel())
    return told


PANELS = 9


def _no_faults(result: dict[str, Any]) -> None:
    name, inside, wide, back, before, after = result["larger"]
    assert [name, inside, back] == ["clampsLargerWindow", True, True] and wide > 500 and before == after
    faults = {name: many for name, many in result["faults"].items() if many}
    assert not faults, faults
    assert len(result["order"]) == PANELS
    assert result["kept"] == [False, True]
    assert result["result"] == [True, True, False, False]
    assert result["wide"] > 0.8, "the result is no column as narrow as its button"


def test_all_panels_fit_260_pixels(tmp_path):
    run = keep(freecad(open_all_narrow, tmp_path, arguments={"width": 260, "size": [1280, 720]}, timeout=240))
    print(run.result)
    _no_faults(run.result)
    says, seen, at = run.result["refused"]
    assert "3 k" in says and seen and 0 <= at < 60


def test_all_panels_fit_double_scale(tmp_path, monkeypatch):
    monkeypatch.setenv("QT_SCALE_FACTOR", "2")  # 1280 × 720 dots are 640 × 360 of Qt's pixels then
    run = keep(freecad(open_all_narrow, tmp_path, arguments={"width": 260, "size": [640, 360]}, timeout=240))
    print(run.result)
    _no_faults(run.result)
    says, seen, at = run.result["refused"]
    assert "3 k" in says and seen and 0 <= at < 60
