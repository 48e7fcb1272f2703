# SPDX-License-Identifier: LGPL-2.1-or-later

"""The help window by command, F1 and What's This; the preferences pages, and all that starts from them.

Pages in Edit ▸ Preferences are made as FreeCAD's own Python workbenches make them (FreeCAD wiki, "Workbench creation",
addPreferencePage). The figures typed here are invented."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from drive import freecad
from shots import keep

pytestmark = pytest.mark.gui


def read_help(desk):
    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.qt_binding import widgets
    from freecad_stacklam.workbench.help.pages import FOLDER, PAGES

    QtWidgets = widgets()
    told = {"missing": {}}
    desk.open_workbench()
    told["active without a document"] = [desk.is_active(f"StackLam_{n}") for n in ("Help", "Example", "SliceForm")]
    desk.command("StackLam_Help")
    window = desk.widget("StackLam_HelpWindow")
    told["first"] = [window.page, window.windowTitle(), desk.widget("helpBack", window).isEnabled()]
    desk.picture("help-contents", window)
    window.text.anchorClicked.emit(QtCore.QUrl("slice-form.md"))
    told["followed"] = window.page
    desk.picture("help-slice", window)
    desk.press("Back", window)
    told["back"] = window.page
    for path in sorted(FOLDER.glob("*.md")):
        window.show_page(path.stem)
    told["last"] = window.text.toPlainText()[:40]
    window.show_page("plan-json")
    desk.picture("help-plan", window)
    window.close()

    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    main = desk.window

    def page_shown():
        shown = [w.page for w in desk.named("StackLam_HelpWindow")]
        for w in desk.named("StackLam_HelpWindow"):
            w.close()
        return shown

    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    told["beside a panel"] = [desk.is_active(f"StackLam_{n}") for n in ("Help", "FirstPiece", "Example")]
    edit = desk.widget("stock").findChildren(QtWidgets.QLineEdit)[0]
    desk._focus(edit)
    F1 = int(QtCore.Qt.Key_F1)
    asked = QtGui.QKeyEvent(QtCore.QEvent.ShortcutOverride, F1, QtCore.Qt.NoModifier, "")
    QtWidgets.QApplication.sendEvent(edit, asked)
    desk._breathe(0.1)
    told["F1 in a panel"] = page_shown()
    FreeCADGui.runCommand("Std_WhatsThis")
    desk._breathe(0.1)
    label = desk.widget("wood")
    spot = QtCore.QPointF(4, 4)
    for kind in (QtCore.QEvent.MouseButtonPress, QtCore.QEvent.MouseButtonRelease):
        click = QtGui.QMouseEvent(
            kind, spot, label.mapToGlobal(spot.toPoint()), QtCore.Qt.LeftButton, QtCore.Qt.LeftButton,
            QtCore.Qt.NoModifier,
        )  # fmt: skip
        QtWidgets.QApplication.sendEvent(label, click)
    desk._breathe(0.3)
    told["What's This in a panel"] = page_shown()
    desk.press_cancel()
    QtWidgets.QApplication.sendEvent(main, QtGui.QWhatsThisClickedEvent("StackLam_SetPins"))
    desk._breathe(0.2)
    told["What's This of a command"] = page_shown()

    def captions(name):
        """What a panel asks, that its page says nothing of."""
        text = (FOLDER / f"{PAGES[name]}.md").read_text(encoding="utf-8").lower()
        asked = [w.text() for w in desk._widgets(QtWidgets.QLabel, desk.widget(name)) if not w.objectName()]
        asked += [w.title() for w in desk._widgets(QtWidgets.QGroupBox, desk.widget(name))]
        for label in ("Pedestal", "Top"):
            asked = [t.replace(f" in {label}", "").replace(label, "") for t in asked]
        said = sorted({t.replace("&", "").split(" (0:")[0].strip() for t in asked if t.strip()})
        told["missing"][name] = [t for t in said if len(t) < 45 and t.lower() not in text]
        told.setdefault("asked", {})[name] = len(said)

    desk.slice_example()
    stack = next(o for o in document.Objects if o.Name.startswith("Stack"))
    for name in ("SliceForm", "AddJoint", "SetPins", "HollowLayers", "CarvingGuide", "PlanGlueUp", "FinishedPiece",
                 "LayerDrawings"):  # fmt: skip
        desk.select(stack)
        if name == "AddJoint":
            FreeCADGui.Selection.clearSelection()
        desk.command(f"StackLam_{name}")
        captions(f"StackLam_{name}")
        desk.press("Close" if name == "LayerDrawings" else "Cancel", desk.panel())

    # A window of its own, beside FreeCAD's.
    desk.command("StackLam_BoardRack")
    rack = desk.widget("StackLam_BoardRack")
    asked = QtGui.QKeyEvent(QtCore.QEvent.ShortcutOverride, F1, QtCore.Qt.NoModifier, "")
    desk._focus(rack)
    QtWidgets.QApplication.sendEvent(rack, asked)
    desk._breathe(0.1)
    told["F1 in a window"] = page_shown()
    rack.close()
    return told


def test_help_opens_where_it_is_asked_for_and_says_what_each_field_means(tmp_path: Path) -> None:
    told = keep(freecad(read_help, tmp_path, timeout=280)).result
    assert told["active without a document"] == [True, True, False]
    assert told["first"] == ["contents", "StackLam: Help on StackLam", False]
    assert told["followed"] == "slice-form"
    assert told["back"] == "contents"
    assert told["last"].startswith("Without a window")
    assert told["beside a panel"] == [True, True, False]
    assert told["F1 in a panel"] == ["slice-form"]
    assert told["F1 in a window"] == ["board-rack"]
    assert told["What's This in a panel"] == ["slice-form"]
    assert told["What's This of a command"] == ["set-pins"]
    assert min(told["asked"].values()) >= 5
    assert {name: texts for name, texts in told["missing"].items() if texts} == {}


LENGTHS = {
    "stock": 38.0, "allowance": 4.5, "tenonSide": 33.0, "pinDiameter": 9.0, "pinDepth": 11.0, "pinMargin": 7.5,
    "wall": 42.0, "carvingBit": 6.0, "carvingPitch": 26.0, "carvingLeave": 2.5,
}  # fmt: skip
SHOP = {"kerf": 2.4, "endTrim": 31.0, "planing": 9.0, "jointing": 1.25, "planerWidth": 310.0}


def set_preferences(desk, lengths, shop):
    import FreeCAD
    import FreeCADGui
    from PySide import QtCore, QtGui

    from freecad_stacklam.docobjects.base.family import shop_in, stacks_in
    from freecad_stacklam.docobjects.base.units import job_in
    from freecad_stacklam.docobjects.reading.wood import settings_of_shop
    from freecad_stacklam.workbench.fields import preferences
    from freecad_stacklam.workbench.fields.fields import value_of

    told = {}
    desk.open_workbench()
    told["first"] = [preferences.stock(), preferences.paper(), preferences.sheet_language(), preferences.starts_with()]

    def choose(name, data, inside):
        box = desk.widget(name, inside)
        assert box.findData(data) >= 0, (name, data)
        box.setCurrentIndex(box.findData(data))

    def type_in(name, text, inside):
        edit = desk.widget(name, inside).findChildren(QtGui.QLineEdit)[0]
        desk._focus(edit)
        edit.selectAll()
        for letter in text:
            desk._key(edit, 0, letter)
        desk._key(edit, QtCore.Qt.Key_Tab, "\t")

    def button(dialog, kind):
        return dialog.findChild(QtGui.QDialogButtonBox).button(kind)

    def in_dialog(page, work):
        problem = []

        def at(dialog):
            try:
                work(dialog)
            except Exception as error:
                problem.append(repr(error))
            kinds = QtGui.QDialogButtonBox
            # Later: what it asks in turn is answered by the timer that called this.
            QtCore.QTimer.singleShot(20, button(dialog, kinds.Ok if not problem else kinds.Cancel).click)

        desk.on_dialog = at
        FreeCADGui.showPreferences("StackLam", page)
        desk._breathe(0.2)
        desk.on_dialog = None
        assert not problem, problem

    def start(dialog):
        desk.screen("preferences-start")
        choose("sheetLanguage", "de", dialog)
        choose("paper", "A3", dialog)
        choose("units", "in", dialog)
        choose("fraction", 64, dialog)
        desk.widget("bothUnits", dialog).setChecked(True)
        choose("species", "black walnut", dialog)
        told["species"] = desk.widget("species", dialog).currentData()
        choose("glueKind", "epoxy", dialog)
        for name, length in lengths.items():
            type_in(name, f"{length} mm", dialog)

    def machines(dialog):
        desk.screen("preferences-shop")
        for name, length in shop.items():
            type_in(name, f"{length} mm", dialog)
        type_in("sawThroat", "350 mm", dialog)
        desk.widget("carvingRate", dialog).setValue(1.5)
        desk.widget("hourPrice", dialog).setValue(42.0)

    def wrong(dialog):
        type_in("stock", "4 furlong", dialog)

    in_dialog(0, start)
    in_dialog(1, machines)
    before = len(desk.boxes)
    in_dialog(0, wrong)
    told["refused"] = desk.boxes[before:]
    told["language"] = preferences.sheet_language()

    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    found = told["found"] = {}
    found["stock"], found["allowance"] = value_of(desk.widget("stock")), value_of(desk.widget("allowance"))
    found["species"] = desk.widget("species").currentData()
    desk.type_into("stock", "30 mm")
    desk.press_ok()
    job, made = job_in(document), settings_of_shop(shop_in(document))
    told["job"] = [job.Units, job.Paper]
    told["shop"] = {name: getattr(made, name) for name in ("kerf", "end_trim", "planing", "jointing", "planer_width")}
    told["throat"] = made.band_saw.throat
    desk.select(document.Top)
    desk.command("StackLam_SliceForm")
    found["used last"] = value_of(desk.widget("stock"))
    desk.press_ok()
    stack = stacks_in(document)[0]

    def of(command, *names):
        desk.select(stack)
        if command == "AddJoint":
            FreeCADGui.Selection.clearSelection()
        desk.command(f"StackLam_{command}")
        for name, widget in names:
            field = desk.widget(widget)
            found[name] = value_of(field) if field.property("exactValue") is not None else (
                field.currentData() if hasattr(field, "currentData") else
                field.isChecked() if hasattr(field, "isChecked") else field.value()
            )  # fmt: skip
        desk.press("Close" if command == "LayerDrawings" else "Cancel", desk.panel())

    of("AddJoint", ("tenonSide", "tenonSide"))
    of("SetPins", ("pinDiameter", "pinDiameter"), ("pinDepth", "pinDepth"), ("pinMargin", "pinMargin"))
    of("HollowLayers", ("wall", "wall"))
    of("CarvingGuide", ("carvingBit", "bit"), ("carvingPitch", "pitch"), ("carvingLeave", "leave"), ("rate", "rate"))
    of("PlanGlueUp", ("glue", "glueKind"))
    of("FinishedPiece", ("price", "ratesHourPrice"))
    of("LayerDrawings", ("paper", "paper"), ("units", "units"), ("fraction", "fraction"), ("both", "bothUnits"))

    # Always these values, whatever was used last.
    in_dialog(0, lambda dialog: choose("startWith", "set", dialog))
    desk.select(document.Pedestal)
    desk.command("StackLam_SliceForm")
    found["always"] = value_of(desk.widget("stock"))
    desk.press_cancel()

    # Another document keeps the clamps of the maker, and nothing else, once all is forgotten.
    preferences.remember(clamps="name,count\nPipe clamp,4")
    in_dialog(0, lambda dialog: desk.press("Back to first values", dialog))
    told["forgotten"] = [preferences.stock(), preferences.paper(), preferences.sheet_language(),
                         preferences.starts_with(), preferences.shop().kerf, preferences.clamps()[:4]]  # fmt: skip
    return told


def test_panels_and_documents_start_from_the_preferences(tmp_path: Path) -> None:
    told: dict[str, Any] = keep(
        freecad(set_preferences, tmp_path, arguments={"lengths": LENGTHS, "shop": SHOP}, timeout=280)
    ).result
    assert told["first"] == [45.0, "A4", "", "last"]
    assert told["language"] == "de"
    assert len(told["refused"]) == 1 and "“Start values” was not kept" in told["refused"][0]
    found = told["found"]
    assert {name: found[name] for name in LENGTHS} == pytest.approx(LENGTHS)
    assert found["species"] == told["species"]
    assert told["job"] == ["in", "A3"]
    assert told["shop"] == pytest.approx(
        {"kerf": 2.4, "end_trim": 31.0, "planing": 9.0, "jointing": 1.25, "planer_width": 310.0}
    )
    assert told["throat"] == pytest.approx(350.0)
    assert [found["used last"], found["always"]] == pytest.approx([30.0, 38.0])
    assert [found["rate"], found["price"]] == pytest.approx([1.5, 42.0])
    assert [found[name] for name in ("glue", "paper", "units", "fraction", "both")] == ["epoxy", "A3", "in", 64, True]
    assert told["forgotten"] == [45.0, "A4", "", "last", 3.0, "name"]
