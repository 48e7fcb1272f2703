# SPDX-License-Identifier: LGPL-2.1-or-later

"""In a FreeCAD that speaks another language, no panel of ours shows a word in English, and the checks speak it too."""

from __future__ import annotations

from gettext import GNUTranslations
from pathlib import Path
from xml.etree import ElementTree

import pytest
from drive import freecad
from shots import keep

from freecad_stacklam.data import language_file

pytestmark = pytest.mark.gui

#: Stay as they are typed or written everywhere.
SAME = {"DXF", "PDF", "SVG", "CSV"}
#: Names that the maker gave.
PIECES = {"Pedestal", "Top"}


def look_at_every_panel(desk, language):
    import FreeCAD
    import FreeCADGui
    from PySide import QtGui

    from freecad_stacklam import api
    from freecad_stacklam.docobjects.reading.joints import shown_joint
    from freecad_stacklam.lamination.words import spoken
    from freecad_stacklam.workbench.commands import COMMANDS
    from freecad_stacklam.workbench.panels.joint_words import verdict_of
    from freecad_stacklam.workbench.scene import ghost

    seen, told = {}, {}
    desk.open_workbench()
    menus = [m for m in desk.window.menuBar().actions() if m.text().replace("&", "") == "StackLam"]
    menu = [a.text().replace("&", "") for a in menus[0].menu().actions() if not a.isSeparator()]
    desk.command("StackLam_Example")
    document = FreeCAD.ActiveDocument
    desk.slice_example()
    stacks = [o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Stack"]
    names = [s.Label for s in stacks]
    api.add_joint(stacks, through=["0 mm", "0 mm", "450 mm"], size="40 mm", name="J")
    told["spoken"] = spoken()
    joint = next(o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Joint")
    told["colour"] = verdict_of(shown_joint(joint)) in ghost.VERDICTS
    told["checks"] = [check.says for check in api.checks(document)]

    def words(inside):
        found = []
        for widget in [inside, *inside.findChildren(QtGui.QWidget)]:
            texts = [widget.toolTip(), widget.windowTitle()]
            if isinstance(widget, (QtGui.QLabel, QtGui.QAbstractButton)):
                texts.append(widget.text())
            if isinstance(widget, QtGui.QGroupBox):
                texts.append(widget.title())
            if isinstance(widget, QtGui.QLineEdit):
                texts.append(widget.placeholderText())
            if isinstance(widget, QtGui.QComboBox):
                texts += [widget.itemText(i) for i in range(widget.count())]
            if isinstance(widget, QtGui.QTableWidget):
                heads = [widget.horizontalHeaderItem(i) for i in range(widget.columnCount())]
                texts += [head.text() for head in heads if head is not None]
            found += [text.replace("&", "").strip(" :") for text in texts if text]
        return sorted(set(found))

    for command in COMMANDS:
        name = command.name
        if name in ("StackLam_Example", "StackLam_BoardRack", "StackLam_Bill", "StackLam_CheckStack"):
            continue
        desk.select(stacks[0])
        if name == "StackLam_AddJoint":
            FreeCADGui.Selection.addSelection(stacks[1])
        desk.command(name)
        desk.settle()
        if not desk.panel_open():
            continue
        seen[name] = words(desk.widget(name))
        if name in ("StackLam_SliceForm", "StackLam_LayerDrawings"):
            desk.picture(f"{language}-{name}")
        FreeCADGui.Control.closeDialog()
        desk.settle()
    return {"menu": menu, "seen": seen, "told": told, "names": names, "version": FreeCAD.Version()[:2]}


def _english(language: str) -> set[str]:
    """Texts that read differently in the language."""
    tree = ElementTree.parse(language_file(f"stacklam_{language}.ts"))
    pairs = {m.findtext("source") or "": m.findtext("translation") or "" for m in tree.iter("message")}
    with language_file(f"{language}.mo").open("rb") as file:
        kept: dict[object, str] = GNUTranslations(file)._catalog  # type: ignore[attr-defined]
    pairs |= {text: told for text, told in kept.items() if isinstance(text, str)}
    return {text for text, told in pairs.items() if told != text} - set(pairs.values()) - SAME


@pytest.mark.parametrize(
    ("language", "called", "slicing", "says"),
    [
        ("de", "German", "Form in Schichten teilen", "Zuschnitt"),
        ("fr", "French", "Trancher la forme en couches", "ébauche"),
    ],
)
def test_no_panel_shows_a_word_in_english(language: str, called: str, slicing: str, says: str, tmp_path: Path) -> None:
    run = freecad(
        look_at_every_panel, tmp_path, arguments={"language": language}, preferences={"General/Language": called}
    )
    keep(run)
    assert slicing in run.result["menu"]
    assert run.result["told"]["spoken"] == language
    assert run.result["told"]["colour"], "a mark is coloured by its verdict in every language"
    assert any(says in sentence for sentence in run.result["told"]["checks"]), run.result["told"]["checks"]
    assert len(run.result["seen"]) >= 8, run.result["seen"].keys()
    english = _english(language)
    shown = run.result["seen"].items()
    left = {name: sorted((english & set(texts)) - PIECES) for name, texts in shown}
    assert not any(left.values()), left
