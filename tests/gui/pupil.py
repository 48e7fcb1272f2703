# SPDX-License-Identifier: LGPL-2.1-or-later

"""Runs inside FreeCAD beside desk.py: one who follows the guide of the first piece, with the mouse and by typing."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from typing import Any

import FreeCAD
import FreeCADGui
from PySide import QtCore, QtGui


class Pupil:
    """Follows the guide; counts what the hands do."""

    def __init__(self, desk: Any) -> None:
        self.desk, self.clicks, self.keys, self.told = desk, 0, 0, list[list[Any]]()

    # --- the hands -------------------------------------------------------------------------------------------------
    def _mouse(self, widget: Any, place: Any, double: bool = False) -> None:
        left, none = QtCore.Qt.LeftButton, QtCore.Qt.NoButton
        kinds = [(QtCore.QEvent.MouseButtonPress, left), (QtCore.QEvent.MouseButtonRelease, none)]
        if double:
            kinds += [(QtCore.QEvent.MouseButtonDblClick, left), (QtCore.QEvent.MouseButtonRelease, none)]
        at, over = QtCore.QPointF(place), QtCore.QPointF(widget.mapToGlobal(place))
        for kind, held in kinds:
            event = QtGui.QMouseEvent(kind, at, over, left, held, QtCore.Qt.NoModifier)
            QtGui.QApplication.sendEvent(widget, event)
        self.clicks += 2 if double else 1
        self.desk._breathe()

    def press(self, command: str) -> None:
        """Click the button of a command in its toolbar."""
        for bar in self.desk._widgets(QtGui.QToolBar, self.desk.window):
            for action in bar.actions() if bar.isVisible() else ():
                button = bar.widgetForAction(action) if action.objectName() == command else None
                if button is not None and button.isVisible():
                    assert button.isEnabled(), f"{command} is greyed out"
                    self._mouse(button, button.rect().center())
                    return
        self.desk.command(command)  # its bar is not wide enough to show it: from the menu
        self.clicks += 2

    def row(self, label: str, double: bool = False) -> None:
        """Click a row of the tree."""
        tree = self.desk.wait_until(lambda: [t for t in self.desk._widgets(QtGui.QTreeWidget, self.desk.window)
                                             if t.isVisible() and t.findItems(label, self._deep(), 0)],
                                    10, f"the row {label} of the tree")[0]  # fmt: skip
        item = tree.findItems(label, self._deep(), 0)[-1]
        tree.scrollToItem(item)
        self._mouse(tree.viewport(), tree.visualItemRect(item).center(), double)

    @staticmethod
    def _deep() -> Any:
        return QtCore.Qt.MatchExactly | QtCore.Qt.MatchRecursive

    def type(self, field: str, text: str) -> None:
        """Type into a field of the open panel."""
        self.desk.type_into(field, text)
        self.clicks += 1
        self.keys += len(text) + 1

    def click(self, name: str) -> None:
        """Click the button with this objectName."""
        button = self.desk.widget(name)
        assert button.isEnabled(), f"{name} is greyed out"
        self._mouse(button, button.rect().center())

    def ok(self, text: str = "OK") -> None:
        """Press OK, or what is like it."""
        self.desk.settle()
        self.desk.press(text, self.desk.panel())
        self.clicks += 1

    def open_row(self, label: str) -> None:
        """Double click a row; its panel opens."""
        self.row(label, double=True)
        self.desk.wait_until(self.desk.panel_open, 10, f"the panel of {label}")

    def workbench(self, name: str) -> None:
        """Choose a workbench."""
        self.desk.open_workbench(name)
        self.clicks += 2

    # --- the guide -------------------------------------------------------------------------------------------------
    @property
    def guide(self) -> Any:
        """The guide's window."""
        return self.desk.widget("StackLamGuide")

    def says(self, name: str = "guideSays") -> str:
        """What the guide says, after it has looked again."""
        self.guide.follow()
        self.desk._breathe()
        return str(self.desk.widget(name).text())

    def asked(self, field: str) -> str:
        """What the guide asks to be typed into a field, by its caption."""
        lines = self.desk.widget("guideLines").text().replace("\u00a0", " ")
        found = re.search(re.escape(field) + r": (\S+ (?:mm|in))\b", lines)
        assert found, f"nothing is asked for {field}: {lines}"
        return found.group(1)

    def at(self) -> str:
        """The title of the step that is on."""
        return self.says("guideTitle")

    def step(self, title: str, work: Callable[[], Any]) -> None:
        """Do a step of the guide, which must be on; the guide must see that it is done, by itself."""
        assert self.at() == title, f"the guide is at “{self.at()}”, not at “{title}”: {self.says()}"
        self.told.append([title, self.says("guideLines")])
        started = time.monotonic()
        work()
        end = started + 30
        while self.desk.widget("guideTitle").text() == title:
            assert time.monotonic() < end, f"the guide does not see that “{title}” is done: {self.says()}"
            self.desk._breathe(0.05)
            if "FreeCAD 0.20 rounds inches" in self.desk.widget("guideSays").text():
                self.click("guideSkip")
        self.told[-1].append(round(time.monotonic() - started, 2))

    # --- the work --------------------------------------------------------------------------------------------------
    def cone(self) -> None:
        self.press("Part_Cone")

    def foot(self) -> None:
        self.click("guideWhere")  # and the tree comes into sight, if it was not
        self.rings = len(self.desk.named("StackLamRing"))
        self.desk.picture("tutorial-where")
        self.open_row("Cone")
        for field, caption in (("coneRadius1", "Radius 1"), ("coneRadius2", "Radius 2"), ("coneHeight", "Height")):
            self.type(field, self.asked(caption))
        FreeCADGui.SendMsgToActiveView("ViewFit")
        self.desk.picture("tutorial-foot")
        right = "✓ That is right. Close the panel by its button."
        self.desk.wait_until(lambda: self.says() == right, seconds=10.0, what=f"“{right}”")
        self.ok()
        FreeCADGui.SendMsgToActiveView("ViewFit")
        self.keys += 2

    def top(self) -> None:
        self.open_row("Cylinder")
        for field, caption in (("cylinderRadius", "Radius"), ("cylinderHeight", "Height"), ("ZPositionQSB", "Z")):
            self.type(field, self.asked(caption))
        self.ok()
        FreeCADGui.SendMsgToActiveView("ViewFit")
        FreeCADGui.activeDocument().activeView().viewIsometric()
        self.keys += 2

    def rim(self) -> None:
        self.row("Cylinder")
        self.press("Part_Fillet")
        self.desk.wait_until(self.desk.panel_open, 10, "the panel of the fillet")
        self.click("selectAllButton")
        self.type("filletStartRadius", self.asked("Radius"))
        self.desk.picture("tutorial-rim")
        self.ok()

    def slice(self, label: str, piece: str, stock: str = "") -> None:
        self.row(label)
        self.press("StackLam_SliceForm")
        self.desk.wait_until(self.desk.panel_open, 20, "the panel that slices")
        self.type("piece", piece)
        self.type("stock", stock or self.asked("Stock thickness"))
        self.desk.settle()
        if piece == "Foot":
            self.desk.picture("tutorial-slice")
        self.ok()

    def joint(self) -> None:
        self.press("StackLam_AddJoint")
        self.desk.wait_until(self.desk.panel_open, 20, "the panel of the joint")
        self.type("tenonSide", self.asked("Side or diameter"))
        self.desk.settle()
        self.desk.picture("tutorial-joint")
        self.ok()

    def pins(self, label: str) -> None:
        self.row(label)
        self.press("StackLam_SetPins")
        self.desk.wait_until(self.desk.panel_open, 20, "the panel of the pins")
        self.ok()

    def checks(self) -> None:
        self.press("StackLam_CheckStack")
        table = self.desk.widget("StackLamChecks")
        self.head = self.desk.widget("headline", table).text()
        assert "close the table" in self.says()
        self.desk.picture("tutorial-checks")
        table.close()
        self.clicks += 1

    def save(self, path: str) -> None:
        def name_it(dialog: Any) -> None:
            dialog.selectFile(path)
            dialog.accept()

        self.desk.on_dialog = name_it
        self.press("Std_Save")
        self.desk.on_dialog = None
        self.clicks += 1
        self.keys += 12

    def drawings(self) -> None:
        self.press("StackLam_LayerDrawings")
        self.desk.wait_until(self.desk.panel_open, 30, "the panel of the drawings")
        self.desk.settle()
        self.desk.widget("openViewer").setChecked(False)
        self.click("writePdf")
        self.desk.settle()
        self.desk.picture("tutorial-drawings")
        self.ok("Close")

    def model(self) -> None:
        """The form, from the empty document to the round rim."""
        self.step("An empty document", lambda: self.press("Std_New"))
        self.step("The workbench Part", lambda: self.workbench("PartWorkbench"))
        self.step("A cone for the foot", self.cone)
        self.step("The sizes of the foot", self.foot)
        self.step("A cylinder for the top", lambda: self.press("Part_Cylinder"))
        self.step("The sizes of the top", self.top)
        self.step("A round rim", self.rim)
        self.step("Back to StackLam", lambda: self.workbench("StackLamWorkbench"))

    def plan(self) -> None:
        """From the form to stacks, joined, pinned and checked."""
        self.step("Slice the foot", lambda: self.slice("Cone", "Foot"))
        self.step("Slice the top", lambda: self.slice("Fillet", "Top"))
        self.step("Join them", self.joint)
        self.step("Pin the layers of the foot", lambda: self.pins(self.stack_of("Cone").Label))
        self.step("See what the checks say", self.checks)

    def keep_small(self, folder: str) -> None:
        """Write the pictures of the tutorial into a folder, small enough for a page."""
        for name in ("where", "foot", "rim", "slice", "joint", "checks", "drawings"):
            image = QtGui.QImage(self.desk.pictures[f"tutorial-{name}"])
            image.scaledToWidth(820, QtCore.Qt.SmoothTransformation).convertToFormat(QtGui.QImage.Format_RGB16).save(
                f"{folder}/tutorial-{name}.png"
            )

    @staticmethod
    def stack_of(form: str) -> Any:
        """The stack that was made of a form."""
        return next(o for o in FreeCAD.ActiveDocument.Objects if getattr(getattr(o, "Form", None), "Name", "") == form)
