# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lengths typed key by key in every unit scheme, with a point and with a comma: what is planned is what was typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from drive import freecad

pytestmark = pytest.mark.gui

#: Schemes by FreeCAD's numbers: mm, metre-kilogram, US customary, imperial decimal, Building US.
SCHEMES = {0: "mm", 1: "m", 2: "in", 3: "in", 5: "in"}
#: What is typed, and how many mm that is by 1 in = 25.4 mm; {} stands for the scheme's bare unit.
TYPED = {
    "1-3/4 in": 44.45, "1 3/4in": 44.45, '1-13/16"': 46.0375, "1.75 in": 44.45, "1,75 in": 44.45, "44,45 mm": 44.45,
    "44.45mm": 44.45, "4,445 cm": 44.45, "7/4 in": 44.45, "1 1/8 in": 28.575, "0' 1-3/4\"": 44.45,
}  # fmt: skip
#: The same without a unit, where inches are in use, and where millimetres are.
BARE = {"in": {"1-3/4": 44.45, "1-13/16": 46.0375, "1 3/4": 44.45, "1.75": 44.45}, "mm": {"44.5": 44.5, "44,5": 44.5}}


def type_them(desk, schemes, typed, bare):
    import gc

    import FreeCAD
    from PySide import QtCore, QtGui

    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.workbench.panels.slice_panel import SlicePanel

    def settings():
        panels = [o for o in gc.get_objects() if isinstance(o, SlicePanel)]
        try:
            return panels[-1].settings().stock[0]
        except Refusal as refusal:
            return str(refusal)

    told = {}
    desk.open_workbench()
    document = FreeCAD.newDocument("Bench")
    box = document.addObject("Part::Box", "Slab")
    box.Length, box.Width, box.Height = 300, 200, 400
    document.recompute()
    for locale in ("C", "de_DE"):
        QtCore.QLocale.setDefault(QtCore.QLocale(locale))
        for scheme, unit in schemes.items():
            if locale != "C" and scheme in ("1", "2", "5"):
                continue
            FreeCAD.Units.setSchema(int(scheme))
            desk.select(box)
            desk.command("StackLam_SliceForm")
            found = {}
            for text in [*typed, *bare.get(unit, {})]:
                # A bare number goes on in the unit that is shown.
                desk.type_into("stock", "2 in" if unit == "in" else "45 mm")
                edit = desk.widget("stock").findChildren(QtGui.QLineEdit)[0]
                edit.setFocus()
                edit.selectAll()
                for letter in text:
                    desk._key(edit, 0, letter)
                while_typing = settings()
                desk._key(edit, QtCore.Qt.Key_Tab, "\t")  # FreeCAD reads the field as it is left
                found[text] = [while_typing, settings()]
            desk.type_into("stock", "abc")
            found["abc"] = [settings(), desk.widget("stock").findChildren(QtGui.QLineEdit)[0].text()]
            said = desk.says_at_ok()
            # What was made is read, too.
            desk.type_into("stock", "1-3/4 in")
            desk.press_ok()
            stack = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack")
            found["made"] = stack.Layers[0].Thickness.Value
            found["said"] = said
            document.undo()
            document.recompute()
            told[f"{locale} {scheme}"] = found
    return told


def test_what_is_planned_is_what_was_typed(tmp_path: Path) -> None:
    arguments = {"schemes": SCHEMES, "typed": list(TYPED), "bare": BARE}
    run = freecad(type_them, tmp_path, arguments=arguments, timeout=300)
    assert len(run.result) >= len(SCHEMES) + 2
    wrong = []
    for key, found in run.result.items():
        if " " not in key:  # what the desk itself tells
            continue
        unit = SCHEMES[int(key.split()[1])]
        for text, mm in {**TYPED, **BARE.get(unit, {})}.items():
            # "4,445 cm" may be thousands where the comma is no decimal sign: refused there.
            if text == "4,445 cm" and key.startswith("C"):
                if not all("thousand" in str(v) for v in found[text]):
                    wrong.append((key, text, found[text]))
            elif any(isinstance(v, str) or abs(v - mm) > 1e-9 for v in found[text]):
                wrong.append((key, text, found[text]))
        if (
            "“abc” is not a length" not in str(found["abc"][0])
            or found["abc"][1] != "abc"
            or "“abc”" not in found["said"]
        ):
            wrong.append((key, "abc", found["abc"], found["said"]))
        if abs(found["made"] - 44.45) > 1e-6:
            wrong.append((key, "made", found["made"]))
    assert not wrong
